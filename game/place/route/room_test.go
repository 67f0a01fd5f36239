package route

import (
	"math"
	"slices"
	"strings"
	"testing"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// opened returns the place with a ready drawing on it, at an inch a second.
func opened(t *testing.T, id string) Room {
	t.Helper()
	d, ok := plan.Find(plan.Drawings(), id)
	if !ok {
		t.Fatalf("no drawing %q", id)
	}
	s := place.Shared{Settings: place.DefaultSettings(), Screen: screen.Cloth{W: 1000, H: 700, DPR: 1, PxPerMM: 96 / 25.4}}
	r := New().With(s).(Room).open(d)
	if !r.Desk.Trouble.None() {
		t.Fatalf("%s: %v", id, r.Desk.Trouble)
	}
	return r
}

// sent does what a control of the place asks for.
func sent(t *testing.T, r Room, name, value, item string) Room {
	t.Helper()
	next, _, err := r.Control(control.Sent{Name: name, Value: value, Item: item})
	if err != nil {
		t.Fatal(err)
	}
	return next.(Room)
}

// The best route given as her own order is found to be the best; with a line left
// out it is missed.
func TestHerOwnOrder(t *testing.T) {
	r := opened(t, "orange-peel").askOwn(true)
	tap := func(r Room, edge int) Room {
		l, err := geom.NewLine(r.Desk.Graph.Edges[edge].Path)
		if err != nil {
			t.Fatal(err)
		}
		p := l.At(l.Length() / 2)
		return r.tap(geom.Pt(p.X+0.5, p.Y+0.5))
	}
	steps := r.Desk.Route().Steps
	for _, s := range steps {
		r = tap(r, s.Edge)
	}
	if len(r.own.Lines) != len(steps) || r.own.Found.More > 0.01 || !strings.Contains(r.Book().Write(r.ownSummary()), "No route adds less") {
		t.Errorf("her order of %d lines: %s", len(r.own.Lines), r.Book().Write(r.ownSummary()))
	}
	r = r.askOwn(true)
	for _, s := range steps[:len(steps)-1] {
		r = tap(r, s.Edge)
	}
	if got := r.Book().Write(r.ownSummary()); !strings.Contains(got, "1 line to go") {
		t.Errorf("with one line left out: %s", got)
	}
	if n := len(r.own.Lines); len(r.tap(geom.Pt(-50, -50)).own.Lines) != n {
		t.Error("a tap beside the drawing added a line")
	}
}

// Step by step through the route: each step on ends where a line ends, and the way
// back meets the same places.
func TestSteppingThroughTheRoute(t *testing.T) {
	r := opened(t, "orange-peel")
	r.clock = r.clock.At(0)
	n := len(r.Desk.Route().Steps)
	arc := math.Pi * 40 / (2 * math.Sqrt2)
	for i := 1; i <= n; i++ {
		r = r.toStep(1)
		if got := r.reached(); math.Abs(got-float64(i)*arc) > 0.05*float64(i)+0.01 {
			t.Fatalf("step %d ends at %.2f mm, want %.2f", i, got, float64(i)*arc)
		}
		if step, of := r.stepNow(); step != i || of != n {
			t.Errorf("after %d steps it says step %d of %d", i, step, of)
		}
	}
	if !r.toStep(1).clock.AtEnd() {
		t.Error("a step on at the end leaves the end")
	}
	for i := n - 1; i >= 0; i-- {
		if r = r.toStep(-1); math.Abs(r.reached()-float64(i)*arc) > 0.05*float64(i)+0.01 {
			t.Fatalf("back at step %d the needle is at %.2f mm", i, r.reached())
		}
	}
	r.clock = r.clock.At((2.4 * arc) / r.speed())
	if got := r.toStep(-1).reached(); math.Abs(got-2*arc) > 0.1 {
		t.Errorf("back from mid-step leads to %.2f mm, want %.2f", got, 2*arc)
	}
}

// The play lasts as long as the hand takes for all that is sewn and travelled.
func TestThePlayLastsAsLongAsTheSewing(t *testing.T) {
	for _, d := range plan.Drawings() {
		r := opened(t, d.ID)
		sum := 0.0
		for _, p := range r.Desk.Pieces() {
			sum += p.Line.Length()
		}
		if got := r.clock.Length * 25.4; math.Abs(got-sum) > 1e-6 {
			t.Errorf("%s: the play lasts %.1f mm, the thread %.1f", d.ID, got, sum)
		}
	}
}

// Undo and redo are inverses over every control that changes something.
func TestUndoAndRedoAreInverses(t *testing.T) {
	r := opened(t, "crosshatch")
	states := []state{r.state()}
	for _, c := range [][3]string{
		{"rule", "start", ""}, {"start-next", "", ""}, {"rule", "fixed", ""}, {"exit-before", "", ""}, {"seams", "off", ""}, {"stops", "on", ""},
		{"pick", "", "1"}, {"why", "", ""}, {"own", "", ""}, {"own-add", "", "0"}, {"own-add", "", "1"}, {"own", "", ""},
	} {
		before := len(r.past)
		if r = sent(t, r, c[0], c[1], c[2]); len(r.past) > before {
			states = append(states, r.state())
		}
	}
	if len(states) < 11 {
		t.Fatalf("%d states", len(states))
	}
	same := func(r Room, s state) bool {
		return r.Desk.Rule == s.desk.Rule && r.Desk.Pick == s.desk.Pick && r.Desk.Seams == s.desk.Seams && r.Desk.Stops == s.desk.Stops &&
			slices.Equal(steps(r.Desk), steps(s.desk)) && r.why == s.why && r.own.Asked == s.own.Asked && slices.Equal(r.own.Lines, s.own.Lines)
	}
	for i := len(states) - 2; i >= 0; i-- {
		back, _ := r.Undo()
		if r = back.(Room); !same(r, states[i]) {
			t.Errorf("undo to state %d is not what it was", i)
		}
	}
	for i := 1; i < len(states); i++ {
		on, _ := r.Redo()
		if r = on.(Room); !same(r, states[i]) {
			t.Errorf("redo to state %d is not what it was", i)
		}
	}
}

func steps(k plan.Desk) []route.Step { return k.Route().Steps }
