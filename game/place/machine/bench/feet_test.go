package bench

import (
	"math"
	"testing"

	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// The seams of the cot quilt by hand: across they lie 10 1/2, 11 1/2, 18 1/2, ... 35 1/2 in
// from the edge of 46 in, so that 19 1/2 in are right of the needle at worst; down 10 1/2 to
// 27 1/2 in of 38 in, 18 1/2 in at worst. Outside the inner edge of the border lie 3 1/2 in.
func TestSeamsOfTheCotQuiltByHand(t *testing.T) {
	q, designs := quilt.Demo()
	b := laidOn(t, q, designs, order.Choices{})
	want := map[string]float64{"ditch-across": 19.5, "ditch-down": 18.5, "border-1": 3.5}
	seams := b.Seams()
	if len(seams) != len(want) {
		t.Errorf("%d stages are no rows, want %d", len(seams), len(want))
	}
	l, _ := b.Laid()
	for _, s := range seams {
		id := l.Order.Stages[s.Stage].ID
		if !close(s.Fit.Right, want[id]*in) {
			t.Errorf("%s: %.3f in right of the needle, want %v", id, s.Fit.Right/in, want[id])
		}
	}
}

// Feet are told of for all that is sewn; ruler work asks for the ruler foot, though the plan
// in hand has none.
func TestFeetOfAWholeQuilt(t *testing.T) {
	q, designs := quilt.Demo()
	q.Borders[0].Line = &quilt.Recipe{Pattern: "piano-keys", Version: 1}
	b := laidOn(t, q, designs, order.Choices{})
	l, _ := b.Laid()
	sum, want, ruled := 0.0, 0.0, false
	for _, f := range l.Feet {
		sum += f.MM
		ruled = ruled || f.Method == machine.RulerFoot && len(f.Stages) == 1 && l.Order.Stages[f.Stages[0]].ID == "border-1"
	}
	for _, p := range l.Order.Programs {
		want += p.Work.Length() * float64(p.Times)
	}
	if !ruled || math.Abs(sum-want) > 1 {
		t.Errorf("the feet %+v sew %.0f mm of %.0f", l.Feet, sum, want)
	}
	cautioned := false
	for _, i := range b.Items() {
		cautioned = cautioned || i.ID == "ruler-foot-only" || i.ID == "ruler-hold"
	}
	if !cautioned {
		t.Error("nothing on the list is said of the ruler")
	}
}
