//go:build js

package main

import (
	"encoding/json"
	"errors"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/wasm/dom"
)

func (a *app) backupProgress(done, of int) { a.step(game.BackupProgress{Done: done, Of: of}) }

func (a *app) makeBackup(name string) {
	var msg game.BackupMade
	doc, err := dom.MakeBackup(name, keep.Schema, a.backupProgress)
	if err == nil {
		err = json.Unmarshal(doc, &msg)
	}
	if err != nil {
		msg.Err = err.Error()
	}
	a.step(msg)
}

// checkBackup reads a file that was chosen as a backup.
func (a *app) checkBackup(f dom.BackupFile) {
	a.step(game.Control{Name: "backup-check"})
	go func() {
		var msg game.BackupChecked
		doc, err := dom.CheckBackup(f, keep.Schema, a.backupProgress)
		if err == nil {
			err = json.Unmarshal(doc, &msg.Found)
		}
		var fault dom.Fault
		switch {
		case errors.As(err, &fault):
			msg.Kind, msg.Err = fault.Kind, fault.Where
		case err != nil:
			msg.Err = err.Error()
		}
		a.step(msg)
	}()
}

// untaken tells why a backup was not taken in, or not taken back; otherwise the page
// is about to be loaded anew.
func (a *app) untaken(err error) {
	if err != nil {
		a.step(game.Restored{Err: err.Error()})
	}
}

// takenBackup tells the program that a backup was taken in just before this visit
// began, and whether that can be taken back.
func (a *app) takenBackup() (back bool) {
	doc := dom.TakenBackup()
	if len(doc) == 0 {
		return false
	}
	var msg game.Restored
	if err := json.Unmarshal(doc, &msg); err != nil {
		return false
	}
	a.step(msg)
	return !msg.Undone && !msg.Same || msg.More
}
