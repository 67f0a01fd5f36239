package game

import (
	"bytes"
	"fmt"
	"time"

	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/trace"
)

// fileName returns a name for a file about the trace on the cloth.
func (m Model) fileName(ending string) string {
	at := time.UnixMilli(m.Open.Rec.Started).UTC().Format("2006-01-02-1504")
	return fmt.Sprintf("%s-%s.%s", m.Open.Rec.Motif, at, ending)
}

// download hands the trace on the cloth to the person as an InkML file.
func (m Model) download() (Model, []Effect) {
	if m.Open == nil {
		return m, nil
	}
	ink, err := m.Open.Rec.Ink()
	var b bytes.Buffer
	if err == nil {
		err = trace.WriteInk(&b, []trace.Ink{ink})
	}
	if err != nil {
		m.Notice = Notice{Text: "The file could not be written: " + err.Error() + "."}
		return m, nil
	}
	return m, []Effect{Download{Name: m.fileName("inkml"), Type: "application/inkml+xml", Data: b.Bytes()}}
}

// downloadMeasures hands the measures of the trace on the cloth, and of the one
// laid over it, to the person as a table.
func (m Model) downloadMeasures() (Model, []Effect) {
	if m.Open == nil || m.Open.Unmeasured != "" {
		return m, nil
	}
	reports := []scoring.Named{{Name: m.Open.Rec.ID, Report: m.Open.Report}}
	if m.Over != nil && m.Over.Unmeasured == "" {
		reports = append(reports, scoring.Named{Name: m.Over.Rec.ID, Report: m.Over.Report})
	}
	var b bytes.Buffer
	if err := scoring.WriteCSV(&b, reports); err != nil {
		m.Notice = Notice{Text: "The table could not be written: " + err.Error() + "."}
		return m, nil
	}
	return m, []Effect{Download{Name: m.fileName("csv"), Type: "text/csv", Data: b.Bytes()}}
}

// made measures a finished trace; started is in ms since 1970, live how it was made,
// nil if nobody knows.
func (m Model) made(tr trace.Trace, started float64, live *Live) *Sheet {
	rec := m.newRecord(tr, started)
	if live != nil {
		rec.Way, rec.Guide, rec.WarmUp = live.way, &live.guide, m.Learning.Mode == InWarmUp
	}
	sh := m.measure(rec)
	sh.Rec = sh.Noted()
	sh.Rec.Interval = sh.Prep.Interval
	return sh
}

// laid lays a trace that was just made on the cloth and has it kept.
func (m Model) laid(sh *Sheet) (Model, []Effect) {
	m.Open = sh
	m.Replay = replay.Clock{Rate: m.Replay.Rate}
	return m.timed().keep(sh.Rec)
}

func pathOf(tr trace.Trace) geom.Polyline {
	path := make(geom.Polyline, len(tr.Samples))
	for i, s := range tr.Samples {
		path[i] = s.P
	}
	return path
}
