package sketch

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// brokenRather tells a corner from a bend: two straight lines must leave at most this
// share of the squared errors that one cubic, with as many coefficients, leaves.
const brokenRather = 0.65

// corner is a sharp turn of a run between point after and the next one.
type corner struct {
	after int
	place geom.Point
}

// findCorners returns the corners of a run in their order: the turn between the
// straight lines fitted to the points within scale mm before and after is at least
// least, also within half the scale; the two lines fit the points clearly better than
// one cubic does; and of several such places within the scale it fits best. A corner
// is looked for between two points, as its own place is hardly ever sampled. Cost
// O(points x points within scale).
func (r run) findCorners(scale, least float64) []corner {
	type candidate struct {
		after int
		share float64
	}
	var found []candidate
	for i := range r.pts {
		if share, ok := r.broken(i, scale, least); ok && share <= brokenRather {
			found = append(found, candidate{i, share})
		}
	}
	sort.SliceStable(found, func(a, b int) bool { return found[a].share < found[b].share })
	var out []corner
	for _, c := range found {
		taken := false
		for _, k := range out {
			taken = taken || r.along(c.after, k.after) < 0.75*scale || r.between(c.after, k.after) < farPoints
		}
		if !taken {
			out = append(out, corner{c.after, r.vertex(c.after, scale)})
		}
	}
	sort.Slice(out, func(a, b int) bool { return out[a].after < out[b].after })
	return out
}

// along is the distance in mm between two points of the run, along it.
func (r run) along(i, k int) float64 {
	d := math.Abs(r.at[i] - r.at[k])
	if r.period > 0 {
		d = math.Min(d, r.period-d)
	}
	return d
}

// between is the number of steps between two points of the run.
func (r run) between(i, k int) int {
	d := max(i-k, k-i)
	if r.period > 0 {
		d = min(d, len(r.pts)-d)
	}
	return d
}

// The least number of points on each side of a turn, seen from afar and from half as
// far.
const (
	farPoints  = 4
	nearPoints = 2
)

// broken looks at the gap between point i and the next. ok is false where a side
// holds too few points or the turn is less than least, seen over the scale or half of
// it. share is the squared error of two straight lines in terms of that of a cubic.
func (r run) broken(i int, scale, least float64) (share float64, ok bool) {
	a, ok1 := r.arm(i, -1, scale, farPoints)
	b, ok2 := r.arm(i+1, 1, scale, farPoints)
	if !ok1 || !ok2 || angleBetween(a.along, b.along) < least {
		return 0, false
	}
	c, ok3 := r.arm(i, -1, scale/2, nearPoints)
	d, ok4 := r.arm(i+1, 1, scale/2, nearPoints)
	if !ok3 || !ok4 || angleBetween(c.along, d.along) < nearly*least {
		return 0, false
	}
	curved := r.cubicError(a.lo, b.hi)
	return (a.err + b.err) / (curved + 1e-12), true
}

// nearly is the share of the least turn that must be seen over half the scale, where
// jitter shows more.
const nearly = 0.75

// arm is a straight line fitted to points lo to hi of a run: their mean, the slope by
// arc length, and the sum of squared errors in mm^2.
type arm struct {
	lo, hi        int
	middle, along geom.Point
	err           float64
}

// arm fits a straight line by least squares to the points from i on, forwards (step 1)
// or backwards (step -1), that lie within reach mm of it, but at least to few points;
// ok is false where there are not so many.
func (r run) arm(i, step int, reach float64, few int) (a arm, ok bool) {
	if !r.has(i, i) {
		return arm{}, false
	}
	_, from := r.get(i)
	last, n := i, 1
	for n <= manyNeighbours && r.has(last+step, i) {
		if _, s := r.get(last + step); math.Abs(s-from) > reach && n >= few {
			break
		}
		last, n = last+step, n+1
	}
	if n < few {
		return arm{}, false
	}
	return r.line(min(i, last), max(i, last)), true
}

// line fits a straight line by least squares to points lo to hi.
func (r run) line(lo, hi int) arm {
	a := arm{lo: lo, hi: hi}
	var middle, spread float64
	n := float64(hi - lo + 1)
	for k := lo; k <= hi; k++ {
		p, s := r.get(k)
		a.middle, middle = r2.Add(a.middle, r2.Scale(1/n, p)), middle+s/n
	}
	for k := lo; k <= hi; k++ {
		p, s := r.get(k)
		a.along = r2.Add(a.along, r2.Scale(s-middle, r2.Sub(p, a.middle)))
		spread += (s - middle) * (s - middle)
	}
	a.along = r2.Scale(1/spread, a.along)
	for k := lo; k <= hi; k++ {
		p, s := r.get(k)
		a.err += r2.Norm2(r2.Sub(p, r2.Add(a.middle, r2.Scale(s-middle, a.along))))
	}
	return a
}

// cubicError returns the sum of squared errors in mm^2 of the cubic by arc length
// fitted by least squares to points lo to hi, in polynomials made orthogonal on them
// by Forsythe's three-term recurrence (G. E. Forsythe, J. SIAM 5, 1957), which needs
// no equations solved.
func (r run) cubicError(lo, hi int) float64 {
	n := hi - lo + 1
	rest := make([]geom.Point, n)
	x, prev, now := make([]float64, n), make([]float64, n), make([]float64, n)
	for k := range n {
		rest[k], x[k] = r.get(lo + k)
		now[k] = 1
	}
	last := 0.0
	for range 4 {
		var norm, shift float64
		var c geom.Point
		for k, v := range now {
			norm, shift = norm+v*v, shift+x[k]*v*v
			c = r2.Add(c, r2.Scale(v, rest[k]))
		}
		if norm == 0 {
			break
		}
		shift, c = shift/norm, r2.Scale(1/norm, c)
		back := 0.0
		if last > 0 {
			back = norm / last
		}
		for k, v := range now {
			rest[k] = r2.Sub(rest[k], r2.Scale(v, c))
			prev[k], now[k] = v, (x[k]-shift)*v-back*prev[k]
		}
		last = norm
	}
	sum := 0.0
	for _, e := range rest {
		sum += r2.Norm2(e)
	}
	return sum
}

// A vertex is taken from where the lines of both sides cross if they turn by at
// least 25 degrees from running on and from running back, so that the crossing is
// sharp.
const sharpCrossing = 25 * math.Pi / 180

// vertex returns the place of the corner after point i: where the lines fitted on
// both sides within half the scale cross, if that lies near, else the one of the two
// points beside it that reaches out farther.
func (r run) vertex(i int, scale float64) geom.Point {
	before, _ := r.arm(i, -1, scale/2, farPoints)
	after, _ := r.arm(i+1, 1, scale/2, farPoints)
	p, _ := r.get(i)
	q, _ := r.get(i + 1)
	angle := angleBetween(before.along, after.along)
	if angle > sharpCrossing && angle < math.Pi-sharpCrossing {
		t := r2.Cross(r2.Sub(after.middle, before.middle), after.along) / r2.Cross(before.along, after.along)
		v := r2.Add(before.middle, r2.Scale(t, before.along))
		if reach := math.Max(scale/2, geom.Dist(p, q)); geom.Dist(v, geom.Lerp(p, q, 0.5)) <= reach {
			return v
		}
	}
	outwards := r2.Sub(r2.Unit(before.along), r2.Unit(after.along))
	if r2.Dot(r2.Sub(q, p), outwards) > 0 {
		return q
	}
	return p
}
