package rehearse

import (
	"unthreaded/game/keep"
	"unthreaded/game/replay"
	"unthreaded/scoring/trace"
)

// measure lays out a record that was just made, on the line as the record keeps
// it, so that opening it later gives the same measures.
func (r Room) measure(rec keep.Record) *replay.Sheet {
	line, err := rec.GeomLine()
	if err != nil {
		line = r.Line // cannot be: the line in hand was valid before it was rounded
	}
	return replay.Lay(rec, line, r.spm(), r.Settings.StitchMM)
}

// newRecord makes the record of a trace on the line in hand.
func (r Room) newRecord(tr trace.Trace, started float64) keep.Record {
	rec := keep.Record{
		Schema: keep.Schema, Started: int64(started),
		ID:    keep.ID(started, tr.Device),
		Motif: r.Motif.ID, Name: r.Motif.Name, Repeats: r.Repeats, Way: keep.Pencil,
		SPM: r.spm(), StitchMM: r.Settings.StitchMM,
		Zoom: r.View.Zoom, PxPerMM: r.View.TrueSize, SizeKnown: r.View.SizeKnown,
	}
	rec.SetLine(r.Line)
	rec.SetTrace(tr)
	return rec
}
