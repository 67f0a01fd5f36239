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
	"unthreaded/path/route/steps"
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

// middle is the place in the middle of a piece of line.
func middleOf(t *testing.T, r Room, edge int) geom.Point {
	t.Helper()
	l, err := geom.NewLine(r.Desk.Graph.Edges[edge].Path)
	if err != nil {
		t.Fatal(err)
	}
	return l.At(l.Length() / 2)
}

// The best route given as her own order, drawn along piece by piece, is found to be the
// best; with a line left out it is missed.
func TestHerOwnOrder(t *testing.T) {
	r := opened(t, "orange-peel").askOwn(true)
	all := r.Desk.Route().Steps
	for _, s := range all {
		r = r.along(r.Desk.Graph.Edges[s.Edge].Path)
	}
	if got := r.Book().Write(r.ownSummary()); len(r.own.Lines) != len(all) || r.own.Found.More > 0.01 || !strings.Contains(got, "No route adds less, and the plan has as many moves.") {
		t.Errorf("her order of %d lines: %s", len(r.own.Lines), got)
	}
	r = r.askOwn(true)
	for _, s := range all[:len(all)-1] {
		r = r.along(r.Desk.Graph.Edges[s.Edge].Path)
	}
	if got := r.Book().Write(r.ownSummary()); !strings.Contains(got, "1 line to go") {
		t.Errorf("with one line left out: %s", got)
	}
	if n := len(r.own.Lines); len(r.tap(geom.Pt(-50, -50)).own.Lines) != n {
		t.Error("a tap beside the drawing added a line")
	}
}

// A tap takes a whole line, from the end that is nearer, so that a crosshatch of 10 lines is
// ordered by 10 taps; one pointer drawn across two lines takes both; undo takes back one
// tap, and nothing of the plan is in sight meanwhile.
func TestACrosshatchInTenTaps(t *testing.T) {
	r := opened(t, "crosshatch")
	r = sent(t, r, "own", "", "")
	if in := r.Page().In.(Shown); in.Plan || in.Why || len(r.Page().Figures) > 0 || r.strip(r.Palette()) != nil {
		t.Error("the plan is in sight")
	}
	pointer := func(kind place.PointerKind, p geom.Point) {
		q := r.view.ToScreen(p)
		next, _ := r.Point(place.Pointer{Kind: kind, ID: 1, X: q.X, Y: q.Y})
		r = next.(Room)
	}
	taps := 0
	for _, l := range r.wholeLines() {
		if l.Kind.Must() {
			p := middleOf(t, r, l.Edges[len(l.Edges)/2])
			pointer(place.Down, p)
			pointer(place.Up, p)
			taps++
		}
	}
	if got := r.Book().Write(r.ownSummary()); taps > 12 || r.untaken() != 0 || !strings.Contains(got, "All lines are sewn") {
		t.Errorf("%d taps, %d lines to go: %s", taps, r.untaken(), got)
	}
	back, _ := r.Undo()
	if r = back.(Room); r.untaken() != 1 {
		t.Errorf("after undo %d lines are to go", r.untaken())
	}
	r = r.askOwn(true)
	first, second := r.wholeLines()[0], r.wholeLines()[1]
	path := append(first.Path(r.Desk.Graph), second.Path(r.Desk.Graph).Reversed()...)
	pointer(place.Down, path[0])
	for _, p := range path {
		pointer(place.Move, p)
	}
	pointer(place.Up, path[len(path)-1])
	for _, l := range [][]int{first.Edges, second.Edges} {
		for _, e := range l {
			if !slices.Contains(r.own.Lines, e) {
				t.Errorf("drawn along two lines: piece %d is missed", e)
			}
		}
	}
}

