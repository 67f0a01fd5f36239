package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// inradius returns the radius in mm of the largest circle in the shape: for all
// but the rectangle the circle that touches every side, radius 2 x area /
// perimeter.
func (s Shape) inradius() float64 {
	switch s.Kind {
	case Rectangle:
		return math.Min(s.W, s.H) / 2
	case HalfSquare:
		return s.W / (2 + math.Sqrt2)
	case SettingTriangle:
		return s.W / 2 / (1 + math.Sqrt2)
	case Hexagon:
		return s.W * math.Sqrt(3) / 2
	}
	return s.W / 2
}

// middle returns the centre of a largest circle in the shape.
func (s Shape) middle() geom.Point {
	w, h := s.Box()
	switch s.Kind {
	case HalfSquare:
		return geom.Pt(s.inradius(), h-s.inradius())
	case SettingTriangle:
		return geom.Pt(w/2, h-s.inradius())
	}
	return geom.Pt(w/2, h/2)
}

// insetCorners returns the corners of the shape less d mm on all sides, d below
// the inradius. The inset of a shape whose sides all touch one circle is the shape
// itself, shrunk towards the middle of that circle.
func (s Shape) insetCorners(d float64) []geom.Point {
	if s.Kind == Rectangle {
		return Rect{0, 0, s.W, s.H}.Inset(d).corners()
	}
	share := 1 - d/s.inradius()
	out := s.corners()
	for i, p := range out {
		out[i] = geom.Lerp(s.middle(), p, share)
	}
	return out
}

func (r Rect) corners() []geom.Point {
	return []geom.Point{{X: r.X, Y: r.Y}, {X: r.X + r.W, Y: r.Y}, {X: r.X + r.W, Y: r.Y + r.H}, {X: r.X, Y: r.Y + r.H}}
}

// checkInset reports a margin that is negative or leaves nothing of the shape.
func (s Shape) checkInset(d float64) error {
	if !(d >= 0) {
		return fmt.Errorf("the margin of %g mm is no width: take 0 mm or more", d)
	}
	if d >= s.inradius() {
		return &Refusal{NoRoom, "", s, d, 0, fmt.Errorf("the margin of %g mm leaves nothing of the %s: take less than %.4g mm", d, s.describe(), s.inradius())}
	}
	return nil
}

// describe names the shape with its measure, for messages.
func (s Shape) describe() string {
	if s.Kind == Rectangle {
		return fmt.Sprintf("%s of %.4g x %.4g mm", s.Kind, s.W, s.H)
	}
	return fmt.Sprintf("%s of %.4g mm", s.Kind, s.W)
}

// Inset returns the closed outline of the shape less a margin of d mm. It fails
// on a shape that is not valid, and where nothing is left.
func (s Shape) Inset(d float64) (geom.Polyline, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if err := s.checkInset(d); err != nil {
		return nil, err
	}
	if s.Kind == Circle {
		return ring(s.middle(), s.W/2-d), nil
	}
	return closed(s.insetCorners(d)), nil
}
