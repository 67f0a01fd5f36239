package stage

import (
	"math"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/scoring"
)

// stripAxes shows speeds from 0 to twice the planned one, or to the fastest one.
func stripAxes(m game.Model) scene.Axes {
	a := scene.Axes{
		TextLeft: scene.StripScale, TextRight: m.Screen.W - scene.StripSide,
		Top: m.Screen.H - m.Screen.Strip + scene.StripTop, Bottom: m.Screen.H - scene.StripBottom,
		Length: math.Max(1, m.Line.Length()), Fastest: 2 * m.HandSpeed(),
	}
	if m.Open != nil && m.Live == nil {
		for _, v := range m.Open.Prep.Speed {
			a.Fastest = math.Max(a.Fastest, v)
		}
	}
	return a
}

type stripKey struct {
	screen     screen.Cloth
	open, over *replay.Sheet
	line       int
	view       screen.View
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
func strip(m game.Model, pal look.Palette) []scene.Item {
	top := m.Screen.H - m.Screen.Strip
	switch {
	case m.Screen.Strip == 0, m.Live != nil && !m.Guide().SpeedStrip:
		return nil
	case m.Live != nil:
		return stripScales(m, stripAxes(m), "Hand speed", pal)
	case m.Unveiled() == nil || len(m.Open.Place) == 0:
		it := scene.Text("Your hand speed along the line will show here.", geom.Pt(m.Screen.W/2, top+m.Screen.Strip/2), pal.Mute)
		return []scene.Item{it}
	}
	a := stripAxes(m)
	items := stripScales(m, a, "Hand speed along the line", pal)
	if m.Over != nil {
		items = append(items, scene.Line(1.4, pal.Over, scene.SpeedLine(m.Over, a)...))
	}
	return append(items, scene.SpeedPieces(m.Open, a, m.HandSpeed(), pal)...)
}

// stripScales is the ground of the strip: no speed at its foot, the planned one with
// its tick, and the band of speeds near it.
func stripScales(m game.Model, a scene.Axes, title string, pal look.Palette) []scene.Item {
	v := m.HandSpeed()
	low, high, planned := a.Y(v*(1-scoring.NearShare)), a.Y(v*(1+scoring.NearShare)), a.Y(v)
	items := []scene.Item{
		scene.Rect(a.TextLeft, high, a.TextRight-a.TextLeft, low-high, pal.Weave),
		scene.Line(1, pal.Mute, geom.Pt(a.TextLeft, a.Bottom), geom.Pt(a.TextRight, a.Bottom)),
		scene.Line(1, pal.Mute, geom.Pt(a.TextLeft-5, planned), geom.Pt(a.TextLeft, planned)),
	}
	items = append(items, scene.Dashes([]geom.Point{geom.Pt(a.TextLeft, planned), geom.Pt(a.TextRight, planned)}, 8, 5, 1.5, pal.Chalk)...)
	at := func(text string, align scene.Align, x, y float64) scene.Item {
		it := scene.Text(text, geom.Pt(x, y), pal.Mute)
		it.Align = align
		return it
	}
	top := m.Screen.H - m.Screen.Strip
	return append(items,
		at(title, scene.Left, scene.StripSide, top+13),
		at("dashed: as planned", scene.Right, a.TextRight, top+13),
		at(words.Speed(v, m.Settings.Units == game.Inches), scene.Right, a.TextLeft-8, planned))
}
