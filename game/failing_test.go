package game_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// broken is a message at which the program falls over: its IsMsg is never called, and its
// photo has fewer bytes than pixels.
var broken = place.Photo{Name: "draw.photo", ID: "x", W: 1 << 20, H: 1 << 20, Pix: nil}

// A fault of the program is said, and costs what was asked for alone.
func TestAFaultIsSaidAndCostsItselfAlone(t *testing.T) {
	m, _ := game.Update(game.Model{Place: game.Rehearse}, game.Resized{W: 900, H: 600, DPR: 1})
	if !strings.Contains(m.Notice.Said.Key, "page.fault") {
		t.Errorf("a model that is none says %+v", m.Notice)
	}
	tb := newTable(t)
	before := tb.m.Line
	tb.send(broken)
	if tb.m.Line.Length() != before.Length() {
		t.Error("a fault changed the line")
	}
	tb.send(game.Control{Name: "units", Value: "mm"})
	if tb.m.Settings.Units != game.Millimetres {
		t.Error("after a fault nothing can be set")
	}
}

// A trace that cannot be measured is a trace all the same.
func TestAFaultInScoringCostsTheMeasuresAlone(t *testing.T) {
	rec := keep.Record{ID: "a", SPM: 600, StitchMM: 2.5}
	rec.SetTrace(trace.Trace{Device: trace.Pen, Samples: []trace.Sample{{P: geom.Pt(0, 0)}, {T: 1, P: geom.Pt(9, 0)}}})
	sh := replay.Lay(rec, geom.Line{}, 600, 2.5)
	if sh.Unmeasured == "" || len(sh.Rec.Samples.T) != 2 {
		t.Errorf("laid out without a line: %q", sh.Unmeasured)
	}
}
