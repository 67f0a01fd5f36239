package scene

import (
	"math"

	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
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
		k := sizeOf(sh.Prep.Speed[i], planned)
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
