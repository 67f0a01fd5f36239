//go:build js

package main

import (
	"encoding/json"

	"github.com/hajimehoshi/ebiten/v2"

	"unthreaded/game"
	"unthreaded/game/film/reel"
	"unthreaded/game/guard"
	"unthreaded/game/page"
	"unthreaded/game/place"
	"unthreaded/game/scene"
	"unthreaded/game/view"
	"unthreaded/game/work"
	"unthreaded/scoring/trace"
	"unthreaded/wasm/dom"
)

// app is the running program. The browser has one thread and nothing in step
// waits, so a step is never interrupted by another.
type app struct {
	model   game.Model
	layers  scene.Layers
	view    *view.View
	samples *dom.Samples

	// stale tells that the model has changed since it was last shown.
	stale bool
	shown string
	drawn bool

	queue     work.Queue
	filming   *reel.Recorder // nil for none
	restoring restoring
	stuck     stuck
}

func newApp(s game.Settings) (*app, error) {
	v, err := view.New()
	if err != nil {
		return nil, err
	}
	return &app{model: game.New(s, dom.Origin()), view: v, samples: dom.NewSamples(), stale: true}, nil
}

// step takes one message and has its effects carried out.
func (a *app) step(msg game.Msg) {
	var effects []game.Effect
	a.model, effects = game.Update(a.model, msg)
	a.stale = true
	for _, e := range effects {
		a.run(e)
	}
}

// sent takes a message of the page. What the pointer did before comes first.
func (a *app) sent(name, value, item string) {
	a.takeSamples()
	switch name {
	case "interrupt":
		a.step(game.Interrupt{})
	case "fault":
		a.step(game.Faulted{})
	case "dark":
		a.step(game.SystemDark{Dark: value == "yes"})
	case "motion":
		a.step(game.SystemMotion{Moves: value == "yes"})
	default:
		a.step(game.Control{Name: name, Value: value, Item: item})
	}
}

func (a *app) photo(p dom.Photo) {
	a.step(game.Photo{Name: p.Name, ID: p.ID, W: p.W, H: p.H, Pix: p.Pix, Err: place.Why(p.Err)})
}

func (a *app) resized() {
	c := dom.Measure()
	a.step(game.Resized{W: c.W, H: c.H, Strip: c.Strip, DPR: c.DPR, ScreenW: c.ScreenW, ScreenH: c.ScreenH, Touch: c.Touch})
}

var devices = [...]trace.Device{trace.Mouse, trace.Pen, trace.Touch}

func (a *app) takeSamples() {
	for _, s := range a.samples.Take() {
		a.step(game.Pointer{
			Kind: game.PointerKind(s.Kind), ID: s.ID, Device: devices[min(int(s.Device), len(devices)-1)],
			T: s.T, X: s.X, Y: s.Y, Pressure: s.Pressure,
		})
	}
}

// Update is called by Ebitengine at the start of each frame.
func (a *app) Update() error {
	a.takeSamples()
	playing := a.model.Playing()
	wasStale := a.stale
	a.step(game.Frame{Now: dom.Now()})
	a.stale = wasStale || playing || a.model.Playing()
	a.shoot()
	return nil
}

// Draw is called by Ebitengine after Update. A frame in which nothing has changed
// draws nothing: the screen keeps its picture. The first is that which she left.
func (a *app) Draw(screen *ebiten.Image) {
	if !a.stale || !a.drawn && a.model.Opening() {
		return
	}
	a.stale = false
	a.guarded("drawing", func() { a.view.Draw(screen, a.model.Scene(&a.layers), a.model.Screen.DPR) })
	a.guarded("page", a.render)
	if !a.drawn {
		a.drawn = true
		dom.Ready()
	}
}

// guarded shows the model; a fault in that is said.
func (a *app) guarded(what string, show func()) {
	if guard.Run(what, show) != nil {
		a.step(game.Faulted{})
		a.stale = false // the same would fail again
	}
}

// render brings the page round the cloth up to date.
func (a *app) render() {
	doc, err := json.Marshal(page.Of(a.model))
	if err != nil {
		panic(err) // texts and numbers only; a fault of the program
	}
	if text := string(doc); text != a.shown {
		a.shown = text
		dom.Render(doc)
	}
}

// Layout is called by Ebitengine with the size of the canvas, in device pixels.
func (a *app) Layout(w, h int) (int, int) { return w, h }
