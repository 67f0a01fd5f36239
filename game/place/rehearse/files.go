package rehearse

import (
	"bytes"
	"fmt"
	"time"

	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/trace"
)

// FileName returns a name for a file about the trace on the cloth.
func (r Room) FileName(ending string) string {
	at := time.UnixMilli(r.Open.Rec.Started).UTC().Format("2006-01-02-1504")
	return fmt.Sprintf("%s-%s.%s", r.Open.Rec.Motif, at, ending)
}

// download hands the trace on the cloth to the person as an InkML file.
func (r Room) download() (Room, []place.Effect) {
	if r.Open == nil {
		return r, nil
	}
	ink, err := r.Open.Rec.Ink()
	var b bytes.Buffer
	if err == nil {
		err = trace.WriteInk(&b, []trace.Ink{ink})
	}
	if err != nil {
		r.Notice = place.Say("rehearse.no-file")
		return r, nil
	}
	return r, []place.Effect{place.Download{Name: r.FileName("inkml"), Type: "application/inkml+xml", Data: b.Bytes()}}
}

// downloadMeasures hands the measures of the trace on the cloth, and of the one
// laid over it, to the person as a table.
func (r Room) downloadMeasures() (Room, []place.Effect) {
	if r.Open == nil || r.Open.Unmeasured != nil {
		return r, nil
	}
	reports := []scoring.Named{{Name: r.Open.Rec.ID, Report: r.Open.Report}}
	if r.Over != nil && r.Over.Unmeasured == nil {
		reports = append(reports, scoring.Named{Name: r.Over.Rec.ID, Report: r.Over.Report})
	}
	var b bytes.Buffer
	if err := scoring.WriteCSV(&b, reports); err != nil {
		r.Notice = place.Say("rehearse.no-table")
		return r, nil
	}
	return r, []place.Effect{place.Download{Name: r.FileName("csv"), Type: "text/csv", Data: b.Bytes()}}
}

// made measures a finished trace; started is in ms since 1970, live how it was made,
// nil if nobody knows.
func (r Room) made(tr trace.Trace, started float64, live *Live) *replay.Sheet {
	rec := r.newRecord(tr, started)
	if live != nil {
		guide := live.guide // a copy: the record is kept long after the samples
		rec.Way, rec.Guide, rec.WarmUp = live.way, &guide, r.Learning.Mode == InWarmUp
	}
	sh := r.measure(rec)
	sh.Rec = sh.Noted()
	sh.Rec.Interval = sh.Prep.Interval
	return sh
}

// laid lays a trace that was just made on the cloth and has it kept.
func (r Room) laid(sh *replay.Sheet) (Room, []place.Effect) {
	r.Open = sh
	return r.atItsEnd().keep(sh.Rec)
}

func pathOf(tr trace.Trace) geom.Polyline {
	path := make(geom.Polyline, len(tr.Samples))
	for i, s := range tr.Samples {
		path[i] = s.P
	}
	return path
}
