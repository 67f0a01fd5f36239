package weeks

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/keep"
	measures "unthreaded/scoring"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

const day = 86400.0

// practise returns the summaries of sessions a day apart, traces in each, newest first as
// they are kept; cv gives the evenness of a trace.
func practise(motif string, sessions, traces int, marks string, cv func(session int) float64) []keep.Summary {
	var out []keep.Summary
	for k := range sessions {
		for i := range traces {
			v := cv(k)
			m := keep.Measured{
				Version: measures.Version, Seconds: 20, SPM: 600, StitchMM: 2.5,
				Figures: map[progress.Measure]float64{progress.Spacing: v, progress.Beside: 1, progress.Flow: -3 * v},
				Places: map[progress.Movement]map[progress.Measure]float64{
					progress.Straight: {progress.Uneven: v / 2, progress.Beside: 1}, progress.Loop: {progress.Uneven: 0.3 + v/100, progress.Beside: 1},
				},
			}
			doc, err := json.Marshal(m)
			if err != nil {
				panic(err)
			}
			out = append(out, keep.Summary{
				ID: fmt.Sprintf("%s-%s-%d-%d", motif, marks, k, i), Started: int64(1e12 + 1000*(float64(k)*day+float64(i)*60)),
				Motif: motif, Name: motif, Repeats: 3, Device: trace.Pen, Way: keep.Pencil, Zoom: 1, SizeKnown: true,
				Guide: &keep.Guide{Marks: marks}, Measured: doc, Print: "a",
			})
		}
	}
	slices.Reverse(out)
	return out
}

// learning falls from 0.5 to near 0.2, with days and traces that stray by a tenth.
func learning(seed uint64) func(int) float64 {
	r := rand.New(rand.NewPCG(seed, 1))
	return func(k int) float64 { return (0.2 + 0.3*math.Exp(-float64(k)/5)) * math.Exp(0.05*r.NormFloat64()) }
}

func about(motif string, kept []keep.Summary) Book {
	return New().With(kept).Look(Ask{Motif: motif, Measure: progress.Spacing}).Done()
}

// What the book says is what the package of measures says of the same traces, worked out
// at once.
func TestAsWorkedOutAtOnce(t *testing.T) {
	kept := practise("swirls", 20, 6, keep.NoMarks, learning(3))
	b := about("swirls", kept)
	var traces []progress.Trace
	for _, s := range kept {
		m, err := s.ReadMeasured()
		if err != nil {
			t.Fatal(err)
		}
		traces = append(traces, entryOf(s, m).Trace)
	}
	sessions, err := progress.Sessions(traces)
	if err != nil {
		t.Fatal(err)
	}
	like := traces[0].Like
	scores := progress.History(sessions, like, progress.Spacing)
	j, err := progress.Judge(scores, progress.Spacing)
	if err != nil {
		t.Fatal(err)
	}
	moves, err := progress.Improving(sessions, like, progress.Uneven)
	if err != nil {
		t.Fatal(err)
	}
	f := b.Found()
	if !reflect.DeepEqual(f.Scores, scores) || !reflect.DeepEqual(f.Judged, j) || f.Judged.Verdict != progress.ReallyBetter {
		t.Errorf("the book says %v of %d scores, at once %v of %d", f.Judged, len(f.Scores), j, len(scores))
	}
	if !reflect.DeepEqual(f.Moves, moves) || len(moves) != 2 {
		t.Errorf("of the movements it says %v, at once %v", f.Moves, moves)
	}
	if f.NoCurve != nil || f.Curve.Plateau < 0.15 || f.Curve.Plateau > 0.25 {
		t.Errorf("the curve levels off at %v (%v), it was made to at 0.2", f.Curve.Plateau, f.NoCurve)
	}
}

