//go:build js

package main

import (
	"encoding/json"
	"errors"
	"time"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/wasm/dom"
)

// shelf is what the browser keeps, as backups need it.
type shelf struct{}

func (shelf) Names(p keep.Part) ([]keep.Name, error) {
	rows, err := dom.Names(string(p))
	out := make([]keep.Name, len(rows))
	for i, r := range rows {
		out[i] = keep.Name{Kind: r[0], ID: r[1]}
	}
	return out, err
}

func (shelf) Get(p keep.Part, names []keep.Name) ([]keep.Item, error) {
	ask := make([][]string, len(names))
	for i, n := range names {
		ask[i] = []string{n.Kind, n.ID}
	}
	rows, err := dom.Records(string(p), ask)
	out := make([]keep.Item, len(rows))
	for i, r := range rows {
		out[i] = keep.Item{Part: p, Name: keep.Name{Kind: r[0], ID: r[1]}, Doc: r[2], Summary: r[3], Type: r[4], Base64: r[5]}
	}
	return out, err
}

func (shelf) Stage(items []keep.Item) error {
	rows := make([][]string, len(items))
	for i, it := range items {
		rows[i] = []string{string(it.Part), it.Kind, it.ID, it.Doc, it.Summary, it.Type, it.Base64}
	}
	return dom.Stage(rows)
}

func (shelf) Unstage() error { return dom.Unstage() }

func (shelf) Swap(replace bool) (keep.Swapped, error) {
	same, more, err := dom.Swap(replace)
	return keep.Swapped{Same: same, More: more}, err
}

// restoring is the backup that was checked last.
type restoring struct {
	file  dom.File
	found keep.Found
}

// now returns the time on the page's clock.
func now() time.Time { return time.UnixMilli(int64(dom.Origin() + 1000*dom.Now())) }

func (a *app) readBackup(done int) { a.step(game.BackupProgress{Done: done}) }

func (a *app) makeBackup(name string) {
	var file dom.Blob
	made := now()
	known, err := keep.Remember(shelf{})
	if err == nil {
		_, err = dom.Keep(known.Kind, known.ID, []byte(known.Doc), true)
	}
	if err != nil {
		a.step(game.BackupMade{Err: why(err)})
		return
	}
	n, err := keep.WriteBackup(&file, shelf{}, made, func(done, of int) {
		a.step(game.BackupProgress{Done: done, Of: of})
	})
	if err != nil {
		a.step(game.BackupMade{Err: why(err)})
		return
	}
	file.Hand(name, "application/json")
	a.step(game.BackupMade{
		Made: made.UnixMilli(), Traces: n[keep.TracesPart], Things: n[keep.ThingsPart], Photos: n[keep.PhotosPart],
	})
}

// checkBackup reads a file that was chosen as a backup.
func (a *app) checkBackup(f dom.File) {
	a.step(game.Control{Name: "backup-check"})
	a.aside(func() {
		found, err := keep.CheckBackup(f.Reader(), shelf{}, a.readBackup)
		msg := game.BackupChecked{Found: game.BackupFound{Found: found}}
		if !errors.As(err, &msg.Fault) {
			msg.Err = why(err)
		}
		a.restoring = restoring{f, found}
		a.step(msg)
	})
}

// takeBackup takes in the file that was checked last, and loads the page anew; otherwise
// it tells why not.
func (a *app) takeBackup(replace bool) {
	swapped, err := keep.TakeBackup(a.restoring.file.Reader(), shelf{}, keep.Taking{
		Replace: replace, Found: a.restoring.found,
		Rename: func(name string) string { return a.model.Book().Say("backup.copy-name", name) },
	}, a.readBackup)
	if err != nil {
		a.step(game.Restored{Err: why(err)})
		return
	}
	found := a.restoring.found
	again(game.Restored{
		Made: found.Made, Whole: replace || found.Whole(), Replaced: replace, Same: swapped.Same, More: swapped.More,
		Later: found.Later, Both: found.Both,
	})
}

func (a *app) undoBackup() {
	more, err := dom.TakeBack()
	if err != nil {
		a.step(game.Restored{Undone: true, Err: why(err)})
		return
	}
	again(game.Restored{Undone: true, More: more})
}

func again(msg game.Restored) {
	doc, err := json.Marshal(msg)
	if err != nil {
		panic(err) // truth values and a number
	}
	dom.Again(doc)
}

// takenBackup tells the program that a backup was taken in just before this visit
// began, and whether that can be taken back.
func (a *app) takenBackup() (back bool) {
	var msg game.Restored
	if doc := dom.Outcome(); len(doc) == 0 || json.Unmarshal(doc, &msg) != nil {
		return false
	}
	a.step(msg)
	return !msg.Undone && !msg.Same || msg.More
}
