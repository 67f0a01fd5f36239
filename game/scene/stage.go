package scene

import (
	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// Stage makes display lists from models. It keeps the layers of the last list,
// so that a frame costs only what has changed; what it returns depends on the
// model alone.
type Stage struct {
	layers [layerCount]Layer
	moving []Item
	// ink holds the screen places of the trace being drawn.
	ink []geom.Point
	// sewn[k] counts the items of the thread layer once fall k of the needle is
	// drawn.
	sewn []int
	// route holds the thread of the desk's route, routeEnds the length sewn after
	// each of its items, for the desk of routeKey.
	route []Item
	// speed holds the live speeds of the trace of speedKey as places on the strip.
	speed     []geom.Point
	speedKey  threadKey
	routeEnds []float64
	routeKey  deskKey
	// over holds the thread laid over, first and second those of two that are compared.
	over, first, second timed
}

// The layers from the bottom up. The thread is on top, since it grows while she
// traces and while a replay runs.
const (
	clothLayer = iota
	chalkLayer
	stripLayer
	overLayer
	threadLayer
	layerCount
)

// List returns the display list of the model. It is valid until the next call.
func (st *Stage) List(m game.Model) List {
	pal := look.Of(m.Theme())
	st.renew(clothLayer, clothKey{m.Screen, m.Theme()}, func() []Item { return cloth(m.Screen, pal) })
	st.moving = st.moving[:0]
	switch m.Place {
	case game.QuiltPlan:
		st.top(m, pal)
	case game.Draw:
		st.board(m, pal)
	case game.RoutePlan:
		st.desk(m, pal)
	case game.Rehearse:
		st.rehearsal(m, pal)
	case game.LookBack:
		st.weeks(m, pal)
	case game.Machine:
		st.bench(m, pal)
	}
	return List{W: m.Screen.W, H: m.Screen.H, Layers: st.layers[:], Moving: st.moving, Shift: m.Shift()}
}

// rehearsal brings the layers to the line and the trace.
func (st *Stage) rehearsal(m game.Model, pal look.Palette) {
	k := chalkKey{line: m.LineRev, view: m.View, screen: m.Screen, theme: m.Theme(), marks: marksOf(m)}
	if m.Live == nil {
		k.open = m.Unveiled()
	}
	st.renew(chalkLayer, k, func() []Item {
		ribbons, numbers := worst(k.open, m.View, m.Screen, pal)
		c := crowdOf(m, k.marks).with(numbers, geom.Point{})
		return append(append(ribbons, chalk(m.Line, k.marks, m.View, c, pal)...), numbers...)
	})
	st.renew(stripLayer, stripKeyOf(m), func() []Item { return append(sizeNote(m, pal), strip(m, pal)...) })
	st.sewOver(m, pal)
	st.thread(m, pal)
	st.moving = append(st.moving, st.overSewn(m)...)
	st.moving = moving(st.moving, m, pal)
	if m.UnderNeedle() {
		st.moving = underNeedle(st.moving, m, st.layers[chalkLayer].Items, pal)
	}
	if m.Live != nil {
		st.moving = guides(st.moving, m, pal)
		st.liveSpeed(m, pal)
	}
}

// blank empties the layers from layer i on, for a place that does not use them.
func (st *Stage) blank(i int, place game.Place) {
	for ; i < layerCount; i++ {
		st.renew(i, place, func() []Item { return nil })
	}
}

// renew makes layer i anew if its key has changed.
func (st *Stage) renew(i int, key any, items func() []Item) {
	if st.layers[i].Key != key {
		st.layers[i] = Layer{Key: key, Items: items()}
	}
}

type clothKey struct {
	screen game.Resized
	theme  look.Theme
}

type chalkKey struct {
	line  int
	open  *game.Sheet // whose worst places are marked
	marks chalkMarks
	view  game.View
	// screen bounds where names can stand.
	screen game.Resized
	theme  look.Theme
}

type overKey struct {
	sheet *game.Sheet
	view  game.View
	theme look.Theme
}

// overLayerKey tells whether the layer holds the whole thread laid over, or nothing while
// it grows among what moves.
type overLayerKey struct {
	overKey
	whole bool
}

// threadKey names what the thread layer shows: the trace in hand by the time it
// began, or the stitches of a sheet.
type threadKey struct {
	live    float64
	tracing bool
	veiled  bool
	sheet   *game.Sheet
	stitch  float64
	view    game.View
	theme   look.Theme
}

// thread brings the top layer up to date: the ink of the trace in hand, or the
// stitches sewn up to the replay's time.
func (st *Stage) thread(m game.Model, pal look.Palette) {
	key := threadKey{sheet: m.Open, veiled: m.Guessing(), stitch: m.Settings.StitchMM, view: m.View, theme: m.Theme()}
	if m.Live != nil {
		key = threadKey{live: m.Live.Began(), tracing: true, view: m.View, theme: m.Theme()}
	}
	layer := &st.layers[threadLayer]
	if layer.Key != key {
		*layer = Layer{Key: key}
		st.ink, st.sewn = st.ink[:0], st.sewn[:0]
	}
	switch {
	case m.Live != nil:
		st.inkUp(layer, m, pal)
	case m.Guessing():
		if len(layer.Items) == 0 {
			layer.Items = veiled(m.Open, m.View, pal)
		}
	case m.Open != nil:
		st.sew(layer, m.Open, m.Replay.T, m.View, m.Settings.StitchMM, pal)
	}
}

// inkUp adds the samples that have come since the last list as one stroke.
func (st *Stage) inkUp(layer *Layer, m game.Model, pal look.Palette) {
	from := len(st.ink)
	for _, s := range m.Live.Samples[from:] {
		st.ink = append(st.ink, m.View.ToScreen(s.P))
	}
	if len(st.ink) == from {
		return
	}
	// The stroke begins at the last point drawn, so that the ink hangs together.
	part := st.ink[max(0, from-1):len(st.ink):len(st.ink)]
	layer.Items = append(layer.Items, Item{Shape: Stroke, Points: part, Width: inkWidth, Colour: pal.Thread})
}
