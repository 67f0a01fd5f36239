package geom

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
)

// CornerTurn is the least turn in radians (30 degrees) at one vertex that counts
// as a corner. Curves are flattened so finely (see Flatten) that no vertex of a
// smooth curve turns by half as much.
const CornerTurn = math.Pi / 6

// Line is an ideal line to be sewn, with its arc length tabulated so that any
// place on it can be looked up. Make one with NewLine; the zero Line is empty.
type Line struct {
	path Polyline
	cum  []float64
	// Corners are the arc lengths in mm, ascending, of the inner vertices that
	// turn by at least CornerTurn.
	Corners []float64
	// Dots are the arc lengths in mm, ascending, of marked dots at which the
	// needle stops, for ruler work; nil for a line sewn in one flow.
	Dots []float64
}

// NewLine returns the line along path, whose repeated points are dropped, with
// its corners found. It fails on fewer than two distinct points or on a place
// that is not finite. Cost O(n).
func NewLine(path Polyline) (Line, error) {
	path = path.Compact()
	if err := path.Validate(); err != nil {
		return Line{}, err
	}
	l := Line{path: path, cum: path.Cumulative()}
	for i := 1; i < len(path)-1; i++ {
		if math.Abs(TurnAngle(path[i-1], path[i], path[i+1])) >= CornerTurn {
			l.Corners = append(l.Corners, l.cum[i])
		}
	}
	return l, nil
}

// WithDots returns the line with dots at the given arc lengths in mm, which must
// ascend and lie on the line.
func (l Line) WithDots(dots []float64) (Line, error) {
	for i, s := range dots {
		if !(s >= 0 && s <= l.Length()+1e-9) {
			return Line{}, fmt.Errorf("dot %d at %.3f mm lies off the line of %.3f mm", i, s, l.Length())
		}
		if i > 0 && s <= dots[i-1] {
			return Line{}, fmt.Errorf("dot %d at %.3f mm does not come after dot %d at %.3f mm", i, s, i-1, dots[i-1])
		}
	}
	l.Dots = dots
	return l, nil
}

// Path returns the points of the line in mm; do not change them.
func (l Line) Path() Polyline { return l.path }

// Cumulative returns the arc length in mm at each point of Path; do not change
// it.
func (l Line) Cumulative() []float64 { return l.cum }

// Length returns the arc length of the whole line in mm.
func (l Line) Length() float64 {
	if len(l.cum) == 0 {
		return 0
	}
	return l.cum[len(l.cum)-1]
}

// Closed tells whether the line ends where it starts, within 1 micrometre.
func (l Line) Closed() bool {
	return len(l.path) > 2 && Dist(l.path[0], l.path[len(l.path)-1]) < 1e-3
}

// segment returns the index i of the piece path[i]-path[i+1] on which arc length
// s lies, s clamped to the line, and the share of the piece before s.
func (l Line) segment(s float64) (i int, t float64) {
	s = math.Max(0, math.Min(l.Length(), s))
	i = sort.SearchFloat64s(l.cum, s) - 1
	i = max(0, min(i, len(l.path)-2))
	return i, (s - l.cum[i]) / (l.cum[i+1] - l.cum[i])
}

// At returns the point at arc length s in mm; s beyond an end gives that end.
// Cost O(log n).
func (l Line) At(s float64) Point {
	i, t := l.segment(s)
	return Lerp(l.path[i], l.path[i+1], t)
}

// Tangent returns the unit direction of travel at arc length s; at a vertex it
// is that of the piece before it, at s = 0 that of the first. Cost O(log n).
func (l Line) Tangent(s float64) Point {
	i, _ := l.segment(s)
	return r2.Unit(r2.Sub(l.path[i+1], l.path[i]))
}

// Frame returns what At and Tangent do, at the cost of one of them.
func (l Line) Frame(s float64) (at, way Point) {
	i, t := l.segment(s)
	return Lerp(l.path[i], l.path[i+1], t), r2.Unit(r2.Sub(l.path[i+1], l.path[i]))
}

// Resample returns points every step mm of arc length from the start, and the
// end point. step must be positive. Cost O(n + length/step).
func (l Line) Resample(step float64) Polyline {
	n := int(math.Ceil(l.Length()/step - 1e-9))
	out := make(Polyline, 0, n+1)
	i := 0
	for k := 0; k < n; k++ {
		s := float64(k) * step
		for i < len(l.cum)-2 && l.cum[i+1] <= s {
			i++
		}
		out = append(out, Lerp(l.path[i], l.path[i+1], (s-l.cum[i])/(l.cum[i+1]-l.cum[i])))
	}
	return append(out, l.path[len(l.path)-1])
}

// Section returns the points of the line from arc length s0 to s1 in mm, both
// clamped, with the vertices between them. s1 must not be below s0.
func (l Line) Section(s0, s1 float64) Polyline {
	i0, _ := l.segment(s0)
	i1, _ := l.segment(s1)
	out := Polyline{l.At(s0)}
	for i := i0 + 1; i <= i1; i++ {
		out = append(out, l.path[i])
	}
	return append(out, l.At(s1)).Compact()
}
