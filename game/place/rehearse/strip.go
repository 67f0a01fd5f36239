package rehearse

import (
	"unthreaded/game/look"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// axes are those of the strip under the line and the trace on the cloth.
func (r Room) axes() scene.Axes {
	sh := r.Open
	if r.Live != nil {
		sh = nil
	}
	return scene.StripAxes(r.Screen, r.Line.Length(), r.HandSpeed(), sh)
}

func (r Room) stripWords(title string) scene.StripWords {
	b := r.Book()
	return scene.StripWords{
		Title: b.Say("rehearse.strip." + title), Dashed: b.Say("rehearse.strip.dashed"), Speed: b.Amount(words.SpeedMM(r.HandSpeed())),
	}
}

type stripKeys struct {
	screen     screen.Cloth
	open, over *replay.Sheet
	line       int
	view       screen.View
	speed      float64
	units      place.Units
	tracing    bool
	live       bool // whether the speed is shown while she traces
	theme      look.Theme
}

func (r Room) stripKey() stripKeys {
	k := stripKeys{screen: r.Screen, line: r.LineRev, view: r.View, theme: r.Theme(), speed: r.HandSpeed(), units: r.Settings.Units}
	if r.Live == nil {
		k.open, k.over = r.Unveiled(), r.Over
	}
	k.tracing, k.live = r.Live != nil, r.Guide().SpeedStrip
	return k
}

// strip is the hand's speed over the line: the band of speeds that make stitches
// near the planned length, and the trace in it, drawn like its stitches. While she
// traces it is empty unless she wants to see her speed.
func (r Room) strip(pal look.Palette) []scene.Item {
	top := r.Screen.H - r.Screen.Strip
	switch {
	case r.Screen.Strip == 0, r.Live != nil && !r.Guide().SpeedStrip:
		return nil
	case r.Live != nil:
		return scene.StripScales(r.Screen, r.axes(), r.HandSpeed(), r.stripWords("live"), pal)
	case r.Unveiled() == nil || len(r.Open.Place) == 0:
		it := scene.Text(r.Book().Say("rehearse.strip.empty"), geom.Pt(r.Screen.W/2, top+13), pal.Mute)
		return []scene.Item{it}
	}
	a := r.axes()
	items := scene.StripScales(r.Screen, a, r.HandSpeed(), r.stripWords("whole"), pal)
	if r.Over != nil {
		items = append(items, scene.Line(1.4, pal.Over, scene.SpeedLine(r.Over, a)...))
	}
	return append(items, scene.SpeedPieces(r.Open, a, r.HandSpeed(), pal)...)
}
