//go:build js

// Package dom is the only place that speaks to the browser: the samples of the
// pointer, the page round the cloth, storage and downloads. It decides nothing;
// the scripts in wasm/site do the browser's side.
package dom

import (
	"errors"
	"syscall/js"
)

var page = js.Global().Get("unthreaded")

// OnSend has f called with each message of the page's controls: its name, value
// and the list entry that it stands in. f must not block.
func OnSend(f func(name, value, item string)) {
	page.Set("send", js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(args[0].String(), args[1].String(), args[2].String())
		return nil
	}))
}

// Controls tells the page the ranges of its controls, as JSON of their declarations.
func Controls(decls []byte) { page.Call("controls", string(decls)) }

// OnResized has f called whenever the cloth's place changes; f must not block.
func OnResized(f func()) {
	page.Set("resized", js.FuncOf(func(js.Value, []js.Value) any {
		f()
		return nil
	}))
}

// Cloth is the cloth's place on the page: its size and the height of the strip, and
// the size of the whole screen, in CSS pixels; the device pixels per CSS pixel; and
// whether the first pointer is a finger.
type Cloth struct {
	W, H, Strip, DPR, ScreenW, ScreenH float64
	Touch                              bool
}

// Measure returns the cloth's place as it is now.
func Measure() Cloth {
	m := page.Call("measure")
	at := func(i int) float64 { return m.Index(i).Float() }
	return Cloth{W: at(0), H: at(1), Strip: at(2), DPR: at(3), ScreenW: at(4), ScreenH: at(5), Touch: at(6) > 0}
}

// Now returns the time in s on the clock of events, and Origin the time in ms
// since 1970 at which that clock was 0.
func Now() float64 { return js.Global().Get("performance").Call("now").Float() / 1000 }

// Origin returns the time in ms since 1970 at which the clock of events was 0.
func Origin() float64 { return js.Global().Get("performance").Get("timeOrigin").Float() }

// Languages returns the languages that the person reads, best first, as tags.
func Languages() []string {
	list := js.Global().Get("navigator").Get("languages")
	var out []string
	for i := range list.Length() {
		out = append(out, list.Index(i).String())
	}
	return out
}

// Zone returns the person's clock against UTC: pairs of a time in s since 1970 and the
// seconds by which her clock is ahead from then on, the earliest first.
func Zone() [][2]float64 {
	v := page.Call("zone")
	out := make([][2]float64, v.Length())
	for i := range out {
		out[i] = [2]float64{v.Index(i).Index(0).Float(), v.Index(i).Index(1).Float()}
	}
	return out
}

// PrefersDark tells the system's preference.
func PrefersDark() bool {
	return js.Global().Call("matchMedia", "(prefers-color-scheme: dark)").Get("matches").Bool()
}

// AllowsMotion tells that the system does not ask for less motion.
func AllowsMotion() bool {
	return !js.Global().Call("matchMedia", "(prefers-reduced-motion: reduce)").Get("matches").Bool()
}

// Render shows a page, a JSON document.
func Render(doc []byte) { page.Call("render", string(doc)) }

// Complain writes to the browser's console, for whoever mends the program.
func Complain(text string) { js.Global().Get("console").Call("error", text) }

// Note writes to the browser's console what is no fault of the program.
func Note(text string) { js.Global().Get("console").Call("info", text) }

// Ready tells the page that the program runs.
func Ready() { page.Call("ready") }

// Download hands the person a file.
func Download(name, mime string, data []byte) {
	bytes := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(bytes, data)
	page.Call("download", name, mime, bytes)
}

// await waits for a promise. It blocks its goroutine, so it must not be called
// from a function that the browser calls.
func await(promise js.Value) (js.Value, error) {
	type outcome struct {
		value js.Value
		err   error
	}
	done := make(chan outcome, 1)
	well := js.FuncOf(func(_ js.Value, args []js.Value) any {
		done <- outcome{value: args[0]}
		return nil
	})
	ill := js.FuncOf(func(_ js.Value, args []js.Value) any {
		done <- outcome{err: failure(args[0])}
		return nil
	})
	defer well.Release()
	defer ill.Release()
	promise.Call("then", well, ill)
	o := <-done
	return o.value, o.err
}

// Failure is an error of a kind that the scripts name in one word.
type Failure struct{ Kind string }

// Error returns the kind.
func (f Failure) Error() string { return f.Kind }

// failure makes an error of what a promise was rejected with.
func failure(v js.Value) error {
	if v.Type() != js.TypeObject {
		return errors.New(js.Global().Call("String", v).String())
	}
	text := v.Get("message")
	if text.Type() != js.TypeString {
		text = js.Global().Call("String", v)
	}
	if kind := v.Get("kind"); kind.Type() == js.TypeString {
		return Failure{kind.String()}
	}
	return errors.New(text.String())
}
