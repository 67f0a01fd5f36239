//go:build js

// Command wasm is the sketchpad in the browser: it joins the program (game), the
// drawing (game/view) and the page (wasm/dom), and carries out what the program
// wants done.
package main

import (
	"encoding/json"
	"errors"

	"github.com/hajimehoshi/ebiten/v2"

	"unthreaded/game"
	"unthreaded/game/guard"
	"unthreaded/game/place/back"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/work"
	"unthreaded/wasm/dom"
)

func main() {
	guard.Note = func(f *guard.Fault) { dom.Complain(f.Error() + "\n" + string(f.Stack)) }
	settings, storageErr := dom.Settings()
	kept := game.DecodeSettings(settings)
	a, err := newApp(kept)
	if err != nil {
		panic(err)
	}
	dom.Listen(kept.Guide.Ticks)
	decls, err := json.Marshal(a.model.Controls())
	if err != nil {
		panic(err) // a range that is no number; a test holds it
	}
	dom.Controls(decls)
	dom.OnSend(a.sent)
	dom.OnResized(a.resized)
	dom.OnPhoto(a.photo)
	dom.OnBackup(a.checkBackup)
	dom.OnWork(dom.WorkNews{Told: a.workTold, Done: a.workDone, Lost: a.workLost, Aside: func() { a.step(work.Aside{}) }})
	a.step(game.Reads{Tags: dom.Languages(), Unset: len(settings) == 0})
	a.step(game.SystemDark{Dark: dom.PrefersDark()})
	a.step(game.SystemMotion{Moves: dom.AllowsMotion()})
	a.step(back.Zone{Zone: zone()})
	a.resized()
	if storageErr != nil {
		a.step(game.StorageOff{Why: why(storageErr)})
	} else {
		a.aside(a.openStore)
	}
	ebiten.SetTPS(ebiten.SyncWithFPS)
	ebiten.SetScreenClearedEveryFrame(false)
	err = ebiten.RunGameWithOptions(a, &ebiten.RunGameOptions{
		DisableHiDPI:      true, // the page sizes the canvas in device pixels itself
		InitUnfocused:     true,
		ScreenTransparent: true,
	})
	if err != nil && !errors.Is(err, ebiten.Termination) {
		panic(err)
	}
}

// zone returns how far the person's clock is ahead of UTC.
func zone() weeks.Zone {
	var z weeks.Zone
	for _, s := range dom.Zone() {
		z = append(z, weeks.Shift{From: s[0], Ahead: s[1]})
	}
	return z
}
