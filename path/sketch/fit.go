package sketch

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Fit turns a stroke of the hand, as the pointer gave it, into a smooth line and
// tells what it changed. The samples may come unevenly, repeat and jitter. They are
// gathered (condense), closed if the ends meet (closeLoop), cut at corners
// (findCorners), smoothed between them (run.smooth), and fitted by as few cubic
// pieces as keep within o.Tolerance of the smoothed stroke (Schneider, Graphics
// Gems, 1990), with one direction where two pieces meet other than in a corner.
// What is nearly straight between two corners becomes straight.
//
// Both ends of an open stroke are kept exactly. Deviations from Schneider: pieces
// are not cut within an eighth of their ends, which bounds the time; directions
// come from the smoothed stroke; neighbouring pieces that one cubic can replace
// are merged afterwards.
//
// It fails on options out of range, on a sample that is not finite, by its index,
// and with ErrDot where the stroke goes nowhere. Cost O(n log n) for n samples; at
// most maxPoints points are fitted however many samples there are.
func Fit(stroke geom.Polyline, o Options) (geom.Spline, Fitted, error) {
	if err := o.Validate(); err != nil {
		return nil, Fitted{}, err
	}
	if err := checkStroke(stroke, o.Tolerance); err != nil {
		return nil, Fitted{}, err
	}
	pts, noise, step := average(stroke, o.Scale)
	o.Scale = scaleFor(o.Scale, noise, step)
	pts = condense(pts, o.Scale)
	loop, closed := closeLoop(pts, o)
	f := fitting{o: o}
	if closed {
		f.loop(loop)
	} else {
		f.open(pts)
	}
	f.told.Closed = closed
	f.told.Pieces = f.out.Pieces()
	f.told.MaxChange, f.told.MeanChange = change(stroke, f.out)
	return f.out, f.told, nil
}

// fitting is the work on one stroke: the line so far, and what there is to tell.
type fitting struct {
	o    Options
	out  geom.Spline
	told Fitted
}

// open fits an open stroke.
func (f *fitting) open(pts geom.Polyline) {
	r := run{pts: pts, at: pts.Cumulative()}
	from := geom.Polyline{pts[0]}
	next := 1
	for _, c := range r.findCorners(f.o.Scale, f.o.Corner) {
		f.section(append(append(from, pts[next:c.after+1]...), c.place))
		f.told.Corners = append(f.told.Corners, f.out.Pieces())
		from, next = geom.Polyline{c.place}, c.after+1
	}
	f.section(append(from, pts[next:]...))
}

// loop fits a closed stroke, beginning in its first corner if it has one.
func (f *fitting) loop(pts geom.Polyline) {
	round := append(append(geom.Polyline{}, pts...), pts[0])
	at := round.Cumulative()
	r := run{pts: pts, at: at[:len(pts)], period: at[len(pts)]}
	corners := r.findCorners(f.o.Scale, f.o.Corner)
	if len(corners) == 0 {
		f.fit(r.smoothed(f.o.Scale))
		return
	}
	twice := append(append(geom.Polyline{}, pts...), pts...)
	for i, c := range corners {
		next := corners[(i+1)%len(corners)]
		last := next.after
		if i == len(corners)-1 {
			last += len(pts)
		}
		f.told.Corners = append(f.told.Corners, f.out.Pieces())
		part := append(geom.Polyline{c.place}, twice[c.after+1:last+1]...)
		f.section(append(part, next.place))
	}
}

// section smooths a part of the stroke from corner or end to corner or end, whose
// first and last point stay, and fits it.
func (f *fitting) section(pts geom.Polyline) {
	pts = thinned(pts, f.o.Scale/(2*pointsPerScale))
	s := run{pts: pts, at: pts.Cumulative()}.smoothed(f.o.Scale)
	s.pts[0], s.pts[len(pts)-1] = pts[0], pts[len(pts)-1]
	f.fit(s)
}

// section is a smoothed part of a stroke with its unit directions of travel.
type section struct{ pts, along []geom.Point }

// smoothed returns the run smoothed; a loop gives its first point again as the last.
func (r run) smoothed(scale float64) section {
	var s section
	for i := range r.pts {
		place, slope := r.smooth(i, scale)
		s.pts, s.along = append(s.pts, place), append(s.along, slope)
	}
	if r.period > 0 {
		s.pts, s.along = append(s.pts, s.pts[0]), append(s.along, s.along[0])
	}
	for i, v := range s.along {
		if r2.Norm(v) < 1e-9 {
			v = r2.Sub(s.pts[min(i+1, len(s.pts)-1)], s.pts[max(i-1, 0)])
		}
		if n := r2.Norm(v); n > 0 {
			v = r2.Scale(1/n, v)
		}
		s.along[i] = v
	}
	return s
}

// smallBow is the largest share of its chord by which a part may bow to be made
// straight, 11 degrees of turn.
const smallBow = 1.0 / 20

// nearlyStraight tells whether the section lies within tol mm of its chord and runs
// along it.
func (s section) nearlyStraight(tol float64) bool {
	a, b := s.pts[0], s.pts[len(s.pts)-1]
	tol = math.Min(tol, smallBow*geom.Dist(a, b))
	for _, p := range s.pts {
		if _, q := geom.NearestOnSegment(p, a, b); geom.Dist(p, q) > tol {
			return false
		}
	}
	return true
}

// fit adds the pieces for one section to the line.
func (f *fitting) fit(s section) {
	if f.out == nil {
		f.out = geom.Spline{s.pts[0]}
	}
	if len(s.pts) == 2 || s.nearlyStraight(f.o.Straight) {
		f.out = f.out.LineTo(s.pts[len(s.pts)-1])
		f.told.Straight++
		return
	}
	for _, c := range merge(s, cut(s, 0, len(s.pts)-1, f.o.Tolerance, nil), f.o.Tolerance) {
		f.out = append(f.out, c.c[1:]...)
	}
}
