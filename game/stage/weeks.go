package stage

import (
	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// weeksKey names what is on the cloth where traces are looked back on.
type weeksKey struct {
	view    game.BackView
	rev     int
	session int
	month   int
	day     string
	sewn    int
	screen  screen.Cloth
	stitch  float64
	units   game.Units
	theme   look.Theme
}

// weeks brings the layers to the place: the chart, the two traces as they lie where they
// are rehearsed, the calendar, or what was sewn.
func (st *Stage) weeks(m game.Model, pal look.Palette) {
	b := m.Back
	if pair, ok := m.Pair(); ok && b.View == game.TwoTraces {
		st.pair(m, pair, m.PairNames(), pal)
		return
	}
	key := weeksKey{
		view: b.View, rev: b.Book.Rev, session: b.Session, month: b.Month, sewn: b.Sewn.Rev,
		screen: m.Screen, stitch: m.Settings.StitchMM, units: m.Settings.Units, theme: m.Theme(),
	}
	if b.View == game.Calendar {
		key.day = b.Book.Zone().Date(m.Seconds()).Format("2006-01-02")
	}
	st.Renew(scene.ChalkLayer, key, func() []scene.Item {
		switch b.View {
		case game.TwoTraces:
			return spoken(m, pal, "Two traces will lie here, one over the other.")
		case game.Calendar:
			return calendar(m, pal)
		case game.AtMachine:
			return sewnPieces(m, pal)
		}
		return weeksChart(m, pal)
	})
	st.Blank(scene.StripLayer, game.LookBack)
}

// spoken writes a line in the middle of an empty cloth.
func spoken(m game.Model, pal look.Palette, text string) []scene.Item {
	it := scene.Text(text, geom.Pt(m.Screen.W/2, (m.Screen.H-m.Screen.Strip)/2), pal.Ink)
	it.Width = scene.Fitting(text, 18, m.Screen.W-32)
	return []scene.Item{it}
}
