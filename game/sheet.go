package game

import (
	"fmt"

	"unthreaded/game/keep"
	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/align"
	"unthreaded/scoring/trace"
)

// Sheet is a finished trace laid out for looking at: as stitches, measured, and
// matched to its line.
type Sheet struct {
	Rec  keep.Record
	Line geom.Line
	Prep trace.Prepared
	// Falls are the places where the needle goes down.
	Falls []trace.Fall
	// Place is the arc length on the line of each prepared point, in mm. It falls
	// where the hand went back.
	Place  []float64
	match  align.Match
	Report scoring.Report
	// Unmeasured says why there are no measures; empty where there are.
	Unmeasured string
}

// lay lays out a record, its stitches and measures at the needle speed and stitch
// length given, which may differ from those it was traced with.
func lay(rec keep.Record, line geom.Line, spm, stitchMM float64) *Sheet {
	sh := &Sheet{Rec: rec, Line: line}
	tr := rec.Trace()
	prep, err := trace.Prepare(tr)
	if err != nil {
		sh.Unmeasured = err.Error()
		return sh
	}
	sh.Prep = prep
	if sh.match, err = align.Follow(line, prep.Points); err != nil {
		sh.Unmeasured = err.Error()
		return sh
	}
	sh.Place = sh.match.Place
	return sh.stitched(spm, stitchMM)
}

// stitched returns the sheet with stitches and measures for another needle speed
// and stitch length.
func (sh *Sheet) stitched(spm, stitchMM float64) *Sheet {
	next := *sh
	if sh.Unmeasured == "" {
		next.Falls = sh.Prep.Falls(spm)
		next.Report = scoring.Measure(sh.Line, sh.Rec.Trace(), sh.Prep, sh.match, scoring.Settings{SPM: spm, TargetMM: stitchMM})
	}
	return &next
}

// measure lays out a record that was just made, on the line as the record keeps
// it, so that opening it later gives the same measures.
func (m Model) measure(rec keep.Record) *Sheet {
	line, err := rec.GeomLine()
	if err != nil {
		line = m.Line // cannot be: the line in hand was valid before it was rounded
	}
	return lay(rec, line, m.spm(), m.Settings.StitchMM)
}

// noted returns the record of the sheet with its measures.
func (sh *Sheet) noted() keep.Record {
	rec := sh.Rec
	if sh.Unmeasured != "" {
		rec.SetUnmeasured()
	} else {
		rec.SetMeasures(sh.Report)
	}
	return rec
}

// Duration returns the duration of the trace in s.
func (sh *Sheet) Duration() float64 { return sh.Rec.Trace().Duration() }

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
