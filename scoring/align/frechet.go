package align

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// DiscreteFrechet returns the discrete Frechet distance in mm between the points
// of p and q: the shortest leash that lets two walkers hop from point to point,
// each along its own line, in order (Eiter and Mannila, TU Wien CD-TR 94/64,
// 1994). It is at least the Frechet distance of the polylines, and exceeds it by
// no more than the longest piece. Both must have points. Time O(n*m), memory
// O(m).
func DiscreteFrechet(p, q geom.Polyline) float64 {
	row := make([]float64, len(q)) // squared distances, one row after another
	least := math.Inf(-1)
	for j := range q {
		least = max(least, r2.Norm2(r2.Sub(p[0], q[j])))
		row[j] = least
	}
	for _, a := range p[1:] {
		diagonal := row[0]
		left := max(diagonal, r2.Norm2(r2.Sub(a, q[0])))
		row[0] = left
		for j := 1; j < len(q); j++ {
			// Comparing by hand: this is the innermost loop, and nothing is NaN.
			up := row[j]
			if diagonal < left {
				left = diagonal
			}
			if up < left {
				left = up
			}
			dx, dy := a.X-q[j].X, a.Y-q[j].Y
			if d := dx*dx + dy*dy; d > left {
				left = d
			}
			row[j], diagonal = left, up
		}
	}
	return math.Sqrt(row[len(row)-1])
}

// Frechet returns the Frechet distance in mm between the polylines p and q, to
// within tol from above: the shortest leash that lets two walkers go along them
// from end to end without turning back (Alt and Godau, International Journal of
// Computational Geometry and Applications 5, 1995). It searches by halving over
// FrechetWithin, up to most; beyond that the result is +Inf. Both must have at
// least one point.
func Frechet(p, q geom.Polyline, tol, most float64) float64 {
	lo := max(geom.Dist(p[0], q[0]), geom.Dist(p[len(p)-1], q[len(q)-1]))
	if lo > most {
		return math.Inf(1)
	}
	hi := min(most, lo+tol)
	for ; !FrechetWithin(p, q, hi); hi = min(most, lo+2*(hi-lo)) {
		if hi == most {
			return math.Inf(1)
		}
	}
	return FrechetBetween(p, q, lo, hi, tol)
}

// FrechetBetween is Frechet where it is known not to lie below lo nor above hi mm.
func FrechetBetween(p, q geom.Polyline, lo, hi, tol float64) float64 {
	for hi-lo > tol {
		mid := lo + (hi-lo)/2
		if mid <= lo || mid >= hi {
			break
		}
		if FrechetWithin(p, q, mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// span is an interval of shares along a piece; empty if lo > hi.
type span struct{ lo, hi float64 }

var nothing = span{1, 0}

func (s span) empty() bool { return s.lo > s.hi }

// from returns the part of s at or above lo.
func (s span) from(lo float64) span { return span{max(s.lo, lo), s.hi} }

// free returns the shares of the piece a-b that lie within eps of c.
func free(a, b, c geom.Point, eps float64) span {
	d, f := r2.Sub(b, a), r2.Sub(a, c)
	n, h, k := r2.Norm2(d), r2.Dot(d, f), r2.Norm2(f)-eps*eps
	if n == 0 {
		if k <= 0 {
			return span{0, 1}
		}
		return nothing
	}
	disc := h*h - n*k
	if disc < 0 {
		return nothing
	}
	root := math.Sqrt(disc)
	return span{max(0, (-h-root)/n), min(1, (-h+root)/n)}
}

// entry is a way into cell i of the free-space diagram through its lower side.
type entry struct {
	i int
	s span
}

// FrechetWithin tells whether the Frechet distance between p and q is at most
// eps mm, by the free-space diagram of Alt and Godau. Only cells that can be
// reached are looked at: time O(n + m + cells), which for lines that follow each
// other is the number of pieces within eps of each other; at worst O(n*m).
func FrechetWithin(p, q geom.Polyline, eps float64) bool {
	eps = touching(eps)
	if geom.Dist(p[len(p)-1], q[len(q)-1]) > eps {
		return false
	}
	out := reachable(p, q, eps)
	last := len(out) - 1
	return last >= 0 && out[last].i == max(0, len(p)-2) && out[last].s.hi == 1
}

// FrechetFrom tells whether some part of p from its start lies within a Frechet distance
// of eps mm of all of q: one that stops half way keeps to the first half. Cost as
// FrechetWithin.
func FrechetFrom(p, q geom.Polyline, eps float64) bool {
	return len(reachable(p, q, touching(eps))) > 0
}

// touching widens eps by a hair: touching counts, whatever the last digit.
func touching(eps float64) float64 { return eps + 1e-12*eps }

// reachable returns what can be reached of the upper side of the free-space diagram,
// where all of q has been gone along.
func reachable(p, q geom.Polyline, eps float64) []entry {
	if geom.Dist(p[0], q[0]) > eps {
		return nil
	}
	p, q = atLeastTwo(p), atLeastTwo(q)
	// The first row is entered along the lower side of the diagram for as long
	// as that is free throughout.
	var below []entry
	for i := 0; i < len(p)-1; i++ {
		s := free(p[i], p[i+1], q[0], eps)
		if s.empty() || s.lo > 0 {
			break
		}
		below = append(below, entry{i, s})
		if s.hi < 1 {
			break
		}
	}
	leftOpen := true // the left side of the diagram is free up to here
	var above []entry
	for j := 0; j < len(q)-1; j++ {
		side := nothing
		if leftOpen {
			if side = free(q[j], q[j+1], p[0], eps); side.empty() || side.lo > 0 {
				side = nothing
			}
			leftOpen = !side.empty() && side.hi == 1
		}
		above = sweep(p, q[j], q[j+1], eps, side, below, above[:0])
		if len(above) == 0 && !leftOpen {
			return nil
		}
		below, above = above, below
	}
	return below
}

// sweep goes through one row of cells, that of the piece a-b, from left to
// right: side is what can be reached of its left edge, below the ways in from the
// row before. It appends the ways out at the top to above.
func sweep(p geom.Polyline, a, b geom.Point, eps float64, side span, below, above []entry) []entry {
	i := 0
	for next := 0; i < len(p)-1; i++ {
		if side.empty() {
			if next == len(below) {
				break
			}
			i = max(i, below[next].i)
		}
		in := nothing
		if next < len(below) && below[next].i == i {
			in = below[next].s
			next++
		}
		top := free(p[i], p[i+1], b, eps)
		if side.empty() {
			top = top.from(in.lo)
		}
		if !top.empty() {
			above = append(above, entry{i, top})
		}
		right := free(a, b, p[i+1], eps)
		if in.empty() {
			right = right.from(side.lo)
		}
		side = right
	}
	return above
}

func atLeastTwo(p geom.Polyline) geom.Polyline {
	if len(p) == 1 {
		return geom.Polyline{p[0], p[0]}
	}
	return p
}
