package route

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
)

// A row that stops more often than it has blocks says so with its minutes, and has its
// other ways compared on a button; the ditch has no other ways.
func TestOtherWaysOfARowThatStopsOften(t *testing.T) {
	q, designs := quilt.Demo()
	lily := designs["demo-lily"]
	lily.Recipe = nil
	for i := range 3 { // rings that no seam leads to
		lily.Lines = append(lily.Lines, quilt.Line{Name: strconv.Itoa(i), Kind: "sewn", Path: geom.Straight(geom.Arc(geom.Pt(40+45*float64(i), 80), 15, 0, 2*math.Pi))})
	}
	designs["demo-lily"] = lily
	s := place.Shared{Settings: place.DefaultSettings(), Screen: windows[0]}
	for _, d := range designs {
		s.Designs = append(s.Designs, d)
	}
	s.Top = top.Open(q, s.DesignsByID()).Planned()
	r := New().With(s).(Room)
	offered := false
	for _, st := range r.Top.Plan.Order.Stages {
		r = r.open(r.stageDrawing(st))
		in := r.Page().In.(Shown).Reasons
		_, effects := otherWays(r, control.Event{})
		asked := len(effects) == 1 && effects[0] == place.Effect(place.CompareStage{Stage: st.ID})
		if can := st.Kind != "ditch" && !st.Line; asked != can {
			t.Errorf("%s: other ways are asked for: %v, want %v", st.ID, asked, can)
		}
		if in.OtherWays && !strings.Contains(in.Stops, "min") && !strings.Contains(in.Stops, " s") {
			t.Errorf("%s: %q tells no time", st.ID, in.Stops)
		}
		offered = offered || in.OtherWays
	}
	if !offered {
		t.Error("no row has its other ways offered")
	}
}
