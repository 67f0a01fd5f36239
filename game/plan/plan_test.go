package plan_test

import (
	"math"
	"slices"
	"testing"

	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

func open(t *testing.T, id string) plan.Desk {
	t.Helper()
	d, ok := plan.Find(plan.Drawings(), id)
	if !ok {
		t.Fatalf("no drawing %q", id)
	}
	k := plan.Open(d)
	if !k.Trouble.None() {
		t.Fatalf("%s: %v", id, k.Trouble)
	}
	return k
}

// Every ready drawing has a route from the first look, whose thread covers every
// line to be sewn once: its length is that of the lines and what is added.
func TestEveryDrawingHasARoute(t *testing.T) {
	for _, d := range plan.Drawings() {
		k := plan.Open(d)
		if !k.Trouble.None() || len(k.Choices) < 2 {
			t.Errorf("%s: %d routes, %v", d.ID, len(k.Choices), k.Trouble)
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
				t.Errorf("%s, %s: the thread is %.1f mm long, lines and what is added %.1f", d.ID, k.Choices[i].Good, sum, want)
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
	if got := (words.Book{}).Write(k.Summary()); got != "133 mm is sewn twice, in 3 moves." {
		t.Errorf("summary %q", got)
	}
	if len(k.Reasons.Odd) != 2 || math.Abs(k.Reasons.BandsMM-3*arc) > 0.05 {
		t.Errorf("%d odd junctions and bands of %.1f mm, want 2 and %.1f", len(k.Reasons.Odd), k.Reasons.BandsMM, 3*arc)
	}
}

func TestDraggingAnEnd(t *testing.T) {
	k := open(t, "orange-peel")
	at, ok := k.PlaceOf(plan.StartHandle)
	if !ok || k.HandleAt(geom.Pt(at.X+2, at.Y-2), 6) != plan.StartHandle || k.HandleAt(geom.Pt(at.X+30, at.Y+13), 6) != plan.NoHandle {
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
	if !slices.Equal(c.Good, []string{"out-and-back"}) || c.Second == 0 || c.Route.Start != c.Route.Exit || c.Route.RetraceMM > 0 {
		t.Errorf("the best is %q with second pass at %d, from %d to %d, %.1f mm twice", c.Good, c.Second, c.Route.Start, c.Route.Exit, c.Route.RetraceMM)
	}
	far := c.Moves[c.Second].Path[0]
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
	if k.Trouble.Key != "route.apart" && !k.Trouble.None() {
		t.Errorf("trouble %v does not say what to do", k.Trouble)
	}
	if k = k.SetStops(true); !k.Trouble.None() || len(k.Choices) == 0 {
		t.Errorf("with stops allowed: %v", k.Trouble)
	}
}
