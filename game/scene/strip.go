package scene

import (
	"math"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/scoring"
)

// The strip's margins in CSS pixels; the page's slider has the same ones.
const (
	StripSide   = 16.0
	stripScale  = 80.0 // on the left, where the speeds have their scale
	stripTop    = 24.0
	stripBottom = 8.0
)

// axes map place on the line (mm) and hand speed (mm/s) to the strip.
type axes struct {
	left, right, top, bottom float64
	length, fastest          float64
}

func (a axes) x(s float64) float64 { return a.left + (a.right-a.left)*s/a.length }

func (a axes) y(v float64) float64 {
	return a.bottom - (a.bottom-a.top)*math.Min(1, v/a.fastest)
}

// stripAxes shows speeds from 0 to twice the planned one, or to the fastest one.
func stripAxes(m game.Model) axes {
	a := axes{
		left: stripScale, right: m.Screen.W - StripSide,
		top: m.Screen.H - m.Screen.Strip + stripTop, bottom: m.Screen.H - stripBottom,
		length: math.Max(1, m.Line.Length()), fastest: 2 * m.HandSpeed(),
	}
	if m.Open != nil && m.Live == nil {
		for _, v := range m.Open.Prep.Speed {
			a.fastest = math.Max(a.fastest, v)
		}
	}
	return a
}

type stripKey struct {
	screen     game.Resized
	open, over *game.Sheet
	line       int
	view       game.View
	speed      float64
	units      game.Units
	tracing    bool
	live       bool // whether the speed is shown while she traces
	theme      look.Theme
}

func stripKeyOf(m game.Model) stripKey {
	k := stripKey{screen: m.Screen, line: m.LineRev, view: m.View, theme: m.Theme(), speed: m.HandSpeed(), units: m.Settings.Units}
	if m.Live == nil {
		k.open, k.over = m.Unveiled(), m.Over
	}
	k.tracing, k.live = m.Live != nil, m.Guide().SpeedStrip
	return k
}

// strip is the hand's speed over the line: the band of speeds that make stitches
// near the planned length, and the trace in it, drawn like its stitches. While she
// traces it is empty unless she wants to see her speed.
func strip(m game.Model, pal look.Palette) []Item {
	top := m.Screen.H - m.Screen.Strip
	switch {
	case m.Screen.Strip == 0, m.Live != nil && !m.Guide().SpeedStrip:
		return nil
	case m.Live != nil:
		return stripScales(m, stripAxes(m), "Hand speed", pal)
	case m.Unveiled() == nil || len(m.Open.Place) == 0:
		it := label("Your hand speed along the line will show here.", geom.Pt(m.Screen.W/2, top+m.Screen.Strip/2), pal.Mute)
		return []Item{it}
	}
	a := stripAxes(m)
	items := stripScales(m, a, "Hand speed along the line", pal)
	if m.Over != nil {
		items = append(items, line(1.4, pal.Over, speedLine(m.Over, a)...))
	}
	return append(items, speedPieces(m.Open, a, m.HandSpeed(), pal)...)
}

// stripScales is the ground of the strip: no speed at its foot, the planned one with
// its tick, and the band of speeds near it.
func stripScales(m game.Model, a axes, title string, pal look.Palette) []Item {
	v := m.HandSpeed()
	low, high, planned := a.y(v*(1-scoring.NearShare)), a.y(v*(1+scoring.NearShare)), a.y(v)
	items := []Item{
		rect(a.left, high, a.right-a.left, low-high, pal.Weave),
		line(1, pal.Mute, geom.Pt(a.left, a.bottom), geom.Pt(a.right, a.bottom)),
		line(1, pal.Mute, geom.Pt(a.left-5, planned), geom.Pt(a.left, planned)),
	}
	items = append(items, dashes([]geom.Point{geom.Pt(a.left, planned), geom.Pt(a.right, planned)}, 8, 5, 1.5, pal.Chalk)...)
	at := func(text string, align Align, x, y float64) Item {
		it := label(text, geom.Pt(x, y), pal.Mute)
		it.Align = align
		return it
	}
	top := m.Screen.H - m.Screen.Strip
	return append(items,
		at(title, Left, StripSide, top+13),
		at("dashed: as planned", Right, a.right, top+13),
		at(words.Speed(v, m.Settings.Units == game.Inches), Right, a.left-8, planned))
}

// speedLine returns the speed over the place on the line, thinned to what a
// screen can show.
func speedLine(sh *game.Sheet, a axes) []geom.Point {
	var pts []geom.Point
	for i, s := range sh.Place {
		p := geom.Pt(a.x(s), a.y(sh.Prep.Speed[i]))
		if len(pts) == 0 || geom.Dist(p, pts[len(pts)-1]) > 0.7 {
			pts = append(pts, p)
		}
	}
	return pts
}

// speedPieces draws the speed in pieces by the size of stitch it makes.
func speedPieces(sh *game.Sheet, a axes, planned float64, pal look.Palette) []Item {
	styles := map[Size]Item{
		Near:  line(2.4, pal.Thread),
		Short: line(3.4, pal.Short),
		Long:  line(1.6, pal.Long),
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
		p := geom.Pt(a.x(s), a.y(sh.Prep.Speed[i]))
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
