package machine

import (
	"math"
	"testing"
)

// A stop of 40 s at an inch a second is as long as 1016 mm in the ditch, and leaves 200 mm
// of thread; by hand: 0.2 x 1216 = 243.2 mm sewn once more. The usual pace is that of what is planned; where she
// changed what she assumes, it is the middle of hers.
func TestOnePriceOfAStop(t *testing.T) {
	if got := StopPrice(); math.Abs(got-243.2) > 1e-9 {
		t.Errorf("a stop costs %v mm, want 243.2", got)
	}
	a := UsualAssumptions()
	if got := a.Pace(); got != UsualPace(HandSpeed.Usual) {
		t.Errorf("the usual pace is %+v", got)
	}
	a.Stop = Between{10, 20}
	if got := a.Pace(); got.StopS != 15 || got.Hand != HandSpeed.Usual {
		t.Errorf("with stops of 10 to 20 s the pace is %+v", got)
	}
}
