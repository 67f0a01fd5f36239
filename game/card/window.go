package card

import (
	"unthreaded/path/geom"
)

// window is the part of the drawing that a sheet shows, from its upper left to its
// lower right corner in mm; dx and dy move a place on the drawing to the page.
type window struct {
	from, to geom.Point
	dx, dy   float64
}

// onPage returns the place on the page of a place on the drawing.
func (w window) onPage(p geom.Point) geom.Point { return geom.Pt(p.X+w.dx, p.Y+w.dy) }

// holds tells whether the window shows a place with room mm round it.
func (w window) holds(p geom.Point, room float64) bool {
	return p.X >= w.from.X+room && p.X <= w.to.X-room && p.Y >= w.from.Y+room && p.Y <= w.to.Y-room
}

// clip returns the parts of a path that the window shows, on the page. Cost
// O(points).
func (w window) clip(path geom.Polyline) []geom.Polyline {
	var out []geom.Polyline
	var run geom.Polyline
	for i := 1; i < len(path); i++ {
		a, b, ok := w.segment(path[i-1], path[i])
		if !ok {
			continue
		}
		a, b = w.onPage(a), w.onPage(b)
		if len(run) == 0 || geom.Dist(run[len(run)-1], a) > 1e-6 {
			if len(run) > 0 {
				out = append(out, run)
			}
			run = geom.Polyline{a}
		}
		run = append(run, b)
	}
	if len(run) > 0 {
		out = append(out, run)
	}
	return out
}

// segment returns the part of a segment within the window, false where there is
// none (Liang & Barsky, ACM Transactions on Graphics 3, 1984).
func (w window) segment(a, b geom.Point) (geom.Point, geom.Point, bool) {
	t0, t1 := 0.0, 1.0
	for _, edge := range [4][2]float64{
		{a.X - b.X, a.X - w.from.X}, {b.X - a.X, w.to.X - a.X},
		{a.Y - b.Y, a.Y - w.from.Y}, {b.Y - a.Y, w.to.Y - a.Y},
	} {
		p, q := edge[0], edge[1]
		switch {
		case p == 0 && q < 0:
			return a, b, false
		case p < 0:
			t0 = max(t0, q/p)
		case p > 0:
			t1 = min(t1, q/p)
		}
	}
	if t0 > t1 {
		return a, b, false
	}
	return geom.Lerp(a, b, t0), geom.Lerp(a, b, t1), true
}