// Move by move through the route: each ends where a hand turns, and the way back meets the
// same places.
func TestSteppingThroughTheRoute(t *testing.T) {
	for _, id := range []string{"orange-peel", "crosshatch", "clamshell"} {
		r := opened(t, id)
		r.clock = r.clock.At(0)
		moves := r.Desk.Moves()
		sum, ends := 0.0, []float64{0}
		for i, m := range moves {
			r = r.toMove(1)
			sum += m.Length
			ends = append(ends, sum)
			if got := r.reached(); math.Abs(got-sum) > 0.1 {
				t.Fatalf("%s: move %d ends at %.2f mm, want %.2f", id, i+1, got, sum)
			}
			if n, of := r.counted(r.moveNow()); n != i+1 || of != len(moves) {
				t.Errorf("%s: after %d moves it says move %d of %d", id, i+1, n, of)
			}
		}
		if len(moves) != r.Desk.Route().Moves {
			t.Errorf("%s: %d moves are shown, the route counts %d", id, len(moves), r.Desk.Route().Moves)
		}
		if !r.toMove(1).clock.AtEnd() {
			t.Errorf("%s: a move on at the end leaves the end", id)
		}
		for i := len(moves) - 1; i >= 0; i-- {
			if r = r.toMove(-1); math.Abs(r.reached()-ends[i]) > 0.1 {
				t.Fatalf("%s: back at move %d the needle is at %.2f mm", id, i, r.reached())
			}
		}
		r.clock = r.clock.At((ends[2] + 1) / r.speed())
		if got := r.toMove(-1).reached(); math.Abs(got-ends[2]) > 0.1 {
			t.Errorf("%s: back from within a move leads to %.2f mm, want %.2f", id, got, ends[2])
		}
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
			slices.Equal(r.Desk.Route().Steps, s.desk.Route().Steps) && r.why == s.why && r.own.Asked == s.own.Asked && slices.Equal(r.own.Lines, s.own.Lines)
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

// Beside the machine a tap anywhere and the keys of pedals step through the moves, and the
// page says the one at hand; elsewhere those keys are left to the page.
func TestBesideTheMachine(t *testing.T) {
	r := opened(t, "orange-peel")
	if slices.Contains(r.Keys(), "PageDown") {
		t.Error("a key of pedals is taken before the route is followed")
	}
	r = sent(t, r, "follow", "on", "")
	said := func() string { return r.Page().In.(Shown).MoveNow }
	first := said()
	tap := func(x, y float64) {
		for _, k := range []place.PointerKind{place.Down, place.Up} {
			next, _ := r.Point(place.Pointer{ID: 1, Kind: k, X: x, Y: y})
			r = next.(Room)
		}
	}
	key := func(name string) {
		if !slices.Contains(r.Keys(), name) {
			t.Fatalf("%s is not taken", name)
		}
		next, _ := r.Key(place.Key{Name: name})
		r = next.(Room)
	}
	tap(500, 300)
	tap(20, 20)
	second := said()
	if first == "" || second == first {
		t.Errorf("after two taps it says %q, before %q", second, first)
	}
	for _, pair := range [][2]string{{"PageDown", "PageUp"}, {"Enter", "ArrowUp"}, {" ", "Backspace"}} {
		key(pair[0])
		if said() == second {
			t.Errorf("%q makes no step", pair[0])
		}
		key(pair[1])
		if said() != second {
			t.Errorf("%q goes not back", pair[1])
		}
	}
}

// The key speaks of the lines that are there, and of no others.
func TestTheKeyIsOfWhatIsDrawn(t *testing.T) {
	for id, bars := range map[string]bool{"crosshatch": true, "orange-peel": false} {
		key := opened(t, id).Page().In.(Shown).Key
		if strings.Contains(key, "Bars across") != bars || strings.Contains(key, "knots") || !strings.Contains(key, "darker to the end") {
			t.Errorf("%s: %q", id, key)
		}
	}
	apart := sent(t, opened(t, "star-chain"), "stops", "on", "")
	stopped := slices.ContainsFunc(apart.Desk.Moves(), func(m steps.Move) bool { return m.Kind == steps.StopMove })
	if key := apart.Page().In.(Shown).Key; strings.Contains(key, "knots") != stopped {
		t.Errorf("stops: %t, key %q", stopped, key)
	}
}
