// Package stage draws the places that have no room of their own yet.
package stage

import (
	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// Stage makes display lists from models. It keeps the layers of the last list,
// so that a frame costs only what has changed; what it returns depends on the
// model alone.
type Stage struct {
	scene.Layers
	// ink holds the screen places of the trace being drawn.
	ink []geom.Point
	// sewn[k] counts the items of the thread layer once fall k of the needle is
	// drawn.
	sewn []int
	// speed holds the live speeds of the trace of speedKey as places on the strip.
	speed    []geom.Point
	speedKey threadKey
	// over holds the thread laid over, first and second those of two that are compared.
	over, first, second scene.Timed
}

// Of returns the display list of the model. It is valid until the next call.
func (st *Stage) Of(m game.Model) scene.List {
	if r := m.Front(); r != nil {
		st.Begin(m.Screen, m.Theme())
		return r.Scene(&st.Layers)
	}
	pal := look.Of(m.Theme())
	st.Begin(m.Screen, m.Theme())
	switch m.Place {
	case game.QuiltPlan:
		st.top(m, pal)
	case game.Rehearse:
		st.rehearsal(m, pal)
	case game.LookBack:
		st.weeks(m, pal)
	}
	return st.List(m.Screen, m.Shift())
}

// rehearsal brings the layers to the line and the trace.
func (st *Stage) rehearsal(m game.Model, pal look.Palette) {
	k := chalkKey{line: m.LineRev, view: m.View, screen: m.Screen, theme: m.Theme(), marks: marksOf(m)}
	if m.Live == nil {
		k.open = m.Unveiled()
	}
	st.Renew(scene.ChalkLayer, k, func() []scene.Item {
		ribbons, numbers := worst(k.open, m.View, m.Screen, pal)
		c := crowdOf(m, k.marks).With(numbers, geom.Point{})
		return append(append(ribbons, scene.Chalk(m.Line, k.marks, m.View, c, pal)...), numbers...)
	})
	st.Renew(scene.StripLayer, stripKeyOf(m), func() []scene.Item { return append(sizeNote(m, pal), strip(m, pal)...) })
	st.sewOver(m, pal)
	st.thread(m, pal)
	st.Moving = append(st.Moving, st.overSewn(m)...)
	st.Moving = moving(st.Moving, m, pal)
	if m.UnderNeedle() {
		st.Moving = underNeedle(st.Moving, m, st.At(scene.ChalkLayer).Items, pal)
	}
	if m.Live != nil {
		st.Moving = guides(st.Moving, m, pal)
		st.liveSpeed(m, pal)
	}
}

type chalkKey struct {
	line  int
	open  *replay.Sheet // whose worst places are marked
	marks scene.ChalkMarks
	view  screen.View
	// screen bounds where names can stand.
	screen screen.Cloth
	theme  look.Theme
}

// overLayerKey tells whether the layer holds the whole thread laid over, or nothing while
// it grows among what moves.
type overLayerKey struct {
	scene.OverKey
	whole bool
}

// threadKey names what the thread layer shows: the trace in hand by the time it
// began, or the stitches of a sheet.
type threadKey struct {
	live    float64
	tracing bool
	veiled  bool
	sheet   *replay.Sheet
	stitch  float64
	view    screen.View
	theme   look.Theme
}

// thread brings the top layer up to date: the ink of the trace in hand, or the
// stitches sewn up to the replay's time.
func (st *Stage) thread(m game.Model, pal look.Palette) {
	key := threadKey{sheet: m.Open, veiled: m.Guessing(), stitch: m.Settings.StitchMM, view: m.View, theme: m.Theme()}
	if m.Live != nil {
		key = threadKey{live: m.Live.Began(), tracing: true, view: m.View, theme: m.Theme()}
	}
	layer := st.At(scene.ThreadLayer)
	if layer.Key != key {
		*layer = scene.Layer{Key: key}
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
func (st *Stage) inkUp(layer *scene.Layer, m game.Model, pal look.Palette) {
	from := len(st.ink)
	for _, s := range m.Live.Samples[from:] {
		st.ink = append(st.ink, m.View.ToScreen(s.P))
	}
	if len(st.ink) == from {
		return
	}
	// The stroke begins at the last point drawn, so that the ink hangs together.
	part := st.ink[max(0, from-1):len(st.ink):len(st.ink)]
	layer.Items = append(layer.Items, scene.Item{Shape: scene.Stroke, Points: part, Width: scene.InkWidth, Colour: pal.Thread})
}
