package scene

import (
	"math"
	"slices"

	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/scoring"
)

// The strip's margins in CSS pixels; the page's slider has the same ones.
const (
	StripSide   = 16.0
	StripScale  = 80.0 // on the left, where the speeds have their scale
	StripTop    = 24.0
	StripBottom = 8.0
)

// Axes map place on the line (mm) and hand speed (mm/s) to the strip.
type Axes struct {
	TextLeft, TextRight, Top, Bottom float64
	Length, Fastest                  float64
}

func (a Axes) X(s float64) float64 { return a.TextLeft + (a.TextRight-a.TextLeft)*s/a.Length }

func (a Axes) Y(v float64) float64 {
	return a.Bottom - (a.Bottom-a.Top)*math.Min(1, v/a.Fastest)
}

// StripAxes are those of the strip under a line of so many mm: speeds from 0 to twice the
// planned one in mm/s, or to those of the fastest of the traces. The fastest twentieth of a
// trace may go over the edge, so that one jump does not flatten all the rest.
func StripAxes(s screen.Cloth, lineMM, planned float64, sheets ...*replay.Sheet) Axes {
	a := Axes{
		TextLeft: StripScale, TextRight: s.W - StripSide,
		Top: s.H - s.Strip + StripTop, Bottom: s.H - StripBottom,
		Length: math.Max(1, lineMM), Fastest: 2 * planned,
	}
	for _, sh := range sheets {
		if sh == nil {
			continue
		}
		if v := slices.Sorted(slices.Values(sh.Prep.Speed)); len(v) > 0 {
			a.Fastest = math.Max(a.Fastest, 1.15*v[len(v)*19/20])
		}
	}
	return a
}

// StripWords are what stands on the strip: its title, what the dashed line is, and the
// planned speed.
type StripWords struct{ Title, Dashed, Speed string }

// StripScales is the ground of the strip: no speed at its foot, the planned one in mm/s
// with its tick, and the band of speeds near it.
func StripScales(s screen.Cloth, a Axes, planned float64, w StripWords, pal look.Palette) []Item {
	low, high, mid := a.Y(planned*(1-scoring.NearShare)), a.Y(planned*(1+scoring.NearShare)), a.Y(planned)
	items := []Item{
		Rect(a.TextLeft, high, a.TextRight-a.TextLeft, low-high, pal.Weave),
		Line(1, pal.Mute, geom.Pt(a.TextLeft, a.Bottom), geom.Pt(a.TextRight, a.Bottom)),
		Line(1, pal.Mute, geom.Pt(a.TextLeft-5, mid), geom.Pt(a.TextLeft, mid)),
	}
	items = append(items, Dashes([]geom.Point{geom.Pt(a.TextLeft, mid), geom.Pt(a.TextRight, mid)}, 8, 5, 1.5, pal.Chalk)...)
	at := func(text string, align Align, x, y float64) Item {
		it := Text(text, geom.Pt(x, y), pal.Mute)
		it.Align = align
		return it
	}
	top := s.H - s.Strip
	return append(items,
		at(w.Title, Left, StripSide, top+13),
		at(w.Dashed, Right, a.TextRight, top+13),
		at(w.Speed, Right, a.TextLeft-8, mid))
}

// SpeedLine returns the speed over the place on the line, thinned to what a
// screen can show.
func SpeedLine(sh *replay.Sheet, a Axes) []geom.Point {
	var pts []geom.Point
	for i, s := range sh.Place {
		p := geom.Pt(a.X(s), a.Y(sh.Prep.Speed[i]))
		if len(pts) == 0 || geom.Dist(p, pts[len(pts)-1]) > 0.7 {
			pts = append(pts, p)
		}
	}
	return pts
}

// SpeedPieces draws the speed in pieces by the size of stitch it makes.
func SpeedPieces(sh *replay.Sheet, a Axes, planned float64, pal look.Palette) []Item {
	styles := map[Size]Item{
		Near:  Line(2.4, pal.Thread),
		Short: Line(3.4, pal.Short),
		Long:  Line(1.6, pal.Long),
	}
	var items []Item
	var part []geom.Point
	kind := Near
	flush := func() {
		if len(part) > 0 {
			it := styles[kind]
			it.Points = part
			items = append(items, it)
		}
	}
	for i, s := range sh.Place {
		p := geom.Pt(a.X(s), a.Y(sh.Prep.Speed[i]))
		k := SizeOf(sh.Prep.Speed[i], planned)
		switch {
		case k != kind:
			flush()
			if n := len(part); n > 0 {
				part = []geom.Point{part[n-1], p}
			} else {
				part = []geom.Point{p}
			}
			kind = k
		case len(part) == 0 || geom.Dist(p, part[len(part)-1]) > 0.7:
			part = append(part, p)
		}
	}
	flush()
	return items
}
