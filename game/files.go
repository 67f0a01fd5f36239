package game

import (
	"bytes"
	"fmt"
	"strings"
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
	var b bytes.Buffer
	if err := trace.WriteInkML(&b, []trace.Trace{m.Open.Rec.Trace()}); err != nil {
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

// importInk reads the traces of an InkML file, sets them against the line on the
// cloth, keeps them, and shows the last one.
func (m Model) importInk(doc string) (Model, []Effect) {
	traces, err := trace.ReadInkML(strings.NewReader(doc))
	if err != nil {
		m.Notice = Notice{Text: "This file holds no traces that can be read. It should be InkML, as this page saves it (" + err.Error() + "). Nothing was changed."}
		return m, nil
	}
	var kept []Effect
	now := m.Origin + m.lastFrame*1000
	for i, tr := range traces {
		if pathOf(tr).Length() < minTraceMM {
			continue
		}
		var e []Effect
		m, e = m.take(tr, now+float64(i), nil)
		kept = append(kept, e...)
	}
	m.Notice = Notice{Text: fmt.Sprintf("%d traces were read from the file and set against the line on the cloth.", len(kept))}
	if len(kept) == 1 {
		m.Notice = Notice{Text: "The trace was read from the file and set against the line on the cloth."}
	}
	if len(kept) == 0 {
		m.Notice = Notice{Text: "This file holds no trace of a movement longer than a tap. Nothing was changed."}
	}
	return m.relaid(), kept
}

// take lays a finished trace on the cloth and has it kept; started is in ms since
// 1970, live how it was made, nil if nobody knows.
func (m Model) take(tr trace.Trace, started float64, live *Live) (Model, []Effect) {
	rec := m.newRecord(tr, started)
	if live != nil {
		rec.Way, rec.Guide, rec.WarmUp = live.way, &live.guide, m.Learning.Mode == InWarmUp
	}
	sh := m.measure(rec)
	sh.Rec.Report = sh.Report
	sh.Rec.Interval = sh.Prep.Interval
	m.Open = sh
	m.Replay = replay.Clock{T: sh.Duration(), Length: sh.Duration(), Rate: m.Replay.Rate}
	return m.keep(sh.Rec)
}

func pathOf(tr trace.Trace) geom.Polyline {
	path := make(geom.Polyline, len(tr.Samples))
	for i, s := range tr.Samples {
		path[i] = s.P
	}
	return path
}
