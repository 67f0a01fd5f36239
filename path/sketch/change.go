package sketch

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// What bounds the measuring of a change: the distance in mm between the places of the
// result that are compared with the stroke, the number of places looked from each
// way, how far in mm the chords that stand for the result may lie from it, and their
// number. A stroke that needs fewer of each is measured in full. One that crosses
// itself all over, so that each look must open many boxes, is looked at from as many
// places as mostBoxes allow, judged by the first few.
const (
	lookEvery  = 0.5
	mostLooks  = 20000
	chordOff   = 0.01
	mostChords = 100000
	mostBoxes  = 4e6
	firstLooks = 50
)

// change measures the distance between a stroke and the line made of it: from each
// sample to the line, and from places along the line to the stroke. worst is the
// larger of both maxima; mean is the middle of both means. Cost
// O((samples + places) log), and at most mostBoxes.
func change(stroke geom.Polyline, s geom.Spline) (worst, mean float64) {
	line := chords(s)
	places := line
	if l, err := geom.NewLine(line); err == nil {
		places = l.Resample(math.Max(lookEvery, l.Length()/mostLooks))
	}
	w1, m1 := distances(stroke, newBoxes(line))
	w2, m2 := distances(places, newBoxes(stroke.Compact()))
	return math.Max(w1, w2), (m1 + m2) / 2
}

// chords returns the line as chords even in the parameter, as many as keep within
// chordOff: n of them lie within |B”|/(8 n^2), and B” is at most 6 times the
// largest second difference of the control points.
func chords(s geom.Spline) geom.Polyline {
	out := geom.Polyline{s[0]}
	most := float64(max(4, mostChords/s.Pieces()))
	for i := 0; i < s.Pieces(); i++ {
		a, b, c, d := s.Piece(i)
		bend := math.Max(geom.Dist(geom.Lerp(a, c, 0.5), b), geom.Dist(geom.Lerp(b, d, 0.5), c))
		n := math.Max(1, math.Min(most, math.Ceil(math.Sqrt(1.5*bend/chordOff))))
		for k := 1.0; k <= n; k++ {
			out = append(out, onCubic([4]geom.Point{a, b, c, d}, k/n))
		}
	}
	return out.Compact()
}

// distances returns the largest and the mean distance of points from a polyline.
func distances(from geom.Polyline, to *boxes) (worst, mean float64) {
	opened, looks := 0, 0.0
	look := func(p geom.Point) float64 {
		return math.Sqrt(to.distance2(p, math.Inf(1), &opened))
	}
	every := 1 + (len(from)-1)/firstLooks
	for i := 0; i < len(from); i += every {
		worst, looks = math.Max(worst, look(from[i])), looks+1
	}
	most := math.Min(mostLooks, looks*mostBoxes/float64(opened))
	every = max(1, int(math.Ceil(float64(len(from))/most)))
	looks = 0
	for i := 0; i < len(from); i += every {
		d := look(from[i])
		worst, mean, looks = math.Max(worst, d), mean+d, looks+1
	}
	return worst, mean / looks
}

// boxes is a tree of upright boxes over a polyline, halved down to few segments,
// for finding the nearest place on it.
type boxes struct {
	pl          geom.Polyline
	lo, hi      geom.Point
	left, right *boxes
}

// fewSegments are looked at one by one.
const fewSegments = 8

// newBoxes returns the tree over a polyline of at least one point. Cost O(n log n).
func newBoxes(pl geom.Polyline) *boxes {
	b := &boxes{pl: pl}
	b.lo, b.hi = pl.Bounds()
	if n := len(pl) - 1; n > fewSegments {
		b.left, b.right = newBoxes(pl[:n/2+1]), newBoxes(pl[n/2:])
	}
	return b
}

// distance2 returns the squared distance in mm^2 from p to the polyline, or best
// where that is less, and counts the boxes it opened.
func (b *boxes) distance2(p geom.Point, best float64, opened *int) float64 {
	*opened++
	if b.left == nil {
		best = math.Min(best, r2.Norm2(r2.Sub(p, b.pl[0])))
		for i := 1; i < len(b.pl); i++ {
			_, q := geom.NearestOnSegment(p, b.pl[i-1], b.pl[i])
			best = math.Min(best, r2.Norm2(r2.Sub(p, q)))
		}
		return best
	}
	near, far := b.left, b.right
	dNear, dFar := near.outside2(p), far.outside2(p)
	if dNear > dFar {
		near, far, dNear, dFar = far, near, dFar, dNear
	}
	if dNear < best {
		best = near.distance2(p, best, opened)
	}
	if dFar < best {
		best = far.distance2(p, best, opened)
	}
	return best
}

// outside2 is the squared distance from p to the box, 0 inside.
func (b *boxes) outside2(p geom.Point) float64 {
	var dx, dy float64
	if p.X < b.lo.X {
		dx = b.lo.X - p.X
	} else if p.X > b.hi.X {
		dx = p.X - b.hi.X
	}
	if p.Y < b.lo.Y {
		dy = b.lo.Y - p.Y
	} else if p.Y > b.hi.Y {
		dy = p.Y - b.hi.Y
	}
	return dx*dx + dy*dy
}
