package back

import (
	"unthreaded/game/look"
	"unthreaded/game/place"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// weeksKey names what is on the cloth where traces are looked back on.
type weeksKey struct {
	view    View
	rev     int
	session int
	month   int
	day     string
	sewn    int
	have    [2]picture
	screen  screen.Cloth
	stitch  float64
	book    words.Book
	theme   look.Theme
}

// Scene is as place.Room has it: the chart, two traces one over the other, the calendar, or
// what was sewn.
func (r Room) Scene(st *scene.Layers) scene.List {
	pal := r.Palette()
	if r.View == TwoTraces && r.Pair.First != nil {
		r.laidPair(st, pal)
		return st.List(r.Screen, geom.Point{})
	}
	key := weeksKey{
		view: r.View, rev: r.Weeks.Rev, session: r.Session, month: r.Month, sewn: r.Sewn.Rev, have: r.pictures.have,
		screen: r.Screen, stitch: r.Settings.StitchMM, book: r.Book(), theme: r.Theme(),
	}
	if r.View == Calendar {
		key.day = r.Weeks.Zone().Date(r.nowS()).Format("2006-01-02")
	}
	st.Renew(scene.ChalkLayer, key, func() []scene.Item {
		switch r.View {
		case TwoTraces:
			return r.spoken(pal, r.Book().Say("back.scene.pair"))
		case Calendar:
			return r.calendar(pal)
		case AtMachine:
			return r.sewnPieces(pal)
		}
		return r.weeksChart(pal)
	})
	st.Blank(scene.StripLayer, place.LookBack)
	return st.List(r.Screen, geom.Point{})
}

// spoken writes a line in the middle of an empty cloth.
func (r Room) spoken(pal look.Palette, text string) []scene.Item {
	it := scene.Text(text, geom.Pt(r.Screen.W/2, (r.Screen.H-r.Screen.Strip)/2), pal.Ink)
	it.Width = scene.Fitting(text, 18, r.Screen.W-32)
	return []scene.Item{it}
}
