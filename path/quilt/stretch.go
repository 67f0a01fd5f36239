package quilt

import (
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
)

// stretched returns a design of nothing but ruler work in a rectangle fitted anew to another:
// straight lines stay straight and go between the same places of the sides. False for any
// other design, since curves would change their shape.
func (d Design) stretched(to motif.Shape) (Design, bool) {
	if d.Recipe != nil || len(d.Lines) == 0 || d.Shape.Kind != motif.Rectangle || to.Kind != motif.Rectangle {
		return d, false
	}
	across, down := to.W/d.Shape.W, to.H/d.Shape.H
	lines := make([]Line, len(d.Lines))
	for i, l := range d.Lines {
		if plane.Kind(l.Kind) != plane.Ruler && plane.Kind(l.Kind) != plane.Seam {
			return d, false
		}
		path := make(geom.Spline, len(l.Path))
		for k, p := range l.Path {
			path[k] = geom.Pt(p.X*across, p.Y*down)
		}
		longer := path.Flatten().Length() / l.Path.Flatten().Length()
		var dots []float64
		for _, s := range l.Dots {
			dots = append(dots, s*longer)
		}
		l.Path, l.Dots = path, dots
		lines[i] = l
	}
	d.Shape, d.Lines = to, lines
	return d, true
}
