package stage

import (
	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// axesOf are those of the strip under the line and the trace on the cloth.
func axesOf(m game.Model) scene.Axes {
	sh := m.Open
	if m.Live != nil {
		sh = nil
	}
	return scene.StripAxes(m.Screen, m.Line.Length(), m.HandSpeed(), sh)
}

func stripWords(m game.Model, title string) scene.StripWords {
	return scene.StripWords{Title: title, Dashed: "dashed: as planned", Speed: words.Speed(m.HandSpeed(), m.Settings.Units == game.Inches)}
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
		return scene.StripScales(m.Screen, axesOf(m), m.HandSpeed(), stripWords(m, "Hand speed"), pal)
	case m.Unveiled() == nil || len(m.Open.Place) == 0:
		it := scene.Text("Your hand speed along the line will show here.", geom.Pt(m.Screen.W/2, top+m.Screen.Strip/2), pal.Mute)
		return []scene.Item{it}
	}
	a := axesOf(m)
	items := scene.StripScales(m.Screen, a, m.HandSpeed(), stripWords(m, "Hand speed along the line"), pal)
	if m.Over != nil {
		items = append(items, scene.Line(1.4, pal.Over, scene.SpeedLine(m.Over, a)...))
	}
	return append(items, scene.SpeedPieces(m.Open, a, m.HandSpeed(), pal)...)
}
