package run

import (
	"errors"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// readShare is the share of reading a file in all of the work on it.
const readShare = 0.1

// readInk reads and measures the traces of a file, one after another.
func readInk(in work.InkIn, tell Tell) (out work.InkOut) {
	inks, err := trace.ReadInk(strings.NewReader(in.Doc), in.Unit)
	var unsized *trace.UnitError
	switch {
	case errors.As(err, &unsized) && max(unsized.Width, unsized.Height) > 0:
		return work.InkOut{Unsized: unsized}
	case err != nil:
		return work.InkOut{Unreadable: true}
	}
	for i, k := range inks {
		tell(readShare + (1-readShare)*float64(i)/float64(len(inks)))
		path := pathOf(k.Trace)
		switch {
		case k.Timeless:
			out.Lines = append(out.Lines, path)
			continue
		case path.Length() < in.LeastMM:
			out.Taps++
			continue
		}
		rec, err := keep.FromInk(k)
		if err != nil {
			rec = bareOf(in.Bare, k, i)
		}
		out.Kept = append(out.Kept, measuredInk(rec))
	}
	return out
}

// bareOf returns the record of trace i of a file, which brings no line: on that of the line on
// the cloth. Other programs give several traces one moment, so that its name tells its
// samples too.
func bareOf(bare keep.Record, k trace.Ink, i int) keep.Record {
	rec, started := bare, k.Started
	if !(started > 0) {
		started = float64(bare.Started) + float64(i)
	}
	rec.Started = int64(started)
	rec.SetTrace(k.Trace)
	rec.ID = keep.ID(started, k.Device) + "-" + rec.Samples.Digest()
	if p, err := trace.Prepare(rec.Trace()); err == nil {
		rec.Interval = p.Interval
	}
	return rec
}

// measuredInk measures a record and writes it. What cannot be is a fault of the program: the
// line and the samples were checked when they were read.
func measuredInk(rec keep.Record) work.InkKept {
	err := rec.Measure()
	var doc, sum []byte
	if err == nil {
		doc, err = keep.Encode(rec)
	}
	if err == nil {
		sum, err = keep.EncodeSummary(keep.Summarise(rec))
	}
	if err != nil {
		panic(err)
	}
	return work.InkKept{ID: rec.ID, Digest: rec.Samples.Digest(), Doc: doc, Summary: sum, Samples: len(rec.Samples.T)}
}

func pathOf(tr trace.Trace) geom.Polyline {
	path := make(geom.Polyline, len(tr.Samples))
	for i, s := range tr.Samples {
		path[i] = s.P
	}
	return path
}