// However the kept traces are mixed, every one that is measured is in one session; those
// compared agree in all that has to be the same; more days and traces never get lost.
func TestNothingIsLostOrMixed(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var kept []keep.Summary
		marks := []string{keep.WholeLine, keep.DotsOnly, keep.NoMarks}
		for i := range rapid.IntRange(0, 40).Draw(rt, "n") {
			s := practise(rapid.SampledFrom([]string{"a", "b"}).Draw(rt, "motif"), 1, 1, rapid.SampledFrom(marks).Draw(rt, "marks"), learning(1))[0]
			s.ID = strconv.Itoa(i)
			s.Started += int64(rapid.IntRange(0, 40*24*60).Draw(rt, "minute")) * 60000
			s.Device = rapid.SampledFrom([]trace.Device{trace.Pen, trace.Mouse}).Draw(rt, "device")
			s.Repeats = rapid.IntRange(1, 2).Draw(rt, "repeats")
			s.Zoom = rapid.SampledFrom([]float64{0.5, 1}).Draw(rt, "zoom")
			if rapid.IntRange(0, 5).Draw(rt, "older") == 0 {
				s.Measured = nil
			}
			kept = append(kept, s)
		}
		ask := Ask{Motif: rapid.SampledFrom([]string{"", "a", "b"}).Draw(rt, "asked"), By: map[Filter]string{Device: "mouse", Row: "2"}}
		b := New().Look(ask).With(kept).Done()
		n, moving := 0, 0
		for _, s := range b.Sessions() {
			n += len(s.Traces)
		}
		for _, d := range b.Found().Days {
			moving += d.Traces
		}
		if n+len(b.Older()) != len(kept) || moving != n {
			rt.Fatalf("%d in sessions, %d on days and %d unmeasured of %d", n, moving, len(b.Older()), len(kept))
		}
		for _, m := range b.Found().Marks {
			e := b.known[m.ID]
			if ask.Motif == "" {
				continue
			}
			for _, f := range Filters {
				if e.by[f] != b.Found().By[f] || e.motif != ask.Motif {
					rt.Errorf("%s of %v is compared with %v", m.ID, e.by, b.Found().By)
				}
			}
		}
	})
}

// Over all motifs each line counts against its own usual: one that is hard and one that is
// easy, each getting better at the same rate, are better together; and one that never
// changes is not made to.
func TestOverAllMotifs(t *testing.T) {
	hard := practise("hard", 16, 5, keep.NoMarks, learning(5))
	easy := learning(6)
	kept := append(hard, practise("easy", 16, 5, keep.NoMarks, func(k int) float64 { return easy(k) / 4 })...)
	f := about("", kept).Found()
	if f.Judged.Verdict != progress.ReallyBetter || f.Alike != 160 {
		t.Errorf("both together: %v over %d traces, want better over 160", f.Judged.Verdict, f.Alike)
	}
	r := rand.New(rand.NewPCG(9, 9))
	still := func(int) float64 { return 0.3 * math.Exp(0.1*r.NormFloat64()) }
	f = about("", append(practise("a", 16, 5, keep.NoMarks, still), practise("b", 16, 5, keep.NoMarks, still)...)).Found()
	if f.Judged.Verdict != progress.Unchanged {
		t.Errorf("two that stay: %v", f.Judged.Verdict)
	}
}

// The table holds the traces that are shown, and as a CSV file reads back.
func TestTables(t *testing.T) {
	b := about("swirls", append(practise("swirls", 4, 5, keep.NoMarks, learning(1)), practise("other", 3, 5, keep.NoMarks, learning(2))...))
	var doc bytes.Buffer
	if err := WriteTraces(&doc, b.Sessions(), b.Shown); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&doc).ReadAll()
	if err != nil || len(rows) != 1+20 || rows[1][1] != "2001-09-09T01:46:40Z" {
		t.Fatalf("%d rows (%v): %v", len(rows), err, rows[:2])
	}
	doc.Reset()
	if err := WriteScores(&doc, b.Found().Scores, progress.Spacing); err != nil {
		t.Fatal(err)
	}
	if rows, err = csv.NewReader(&doc).ReadAll(); err != nil || len(rows) != 1+4 || rows[0][2] != "median, spacing CV [1]" {
		t.Errorf("%d rows (%v): %v", len(rows), err, rows[0])
	}
}

// An evening session at the end of March in New York (4 h behind UTC in summer, 5 before)
// belongs to its own day on both sides of the change of clocks.
func TestDaysAreHers(t *testing.T) {
	z := Zone{{From: 0, Ahead: -5 * 3600}, {From: 1741503600, Ahead: -4 * 3600}} // 2025-03-09 07:00 UTC
	for _, c := range []struct {
		at   float64
		want string
	}{
		{1741490940, "2025-03-08"}, // 03:29 UTC on the 9th, 22:29 the evening before
		{1741577340, "2025-03-09"}, // 03:29 UTC on the 10th, 23:29 in summer time
		{1741579260, "2025-03-10"}, // 04:01 UTC, one minute past midnight
	} {
		if got := z.Date(c.at).Format(dayForm); got != c.want {
			t.Errorf("%v falls on %s, want %s", c.at, got, c.want)
		}
	}
}
