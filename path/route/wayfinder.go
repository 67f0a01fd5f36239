package route

import (
	"math"
	"slices"
)

// wayfinder turns an order of lines into steps. It remembers the walks from every
// junction that it was asked about.
type wayfinder struct {
	*finder
	known map[int]*tree
}

func (w *wayfinder) from(v int) *tree {
	t, is := w.known[v]
	if !is {
		t = w.search([]int32{int32(v)}, nil, -1).clone()
		w.known[v] = t
	}
	return t
}

// across returns the cost in mm of the way between two junctions, 0 if one is
// Nowhere and +Inf if there is no way.
func (w *wayfinder) across(from, to int) float64 {
	if from == to || from == Nowhere || to == Nowhere {
		return 0
	}
	if d := w.from(from).dist[to]; d != unreached {
		return mm(d)
	}
	return math.Inf(1)
}

// hopeless is what a gap that nothing bridges counts in mm, so that orders are
// turned to have few of them.
const hopeless = 10 * maxTotalMM

// gap is across for the sake of comparison: a way counts a little though it
// costs nothing.
func (w *wayfinder) gap(from, to int) float64 {
	if from == to || from == Nowhere || to == Nowhere {
		return 0
	}
	return math.Min(w.across(from, to), hopeless) + costSlack
}

// given returns the ends that the rule fixes, Nowhere for those that it leaves
// open.
func (e Ends) given() (start, exit int) {
	switch e.Rule {
	case Closed:
		return e.Start, e.Start
	case Fixed:
		return e.Start, e.Exit
	case StartOnly:
		return e.Start, Nowhere
	}
	return Nowhere, Nowhere
}

// step returns the walk along a line, forwards (way 0) or in reverse (way 1).
func (w *wayfinder) step(line, way int) Step {
	e := w.n.g.Edges[line]
	s := Step{Edge: line, From: e.U, To: e.V}
	if way == 1 {
		s = Step{Edge: line, Reverse: true, From: e.V, To: e.U}
	}
	if !e.Kind.Must() {
		s.Way = Hidden
	}
	return s
}

// directed turns the lines of the order so that the gaps between them, from the
// start and to the exit, cost least. A closed route without a given start comes
// back to where its first line begins, so that is tried both ways.
func (w *wayfinder) directed(order []int, e Ends) []Step {
	var best []Step
	least := math.Inf(1)
	for first := range 2 {
		start, exit := e.given()
		if e.Rule == Closed && start == Nowhere {
			exit = w.step(order[0], first).From
		}
		if steps, cost := w.directedFrom(order, first, start, exit); cost < least {
			best, least = steps, cost
		}
	}
	return best
}

// directedFrom is directed with the way of the first line given: dynamic
// programming over the ways of the others.
func (w *wayfinder) directedFrom(order []int, first, start, exit int) ([]Step, float64) {
	came := make([][2]int, len(order)) // the best way of the line before
	costs := [2]float64{math.Inf(1), math.Inf(1)}
	costs[first] = w.gap(start, w.step(order[0], first).From)
	for i := 1; i < len(order); i++ {
		next := [2]float64{math.Inf(1), math.Inf(1)}
		for way := range 2 {
			for was := range 2 {
				c := costs[was] + w.gap(w.step(order[i-1], was).To, w.step(order[i], way).From)
				if c < next[way] {
					next[way], came[i][way] = c, was
				}
			}
		}
		costs = next
	}
	last := len(order) - 1
	for way := range 2 {
		costs[way] += w.gap(w.step(order[last], way).To, exit)
	}
	way := 0
	if costs[1] < costs[0] {
		way = 1
	}
	total := costs[way]
	steps := make([]Step, len(order))
	for i := last; i >= 0; i-- {
		steps[i] = w.step(order[i], way)
		way = came[i][way]
	}
	return steps, total
}

// bridged puts the cheapest ways across between steps that do not follow on, and
// lists those gaps. Where there is no way, the steps just go on elsewhere, by a
// stop that the rules do not allow.
func (w *wayfinder) bridged(steps []Step, e Ends) ([]Step, []Gap) {
	var out []Step
	var gaps []Gap
	bridge := func(before, from, to int) {
		if from == to || from == Nowhere || to == Nowhere {
			return
		}
		cost := w.across(from, to)
		gaps = append(gaps, Gap{Before: before, From: from, To: to, Cost: cost})
		if math.IsInf(cost, 1) {
			out = append(out, Step{Edge: Nowhere, Way: Jump, From: from, To: to})
			return
		}
		out = append(out, w.n.stepsTo(w.from(from), to)...)
	}
	here, exit := e.given()
	for i, s := range steps {
		bridge(i, here, s.From)
		out = append(out, s)
		here = s.To
	}
	if e.Rule == Closed && exit == Nowhere {
		exit = steps[0].From
	}
	bridge(len(steps), here, exit)
	settle(out)
	return out, gaps
}

// stepsTo returns the steps of the walk to junction v from a source of t; those
// along sewn lines are left for settle to judge.
func (n *network) stepsTo(t *tree, v int) []Step {
	var out []Step
	here, up := int32(v), int32(-1) // up: where a stop comes down
	n.walk(t, here, func(l int32) {
		a := n.lines[l]
		other := a.u + a.v - here
		switch {
		case other == n.air && n.air >= 0:
			up = here
		case here == n.air && n.air >= 0:
			out = append(out, Step{Edge: Nowhere, Way: Jump, From: int(other), To: int(up)})
		default:
			s := Step{Edge: int(l), Reverse: a.v == other, From: int(other), To: int(here)}
			if !n.g.Edges[l].Kind.Must() {
				s.Way = Hidden
			}
			out = append(out, s)
		}
		here = other
	})
	slices.Reverse(out)
	return out
}
