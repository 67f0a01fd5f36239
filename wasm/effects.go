//go:build js

package main

import (
	"errors"
	"fmt"

	"unthreaded/game"
	"unthreaded/game/guard"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/back"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/place/route"
	"unthreaded/game/work"
	"unthreaded/wasm/dom"
)

// run carries out one effect. What has to wait for the browser goes on in a
// goroutine and comes back as a message.
func (a *app) run(effect game.Effect) {
	switch e := effect.(type) {
	case game.Save:
		dom.Journal(e.ID, e.Doc, e.Summary)
		a.aside(func() {
			a.answer(e.ID, dom.Put(e.ID, e.Doc, e.Summary))
			if granted, err := dom.Persist(); err == nil {
				a.step(game.Persistence{Granted: granted})
			}
		})
	case game.Delete:
		a.aside(func() { a.answer(e.ID, dom.Bin(e.ID)) })
	case game.Restore:
		a.aside(func() { a.restore(e.ID) })
	case game.Fetch:
		a.aside(func() { a.fetch(e) })
	case game.SaveSettings:
		a.aside(func() { a.putSettings(e.Doc) })
	case game.Keep:
		a.aside(func() { a.keep(e.Thing) })
	case game.Discard:
		a.aside(func() { a.shelved(e.Kind, e.ID, dom.Discard(e.Kind, e.ID)) })
	case game.Jot:
		dom.Jot(e.ID, e.N, e.Doc)
	case game.Unjot:
		dom.Unjot(e.ID)
	case game.FetchPhoto:
		dom.FetchPhoto(e.ID)
	case game.Download:
		dom.Download(e.Name, e.Type, e.Data)
	case work.Ask:
		a.ask(e)
	case work.Stop:
		a.turn(a.queue.Stop(e.N))
	default:
		a.begin(effect)
	}
}

// aside does what has to wait for the browser in a goroutine; a fault of the program there
// costs that alone.
func (a *app) aside(f func()) {
	go func() {
		if guard.Run("effect", f) != nil {
			a.step(game.Faulted{})
		}
	}()
}

// begin makes sound, and begins what takes a while: backups, tables, films.
func (a *app) begin(effect game.Effect) {
	switch e := effect.(type) {
	case rehearse.Sound:
		dom.Sound(e.At, e.Volume, e.Beats)
	case rehearse.Listen:
		dom.Listen(e.On)
	case route.StayAwake:
		dom.StayAwake(e.On)
	case back.PutSummary:
		a.aside(func() { a.shelved("summary", e.ID, dom.PutSummary(e.ID, e.Doc)) })
	case game.MakeTable:
		a.aside(func() { a.makeTable(e) })
	case game.MakeFilm:
		a.beginFilm()
	case game.StopFilm:
		a.filming = nil
	case game.MakeBackup:
		a.aside(func() { a.makeBackup(e.Name) })
	case game.TakeBackup:
		a.aside(func() { a.takeBackup(e.Replace) })
	case game.SaveStuck:
		a.saveStuck(e.Name)
	case game.MakeRoom:
		a.aside(func() { a.makeRoom() })
	case game.UndoBackup:
		a.aside(func() { a.undoBackup() })
	default:
		dom.Complain(fmt.Sprintf("%T", effect))
		a.step(game.Faulted{})
	}
}

// why returns the code of what went wrong, empty for well. What the browser says of it goes
// to its console.
func why(err error) place.Why {
	var f dom.Failure
	switch {
	case err == nil:
		return ""
	case errors.As(err, &f):
		return place.Why(f.Kind)
	}
	dom.Note(err.Error())
	return place.WhyUnknown
}

func (a *app) putSettings(doc []byte) {
	if err := dom.PutSettings(doc); err != nil {
		a.step(game.StorageOff{Why: why(err)})
	}
}

func (a *app) answer(id string, err error) {
	a.step(game.Saved{ID: id, Err: why(err)})
}

func (a *app) shelved(kind, id string, err error) {
	a.step(game.Shelved{Kind: kind, ID: id, Err: why(err)})
}

func (a *app) fetch(e game.Fetch) {
	msg := game.Fetched{ID: e.ID, Over: e.Over, Top: e.Top, For: e.For}
	doc, err := dom.Get(e.ID)
	switch {
	case err != nil:
		msg.Err = why(err)
	case doc == nil:
		msg.Err = place.WhyGone
	default:
		msg.Doc = doc
	}
	a.step(msg)
}

// keep keeps a thing; where another tab has changed it, the program makes two of them.
func (a *app) keep(t game.Thing) {
	theirs, err := dom.Keep(t.Kind, t.ID, t.Doc, !game.Shared(t.Kind))
	a.shelved(t.Kind, t.ID, err)
	if theirs != nil {
		a.step(game.Clashed{Kind: t.Kind, ID: t.ID, Theirs: theirs})
	}
}

// restore brings a deleted trace back, or says that it is there no more.
func (a *app) restore(id string) {
	there, err := dom.Restore(id)
	a.answer(id, err)
	if err == nil && !there {
		a.step(game.Unrestored{ID: id})
	}
	a.list()
}

// openStore lists what is kept, keeps what an earlier visit could not, and ends the
// chance to take back the deletions of the visit before.
func (a *app) openStore() {
	a.step(game.Persistence{Granted: dom.Persisted()})
	a.recoverThings() // which the shelf shows
	a.shelf()         // which the page waits for; the traces may be thousands
	a.list()
	a.recoverTraces()
	if err := dom.EmptyBin(a.takenBackup()); err != nil {
		a.step(game.StorageOff{Why: why(err)})
		return
	}
	dom.SweepPhotos()
}

// How many summaries are read at once: first those that the page shows, then the rest
// in parts between which the page can move.
const (
	firstListed = 200
	restListed  = 1000
)

// list reads the summaries, the newest first. A damaged one is left in the store and
// counted.
func (a *app) list() {
	damaged, n, before := 0, firstListed, ""
	for {
		docs, more, err := dom.List(n, before)
		if err != nil {
			a.step(game.StorageOff{Why: why(err)})
			return
		}
		msg := game.Listed{}
		for _, doc := range docs {
			s, err := keep.DecodeSummary(doc)
			if err != nil {
				damaged++
				continue
			}
			msg.Past = append(msg.Past, s)
		}
		if more == "" {
			msg.Damaged = damaged
			a.step(msg)
			return
		}
		a.step(msg)
		n, before = restListed, more
	}
}

// shelf reads the other things that are kept.
func (a *app) shelf() {
	things, err := dom.Shelf()
	if err != nil {
		a.step(game.StorageOff{Why: why(err)})
		return
	}
	msg := game.Shelf{}
	for _, t := range things {
		msg.Things = append(msg.Things, game.Thing{Kind: t.Kind, ID: t.ID, Doc: t.Doc})
	}
	a.step(msg)
}
