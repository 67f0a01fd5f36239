package plan_test

import (
	"math"
	"strings"
	"testing"

	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

func open(t *testing.T, id string) plan.Desk {
	t.Helper()
	d, ok := plan.Find(plan.Drawings(), id)
	if !ok {
		t.Fatalf("no drawing %q", id)
	}
	k := plan.Open(d, 25.4)
	if k.Trouble != "" {
		t.Fatalf("%s: %s", id, k.Trouble)
	}
	return k
}

// Every ready drawing has a route from the first look, whose thread covers every
// line to be sewn once: its length is that of the lines and what is added.
func TestEveryDrawingHasARoute(t *testing.T) {
	for _, d := range plan.Drawings() {
		k := plan.Open(d, 25.4)
		if k.Trouble != "" || len(k.Choices) < 2 {
			t.Errorf("%s: %d routes, %q", d.ID, len(k.Choices), k.Trouble)
			continue
		}
		for i := range k.Choices {
			k = k.Choose(i)
			var sum, must float64
			for _, p := range k.Pieces() {
				sum += p.Line.Length()
			}
			for _, e := range k.Graph.Edges {
				if e.Kind.Must() {
					must += e.Length
				}
			}
			r := k.Route()
			if want := must + r.RetraceMM + r.SeamMM; math.Abs(sum-want) > 0.01*want {
				t.Errorf("%s, %s: the thread is %.1f mm long, lines and what is added %.1f", d.ID, k.Choices[i].Name, sum, want)
			}
			if got := k.Clock.Length * 25.4; math.Abs(got-sum) > 1e-6 {
				t.Errorf("%s: the play lasts %.1f mm, the thread %.1f", d.ID, got, sum)
			}
		}
	}
}

// Every junction of the orange peel is even, so it can be sewn in one line
// (Euler, 1736) that comes back to its start; from corner to corner the way back
// along one side, three arcs, has to be sewn twice.
func TestOrangePeelIsEven(t *testing.T) {
	k := open(t, "orange-peel").SetRule(route.Closed)
	if r := k.Route(); r.Added != 0 || r.Start != r.Exit {
		t.Errorf("closed: adds %v from %d to %d, want nothing", r.Added, r.Start, r.Exit)
	}
	k = k.SetRule(route.Fixed)
	arc := math.Pi * 40 / (2 * math.Sqrt2)
	if r := k.Route(); math.Abs(r.Added-3*arc) > 0.05 {
		t.Errorf("from lower left to lower right: adds %.2f mm, want three arcs, %.2f", r.Added, 3*arc)
	}
	if got := k.Summary(false); got != "3 stretches are sewn twice: 133 mm." {
		t.Errorf("summary %q", got)
	}
	if len(k.Reasons.Odd) != 2 || math.Abs(k.Reasons.BandsMM-3*arc) > 0.05 {
		t.Errorf("%d odd junctions and bands of %.1f mm, want 2 and %.1f", len(k.Reasons.Odd), k.Reasons.BandsMM, 3*arc)
	}
}

func TestDraggingAnEnd(t *testing.T) {
	k := open(t, "orange-peel")
	at, ok := k.PlaceOf(plan.StartHandle)
	if !ok || k.HandleAt(geom.Pt(at.X+2, at.Y-2)) != plan.StartHandle || k.HandleAt(geom.Pt(at.X+30, at.Y+13)) != plan.NoHandle {
		t.Fatalf("the start handle is not at %v", at)
	}
	k = k.Take(plan.StartHandle).Drag(geom.Pt(41, 79))
	if k.Rule != route.StartOnly || geom.Dist(k.Graph.Nodes[k.Start], geom.Pt(40, 80)) > 1e-3 {
		t.Errorf("dragged to near (40, 80): rule %s, start at %v", k.Rule, k.Graph.Nodes[k.Start])
	}
	if k = k.Take(plan.NoHandle); len(k.Choices) < 3 {
		t.Errorf("%d routes after letting go, want 3 or more", len(k.Choices))
	}
	// In the middle of an arc a junction is made.
	n := len(k.Graph.Nodes)
	k = k.Take(plan.ExitHandle).Drag(geom.Pt(20, 8)).Take(plan.NoHandle)
	if k.Rule != route.Fixed || len(k.Graph.Nodes) != n+1 {
		t.Errorf("exit in mid-arc: rule %s, %d junctions, want %d", k.Rule, len(k.Graph.Nodes), n+1)
	}
}

// By keyboard an end goes round all junctions and comes back.
func TestSteppingAnEndRoundAllJunctions(t *testing.T) {
	k := open(t, "orange-peel").SetRule(route.StartOnly)
	first, _ := k.PlaceOf(plan.StartHandle)
	seen := map[geom.Point]bool{}
	n := len(k.Graph.Nodes)
	for range n {
		k = k.Step(plan.StartHandle, 1)
		p, _ := k.PlaceOf(plan.StartHandle)
		seen[p] = true
	}
	if last, _ := k.PlaceOf(plan.StartHandle); last != first || len(seen) != n {
		t.Errorf("%d junctions were seen of %d, and the start is at %v, was at %v", len(seen), n, last, first)
	}
	before := k.Step(plan.StartHandle, 1).Step(plan.StartHandle, -1)
	if p, _ := before.PlaceOf(plan.StartHandle); p != first {
		t.Errorf("on and back leads to %v, want %v", p, first)
	}
}

// The best route given as her own order is found to be the best; with a line left
// out it is missed.
func TestHerOwnOrder(t *testing.T) {
	k := open(t, "orange-peel").AskOwn(true)
	tap := func(k plan.Desk, edge int) plan.Desk {
		l, err := geom.NewLine(k.Graph.Edges[edge].Path)
		if err != nil {
			t.Fatal(err)
		}
		p := l.At(l.Length() / 2)
		return k.Tap(geom.Pt(p.X+0.5, p.Y+0.5))
	}
	steps := k.Route().Steps
	for _, s := range steps {
		k = tap(k, s.Edge)
	}
	if len(k.Own.Lines) != len(steps) || k.Own.Found.More > 0.01 || !strings.Contains(k.OwnSummary(false), "No route adds less") {
		t.Errorf("her order of %d lines: %s", len(k.Own.Lines), k.OwnSummary(false))
	}
	k = k.AskOwn(true)
	for _, s := range steps[:len(steps)-1] {
		k = tap(k, s.Edge)
	}
	if got := k.OwnSummary(false); !strings.Contains(got, "1 line to go") {
		t.Errorf("with one line left out: %s", got)
	}
	if n := len(k.Own.Lines); len(k.Tap(geom.Pt(-50, -50)).Own.Lines) != n {
		t.Error("a tap beside the drawing added a line")
	}
}

// What a proposed change saves is what it saves when it is tried.
func TestTryingAChange(t *testing.T) {
	for _, id := range []string{"orange-peel", "crosshatch"} {
		k := open(t, id).SetRule(route.Fixed)
		before := k.Route().Added
		tried := 0
		for i, c := range k.Reasons.Changes {
			if !k.CanTry(i) {
				continue
			}
			tried++
			after := k.Try(i).Route()
			stop := 0.0
			if c.Kind == route.AllowStop {
				continue // the price of the stop is not in the saving
			}
			if math.Abs(before-after.Added-stop-c.Saves) > 0.01 {
				t.Errorf("%s, change %s %s: said to save %.1f, saves %.1f", id, plan.Letter(i), c.Kind, c.Saves, before-after.Added)
			}
		}
		if id == "orange-peel" && tried == 0 {
			t.Error("orange-peel: nothing could be tried")
		}
	}
}

// A row out and back ends where it began and needs no retrace here, since each
// block's junctions are even.
func TestARowOutAndBack(t *testing.T) {
	k := open(t, "orange-peel-row")
	c := k.Choices[0]
	if c.Name != "Out and back" || c.Second == 0 || c.Route.Start != c.Route.Exit || c.Route.RetraceMM > 0 {
		t.Errorf("the best is %q with second pass at %d, from %d to %d, %.1f mm twice", c.Name, c.Second, c.Route.Start, c.Route.Exit, c.Route.RetraceMM)
	}
	far := k.Graph.Nodes[c.Route.Steps[c.Second].From]
	if far.X < 190 {
		t.Errorf("the second pass begins at %v, want the far end of the row at 200 mm", far)
	}
	one := k.Choices[1].Route
	if x0, x1 := k.Graph.Nodes[one.Start].X, k.Graph.Nodes[one.Exit].X; math.Abs(x1-x0) < 190 {
		t.Errorf("one pass goes from %.0f to %.0f mm, want from end to end", x0, x1)
	}
}

func TestLooseLinesAreExplained(t *testing.T) {
	k := open(t, "crosshatch").SetSeams(false)
	if k.Trouble != "" && !strings.Contains(k.Trouble, "stop-and-start") {
		t.Errorf("trouble %q does not say what to do", k.Trouble)
	}
	if k = k.SetStops(true); k.Trouble != "" || len(k.Choices) == 0 {
		t.Errorf("with stops allowed: %q", k.Trouble)
	}
}

// Step by step through the route: each step on ends where a line ends, and the way
// back meets the same places.
func TestSteppingThroughTheRoute(t *testing.T) {
	k := open(t, "orange-peel")
	k.Clock = k.Clock.At(0)
	n := len(k.Route().Steps)
	arc := math.Pi * 40 / (2 * math.Sqrt2)
	for i := 1; i <= n; i++ {
		k = k.ToStep(1)
		if got := k.Clock.T * k.SpeedMM; math.Abs(got-float64(i)*arc) > 0.05*float64(i)+0.01 {
			t.Fatalf("step %d ends at %.2f mm, want %.2f", i, got, float64(i)*arc)
		}
		if step, of := k.StepNow(); step != i || of != n {
			t.Errorf("after %d steps it says step %d of %d", i, step, of)
		}
	}
	if !k.ToStep(1).Clock.AtEnd() {
		t.Error("a step on at the end leaves the end")
	}
	for i := n - 1; i >= 0; i-- {
		if k = k.ToStep(-1); math.Abs(k.Clock.T*k.SpeedMM-float64(i)*arc) > 0.05*float64(i)+0.01 {
			t.Fatalf("back at step %d the needle is at %.2f mm", i, k.Clock.T*k.SpeedMM)
		}
	}
	k.Clock = k.Clock.At((2.4 * arc) / k.SpeedMM)
	if got := k.ToStep(-1).Clock.T * k.SpeedMM; math.Abs(got-2*arc) > 0.1 {
		t.Errorf("back from mid-step leads to %.2f mm, want %.2f", got, 2*arc)
	}
}
