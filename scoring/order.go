package scoring

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/scoring/align"
)

const (
	// gateFactor times the tolerance is the Frechet distance up to which a line
	// counts as followed in order.
	gateFactor = 2.0
	// thinning in mm is how far the lines may move when points are left out
	// before the Frechet distance is taken, half the accuracy asked of it.
	thinning = 0.05
	// farthest is the Frechet distance in mm beyond which nobody needs a number.
	farthest = 25.0
)

// Order tells whether the line was followed from end to end in its order. No
// measure of mere nearness can: it is blind to going back, to the wrong
// direction and to loops left out.
type Order struct {
	// Way is the way it was followed, Lies how the movement lies on it.
	Way  Way       `json:"way"`
	Lies align.Fit `json:"lies"`
	// Followed is the gate: the Frechet distance is at most twice the tolerance.
	Followed bool `json:"followed"`
	// Frechet is that distance in mm, to 0.2 mm: the shortest leash between one
	// walker on the line and one on the movement, neither turning back.
	Frechet Figure `json:"frechet_mm"`
	// Holes is the same from hole to hole, between the planned ones, a stitch
	// apart on the line, and those that the needle made (the discrete Frechet
	// distance), in mm. It sees long stitches too.
	Holes Figure `json:"holes_frechet_mm"`
}

// Way is a way along the line.
type Way string

// The ways: from the start of the line to its end, from its end to its start, or another
// figure altogether.
const (
	Forward  Way = "forward"
	Backward Way = "backward"
	Other    Way = "other"
)

// way tells which way the line was followed: most of what was sewn.
func (r *run) way() Way {
	switch {
	case r.m.Another:
		return Other
	case r.m.Fit.Backward, r.cover.BackMM > r.line.Length()/2:
		return Backward
	}
	return Forward
}

// mostPairs bounds the pairs of holes that are compared, so that the cost of a
// long trace stays that of its samples.
const mostPairs = 500_000

func (r *run) order() Order {
	d := r.frechet()
	o := Order{Way: r.way(), Lies: r.m.Fit, Followed: d <= gateFactor*r.set.ToleranceMM, Frechet: figure(d), Holes: r.holes()}
	if math.IsInf(d, 1) {
		o.Frechet = undefined(TooFar)
	}
	return o
}

// frechet returns the Frechet distance in mm between the line and the movement, to 0.2 mm,
// +Inf beyond farthest. Mostly the leash that the matching needs is no longer than the way
// from where it is longest to the nearest place of the line, and no search is made.
func (r *run) frechet() float64 {
	line, hand := r.line.Path(), r.p.Points
	longest, p, q := r.leash()
	lo := max(gap(p, line), gap(q, hand), geom.Dist(hand[0], line[0]), geom.Dist(hand[len(hand)-1], line[len(line)-1]))
	switch {
	case lo > farthest:
		return math.Inf(1)
	case longest <= lo+2*thinning:
		return longest
	}
	line, hand = thin(line, thinning), thin(hand, thinning)
	if longest > farthest {
		return align.Frechet(line, hand, 2*thinning, farthest)
	}
	return align.FrechetBetween(line, hand, lo, longest, 2*thinning)
}

// leash returns the length in mm of the leash that one walker on the line needs and one on
// the movement who keep together as they are matched, neither turning back, and where on
// the movement and on the line it is that long. Cost O(points + line).
func (r *run) leash() (longest float64, hand, line geom.Point) {
	path, cum := r.line.Path(), r.line.Cumulative()
	hand, line = r.p.Points[0], path[0]
	look := func(p, q geom.Point) {
		if d := geom.Dist(p, q); d > longest {
			longest, hand, line = d, p, q
		}
	}
	k, before := 0, 0.0
	for i, p := range r.p.Points {
		s := r.m.S[i]
		for ; k < len(cum) && cum[k] <= s; k++ {
			share := 0.0
			if s > before {
				share = (cum[k] - before) / (s - before)
			}
			look(geom.Lerp(r.p.Points[max(0, i-1)], p, share), path[k])
		}
		look(p, r.line.At(s))
		before = s
	}
	for ; k < len(cum); k++ {
		look(r.p.Points[len(r.p.Points)-1], path[k])
	}
	return longest, hand, line
}

// gap returns the distance in mm of p from a polyline.
func gap(p geom.Point, pl geom.Polyline) float64 {
	least := geom.Dist(p, pl[0])
	for i := 1; i < len(pl); i++ {
		_, q := geom.NearestOnSegment(p, pl[i-1], pl[i])
		least = min(least, geom.Dist(p, q))
	}
	return least
}

func (r *run) holes() Figure {
	if !(r.set.TargetMM > 0) || len(r.falls) == 0 {
		return undefined(NoPlan)
	}
	if float64(len(r.falls))*r.line.Length()/r.set.TargetMM > mostPairs {
		return undefined(LongLine)
	}
	made := make(geom.Polyline, len(r.falls))
	for k, f := range r.falls {
		made[k] = f.P
	}
	return figure(align.DiscreteFrechet(r.line.Resample(r.set.TargetMM), made))
}

// thin leaves out points of pl so that those between two that stay lie within
// tol of the piece joining them, in order: each piece then has a Frechet
// distance of at most tol from what it stands for, or 2*tol where the hand
// wavers along it. Pieces grow as long as they may, twice as many points at a
// time. Cost O(n log n).
func thin(pl geom.Polyline, tol float64) geom.Polyline {
	out := geom.Polyline{pl[0]}
	for i := 0; i < len(pl)-1; {
		size := 1
		for i+2*size < len(pl) && fits(pl[i:i+2*size+1], tol) {
			size *= 2
		}
		for half := size / 2; half > 0; half /= 2 {
			if i+size+half < len(pl) && fits(pl[i:i+size+half+1], tol) {
				size += half
			}
		}
		i += size
		out = append(out, pl[i])
	}
	return out
}

// fits tells whether the inner points lie within tol of the piece that joins the
// ends, and do not step back along it by more than tol.
func fits(pl geom.Polyline, tol float64) bool {
	a, b := pl[0], pl[len(pl)-1]
	length := geom.Dist(a, b)
	var furthest float64
	for _, p := range pl[1 : len(pl)-1] {
		t, q := geom.NearestOnSegment(p, a, b)
		if geom.Dist(p, q) > tol || t*length < furthest-tol {
			return false
		}
		furthest = max(furthest, t*length)
	}
	return true
}
