package align

import (
	"math"
	"math/cmplx"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Kind tells how a movement lies on its line.
type Kind string

// The kinds, from the plainest: where the line is, at one distance to its side
// throughout, the same figure elsewhere, at another size too, turned too.
const (
	InPlace Kind = "in-place"
	Beside  Kind = "beside"
	Shifted Kind = "shifted"
	Resized Kind = "resized"
	Turned  Kind = "turned"
)

// Fit is how a movement lies on its line.
type Fit struct {
	Kind Kind `json:"kind"`
	// Backward tells that it goes from the end of the line to its start.
	Backward bool `json:"backward,omitempty"`
	// Side is the distance in mm at which it goes beside the line, positive to the right
	// hand of the direction of the line; 0 unless Beside.
	Side float64 `json:"side_mm,omitempty"`
	// Size is that of the movement over that of the line, Angle by how much it is turned,
	// in radians, positive clockwise to the eye.
	Size  float64 `json:"size"`
	Angle float64 `json:"angle_rad,omitempty"`
	// Shift is the mean distance in mm, as a vector, from where the movement would lie in
	// place.
	Shift geom.Point `json:"shift_mm,omitzero"`

	a, b complex128 // a*z + b lays the point z of the movement over the line
}

var inPlace = Fit{Kind: InPlace, Size: 1, a: 1}

const (
	// independent is the length in mm of movement that counts as one observation: what
	// lies nearer together strays together.
	independent = 20.0
	// shiftPrice in mm is the shift that costs as much as one such observation.
	shiftPrice = 3.0
	// kept is the share of the places that a fit is made to, the nearest ones (trimmed
	// iterative closest point: Chetverikov, Svirko, Stepanov and Krsek, ICPR 2002, from
	// memory).
	kept = 0.85
	// mostSize and mostAngle bound what is still the same figure; less than leastSize
	// from 1 is what hands stray.
	leastSize = 0.04
	mostSize  = 1.5
	mostAngle = math.Pi / 4
	// hairMM is a distance that changes no match: the places lie some 4 mm apart.
	hairMM = 0.05
	// rounds is how often a fit of one kind is made anew after matching.
	rounds = 2
	// places is about how many places of movement and line a fit is found with.
	places = 200
)

// free returns the number of free parameters of a kind.
func (k Kind) free() float64 {
	switch k {
	case Beside:
		return 1
	case Shifted:
		return 2
	case Resized:
		return 3
	case Turned:
		return 4
	}
	return 0
}

// moves tells whether the movement has to be moved to lie over the line.
func (f Fit) moves() bool { return f.Kind != InPlace && f.Kind != Beside }

// Onto lays a point of the movement over the line; one beside it stays where it is.
func (f Fit) Onto(p geom.Point) geom.Point {
	if !f.moves() {
		return p
	}
	w := f.a*complex(p.X, p.Y) + f.b
	return geom.Pt(real(w), imag(w))
}

// side returns Side as seen in the direction of the movement.
func (f Fit) side() float64 {
	if f.Backward {
		return -f.Side
	}
	return f.Side
}

// aside returns the places of states moved by so many mm to the right hand.
func aside(st *states, mm float64) geom.Polyline {
	out := make(geom.Polyline, len(st.at))
	for k, p := range st.at {
		out[k] = geom.Pt(p.X-mm*st.way[k].Y, p.Y+mm*st.way[k].X)
	}
	return out
}

// fitter finds the fit of one movement to one line.
type fitter struct {
	st       *states // in the direction that is tried
	backward bool    // that it is that from the end of the line to its start
	obs      []observation
	mean     complex128 // of their points
	length   float64    // mm of the movement

	// The best fit so far, its price, how the movement is matched then and to what.
	best  Fit
	price float64
	found explained
	on    *states

	// Memory used again and again: pairs of points, how far they lie apart, and the
	// observations as a fit lays them.
	z, w  []complex128
	far   []float64
	moved []observation
}

// fitted returns the fit of least price, and whether even so the movement is another
// figure.
func fitted(line geom.Line, pts geom.Polyline) (best Fit, another bool) {
	way := pts.Length()
	step := max(line.Length(), way) / places
	f := &fitter{obs: observe(pts, max(step, min(way/40, 4))), length: way, price: math.Inf(1)}
	f.found.price = math.Inf(1)
	for _, o := range f.obs {
		f.mean += complex(o.p.X, o.p.Y) / complex(float64(len(f.obs)), 0)
	}
	n := math.Ceil(line.Length() / max(step, min(line.Length()/40, 4)))
	forward := index(line, line.Length()/n)
	directions := []*states{forward, forward.reversed()}
	var at [2]explained // in place
	for k, st := range directions {
		f.st, f.backward = st, k > 0
		at[k] = f.weigh(inPlace)
	}
	for k, st := range directions {
		f.st, f.backward = st, k > 0
		f.search(line, at[k])
	}
	if f.best.Backward {
		f.best.Side = -f.best.Side
	}
	return f.best, f.another(line)
}

// search tries the kinds from several beginnings: in place, starting together, and by
// the share of the way, where place and size come out at once if all of the line was
// sewn. It is told how the movement is matched in place.
func (f *fitter) search(line geom.Line, inplace explained) {
	f.refit(inPlace, inplace, Shifted)
	f.besides(inplace)
	d := r2.Sub(f.st.at[0], f.obs[0].p)
	together := f.lay(Shifted, 1, complex(d.X, d.Y))
	f.refit(together, f.weigh(together), Shifted)
	for _, kind := range []Kind{Shifted, Resized, Turned} {
		z, w := f.byShare(line)
		if t, ok := f.fit(kind, z, w); ok {
			f.refit(t, f.weigh(t), kind)
		}
	}
}

// refit fits and matches by turns, from a fit and how the movement is matched then, with
// ever more freedom beginning with that of a kind.
func (f *fitter) refit(t Fit, e explained, kind Kind) {
	for _, k := range []Kind{Shifted, Resized, Turned} {
		if k.free() < kind.free() {
			continue
		}
		for range rounds {
			z, w := f.pairs(e)
			next, ok := f.fit(k, z, w)
			if !ok || f.least(next) >= f.price {
				return
			}
			if f.alike(next, t) {
				break // it would be matched as before, at no lower price
			}
			t = next
			e = f.weigh(t)
		}
	}
}

// alike tells whether two fits lay the movement so nearly alike that no place of it is
// matched otherwise.
func (f *fitter) alike(t, u Fit) bool {
	for _, o := range f.obs {
		if z := complex(o.p.X, o.p.Y); square((t.a-u.a)*z+t.b-u.b) > hairMM*hairMM {
			return false
		}
	}
	return true
}

// besides tries the movement as one at a constant distance to the side, beginning with how it
// is matched in place.
func (f *fitter) besides(e explained) {
	side := 0.0
	for range rounds + 1 {
		d := f.far[:0]
		for j, o := range e.seen {
			k := int(math.Round(e.chosen[j] / f.st.step))
			t, p := f.st.way[k], f.st.at[k]
			d = append(d, t.X*(o.p.Y-p.Y)-t.Y*(o.p.X-p.X))
		}
		if f.far = d; len(d) == 0 {
			return
		}
		t := inPlace
		t.Kind, t.Side = Beside, smallest(d, len(d)/2)
		if math.Abs(t.Side-side) < hairMM || f.least(t) >= f.price {
			return
		}
		side = t.Side
		e = indexed(aside(f.st, side), f.st.step).explainBelow(f.limit(), f.obs)
		f.take(t, e)
	}
}

// weigh matches the movement as laid by a fit and takes the fit if it is the best yet.
func (f *fitter) weigh(t Fit) explained {
	e := f.st.explainBelow(f.limit(), f.laid(t))
	f.take(t, e)
	return e
}

// limit returns the price of matching from which on a fit is not followed up: none as long
// as nothing explains the movement plainly.
func (f *fitter) limit() float64 {
	if f.found.price > plainPrice*f.length {
		return math.Inf(1)
	}
	return 2 * plainPrice * f.length
}

// least returns the least price that a fit can have: that of its free parameters (as the
// Bayesian information criterion has them: Schwarz, Annals of Statistics 6, 1978), and of
// how many mm it lies elsewhere.
func (f *fitter) least(t Fit) float64 {
	n := max(1, f.length/independent)
	p := t.Kind.free()/2*math.Log(n) + (math.Abs(t.Side)+math.Hypot(t.Shift.X, t.Shift.Y))/shiftPrice
	if f.backward {
		p++ // one observation more or less makes no movement a backward one
	}
	return p
}

// take keeps a fit if its price, with that of matching, by independent observations, is the
// least yet.
func (f *fitter) take(t Fit, e explained) {
	if p := f.least(t) + e.price/independent; p < f.price {
		e.seen = slices.Clone(e.seen) // they may lie in f.moved
		f.best, f.price, f.found, f.on = t, p, e, f.st
		f.best.Backward = f.backward
	}
}

// laid returns the observations as a fit lays them.
func (f *fitter) laid(t Fit) []observation {
	if !t.moves() {
		return f.obs
	}
	f.moved = sized(f.moved, len(f.obs))
	size := cmplx.Abs(t.a)
	turn := t.a / complex(size, 0)
	for j, o := range f.obs {
		w := turn * complex(o.way.X, o.way.Y)
		f.moved[j] = observation{i: o.i, p: t.Onto(o.p), way: geom.Pt(real(w), imag(w)), move: size * o.move}
	}
	return f.moved
}

// byShare pairs the points of the movement with those of the line that lie at the same
// share of the way.
func (f *fitter) byShare(line geom.Line) (z, w []complex128) {
	z, w = f.z[:0], f.w[:0]
	var arc float64
	for _, o := range f.obs {
		arc += o.move
		share := arc / max(f.length, 1e-9)
		if f.backward {
			share = 1 - share
		}
		p := line.At(share * line.Length())
		z, w = append(z, complex(o.p.X, o.p.Y)), append(w, complex(p.X, p.Y))
	}
	f.z, f.w = z, w
	return z, w
}

// pairs pairs the points of the movement with the places that were chosen for them.
func (f *fitter) pairs(e explained) (z, w []complex128) {
	z, w = f.z[:0], f.w[:0]
	k := 0
	for j, o := range e.seen {
		for f.obs[k].i != o.i {
			k++
		}
		p, q := f.obs[k].p, f.st.at[int(math.Round(e.chosen[j]/f.st.step))]
		z, w = append(z, complex(p.X, p.Y)), append(w, complex(q.X, q.Y))
	}
	f.z, f.w = z, w
	return z, w
}

// square returns the square of the length of z.
func square(z complex128) float64 { return real(z)*real(z) + imag(z)*imag(z) }

// smallest returns the k-th smallest of v, from 0, which it sorts in part (quickselect:
// Hoare, Communications of the ACM 4, 1961). Cost O(len(v)) on the average.
func smallest(v []float64, k int) float64 {
	for lo, hi := 0, len(v)-1; lo < hi; {
		mid := v[lo+(hi-lo)/2]
		i, j := lo, hi
		for i <= j {
			for v[i] < mid {
				i++
			}
			for v[j] > mid {
				j--
			}
			if i <= j {
				v[i], v[j] = v[j], v[i]
				i, j = i+1, j-1
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return v[k]
		}
	}
	return v[k]
}

// fit returns the fit of a kind that brings the points z nearest to w by least squares,
// made anew to the nearest of them, which move to the front of z and w; not ok where they
// say nothing, or nothing that is still the same figure.
func (f *fitter) fit(kind Kind, z, w []complex128) (t Fit, ok bool) {
	if len(z) < 8 {
		return Fit{}, false
	}
	a, b := leastSquares(kind, z, w)
	far := f.far[:0]
	for i := range z {
		far = append(far, square(a*z[i]+b-w[i]))
	}
	f.far = append(far, far...)
	bound := smallest(f.far[len(z):], int(kept*float64(len(z)-1)))
	n := 0
	for i, d := range far {
		if d <= bound {
			z[n], w[n] = z[i], w[i]
			n++
		}
	}
	a, b = leastSquares(kind, z[:n], w[:n])
	size, angle := 1/cmplx.Abs(a), -cmplx.Phase(a)
	if !(size < mostSize && size > 1/mostSize && math.Abs(angle) < mostAngle) || kind == Resized && math.Abs(size-1) < leastSize {
		return Fit{}, false
	}
	return f.lay(kind, a, b), true
}

// leastSquares returns a and b of a kind such that a*z + b lies nearest to w.
func leastSquares(kind Kind, z, w []complex128) (a, b complex128) {
	var mz, mw complex128
	n := complex(float64(len(z)), 0)
	for i := range z {
		mz, mw = mz+z[i]/n, mw+w[i]/n
	}
	a = 1
	if kind != Shifted {
		var cross complex128
		var square float64
		for i := range z {
			c, d := cmplx.Conj(z[i]-mz), w[i]-mw
			cross += d * c
			square += real((z[i] - mz) * c)
		}
		if kind == Resized {
			cross = complex(real(cross), 0)
		}
		if square > 0 && real(cross) > 0 {
			a = cross / complex(square, 0)
		}
	}
	return a, mw - a*mz
}

// lay returns the fit of a kind that lays z over the line as a*z + b.
func (f *fitter) lay(kind Kind, a, b complex128) Fit {
	shift := f.mean - (a*f.mean + b)
	return Fit{
		Kind: kind, Size: 1 / cmplx.Abs(a), Angle: -cmplx.Phase(a), a: a, b: b, Shift: geom.Pt(real(shift), imag(shift)),
	}
}
