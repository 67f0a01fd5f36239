package weeks

import (
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/keep"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

// Those that can be judged best are looked at first, of equals the newest; what she asks
// for goes before, and then the better ones are named.
func TestTheBestKnownAreLookedAtFirst(t *testing.T) {
	kept := append(practise("swirls", 7, 5, keep.NoMarks, learning(1)), practise("swirls", 9, 5, keep.WholeLine, learning(2))...)
	for i := range kept[:35] {
		kept[i].Started += 12 * 3600 * 1000 // in the evenings: sessions of their own
	}
	b := about("swirls", kept)
	if f := b.Found(); f.By[Help] != string(progress.Whole) || len(f.Scores) != 9 || f.Better.Traces != 0 {
		t.Errorf("at first %d sessions with the guide %q, want the 9 with the line", len(f.Scores), f.By[Help])
	}
	b = b.Look(Ask{Motif: "swirls", By: map[Filter]string{Help: string(progress.None)}}).Done()
	if f := b.Found(); len(f.Scores) != 7 || f.Better.Traces != 0 {
		t.Errorf("asked for those without there are %d sessions, want 7, which can be judged: %v", len(f.Scores), f.Better)
	}

	// Three traces in each of six sessions: one counts, too few to judge by.
	short := practise("swirls", 6, 3, keep.NoMarks, learning(3))
	for i := range short {
		short[i].Started += 40 * 86400 * 1000
	}
	b = about("swirls", append(short, practise("swirls", 8, 5, keep.WholeLine, learning(2))...))
	if f := b.Found(); f.By[Help] != string(progress.Whole) {
		t.Errorf("it opens on the %q that cannot be judged", f.By[Help])
	}
	b = b.Look(Ask{Motif: "swirls", By: map[Filter]string{Help: string(progress.None), Device: "finger paint"}}).Done()
	if f := b.Found(); f.Alike != 18 || f.Better.By[Help] != string(progress.Whole) || f.Better.Sessions != 8 || f.Better.Traces != 40 {
		t.Errorf("of %d asked for the better ones are %+v", f.Alike, f.Better)
	}
}

// However the traces are mixed: what is taken is what a plain count over all sets of
// values says, and nothing asked for that exists is passed over.
func TestPilesAgainstAPlainCount(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var kept []keep.Summary
		for i := range rapid.IntRange(1, 60).Draw(rt, "n") {
			s := practise("a", 1, 1, rapid.SampledFrom([]string{keep.WholeLine, keep.NoMarks}).Draw(rt, "marks"), learning(1))[0]
			s.ID = strconv.Itoa(i)
			s.Started += int64(rapid.IntRange(0, 6).Draw(rt, "session"))*86400000 + int64(i)*60000
			s.Device = rapid.SampledFrom([]trace.Device{trace.Pen, trace.Mouse}).Draw(rt, "device")
			s.WarmUp = rapid.IntRange(0, 4).Draw(rt, "warm-up") == 0
			kept = append(kept, s)
		}
		b := New().With(kept).Look(Ask{Motif: "a", Measure: progress.Spacing}).Done()
		f := b.Found()
		judged := map[[2]string]int{}
		for _, s := range b.Sessions() {
			n := map[[2]string]int{}
			for i, tr := range s.Traces {
				if i >= 2 && !tr.WarmUp {
					n[[2]string{string(tr.Like.Device), string(tr.Like.Guide)}]++
				}
			}
			for k, c := range n {
				if c >= 3 {
					judged[k]++
				}
			}
		}
		best := 0
		for _, n := range judged {
			best = max(best, n)
		}
		if got := judged[[2]string{f.By[Device], f.By[Help]}]; got != best {
			rt.Errorf("%v has %d sessions that can be judged, the best %d", f.By, got, best)
		}
		sure := 0
		for _, s := range f.Scores {
			if s.Sure() {
				sure++
			}
		}
		if sure != best {
			rt.Errorf("%d sessions of those taken are sure, counted were %d", sure, best)
		}
		asked := b.Look(Ask{Motif: "a", By: map[Filter]string{Device: "mouse"}}).Done().Found()
		if slices.ContainsFunc(kept, func(s keep.Summary) bool { return s.Device == trace.Mouse }) != (asked.By[Device] == "mouse") {
			rt.Errorf("asked for a mouse: %v", asked.By)
		}
	})
}
