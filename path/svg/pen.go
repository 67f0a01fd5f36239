package svg

import (
	"errors"
	"fmt"

	"unthreaded/path/geom"
)

// stroke is one subpath in mm.
type stroke struct {
	path   geom.Spline
	closed bool
}

// pen draws subpaths in user units and keeps them in mm. Its methods stop drawing at
// the first fault, which err then holds.
type pen struct {
	m       matrix // user units to mm
	curves  *int   // what is left of MaxCurves for the whole file
	cur     geom.Point
	start   geom.Point // of the subpath
	strokes []stroke
	drawing bool // the last stroke is not finished
	lost    int  // subpaths without length
	err     error
}

// errFull tells that a file has more curves than MaxCurves; reading ends there.
var errFull = fmt.Errorf("the lines have more than %d curves", MaxCurves)

// moveTo begins a subpath at p.
func (p *pen) moveTo(to geom.Point) {
	p.finish(false)
	p.cur, p.start = to, to
}

// add appends one curve: two control points and the end, in user units.
func (p *pen) add(b, c, d geom.Point) {
	if s := p.room(d); s != nil {
		s.path = append(s.path, p.m.apply(b), p.m.apply(c), p.m.apply(d))
		p.check(s)
	}
}

// lineTo appends a straight piece.
func (p *pen) lineTo(to geom.Point) {
	if s := p.room(to); s != nil {
		s.path = s.path.LineTo(p.m.apply(to))
		p.check(s)
	}
}

// quadTo appends a quadratic curve, raised to the cubic that is the same curve.
func (p *pen) quadTo(b, c geom.Point) {
	p.add(geom.Lerp(p.cur, b, 2.0/3), geom.Lerp(c, b, 2.0/3), c)
}

// room returns the stroke that a curve to the point is to be added to, nil after a
// fault, and moves on to that point.
func (p *pen) room(to geom.Point) *stroke {
	if p.err != nil {
		return nil
	}
	if *p.curves--; *p.curves < 0 {
		p.err = errFull
		return nil
	}
	if !p.drawing {
		p.strokes = append(p.strokes, stroke{path: geom.Spline{p.m.apply(p.cur)}})
		p.drawing = true
	}
	p.cur = to
	return &p.strokes[len(p.strokes)-1]
}

// check drops the curve that was added last, and with it what would follow, if it
// leaves the bounds of all places.
func (p *pen) check(s *stroke) {
	from := max(0, len(s.path)-4)
	for _, q := range s.path[from:] {
		if !(abs(q.X) <= MaxPlace && abs(q.Y) <= MaxPlace) {
			p.err = fmt.Errorf("a place lies farther than %g mm from the page", MaxPlace)
			s.path = s.path[:len(s.path)-3]
			return
		}
	}
}

func abs(v float64) float64 { return max(v, -v) }

// closePath goes back to the start of the subpath, straight unless it is there.
func (p *pen) closePath() {
	if geom.Dist(p.m.apply(p.cur), p.m.apply(p.start)) > samePlace {
		p.lineTo(p.start)
	}
	if p.err == nil && !p.drawing {
		p.lost++
	}
	if p.err == nil {
		p.finish(true)
	}
	p.cur = p.start
}

// finish ends the subpath; one without length is no line.
func (p *pen) finish(closed bool) {
	if !p.drawing {
		return
	}
	p.drawing = false
	s := &p.strokes[len(p.strokes)-1]
	s.closed = closed
	if closed { // by as much as rounding may have parted them
		s.path[len(s.path)-1] = s.path[0]
	}
	if !hasLength(s.path) {
		p.strokes = p.strokes[:len(p.strokes)-1]
		p.lost++
	}
}

// hasLength tells whether any point of the spline lies off its start.
func hasLength(s geom.Spline) bool {
	for _, q := range s {
		if geom.Dist(q, s[0]) > samePlace {
			return true
		}
	}
	return false
}

// end finishes the drawing and returns what was drawn, up to the first fault.
func (p *pen) end() ([]stroke, error) {
	p.finish(false)
	if p.err == nil && p.lost > 0 {
		return p.strokes, errNoLength
	}
	return p.strokes, p.err
}

var errNoLength = errors.New("a subpath has no length")
