package game_test

import (
	"fmt"
	"hash/maphash"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/control"
	"unthreaded/game/page"
	"unthreaded/game/scene"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

// No message writes into what the model before it holds, nothing that can be sent makes
// the program fall over, and what is shown can be made after each: over long walks of
// messages, such as the page, the pointer and the storage send.
func TestUpdateIsPure(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		w := &walker{m: game.New(game.DefaultSettings(), origin)}
		w.send(rt, laptop)
		var layers scene.Layers
		for range rapid.IntRange(10, 30).Draw(rt, "messages") {
			w.step(rt)
		}
		w.m.Scene(&layers)
		page.Of(w.m)
	})
}

// walker sends messages to a model, and answers what it asks of the storage.
type walker struct {
	m    game.Model
	now  float64
	kept map[string][]byte
	// asked are the answers that the storage owes.
	asked []game.Msg
}

// send updates the model and holds the one before against what it was.
func (w *walker) send(rt *rapid.T, msg game.Msg) {
	before, was := w.m, digest(w.m)
	next, effects := worktest.Update(w.m, msg)
	if is := digest(before); is != was {
		rt.Fatalf("%T %+v wrote into the model before it", msg, msg)
	}
	w.m = next
	for _, e := range effects {
		switch e := e.(type) {
		case game.Save:
			if w.kept == nil {
				w.kept = map[string][]byte{}
			}
			w.kept[e.ID] = e.Doc
			w.asked = append(w.asked, game.Saved{ID: e.ID})
		case game.Fetch:
			w.asked = append(w.asked, game.Fetched{ID: e.ID, Over: e.Over, Top: e.Top, For: e.For, Doc: w.kept[e.ID]})
		case game.Keep:
			w.asked = append(w.asked, game.Shelved{Kind: e.Thing.Kind, ID: e.Thing.ID})
		}
	}
}

func (w *walker) step(rt *rapid.T) {
	w.now += rapid.Float64Range(0.001, 0.3).Draw(rt, "dt")
	switch rapid.IntRange(0, 9).Draw(rt, "what") {
	case 0:
		n := rapid.SampledFrom(game.Places).Draw(rt, "place")
		w.send(rt, game.Control{Name: "place", Value: string(n)})
	case 1, 2:
		w.stroke(rt)
	case 3:
		w.send(rt, game.Frame{Now: w.now})
	case 4:
		w.send(rt, game.Control{Name: rapid.SampledFrom([]string{"undo", "redo", "cancel", "dismiss", "play", "again"}).Draw(rt, "common")})
	case 5:
		key := rapid.SampledFrom([]string{"ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Enter", "Delete", "+", "-", "0"}).Draw(rt, "key")
		w.send(rt, game.Control{Name: "key", Value: key})
	case 6:
		if len(w.asked) > 0 {
			next := w.asked[0]
			w.asked = w.asked[1:]
			w.send(rt, next)
		}
	default:
		w.control(rt)
	}
}

// stroke moves a pointer over the cloth, mostly along the line that is rehearsed.
func (w *walker) stroke(rt *rapid.T) {
	x, y := rapid.Float64Range(0, laptop.W).Draw(rt, "x"), rapid.Float64Range(0, laptop.H).Draw(rt, "y")
	device := rapid.SampledFrom([]trace.Device{trace.Mouse, trace.Pen, trace.Touch}).Draw(rt, "device")
	n := rapid.IntRange(1, 12).Draw(rt, "samples")
	turn := rapid.Float64Range(-1, 1).Draw(rt, "turn")
	for i := range n {
		w.now += 0.01
		kind := game.Move
		if i == 0 {
			kind = game.Down
		}
		a := turn * float64(i) / 3
		x, y = x+15*math.Cos(a), y+15*math.Sin(a)
		w.send(rt, game.Pointer{Kind: kind, ID: 1, Device: device, T: w.now, X: x, Y: y, Pressure: 0.5})
	}
	w.send(rt, game.Pointer{Kind: rapid.SampledFrom([]game.PointerKind{game.Up, game.Up, game.Cancel}).Draw(rt, "end"), ID: 1, Device: device, T: w.now, X: x, Y: y})
}

// control sends one of the controls of the place in front, with a value that it takes.
func (w *walker) control(rt *rapid.T) {
	r := w.m.Front()
	if r == nil {
		return
	}
	decls := r.Controls()
	d := decls[rapid.IntRange(0, len(decls)-1).Draw(rt, "control")]
	c := game.Control{Name: string(w.m.Place) + "." + d.Name}
	if d.OfItem {
		c.Item = fmt.Sprint(rapid.IntRange(0, 3).Draw(rt, "item"))
	}
	switch d.Kind {
	case control.Toggle:
		c.Value = rapid.SampledFrom([]string{"on", "off"}).Draw(rt, "on")
	case control.Choice:
		c.Value = rapid.SampledFrom(d.Choices).Draw(rt, "choice")
	case control.Number:
		lo, hi := d.Min, d.Max
		if d.Open() {
			lo, hi = -10, 300
		}
		c.Value = fmt.Sprint(rapid.Float64Range(lo, hi).Draw(rt, "number"))
	case control.Text:
		c.Value = rapid.SampledFrom([]string{"", "0", "1", "6 1/2", "a name"}).Draw(rt, "text")
	}
	w.send(rt, c)
}

// digest sums up all that a value holds and points to. Functions, and what lies in a
// slice beyond its length, are left out.
func digest(m game.Model) uint64 {
	d := digester{seen: map[target]uint64{}}
	return d.of(reflect.ValueOf(m))
}

type digester struct{ seen map[target]uint64 }

// target is what a pointer points to: a struct begins where its first field does.
type target struct {
	at uintptr
	of reflect.Type
}

var digestSeed = maphash.MakeSeed()

func mixed(parts ...uint64) uint64 { return maphash.Comparable(digestSeed, fmt.Sprint(parts)) }

func (d digester) of(v reflect.Value) uint64 {
	switch v.Kind() {
	case reflect.Bool:
		return maphash.Comparable(digestSeed, v.Bool())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return maphash.Comparable(digestSeed, v.Int())
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return maphash.Comparable(digestSeed, v.Uint())
	case reflect.Float32, reflect.Float64:
		return maphash.Comparable(digestSeed, math.Float64bits(v.Float()))
	case reflect.String:
		return maphash.String(digestSeed, v.String())
	case reflect.Struct:
		h := uint64(v.NumField())
		for i := range v.NumField() {
			h = h*31 + d.of(v.Field(i))
		}
		return h
	case reflect.Array, reflect.Slice:
		return d.list(v)
	case reflect.Map:
		h := uint64(v.Len())
		for it := v.MapRange(); it.Next(); {
			h += mixed(d.of(it.Key()), d.of(it.Value())) // the order of a map is none
		}
		return h
	case reflect.Pointer:
		return d.target(v)
	case reflect.Interface:
		if v.IsNil() {
			return 1
		}
		return d.of(v.Elem())
	}
	return 0
}

// list sums up the elements in their order.
func (d digester) list(v reflect.Value) uint64 {
	h := uint64(v.Len())
	for i := range v.Len() {
		h = h*31 + d.of(v.Index(i))
	}
	return h
}

func (d digester) target(v reflect.Value) uint64 {
	if v.IsNil() {
		return 2
	}
	p := target{v.Pointer(), v.Type()}
	if h, known := d.seen[p]; known {
		return h
	}
	d.seen[p] = 3
	h := d.of(v.Elem())
	d.seen[p] = h
	return h
}
