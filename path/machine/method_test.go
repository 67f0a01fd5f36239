package machine

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

func workOf(t testing.TB, ruler bool, paths ...string) Work {
	t.Helper()
	w := Work{BlockW: 250, BlockH: 250}
	for _, p := range paths {
		l := lineOf(t, p)
		w.Pieces = append(w.Pieces, Piece{Line: l, Spans: []Span{{From: 0, To: l.Length(), Ruler: ruler}}})
	}
	return w
}

// What the trade does (common practice): long straight lines with the walking
// foot, curves by free motion, ruler lines that turn often with the ruler foot.
func TestAdviceOnKnownWork(t *testing.T) {
	row := geom.Polyline{}
	for i := range 8 {
		row = append(row, geom.Arc(geom.Pt(30*float64(i), 0), 15, math.Pi, 3*math.Pi-0.2)...)
	}
	loops := geom.Format(row)
	zigzag := "M 0 0 L 50 50 L 100 0 L 150 50 L 200 0 L 250 50"
	wave := geom.Format(geom.Arc(geom.Pt(0, 0), 200, 0, 1))
	for _, c := range []struct {
		name string
		work Work
		want Method
	}{
		{"lines from edge to edge", workOf(t, false, "M 0 0 L 1500 0", "M 0 50 L 1500 50", "M 0 100 L 1500 100"), WalkingFoot},
		{"a gentle wave", workOf(t, false, wave), WalkingFoot},
		{"loops", workOf(t, false, loops), FreeMotion},
		{"loops along a template", workOf(t, true, loops), RulerFoot},
		{"a zigzag by ruler", workOf(t, true, zigzag), RulerFoot},
		{"a zigzag drawn freely", workOf(t, false, zigzag), RulerFoot},
		{"a square spiral", workOf(t, false, "M 0 0 L 10 0 L 10 10 L -10 10 L -10 -10 L 20 -10 L 20 20 L -20 20 L -20 -20"), RulerFoot},
	} {
		f, err := c.work.Figures()
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if got := Advise(f); got.Method != c.want {
			t.Errorf("%s: %q advised, want %q; figures %+v", c.name, got.Method, c.want, f)
		}
	}
}

// A square of 250 mm sewn round turns the quilt by three quarters, and its last
// corner is that of the start: 0.75 turns on 1 m. Half of the work is a seam.
func TestFiguresOfASquare(t *testing.T) {
	w := workOf(t, true, "M 0 0 L 250 0 L 250 250 L 0 250 Z")
	w.Pieces[0].Spans = []Span{{From: 0, To: 500, Ruler: true}, {From: 500, To: 1000, Travel: true}}
	f := must[Figures](t)(w.Figures())
	near(t, "length", f.Length, 1000, exact)
	near(t, "ruler", f.Ruler, 500, exact)
	near(t, "travel", f.Travel, 500, exact)
	near(t, "straight share", f.StraightShare, 1, exact)
	near(t, "turns", f.Turning.Rotations(), 0.75, exact)
	near(t, "turns per m", f.RotationsPerMetre, 0.75, exact)
	near(t, "spacing", f.Spacing, 250*250/500, exact)
	if f.Pivots != 3 || f.RulerLines != 2 || f.Stops != 0 || !f.Turning.Closed || f.Turning.Index != 1 {
		t.Errorf("%+v, want 3 pivots, 2 ruler lines, no stop, closed with index 1", f)
	}
}

// set puts a figure to a value.
func (f *Figures) set(t *rapid.T, name Figure, v float64) {
	switch name {
	case Radius:
		f.SmallestRadius = v
	case Turns:
		f.RotationsPerMetre = v
	case RulerLineCount:
		f.RulerLines = int(math.Round(v))
	case StraightPart:
		f.StraightShare = v
	default:
		t.Fatalf("no figure is called %q", name)
	}
}

// If everything that a change needs is met the advice becomes what it says, and
// not if one need is left out. Every other method can be reached. The reasons
// that speak against the advised method never outnumber the figures.
func TestChangesLeadWhereTheySay(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		f := Figures{SmallestRadius: num("radius", 1, 200), RotationsPerMetre: num("turns", 0, 3),
			StraightShare: num("share", 0, 1), RulerLines: rapid.IntRange(0, 3).Draw(rt, "ruler lines")}
		a := Advise(f)
		reached := map[Method]bool{a.Method: true}
		for _, c := range a.Changes {
			reached[c.To] = true
			for skip := -1; skip < len(c.Needs); skip++ {
				g := f
				for i, n := range c.Needs {
					to := n.Limit
					if n.Rise {
						to *= 1.001
					} else if to *= 0.999; n.Figure == RulerLineCount {
						to = 0
					}
					if i != skip {
						g.set(rt, n.Figure, to)
					}
				}
				if got := Advise(g).Method; (got == c.To) != (skip < 0) {
					rt.Fatalf("%+v: change %+v without need %d leads from %q to %q", f, c, skip, a.Method, got)
				}
			}
		}
		if len(reached) != len(Methods()) {
			rt.Fatalf("%+v: changes lead to %v only", f, reached)
		}
		for _, r := range a.Reasons {
			if len(r.Favours) == 0 {
				rt.Fatalf("reason without a side: %+v", r)
			}
		}
		for _, r := range a.Against(a.Method) {
			if slices.Contains(r.Favours, a.Method) {
				rt.Fatalf("reason %+v speaks for %q", r, a.Method)
			}
		}
	})
}
