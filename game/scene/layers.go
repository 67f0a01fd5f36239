package scene

import (
	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// The layers from the bottom up. The thread is on top, since it grows while she
// traces and while a replay runs.
const (
	ClothLayer = iota
	ChalkLayer
	StripLayer
	OverLayer
	ThreadLayer
	layerCount
)

// Layers hold what was drawn last, so that a frame costs only what has changed.
type Layers struct {
	layers [layerCount]Layer
	// Moving are the items of this frame alone.
	Moving []Item
	memo   map[any]any
}

// Renew makes layer i anew if its key has changed.
func (st *Layers) Renew(i int, key any, items func() []Item) {
	if st.layers[i].Key != key {
		st.layers[i] = Layer{Key: key, Items: items()}
	}
}

// At returns layer i, for one that grows at its end.
func (st *Layers) At(i int) *Layer { return &st.layers[i] }

// Blank empties the layers from layer i on, for a place that does not use them; place
// tells it from others.
func (st *Layers) Blank(i int, place any) {
	for ; i < layerCount; i++ {
		st.Renew(i, place, func() []Item { return nil })
	}
}

// List returns the whole picture, its cloth pushed by shift (CSS pixels). It is valid
// until the next change of the layers.
func (st *Layers) List(s screen.Cloth, shift geom.Point) List {
	return List{W: s.W, H: s.H, Layers: st.layers[:], Moving: st.Moving, Shift: shift}
}

// Memo returns what a place keeps beside its layers from frame to frame to spare work:
// one value of each type, zero at first.
func Memo[T any](st *Layers) *T {
	key := (*T)(nil)
	if st.memo == nil {
		st.memo = map[any]any{}
	}
	v, ok := st.memo[key].(*T)
	if !ok {
		v = new(T)
		st.memo[key] = v
	}
	return v
}

type clothKey struct {
	screen screen.Cloth
	theme  look.Theme
	share  float64
}

// Begin lays the cloth, on which a frame is drawn, with so much of its weave.
func (st *Layers) Begin(s screen.Cloth, share float64, theme look.Theme) {
	st.Renew(ClothLayer, clothKey{s, theme, share}, func() []Item { return Cloth(s, share, look.Of(theme)) })
	st.Moving = st.Moving[:0]
}
