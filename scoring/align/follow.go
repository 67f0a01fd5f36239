// Package align matches the movement of a hand to the ideal line it was meant to
// follow: for each moment the place on the line, in the order of the line, so
// that crossings, neighbouring turns and lines sewn twice are told apart. The
// nearest point would jump between branches there.
//
// The places are found by dynamic programming (Viterbi), as maps are matched to tracks
// (Newson and Krumm, ACM SIGSPATIAL 2009); a movement that lies elsewhere is laid over the
// line first, by least squares and matching in turns (iterative closest point). Whether it
// is that figure at all is decided by the Frechet distance too.
package align

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Match is a movement set against a line, one value per point of the movement.
type Match struct {
	// Place is the arc length in mm on the line at which the hand was. It mostly
	// grows, falls where the hand went back over the line, and jumps where it
	// left a part out. Use it to show the hand on the line.
	Place []float64
	// S is the furthest Place so far, so it never falls: how far the hand had
	// come. Going back over a part, or over a whole closed line again, holds it.
	S []float64
	// Offset is the signed distance in mm from the line at Place, positive to the
	// right hand of the direction of the line. Past the ends of the line only the
	// part across the line counts.
	Offset []float64
	// Lost marks points too far from all of the line (see Reach) to be matched;
	// their Place lies between those of their neighbours.
	Lost []bool
	// Fit is how the movement has to be laid over the line to be explained best, and Laid
	// are its points so laid, in mm: those of the movement itself where it is in place.
	Fit  Fit
	Laid geom.Polyline
	// Another tells that the movement is another figure, however it is laid: it is matched
	// where it is, and Place and Offset mean little.
	Another bool
	// Jumps are the places where the hand left a part of the line out or took
	// its parts in another order.
	Jumps []Jump
}

// Jump is a break in following the line: between points I and I+1 of the
// movement the place went from From to To, in mm, much further than the hand
// moved.
type Jump struct {
	I        int
	From, To float64
}

// MaxLine is the length in mm, 1 km, of the longest line that is matched.
const MaxLine = 1e6

// Follow matches the points of a movement, in mm, to the line. It finds the
// sequence of places that explains the movement best: near the points, advancing
// as the hand does and the way it does, with a price for leaving out, stopping short
// and going back (see price). A movement that is not plainly in place is also tried as
// one to the side of the line, shifted, at another size and turned a little, forwards
// and from the end to the start (see Fit), and the explanation of least price is taken.
// Cost O(n + m*c) for n points, m <= n places about Step mm apart
// along the movement and c states of the line within reach of one, which does
// not grow with either; the other explanations are tried on some 200 places, for about as
// much again. It fails without a line, or one longer than MaxLine,
// without points, or on a point that is not finite.
func Follow(line geom.Line, pts geom.Polyline) (Match, error) {
	if !(line.Length() > 0) {
		return Match{}, fmt.Errorf("there is no line to match against")
	}
	if line.Length() > MaxLine {
		return Match{}, fmt.Errorf("the line of %g mm is longer than %g", line.Length(), MaxLine)
	}
	if len(pts) == 0 {
		return Match{}, fmt.Errorf("there is no movement to match")
	}
	for i, p := range pts {
		if !geom.Finite(p) {
			return Match{}, fmt.Errorf("point %d of the movement is not a finite place: (%v, %v)", i, p.X, p.Y)
		}
	}
	st := newStates(line)
	obs := observe(pts, st.step)
	plain := plainPrice * length(obs)
	if e := st.explainBelow(plain, obs); e.price <= plain {
		return refine(line, pts, pts, e, st.step), nil
	}
	fit, another := fitted(line, pts)
	if another || fit.Kind == InPlace && !fit.Backward {
		m := refine(line, pts, pts, st.explain(obs), st.step)
		m.Another = another
		return m, nil
	}
	m := st.matchAs(fit, line, pts)
	m.Fit = fit
	return m, nil
}

// plainPrice is the price per mm of movement up to which a movement is plainly in place:
// that of a hand 1.2 mm beside the line.
const plainPrice = 0.25

// matchAs matches the points as the fit explains them, to the line of the states.
func (st *states) matchAs(fit Fit, line geom.Line, pts geom.Polyline) Match {
	along := line
	if fit.Backward {
		along, st = reversed(line), st.reversed()
	}
	if fit.Side != 0 {
		st = indexed(aside(st, fit.side()), st.step)
	}
	laid := pts.Map(fit.Onto)
	m := refine(along, pts, laid, st.explain(observe(laid, st.step)), st.step)
	if fit.Backward {
		m.turnRound(line, pts)
	}
	if fit.Side != 0 {
		for i, p := range m.Laid {
			t := line.Tangent(m.Place[i])
			m.Laid[i] = geom.Pt(p.X+fit.Side*t.Y, p.Y-fit.Side*t.X)
		}
	}
	return m
}

// turnRound makes a match to the reversed line one to the line.
func (m *Match) turnRound(line geom.Line, pts geom.Polyline) {
	n := line.Length()
	for i, p := range m.Place {
		m.Place[i] = n - p
		m.S[i] = n // as for any movement that begins there
		m.Offset[i] = Offset(line, pts[i], m.Place[i])
	}
	for k, j := range m.Jumps {
		m.Jumps[k].From, m.Jumps[k].To = n-j.From, n-j.To
	}
}

// reversed returns the line from its end to its start, without its dots.
func reversed(line geom.Line) geom.Line {
	out, err := geom.NewLine(line.Path().Reversed())
	if err != nil {
		panic(err) // the same points made a line
	}
	return out
}

