package progress

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

func scoresOf(values ...float64) []Score {
	var out []Score
	for i, v := range values {
		out = append(out, Score{Session: i, At: 86400 * float64(i), Median: v, Counted: make([]float64, LeastTraces)})
	}
	return out
}

func TestVerdicts(t *testing.T) {
	unsure := scoresOf(9, 8, 7, 6, 5, 4, 3)
	unsure[2].Counted = unsure[2].Counted[:LeastTraces-1]
	unsure[3].Counted = nil
	for _, c := range []struct {
		name   string
		scores []Score
		m      Measure
		want   Verdict
	}{
		{"none", nil, Spacing, TooEarly},
		{"five", scoresOf(5, 4, 3, 2, 1), Spacing, TooEarly},
		{"seven, two of them of too few traces", unsure, Spacing, TooEarly},
		{"steadily down", scoresOf(9, 8, 7, 6, 5, 4), Spacing, ReallyBetter},
		{"steadily down, where more is better", scoresOf(9, 8, 7, 6, 5, 4), Covered, ReallyWorse},
		{"steadily up", scoresOf(4, 5, 6, 7, 8, 9), Spacing, ReallyWorse},
		{"all alike", scoresOf(4, 4, 4, 4, 4, 4, 4), Spacing, Unchanged},
		{"to and fro", scoresOf(4, 6, 4, 6, 4, 6, 4, 6), Spacing, Unchanged},
		{"down in great leaps", scoresOf(9, 3, 9, 3, 8, 2, 8, 2), Spacing, Unchanged},
		{"down and back", scoresOf(9, 8, 7, 6, 5, 4, 3, 3, 4, 5, 6, 7, 8, 9, 9, 9), Spacing, Unchanged},
		{"down and on the plateau", scoresOf(9, 8, 7, 6, 5, 4, 4.1, 4, 4.1, 4, 4.1, 4, 4.1, 4, 4.1, 4, 4.1, 4, 4.1, 4, 4.1), Spacing, ReallyBetter},
	} {
		j, err := Judge(c.scores, c.m)
		if err != nil || j.Verdict != c.want {
			t.Errorf("%s: %q (%v), want %q: %+v", c.name, j.Verdict, err, c.want, j)
		}
	}
	if _, err := Judge(scoresOf(1, 2, 3, math.NaN(), 5, 6), Spacing); err == nil {
		t.Error("no error for a score that is no number")
	}
	same := scoresOf(1, 2, 3, 4, 5, 6)
	for i := range same {
		same[i].At = 7
	}
	if _, err := Judge(same, Spacing); err == nil {
		t.Error("no error for sessions that all began at once")
	}
}

// Other units, another zero and another date change no verdict; upside down they turn it
// round.
func TestVerdictInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 0))
		k, shift := rapid.Float64Range(0.1, 30).Draw(rt, "scale"), rapid.Float64Range(-5, 5).Draw(rt, "shift")
		a := learner{plateau: 0.15, gain: 0.2, rate: 0.2, day: 0.1, trace: 0.15}.practise(rng, rapid.IntRange(6, 15).Draw(rt, "n"))
		var b, c []Score
		for _, s := range a {
			up, down := s, s
			up.Median, down.Median, up.At = shift+k*s.Median, -s.Median, s.At/2+1e9
			b, c = append(b, up), append(c, down)
		}
		ja, err1 := Judge(a, Spacing)
		jb, err2 := Judge(b, Spacing)
		jc, err3 := Judge(c, Covered)
		if err1 != nil || err2 != nil || err3 != nil || ja.Verdict != jb.Verdict || ja.Verdict != jc.Verdict {
			rt.Fatalf("%q, in other units %q, upside down %q; %v %v %v", ja.Verdict, jb.Verdict, jc.Verdict, err1, err2, err3)
		}
		if math.Abs(jb.InErrors-ja.InErrors) > 1e-6 || math.Abs(jb.Slope-2*k*ja.Slope) > 1e-6*k {
			rt.Fatalf("change %v and %v typical errors, slopes %v and %v", ja.InErrors, jb.InErrors, ja.Slope, jb.Slope)
		}
	})
}

