package route

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// Stretch is a part of a piece that one step sews.
type Stretch struct {
	// Step indexes Route.Steps.
	Step int
	// From and To are arc lengths on the piece in mm.
	From, To float64
	Way      Way
	// Twice is true where the route walks the line two times, now or at another
	// step, so that both need room on the screen.
	Twice bool
}

// Piece is what is sewn without a stop: the path to rehearse.
type Piece struct {
	// Line is the path in the order of sewing. It has a dot wherever a ruler line
	// begins or ends, unless the same ruler line runs straight on there.
	Line      geom.Line
	Stretches []Stretch
}

// Pieces returns the paths of the route round g, one more than it has stops.
// Cost O(points).
func (r Route) Pieces(g plane.Graph) ([]Piece, error) {
	times := map[int]int{}
	for _, s := range r.Steps {
		times[s.Edge]++
	}
	dirs := newCompass(g)
	var out []Piece
	first := 0
	for i := 0; i <= len(r.Steps); i++ {
		if i < len(r.Steps) && r.Steps[i].Way != Jump {
			continue
		}
		if i > first {
			p, err := r.piece(g, dirs, times, first, i)
			if err != nil {
				return nil, fmt.Errorf("steps %d to %d: %w", first, i-1, err)
			}
			out = append(out, p)
		}
		first = i + 1
	}
	return out, nil
}

// piece strings the paths of the steps from first up to, not including, after.
func (r Route) piece(g plane.Graph, dirs compass, times map[int]int, first, after int) (Piece, error) {
	var p Piece
	var path geom.Polyline
	var dots []float64
	sum := 0.0
	for i := first; i < after; i++ {
		s := r.Steps[i]
		leg := g.Edges[s.Edge].Path
		if s.Reverse {
			leg = leg.Reversed()
		}
		if len(path) > 0 {
			sum += geom.Dist(path[len(path)-1], leg[0])
		}
		if dirs.dotBefore(g, r.Steps[first:after], i-first) {
			dots = append(dots, sum)
		}
		path = append(path, leg...)
		length := leg.Length()
		p.Stretches = append(p.Stretches, Stretch{Step: i, From: sum, To: sum + length, Way: s.Way, Twice: times[s.Edge] > 1})
		sum += length
	}
	if dirs.dotBefore(g, r.Steps[first:after], after-first) {
		dots = append(dots, sum)
	}
	line, err := geom.NewLine(path)
	if err != nil {
		return Piece{}, err
	}
	for i := range p.Stretches {
		p.Stretches[i].To = math.Min(p.Stretches[i].To, line.Length())
	}
	p.Line, err = line.WithDots(within(dots, line.Length()))
	return p, err
}

// dotBefore tells whether there is a dot before step i, or at i = len(steps)
// after the last: a ruler line ends or begins there.
func (c compass) dotBefore(g plane.Graph, steps []Step, i int) bool {
	ruler := func(k int) bool {
		return k >= 0 && k < len(steps) && g.Edges[steps[k].Edge].Kind == plane.Ruler
	}
	if i > 0 && i < len(steps) && c.onward[steps[i-1].arrives()] == steps[i].leaves() {
		return false
	}
	return ruler(i-1) || ruler(i)
}

// within returns the dots, ascending and no further than the end: points that
// fall together when a line is made may take a nanometre off its length.
func within(dots []float64, length float64) []float64 {
	var out []float64
	for _, s := range dots {
		s = math.Min(s, length)
		if len(out) == 0 || s > out[len(out)-1] {
			out = append(out, s)
		}
	}
	return out
}
