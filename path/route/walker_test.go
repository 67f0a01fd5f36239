package route

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// walk follows a route line by line, knowing nothing of how it was made, and
// reports the first thing that is wrong with it.
func walk(g plane.Graph, rules Rules, r Route) error {
	if len(r.Steps) == 0 {
		return fmt.Errorf("no steps")
	}
	times := make([]int, len(g.Edges))
	var sewn, again, hidden, turned float64
	jumps, here := 0, r.Start
	for i, s := range r.Steps {
		if s.From != here {
			return fmt.Errorf("step %d begins at junction %d, the one before ends at %d", i, s.From, here)
		}
		here = s.To
		if s.Way == Jump {
			jumps++
			continue
		}
		e := g.Edges[s.Edge]
		if u, v := ends(e, s.Reverse); u != s.From || v != s.To {
			return fmt.Errorf("step %d walks line %d from %d to %d, but says %d to %d", i, s.Edge, u, v, s.From, s.To)
		}
		times[s.Edge]++
		switch s.Way {
		case Sew:
			sewn += e.Length
		case Again:
			again += e.Length
		case Hidden:
			hidden += e.Length
		}
		if first := times[s.Edge] == 1; e.Kind.Must() != (s.Way != Hidden) || e.Kind.Must() && first != (s.Way == Sew) {
			return fmt.Errorf("step %d: line %d (%s) walked in way %d for the time %d", i, s.Edge, e.Kind, s.Way, times[s.Edge])
		}
		if times[s.Edge] > 2 {
			return fmt.Errorf("step %d walks line %d a third time", i, s.Edge)
		}
		if i > 0 {
			turned += turnBetween(g, r.Steps[i-1], s)
		}
	}
	if last := r.Steps[len(r.Steps)-1]; here == r.Start {
		turned += turnBetween(g, last, r.Steps[0])
	}
	for i, e := range g.Edges {
		if e.Kind.Must() && times[i] == 0 {
			return fmt.Errorf("line %d is not sewn", i)
		}
		if rules.NoSeams && !e.Kind.Must() && times[i] > 0 {
			return fmt.Errorf("seam %d is travelled against the rules", i)
		}
	}
	if err := checkEnds(rules.Ends, r, here); err != nil {
		return err
	}
	added := rules.Costs.Retrace*again + rules.Costs.Seam*hidden
	if jumps > 0 {
		added += rules.Costs.Jump * float64(jumps)
	}
	for _, m := range []struct {
		what      string
		got, want float64
	}{
		{"SewnMM", r.SewnMM, sewn}, {"RetraceMM", r.RetraceMM, again}, {"SeamMM", r.SeamMM, hidden},
		{"Jumps", float64(r.Jumps), float64(jumps)}, {"Added", r.Added, added}, {"Turning", r.Turning, turned},
	} {
		if math.Abs(m.got-m.want) > 1e-6*(1+math.Abs(m.want)) {
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
