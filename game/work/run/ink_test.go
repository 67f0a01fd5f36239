package run

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"unthreaded/game/keep"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// bare is a record of a line without samples.
func bare(t testing.TB) keep.Record {
	t.Helper()
	line, err := geom.NewLine(geom.MustParse("M 0 0 L 60 0 L 60 40"))
	if err != nil {
		t.Fatal(err)
	}
	rec := keep.Record{
		Schema: keep.Schema, ID: "bare", Started: 1_700_000_000_000, Motif: "linked-swirls", Name: "x", Repeats: 1,
		Way: keep.Pencil, SPM: 600, StitchMM: 2.5, Zoom: 1, PxPerMM: 3.78,
	}
	rec.SetLine(line)
	rec.SetTrace(trace.Trace{})
	return rec
}

// inkFile is an InkML file of n traces in mm at 100 samples a second, of so many samples each.
func inkFile(n, samples int) string {
	var b strings.Builder
	b.WriteString(`<ink xmlns="http://www.w3.org/2003/InkML"><context><inkSource><traceFormat><channel name="X" type="decimal" units="mm"/>` +
		`<channel name="Y" type="decimal" units="mm"/></traceFormat><sampleRate value="100"/></inkSource></context>`)
	for k := range n {
		b.WriteString("<trace>")
		for i := range samples {
			s := 100 * float64(i) / float64(samples)
			fmt.Fprintf(&b, "%.2f %.2f,", math.Min(s, 60), math.Max(0, s-60)+0.01*float64(k%97))
		}
		b.WriteString("100 100</trace>")
	}
	return b.String() + "</ink>"
}

// A file of many traces is told of trace by trace, never less done than before, and each
// comes with a name and samples of its own that can be read again.
func TestAFileOfManyTracesIsReadInSteps(t *testing.T) {
	const n = 60
	var told []float64
	out := Do(work.Ink, work.InkIn{Doc: inkFile(n, 80), LeastMM: 5, Bare: bare(t)}, func(s float64) { told = append(told, s) }).(work.InkOut)
	if len(out.Kept) != n || out.Taps > 0 || out.Unreadable {
		t.Fatalf("%d traces of %d, %d taps", len(out.Kept), n, out.Taps)
	}
	if len(told) < n {
		t.Errorf("told of %d times, want each of %d", len(told), n)
	}
	for i := 1; i < len(told); i++ {
		if told[i] < told[i-1] || told[i] > 1 {
			t.Errorf("told of %v after %v", told[i], told[i-1])
		}
	}
	names := map[string]bool{}
	for _, k := range out.Kept {
		rec, err := keep.Decode(k.Doc)
		if err != nil || rec.ID != k.ID || rec.Samples.Digest() != k.Digest || len(rec.Trace().Samples) != k.Samples || names[k.ID] {
			t.Fatalf("%s: %v", k.ID, err)
		}
		names[k.ID] = true
		if sum, err := keep.DecodeSummary(k.Summary); err != nil || sum.ID != k.ID {
			t.Fatalf("the summary of %s: %v", k.ID, err)
		}
	}
}

// A trace of 200,000 samples, 33 minutes at 100 a second, is more than is measured; it comes
// through all the same, and so does what is no InkML.
func TestAHugeTraceComesThrough(t *testing.T) {
	out := Do(work.Ink, work.InkIn{Doc: inkFile(1, 200_000), LeastMM: 5, Bare: bare(t)}, func(float64) {}).(work.InkOut)
	if len(out.Kept) != 1 || out.Kept[0].Samples != 200_001 {
		t.Errorf("%d traces kept", len(out.Kept))
	}
	if out := Do(work.Ink, work.InkIn{Doc: "no ink", Bare: bare(t)}, func(float64) {}).(work.InkOut); !out.Unreadable {
		t.Errorf("no InkML gives %+v", out)
	}
}
