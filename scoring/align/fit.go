package align

import (
	"math"
	"math/cmplx"
	"slices"

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

// fitter finds the fits of one movement to one line in one direction.
type fitter struct {
	st       *states
	obs      []observation
	length   float64 // mm of the movement
	backward bool

	best  Fit
	price float64
	found explained
}

// fitted returns the fit of least price, and whether even so the movement is another
// figure.
func fitted(line geom.Line, pts geom.Polyline) (best Fit, another bool) {
	way := pts.Length()
	step := max(line.Length(), way) / places
	obs := observe(pts, max(step, min(way/40, 4)))
	price := math.Inf(1)
	var chosen *fitter
	for _, backward := range []bool{false, true} {
		along := line
		if backward {
			along = reversed(line)
		}
		n := math.Ceil(along.Length() / max(step, min(along.Length()/40, 4)))
		f := &fitter{st: index(along, along.Length()/n), obs: obs, length: way, backward: backward, price: math.Inf(1)}
		f.search(along)
		if f.price < price {
			// One observation more or less makes no movement a backward one.
			best, price, chosen = f.best, f.price-1, f
		}
	}
	best.Backward = chosen.backward
	if best.Backward {
		best.Side = -best.Side
	}
	return best, chosen.another(line)
}

// search tries the kinds from several beginnings: in place, starting together, and by
// the share of the way, where place and size come out at once if all of the line was
// sewn.
func (f *fitter) search(along geom.Line) {
	f.besides(f.refit(inPlace, Shifted))
	first := f.obs[0].p
	start := f.st.at[0]
	f.refit(f.lay(Shifted, 1, complex(start.X-first.X, start.Y-first.Y)), Shifted)
	z, w := f.byShare(along)
	for _, kind := range []Kind{Shifted, Resized, Turned} {
		if t, ok := f.fit(kind, z, w); ok {
			f.refit(t, kind)
		}
	}
}

// refit matches and fits by turns, from a fit on, with ever more freedom beginning with
// that of a kind. It returns how the movement is matched as it is laid first.
func (f *fitter) refit(t Fit, kind Kind) (first explained) {
	first = f.weigh(t)
	e := first
	for _, k := range []Kind{Shifted, Resized, Turned} {
		if k.free() < kind.free() {
			continue
		}
		for range rounds {
			z, w := f.pairs(t, e)
			next, ok := f.fit(k, z, w)
			if !ok {
				return first
			}
			if f.alike(next, t) {
				break // it would be matched as before, at no lower price
			}
			t = next
			e = f.weigh(t)
		}
	}
	return first
}

// alike tells whether two fits lay the movement so nearly alike that no place of it is
// matched otherwise.
func (f *fitter) alike(t, u Fit) bool {
	for _, o := range f.obs {
		if z := complex(o.p.X, o.p.Y); cmplx.Abs((t.a-u.a)*z+t.b-u.b) > hairMM {
			return false
		}
	}
	return true
}

// besides tries the movement as one at a constant distance to the side, beginning with how it
// is matched in place.
func (f *fitter) besides(e explained) {
	for range rounds + 1 {
		var d []float64
		for j, o := range e.seen {
			k := int(math.Round(e.chosen[j] / f.st.step))
			t, p := f.st.way[k], f.st.at[k]
			d = append(d, t.X*(o.p.Y-p.Y)-t.Y*(o.p.X-p.X))
		}
		if len(d) == 0 {
			return
		}
		slices.Sort(d)
		t := inPlace
		t.Kind, t.Side = Beside, d[len(d)/2]
		e = indexed(aside(f.st, t.Side), f.st.step).explain(f.obs)
		f.take(t, e, math.Abs(t.Side))
	}
}

// weigh matches the movement as laid by a fit and takes the fit if it is the best yet.
func (f *fitter) weigh(t Fit) explained {
	e := f.st.explain(f.laid(t))
	f.take(t, e, math.Hypot(t.Shift.X, t.Shift.Y))
	return e
}

// take keeps a fit if its price is the least yet: that of matching, by independent
// observations, its free parameters (as the Bayesian information criterion has them:
// Schwarz, Annals of Statistics 6, 1978), and the shift in mm.
func (f *fitter) take(t Fit, e explained, shift float64) {
	n := max(1, f.length/independent)
	p := e.price/independent + t.Kind.free()/2*math.Log(n) + shift/shiftPrice
	if p < f.price {
		f.best, f.price, f.found = t, p, e
	}
}

// laid returns the observations as a fit lays them.
func (f *fitter) laid(t Fit) []observation {
	if !t.moves() {
		return f.obs
	}
	out := make([]observation, len(f.obs))
	size := cmplx.Abs(t.a)
	for j, o := range f.obs {
		w := t.a / complex(size, 0) * complex(o.way.X, o.way.Y)
		out[j] = observation{i: o.i, p: t.Onto(o.p), way: geom.Pt(real(w), imag(w)), move: size * o.move}
	}
	return out
}

// byShare pairs the points of the movement with those of the line that lie at the same
// share of the way.
func (f *fitter) byShare(along geom.Line) (z, w []complex128) {
	var arc float64
	for _, o := range f.obs {
		arc += o.move
		p := along.At(arc / max(f.length, 1e-9) * along.Length())
		z, w = append(z, complex(o.p.X, o.p.Y)), append(w, complex(p.X, p.Y))
	}
	return z, w
}

// pairs pairs the points of the movement with the places that were chosen for them.
func (f *fitter) pairs(t Fit, e explained) (z, w []complex128) {
	at := map[int]geom.Point{}
	for j, o := range e.seen {
		at[o.i] = f.st.at[int(math.Round(e.chosen[j]/f.st.step))]
	}
	for _, o := range f.obs {
		if p, ok := at[o.i]; ok {
			z, w = append(z, complex(o.p.X, o.p.Y)), append(w, complex(p.X, p.Y))
		}
	}
	return z, w
}

// fit returns the fit of a kind that brings the points z nearest to w by least squares,
// made anew to the nearest of them; not ok where they say nothing, or nothing that is
// still the same figure.
func (f *fitter) fit(kind Kind, z, w []complex128) (t Fit, ok bool) {
	if len(z) < 8 {
		return Fit{}, false
	}
	a, b := leastSquares(kind, z, w)
	far := make([]float64, len(z))
	for i := range z {
		far[i] = cmplx.Abs(a*z[i] + b - w[i])
	}
	bound := slices.Clone(far)
	slices.Sort(bound)
	least := bound[int(kept*float64(len(bound)-1))]
	var zs, ws []complex128
	for i, d := range far {
		if d <= least {
			zs, ws = append(zs, z[i]), append(ws, w[i])
		}
	}
	a, b = leastSquares(kind, zs, ws)
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
	t := Fit{Kind: kind, Size: 1 / cmplx.Abs(a), Angle: -cmplx.Phase(a), a: a, b: b}
	n := 1 / float64(len(f.obs))
	for _, o := range f.obs {
		p := t.Onto(o.p)
		t.Shift.X += n * (o.p.X - p.X)
		t.Shift.Y += n * (o.p.Y - p.Y)
	}
	return t
}
