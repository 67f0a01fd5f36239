package route

import "slices"

// follow returns the darts in the order in which the one circuit leaves along
// them, from dart d on.
func (c *circuits) follow(d int32) []int32 {
	out := make([]int32, 0, len(c.w.arcs))
	for len(out) == 0 || d != out[0] {
		out = append(out, d)
		d = c.mate[d^1]
	}
	return out
}

// ordered returns the darts of the tour from its start on, without the link from
// exit to start. A closed tour breaks at its start, or anywhere if that is not
// given, where it turns most, since the break hides the turn.
func (c *circuits) ordered(start int32) []int32 {
	w := c.w
	last := int32(len(w.arcs) - 1)
	if w.arcs[last].line < 0 {
		return c.follow(2 * last)[1:]
	}
	first, most := int32(-1), int64(-1)
	for v, darts := range w.at {
		if int32(v) == w.n.air || (start != Nowhere && int32(v) != start) {
			continue
		}
		for _, d := range darts {
			if t := w.turn(d, c.mate[d]); t > most {
				first, most = d, t
			}
		}
	}
	return c.follow(first)
}

// steps turns the tour into steps from its start on.
func (c *circuits) steps(start int32) []Step { return c.stepsFrom(c.ordered(start)) }

// stepsFrom turns darts into steps; way up and way down of a stop become one.
func (c *circuits) stepsFrom(darts []int32) []Step {
	w := c.w
	out := make([]Step, 0, len(darts))
	for i := 0; i < len(darts); i++ {
		d := darts[i]
		l := w.arcs[d/2].line
		from, to := w.foot(d), w.foot(d^1)
		s := Step{Edge: int(l), Reverse: d%2 == 1, From: int(from), To: int(to)}
		switch {
		case to == w.n.air:
			i++
			s = Step{Edge: Nowhere, Way: Jump, From: int(from), To: int(w.foot(darts[i] ^ 1))}
		case !w.n.g.Edges[l].Kind.Must():
			s.Way = Hidden
		}
		out = append(out, s)
	}
	settle(out)
	return out
}

// foot returns the junction that dart d leaves.
func (w *walks) foot(d int32) int32 {
	a := w.arcs[d/2]
	if d%2 == 0 {
		return a.u
	}
	return a.v
}

// turning returns the sum in radians of the turns between steps, and for a
// closed route that at its start.
func (n *network) turning(steps []Step) float64 {
	sum := 0.0
	for i, s := range steps {
		before := len(steps) - 1
		if i > 0 {
			before = i - 1
		} else if steps[before].To != s.From {
			continue
		}
		if p := steps[before]; p.Way != Jump && s.Way != Jump {
			sum += n.dirs.turn(p.arrives(), s.leaves())
		}
	}
	return sum
}

// leaves returns the dart along which a step sets out, arrives that by which it
// comes in.
func (s Step) leaves() int32 {
	if s.Reverse {
		return int32(2*s.Edge + 1)
	}
	return int32(2 * s.Edge)
}

func (s Step) arrives() int32 { return s.leaves() ^ 1 }

// reversed returns the steps walked backwards.
func reversed(steps []Step) []Step {
	out := slices.Clone(steps)
	slices.Reverse(out)
	for i, s := range out {
		out[i].From, out[i].To, out[i].Reverse = s.To, s.From, s.Way != Jump && !s.Reverse
	}
	return out
}

// settle decides anew which of two walks along a sewn line is the retrace: the
// later one.
func settle(steps []Step) {
	top := 0
	for _, s := range steps {
		top = max(top, s.Edge)
	}
	walked := make([]bool, top+1)
	for i, s := range steps {
		if s.Way != Sew && s.Way != Again {
			continue
		}
		steps[i].Way = Sew
		if walked[s.Edge] {
			steps[i].Way = Again
		}
		walked[s.Edge] = true
	}
}