// Worked example: of the chances .01, .04, .03, .005 the rule makes .03, .06, .06, .02
// (p.adjust of R with "holm").
func TestHolm(t *testing.T) {
	for i, got := range Holm([]float64{0.01, 0.04, 0.03, 0.005}) {
		near(t, "chance", got, []float64{0.03, 0.06, 0.06, 0.02}[i], 1e-12)
	}
	if got := Holm([]float64{0.6, 0.7}); got[0] != 1 || got[1] != 1 || len(Holm(nil)) != 0 {
		t.Errorf("chances %v", got)
	}
}

// What Improving finds is what Judge finds of each movement, the chances made larger by
// Holm's rule.
func TestImprovingIsHolmOfJudge(t *testing.T) {
	var traces []Trace
	for session := range 12 {
		for k := range WarmUpTraces + LeastTraces {
			at := 86400*float64(session) + 60*float64(k)
			traces = append(traces, Trace{At: at, Seconds: 30, Like: alike, Places: map[Movement]map[Measure]float64{
				Loop: {Uneven: 9 - 0.1*float64(session)}, Left: {Uneven: 9 - 0.1*float64(session) + 0.25*float64(session%3)}, Right: {Uneven: 3 + float64(session%2)},
			}})
		}
	}
	sessions, err := Sessions(traces)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Improving(sessions, alike, Uneven)
	if err != nil || len(got) != 3 {
		t.Fatalf("%d movements, error %v", len(got), err)
	}
	at := []Movement{Loop, Left, Right}
	var p []float64
	for _, m := range at {
		j, err := Judge(HistoryOf(sessions, alike, m, Uneven), Uneven)
		if err != nil {
			t.Fatal(err)
		}
		p = append(p, j.Evidence)
	}
	for k, want := range Holm(p) {
		near(t, "evidence of "+string(at[k]), got[at[k]].Evidence, want, 1e-15)
	}
	if got[Loop].Verdict != ReallyBetter || got[Right].Verdict != Unchanged || got[Loop].Evidence <= p[0] {
		t.Errorf("loops %q, right %q, evidence %v of %v", got[Loop].Verdict, got[Right].Verdict, got[Loop].Evidence, p[0])
	}
}

// A person who gets better in tight curves to the left alone is told so, of that alone;
// one who stays as she is, is told of a change in any of seven movements in fewer than 5
// of 100 cases.
func TestWhichMovementsImprove(t *testing.T) {
	nativeOnly(t)
	count := func(better Movement) (told, others int) {
		rng := rand.New(rand.NewPCG(11, 12))
		for range learners / 2 {
			var traces []Trace
			for session := range 20 {
				for k := range WarmUpTraces + LeastTraces {
					tr := Trace{At: 86400*float64(session) + 60*float64(k), Seconds: 30, Like: alike, Places: map[Movement]map[Measure]float64{}}
					for _, m := range Movements {
						v := 0.25 * math.Exp(0.15*rng.NormFloat64())
						if m == better {
							v *= 0.4 + 0.6*math.Exp(-0.2*float64(session))
						}
						tr.Places[m] = map[Measure]float64{Uneven: v}
					}
					traces = append(traces, tr)
				}
			}
			sessions, err := Sessions(traces)
			if err != nil {
				t.Fatal(err)
			}
			judged, err := Improving(sessions, alike, Uneven)
			if err != nil || len(judged) != len(Movements) {
				t.Fatalf("%d movements judged, error %v", len(judged), err)
			}
			other := 0
			for m, j := range judged {
				if m == better && j.Verdict == ReallyBetter {
					told++
				} else if j.Verdict != Unchanged {
					other = 1
				}
			}
			others += other
		}
		return told, others
	}
	told, others := count(TightLeft)
	_, none := count("")
	t.Logf("of %d: told of the one that improves %d, of another %d; without any %d", learners/2, told, others, none)
	if told < 450 || others > 25 || none > 25 {
		t.Errorf("told of the one that improves %d, of another %d, without any %d, want 450 at least, 25 and 25 at most", told, others, none)
	}
}
