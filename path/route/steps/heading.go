package steps

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// BreakTurn is the change of direction in radians from which a hand turns rather
// than goes on.
const BreakTurn = route.BreakTurn

// headings are the directions at the ends of the pieces of a graph, in radians,
// each read when it is first asked for.
type headings struct {
	g     plane.Graph
	out   []float64 // at U and V of each piece, away from the junction
	known []bool
}

func newHeadings(g plane.Graph) *headings {
	return &headings{g: g, out: make([]float64, 2*len(g.Edges)), known: make([]bool, 2*len(g.Edges))}
}

// sameMM is the distance in mm below which two points give no direction.
const sameMM = 1e-3

func (h *headings) at(edge, end int) float64 {
	k := 2*edge + end
	if h.known[k] {
		return h.out[k]
	}
	h.known[k] = true
	path := h.g.Edges[edge].Path
	i, step := 0, 1
	if end == 1 {
		i, step = len(path)-1, -1
	}
	foot := path[i]
	for ; i >= 0 && i < len(path); i += step {
		if geom.Dist(foot, path[i]) > sameMM {
			h.out[k] = math.Atan2(path[i].Y-foot.Y, path[i].X-foot.X)
			break
		}
	}
	return h.out[k]
}

// leaving returns the direction in which a walk along a piece sets out, arriving
// that in which it comes in.
func (h *headings) leaving(edge int, back bool) float64 {
	if back {
		return h.at(edge, 1)
	}
	return h.at(edge, 0)
}

func (h *headings) arriving(edge int, back bool) float64 {
	return h.leaving(edge, !back) + math.Pi
}

// turnBetween returns the angle in [0, pi] between two directions.
func turnBetween(a, b float64) float64 {
	d := math.Abs(math.Mod(a-b, 2*math.Pi))
	return math.Min(d, 2*math.Pi-d)
}
