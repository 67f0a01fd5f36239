//go:build js

package main

import (
	"errors"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/wasm/dom"
)

// stuck are traces of an earlier visit that the storage does not take.
type stuck struct{ entries []dom.Entry }

// recoverThings keeps the blocks and quilts that tabs had in hand when they ended. What
// cannot be kept stays in the journal for the next visit.
func (a *app) recoverThings() {
	entries, pieces, err := dom.Left()
	if err != nil {
		return // the shelf, which comes next, meets the same and says so
	}
	kept := 0
	for _, e := range entries {
		if e.Kind == "" {
			continue
		}
		// It was on its way into the storage: whatever stands there is older, or another tab's.
		if _, err := dom.Keep(e.Kind, e.ID, e.Doc, true); err == nil {
			dom.ThingDone(e.Kind, e.ID)
		}
	}
	for _, p := range pieces {
		last, err := keep.DecodePiece(p.Docs[len(p.Docs)-1])
		if err != nil || last.Thing == nil {
			continue
		}
		if a.keepLeft(last.Thing) {
			kept++
		}
		p.Drop()
	}
	if kept > 0 {
		a.step(game.Recovered{Things: kept})
	}
}

// keepLeft keeps a thing that was in hand, and tells whether that was news.
func (a *app) keepLeft(t *keep.ThingPiece) bool {
	things, err := dom.Shelf()
	if err != nil {
		return false
	}
	for _, k := range things {
		if k.Kind == t.Kind && k.ID == t.ID && string(k.Doc) == t.Doc {
			return false
		}
	}
	_, err = dom.Keep(t.Kind, t.ID, []byte(t.Doc), true)
	return err == nil
}

// recoverTraces keeps the traces that tabs had in hand, or had not kept yet, when they
// ended.
func (a *app) recoverTraces() {
	entries, pieces, err := dom.Left()
	if err != nil {
		return // the list has met the same and said so
	}
	a.stuck.entries = nil
	found, damaged := 0, 0
	var last error
	whole := map[string]bool{}
	for _, e := range entries {
		switch {
		case e.Kind != "":
		case len(e.Doc) == 0:
			damaged++
		default:
			whole[e.ID] = true
			if err := dom.Put(e.ID, e.Doc, e.Summary); err != nil {
				a.stuck.entries, last = append(a.stuck.entries, e), err
				continue
			}
			a.listed(e.Summary)
			found++
		}
	}
	for _, p := range pieces {
		rec, err := keep.Join(p.Docs)
		switch {
		case whole[p.ID] || errors.Is(err, keep.ErrTap):
			p.Drop()
			continue
		case err != nil:
			if last, bad := keep.DecodePiece(p.Docs[0]); bad != nil || last.Thing == nil {
				damaged++
			}
			continue
		}
		if a.keepPieces(p, rec) {
			found++
		}
	}
	a.step(game.Listed{Damaged: damaged})
	if found > 0 {
		a.step(game.Recovered{Traces: found})
	}
	a.step(game.Stuck{N: len(a.stuck.entries), Why: why(last)})
}

// keepPieces keeps a trace that broke off, and tells whether it is kept; one that the storage does not
// take is stuck.
func (a *app) keepPieces(p dom.Pieces, rec keep.Record) bool {
	if err := rec.Measure(); err != nil {
		rec.SetUnmeasured()
	}
	doc, err := keep.Encode(rec)
	if err != nil {
		return false
	}
	summary, err := keep.EncodeSummary(keep.Summarise(rec))
	if err != nil {
		return false
	}
	if kept, err := dom.Get(rec.ID); err == nil && kept != nil {
		p.Drop() // it was kept whole
		return false
	}
	if err := dom.PutPieces(p, doc, summary); err != nil {
		a.stuck.entries = append(a.stuck.entries, dom.Entry{Name: rec.ID, ID: rec.ID, Doc: doc, Summary: summary})
		return false
	}
	a.listed(summary)
	return true
}

// listed lists a trace that has been kept.
func (a *app) listed(summary []byte) {
	if s, err := keep.DecodeSummary(summary); err == nil {
		a.step(game.Listed{Past: []keep.Summary{s}})
	}
}

// saveStuck hands the traces that the storage does not take to the person, as a backup
// of them alone.
func (a *app) saveStuck(name string) {
	var file dom.Blob
	items := make(keep.Items, len(a.stuck.entries))
	for i, e := range a.stuck.entries {
		items[i] = keep.Item{Part: keep.TracesPart, Name: keep.Name{ID: e.ID}, Doc: string(e.Doc), Summary: string(e.Summary)}
	}
	if _, err := keep.WriteBackup(&file, items, now(), func(int, int) {}); err != nil {
		a.step(game.BackupMade{Err: why(err)})
		return
	}
	file.Hand(name, "application/json")
}

// makeRoom gives up what could be taken back and tries again.
func (a *app) makeRoom() {
	if err := dom.MakeRoom(); err != nil {
		a.step(game.StorageOff{Why: why(err)})
		return
	}
	a.recoverTraces()
}