// observation is one point of the movement that takes part in the search.
type observation struct {
	i    int // index of the point
	p    geom.Point
	way  geom.Point // the unit direction of the movement, zero where it has none
	move float64    // length in mm of the movement since the one before
}

// observe picks points of the movement a step apart along its own length, and
// its last point. There is no direction where the hand trembles or turns round on the
// spot: where its chord is less than half of its way.
func observe(pts geom.Polyline, step float64) []observation {
	obs := []observation{{i: 0, p: pts[0]}}
	var arc float64
	for i := 1; i < len(pts); i++ {
		arc += geom.Dist(pts[i-1], pts[i])
		if arc >= step || i == len(pts)-1 {
			obs = append(obs, observation{i: i, p: pts[i], move: arc})
			arc = 0
		}
	}
	for j := range obs {
		a, b := obs[max(0, j-1)], obs[min(len(obs)-1, j+1)]
		way := b.move
		if j > 0 && j < len(obs)-1 {
			way += obs[j].move
		}
		d := r2.Sub(b.p, a.p)
		if n := r2.Norm(d); n > 0 && n > way/2 {
			obs[j].way = r2.Scale(1/n, d)
		}
	}
	return obs
}

// length returns the length in mm of a movement.
func length(obs []observation) (sum float64) {
	for _, o := range obs {
		sum += o.move
	}
	return sum
}

// refine places every point of the movement exactly, by projecting it, as it is laid over
// the line, near the chosen states (arc lengths in mm) of the observations around it.
func refine(line geom.Line, pts, laid geom.Polyline, e explained, step float64) Match {
	m := Match{
		Place: make([]float64, len(pts)), S: make([]float64, len(pts)), Laid: laid,
		Offset: make([]float64, len(pts)), Lost: make([]bool, len(pts)), Fit: inPlace,
	}
	seen, chosen := e.seen, e.chosen
	if len(seen) == 0 {
		for i, p := range pts {
			m.Lost[i] = true
			m.Offset[i] = Offset(line, p, 0)
		}
		return m
	}
	m.place(line, laid, 0, seen[0].i, chosen[0], chosen[0], step)
	for j := 1; j < len(seen); j++ {
		m.between(line, laid, seen[j-1], seen[j], chosen[j-1], chosen[j], step)
	}
	last := len(seen) - 1
	m.place(line, laid, seen[last].i, len(pts)-1, chosen[last], chosen[last], step)
	var furthest float64
	for i, p := range pts {
		furthest = max(furthest, m.Place[i])
		m.S[i] = furthest
		at, way := line.Frame(m.Place[i])
		m.Offset[i] = offset(line, p, m.Place[i], at, way)
		m.Lost[i] = r2.Norm2(r2.Sub(laid[i], at)) > Reach*Reach
	}
	return m
}

// place projects points i to j to the line between arc lengths a and b, give or
// take a step.
func (m *Match) place(line geom.Line, pts geom.Polyline, i, j int, a, b, step float64) {
	for ; i <= j; i++ {
		m.Place[i] = project(line, pts[i], min(a, b)-step, max(a, b)+step)
	}
}

// between places the points after observation u up to observation v, whose
// states are a and b.
func (m *Match) between(line geom.Line, pts geom.Polyline, u, v observation, a, b, step float64) {
	if isJump(b-a, v.move, step) {
		// The points before the break belong to the old place, the rest to the
		// new one; the break is where the new one becomes the nearer.
		k := u.i + 1
		for k < v.i && geom.Dist(pts[k], line.At(a)) <= geom.Dist(pts[k], line.At(b)) {
			k++
		}
		m.place(line, pts, u.i+1, k-1, a, a, step)
		m.place(line, pts, k, v.i, b, b, step)
		m.Jumps = append(m.Jumps, Jump{I: k - 1, From: m.Place[k-1], To: m.Place[k]})
		return
	}
	m.place(line, pts, u.i+1, v.i, a, b, step)
}

// isJump tells whether the place changed by so much more than the hand moved
// that part of the line was left out. Cutting inside a curve shortens the way,
// but hardly to a third.
func isJump(change, move, step float64) bool { return math.Abs(change) > 3*move+2*step }

// project returns the arc length in mm of the point of the line nearest to p
// within arc lengths a to b, clamped to the line.
func project(line geom.Line, p geom.Point, a, b float64) float64 {
	a, b = max(0, a), min(line.Length(), b)
	path, cum := line.Path(), line.Cumulative()
	i := max(0, min(sort.SearchFloat64s(cum, a)-1, len(path)-2))
	best, at := math.Inf(1), a
	for ; i < len(path)-1 && cum[i] <= b; i++ {
		t, _ := geom.NearestOnSegment(p, path[i], path[i+1])
		s := max(a, min(b, cum[i]+t*(cum[i+1]-cum[i])))
		q := geom.Lerp(path[i], path[i+1], (s-cum[i])/(cum[i+1]-cum[i]))
		if d := r2.Norm2(r2.Sub(p, q)); d < best {
			best, at = d, s
		}
	}
	return at
}

// Offset returns the signed distance in mm of p from the line at arc length s, as in
// Match.
func Offset(line geom.Line, p geom.Point, s float64) float64 {
	at, way := line.Frame(s)
	return offset(line, p, s, at, way)
}

// offset is Offset where the point of the line and its direction are known.
func offset(line geom.Line, p geom.Point, s float64, at, way geom.Point) float64 {
	d := r2.Sub(p, at)
	across := r2.Cross(way, d)
	if s <= 0 || s >= line.Length() {
		return across
	}
	return math.Copysign(r2.Norm(d), across)
}
