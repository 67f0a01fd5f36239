package replay

import (
	"testing"

	"unthreaded/game/keep"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// A trace that cannot be measured is a trace all the same: here one without a line.
func TestAFaultInScoringCostsTheMeasuresAlone(t *testing.T) {
	rec := keep.Record{ID: "a", SPM: 600, StitchMM: 2.5}
	rec.SetTrace(trace.Trace{Device: trace.Pen, Samples: []trace.Sample{{P: geom.Pt(0, 0)}, {T: 1, P: geom.Pt(9, 0)}}})
	sh := Lay(rec, geom.Line{}, 600, 2.5)
	if sh.Unmeasured == nil || len(sh.Rec.Samples.T) != 2 {
		t.Errorf("laid out without a line: %q", sh.Unmeasured)
	}
}
