package progress

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var alike = Like{Line: "spiral", Zoom: 1, Way: "pencil", Device: "pen", Guide: None}

func TestSessionsAndWhatCounts(t *testing.T) {
	guided, other := alike, alike
	guided.Guide, other.Line = Whole, "loops"
	spacing := func(v float64) map[Measure]float64 { return map[Measure]float64{Spacing: v} }
	traces := []Trace{
		{ID: "a", At: 0, Seconds: 60, Like: guided, Figures: spacing(9)},
		{ID: "b", At: 100, Seconds: 60, Like: other, Figures: spacing(8)},
		{ID: "c", At: 200, Seconds: 60, Like: alike, Figures: spacing(1)},
		{ID: "d", At: 300, Seconds: 60, Like: alike, Figures: spacing(7), WarmUp: true},
		{ID: "e", At: 400, Seconds: 60, Like: guided, Figures: spacing(6)},
		{ID: "f", At: 500, Seconds: 60, Like: alike, Figures: spacing(3)},
		{ID: "g", At: 600, Seconds: 60, Like: alike, Figures: spacing(2)},
		{ID: "h", At: 700, Seconds: 60, Like: alike}, // without the measure
		// Half an hour after the end of the last one: still the same session.
		{ID: "i", At: 760 + Gap, Seconds: 60, Like: alike, Figures: spacing(4)},
		// A second more: a new one, and too short to score.
		{ID: "j", At: 821 + 2*Gap, Seconds: 60, Like: alike, Figures: spacing(5)},
		{ID: "k", At: 901 + 2*Gap, Seconds: 60, Like: alike, Figures: spacing(5)},
	}
	rand.New(rand.NewPCG(1, 1)).Shuffle(len(traces), func(i, j int) { traces[i], traces[j] = traces[j], traces[i] })
	sessions, err := Sessions(traces)
	if err != nil || len(sessions) != 2 || len(sessions[0].Traces) != 9 || sessions[0].To != 820+Gap {
		t.Fatalf("sessions %+v, error %v", sessions, err)
	}
	want := []Score{{Session: 0, At: 0, Median: 2.5, Q1: 1.75, Q3: 3.25, Counted: []float64{1, 3, 2, 4}, Apart: []float64{9, 7, 6}}}
	if got := History(sessions, guided, Spacing); !reflect.DeepEqual(got, want) {
		t.Errorf("scores %+v, want %+v", got, want)
	}
	bad := []Trace{{ID: "x", At: math.NaN()}, {ID: "x", Seconds: -1}, {ID: "x", At: math.Inf(1)}}
	for _, tr := range bad {
		if _, err := Sessions([]Trace{tr}); err == nil {
			t.Errorf("no error for %+v", tr)
		}
	}
}

// Every trace is in one session, in order; the pauses within are at most Gap and those
// between more; the order in which traces come changes nothing, nor does a later start of
// everything.
func TestSessionInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		gaps := rapid.SliceOfN(rapid.IntRange(0, 2*Gap), 1, 30).Draw(rt, "gaps")
		later := float64(rapid.IntRange(0, 1e9).Draw(rt, "later"))
		var traces, moved []Trace
		var at float64
		for i, g := range gaps {
			at += float64(g)
			traces = append(traces, Trace{ID: fmt.Sprint(i), At: at, Seconds: float64(g % 90), Like: alike})
			moved = append([]Trace{{ID: fmt.Sprint(i), At: at + later, Seconds: float64(g % 90), Like: alike}}, moved...)
		}
		a, err1 := Sessions(traces)
		b, err2 := Sessions(moved)
		if err1 != nil || err2 != nil || len(a) != len(b) {
			rt.Fatalf("%d and %d sessions, %v, %v", len(a), len(b), err1, err2)
		}
		var n int
		for k, s := range a {
			if k > 0 && s.From-a[k-1].To <= Gap || len(s.Traces) != len(b[k].Traces) {
				rt.Fatalf("session %d: %+v after %+v; moved %+v", k, s, a[k-1], b[k])
			}
			end := s.From
			for i, tr := range s.Traces {
				if tr.At-end > Gap || tr.At < s.From || tr.At+tr.Seconds > s.To || i > 0 && tr.At < s.Traces[i-1].At {
					rt.Fatalf("session %d: trace %d at %v", k, i, tr.At)
				}
				end = max(end, tr.At+tr.Seconds)
				n++
			}
		}
		if n != len(traces) {
			rt.Fatalf("%d of %d traces", n, len(traces))
		}
	})
}

// R: quantile(1:10) gives 3.25, 5.5, 7.75 at the quartiles (type 7, its default).
func TestQuartilesAgainstR(t *testing.T) {
	x := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	near(t, "lower quartile", Quantile(x, 0.25), 3.25, 1e-12)
	near(t, "median", Quantile(x, 0.5), 5.5, 1e-12)
	near(t, "upper quartile", Quantile(x, 0.75), 7.75, 1e-12)
	near(t, "largest", Quantile(x, 1), 10, 0)
	near(t, "of one", Quantile([]float64{7}, 0.25), 7, 0)
}

// A day is that of the place: 2026-03-28 22:50 UTC is 23:50 on that day in a zone an
// hour ahead and the next day two hours ahead.
func TestCalendar(t *testing.T) {
	start := float64(time.Date(2026, 3, 28, 22, 50, 0, 0, time.UTC).Unix())
	sessions, err := Sessions([]Trace{
		{At: start, Seconds: 30}, {At: start + 570, Seconds: 30}, {At: start + 900, Seconds: 60},
		{At: start + 7200, Seconds: 120}, {At: start + 86400, Seconds: 60},
	})
	if err != nil {
		t.Fatal(err)
	}
	got := Calendar(sessions, time.FixedZone("", 3600))
	want := []Day{{2026, 3, 28, 1, 3, 16, 2}, {2026, 3, 29, 2, 2, 3, 3}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("one hour ahead: %+v, want %+v", got, want)
	}
	got = Calendar(sessions, time.FixedZone("", 7200))
	want = []Day{{2026, 3, 29, 2, 4, 18, 4}, {2026, 3, 30, 1, 1, 1, 1}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("two hours ahead: %+v, want %+v", got, want)
	}
}
