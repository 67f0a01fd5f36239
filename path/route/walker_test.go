package route

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// tally is what a walk adds up to.
type tally struct {
	sewn, again, hidden, turned float64
	jumps                       int
	times                       []int // per line
}

// walk follows a route line by line, knowing nothing of how it was made, and
// reports the first thing that is wrong with it.
func walk(g plane.Graph, rules Rules, r Route) error {
	if len(r.Steps) == 0 {
		return fmt.Errorf("no steps")
	}
	sum := tally{times: make([]int, len(g.Edges))}
	here := r.Start
	for i, s := range r.Steps {
		if s.From != here {
			return fmt.Errorf("step %d begins at junction %d, the one before ends at %d", i, s.From, here)
		}
		here = s.To
		if err := sum.take(g, s); err != nil {
			return fmt.Errorf("step %d: %w", i, err)
		}
		if i > 0 {
			sum.turned += turnBetween(g, r.Steps[i-1], s)
		}
	}
	if last := r.Steps[len(r.Steps)-1]; here == r.Start {
		sum.turned += turnBetween(g, last, r.Steps[0])
	}
	for i, e := range g.Edges {
		if e.Kind.Must() && sum.times[i] == 0 {
			return fmt.Errorf("line %d is not sewn", i)
		}
		if !e.Kind.Must() && sum.times[i] > 0 && rules.bars(e.Stroke) {
			return fmt.Errorf("seam %d is travelled against the rules", i)
		}
	}
	if err := checkEnds(rules.Ends, r, here); err != nil {
		return err
	}
	return sum.compare(rules, r)
}

// take adds a step.
func (t *tally) take(g plane.Graph, s Step) error {
	if s.Way == Jump {
		t.jumps++
		return nil
	}
	e := g.Edges[s.Edge]
	if u, v := ends(e, s.Reverse); u != s.From || v != s.To {
		return fmt.Errorf("line %d runs from %d to %d, the step says %d to %d", s.Edge, u, v, s.From, s.To)
	}
	t.times[s.Edge]++
	switch s.Way {
	case Sew:
		t.sewn += e.Length
	case Again:
		t.again += e.Length
	case Hidden:
		t.hidden += e.Length
	}
	times := t.times[s.Edge]
	if e.Kind.Must() != (s.Way != Hidden) || e.Kind.Must() && (times == 1) != (s.Way == Sew) {
		return fmt.Errorf("line %d (%s) is walked in way %d for the time %d", s.Edge, e.Kind, s.Way, times)
	}
	if times > 2 {
		return fmt.Errorf("line %d is walked a third time", s.Edge)
	}
	return nil
}

// compare checks what the route says of itself.
func (t *tally) compare(rules Rules, r Route) error {
	added := rules.Costs.Retrace*t.again + rules.Costs.Seam*t.hidden
	if t.jumps > 0 {
		added += rules.Costs.Jump * float64(t.jumps)
	}
	for _, m := range []struct {
		what            string
		got, want, slop float64
	}{
		{"SewnMM", r.SewnMM, t.sewn, 1e-9}, {"RetraceMM", r.RetraceMM, t.again, 1e-9}, {"SeamMM", r.SeamMM, t.hidden, 1e-9},
		{"Jumps", float64(r.Jumps), float64(t.jumps), 0},
		{"Added", r.Added, added, roundingPerLine * float64(len(r.Steps))}, {"Turning", r.Turning, t.turned, 1e-6},
	} {
		if math.Abs(m.got-m.want) > m.slop*(1+math.Abs(m.want)) {
			return fmt.Errorf("%s is %v, the walk gives %v", m.what, m.got, m.want)
		}
	}
	if r.LowerBound > r.Added+costTolerance || r.Exact && r.Added > r.LowerBound+costTolerance {
		return fmt.Errorf("added %v, lower bound %v, exact %v", r.Added, r.LowerBound, r.Exact)
	}
	if r.TurningBound > r.Turning+1e-3 {
		return fmt.Errorf("turning %v is below its bound %v", r.Turning, r.TurningBound)
	}
	return nil
}

// roundingPerLine is what taking lengths to micrometres may change per line, in
// mm, and that of prices to hundredths where a test uses finer ones.
const roundingPerLine = 1e-3

func ends(e plane.Edge, reverse bool) (from, to int) {
	if reverse {
		return e.V, e.U
	}
	return e.U, e.V
}

func checkEnds(e Ends, r Route, here int) error {
	if here != r.Exit {
		return fmt.Errorf("the route ends at %d, not at its exit %d", here, r.Exit)
	}
	if e.Rule != Free && e.Start != Nowhere && r.Start != e.Start {
		return fmt.Errorf("the route begins at %d, not at %d", r.Start, e.Start)
	}
	if e.Rule == Fixed && r.Exit != e.Exit || e.Rule == Closed && r.Exit != r.Start {
		return fmt.Errorf("the route begins at %d and leaves at %d against the rules %+v", r.Start, r.Exit, e)
	}
	return nil
}

// turnBetween measures the angle between two steps by the cosine of their paths'
// end pieces.
func turnBetween(g plane.Graph, a, b Step) float64 {
	if a.Way == Jump || b.Way == Jump {
		return 0
	}
	in, out := pathOf(g, a), pathOf(g, b)
	ux, uy, vx, vy := -1.0, 0.0, 1.0, 0.0 // a path without length counts as lying to the right
	if k := len(in) - 1; k > 0 {
		ux, uy = in[k].X-in[k-1].X, in[k].Y-in[k-1].Y
	}
	if len(out) > 1 {
		vx, vy = out[1].X-out[0].X, out[1].Y-out[0].Y
	}
	cos := (ux*vx + uy*vy) / (math.Hypot(ux, uy) * math.Hypot(vx, vy))
	return math.Acos(math.Max(-1, math.Min(1, cos)))
}

func pathOf(g plane.Graph, s Step) geom.Polyline {
	path := g.Edges[s.Edge].Path.Compact()
	if s.Reverse {
		return path.Reversed()
	}
	return path
}
