package game

import (
	"fmt"
	"unthreaded/game/keep"
	"unthreaded/game/replay"
	"unthreaded/scoring/trace"
)

// measure lays out a record that was just made, on the line as the record keeps
// it, so that opening it later gives the same measures.
func (m Model) measure(rec keep.Record) *Sheet {
	line, err := rec.GeomLine()
	if err != nil {
		line = m.Line // cannot be: the line in hand was valid before it was rounded
	}
	return replay.Lay(rec, line, m.spm(), m.Settings.StitchMM)
}

// newRecord makes the record of a trace on the line in hand.
func (m Model) newRecord(tr trace.Trace, started float64) keep.Record {
	rec := keep.Record{
		Schema: keep.Schema, Started: int64(started),
		ID:    fmt.Sprintf("%013.0f-%s", started*10, tr.Device),
		Motif: m.Motif.ID, Name: m.Motif.Name, Repeats: m.Repeats, Way: keep.Pencil,
		SPM: m.spm(), StitchMM: m.Settings.StitchMM,
		Zoom: m.View.Zoom, PxPerMM: m.View.TrueSize, SizeKnown: m.View.SizeKnown,
	}
	rec.SetLine(m.Line)
	rec.SetTrace(tr)
	return rec
}
