package progress

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// learners is how many are simulated of each kind.
const learners = 1000

// learner is a simulated person: a known curve, and how far her sessions and her
// single traces stray from it. The noise is made, so the right answer is known. Recorded
// hands stray by 7 to 26 % of the value from trace to trace.
type learner struct {
	plateau, gain, rate float64
	// day and trace are the standard deviations of a session and of a trace in it, as
	// shares of the value; memory is the share of a day's straying that the next
	// session keeps.
	day, trace, memory float64
}

// practise returns the scores of n sessions, of 4 counted traces each, a day apart.
func (l learner) practise(rng *rand.Rand, n int) []Score {
	var out []Score
	day := l.day * rng.NormFloat64()
	for k := range n {
		value := l.plateau + l.gain*math.Exp(-l.rate*float64(k+1))
		s := Score{Session: k, At: 86400 * float64(k)}
		for range LeastTraces + 1 {
			s.Counted = append(s.Counted, value*math.Exp(day+l.trace*rng.NormFloat64()))
		}
		s.Median = median(s.Counted)
		out = append(out, s)
		day = l.memory*day + math.Sqrt(1-l.memory*l.memory)*l.day*rng.NormFloat64()
	}
	return out
}

// ever returns the first verdict of a change, of one look after each session, or that
// there was none.
func ever(t *testing.T, scores []Score) Verdict {
	t.Helper()
	var values []float64
	for _, s := range scores {
		values = append(values, s.Median)
	}
	for k := LeastSessions; k <= len(values); k++ {
		j, err := look(values[:k])
		if err != nil {
			t.Fatal(err)
		}
		j.Evidence = j.chance()
		if j.Change*j.drift <= 0 {
			j.Evidence = 1
		}
		if j.decide(Spacing); j.Verdict != Unchanged {
			return j.Verdict
		}
	}
	return Unchanged
}

// Nobody who stays as she is may be told of a change in more than 5 of 100 cases, with
// a look after each of 60 sessions, also where good and bad days come in spells.
func TestNoProgressIsCalledNone(t *testing.T) {
	nativeOnly(t)
	for _, c := range []learner{
		{plateau: 0.25, day: 0.08, trace: 0.15},
		{plateau: 0.25, day: 0.15, trace: 0.15},
		{plateau: 0.25, day: 0.05, trace: 0.25},
		{plateau: 0.25, day: 0.08, trace: 0.15, memory: 0.3},
	} {
		rng := rand.New(rand.NewPCG(1, 2))
		var wrong int
		for range learners {
			if ever(t, c.practise(rng, 60)) != Unchanged {
				wrong++
			}
		}
		t.Logf("%+v: told of a change at one of 55 looks: %d of %d", c, wrong, learners)
		if most := learners / 20; wrong > most {
			t.Errorf("%+v: %d of %d were told of a change, want at most %d", c, wrong, learners, most)
		}
	}
}

// Of those who get better by a quarter over 30 sessions, four in five are told so by then, and
// hardly anybody the contrary: the power that the few false words leave.
func TestAQuarterBetterIsFound(t *testing.T) {
	nativeOnly(t)
	for _, c := range []struct {
		learner
		least int
	}{
		{learner{plateau: 0.1875, gain: 0.0729, rate: 0.1, day: 0.08, trace: 0.15}, learners * 79 / 100},
		{learner{plateau: 0.1275, gain: 0.1247, rate: 0.025, day: 0.08, trace: 0.15}, learners * 78 / 100},
	} {
		rng := rand.New(rand.NewPCG(7, 8))
		told := map[Verdict]int{}
		for range learners {
			told[ever(t, c.practise(rng, 30))]++
		}
		t.Logf("%+v: %v", c.learner, told)
		if told[ReallyBetter] < c.least || told[ReallyWorse] > learners/100 {
			t.Errorf("%+v: told %v, want %d better at least", c.learner, told, c.least)
		}
	}
}

// Those who change are told so, and hardly ever the contrary, even where they have been
// on the plateau for long.
func TestProgressIsCalledProgress(t *testing.T) {
	nativeOnly(t)
	for _, c := range []struct {
		learner
		sessions int
		want     Verdict
		least    int
	}{
		{learner{plateau: 0.15, gain: 0.25, rate: 0.15, day: 0.08, trace: 0.15}, 10, ReallyBetter, 330},
		{learner{plateau: 0.15, gain: 0.25, rate: 0.15, day: 0.08, trace: 0.15}, 15, ReallyBetter, 980},
		{learner{plateau: 0.15, gain: 0.10, rate: 0.15, day: 0.08, trace: 0.15}, 20, ReallyBetter, 860},
		{learner{plateau: 0.15, gain: 0.20, rate: 0.40, day: 0.08, trace: 0.15}, 30, ReallyBetter, 980},
		{learner{plateau: 0.15, gain: 0.20, rate: 0.05, day: 0.08, trace: 0.15}, 30, ReallyBetter, 980},
		{learner{plateau: 0.40, gain: -0.20, rate: 0.15, day: 0.08, trace: 0.15}, 20, ReallyWorse, 910},
	} {
		rng := rand.New(rand.NewPCG(1, 2))
		told := map[Verdict]int{}
		for range learners {
			j, err := Judge(c.practise(rng, c.sessions), Spacing)
			if err != nil {
				t.Fatal(err)
			}
			told[j.Verdict]++
		}
		t.Logf("%+v after %d sessions: %v", c.learner, c.sessions, told)
		if told[c.want] < c.least {
			t.Errorf("%+v after %d sessions: %d of %d were told %q, want %d", c.learner, c.sessions, told[c.want], learners, c.want, c.least)
		}
		if contrary := learners - told[c.want] - told[Unchanged]; contrary > learners/200 {
			t.Errorf("%+v after %d sessions: %d were told the contrary", c.learner, c.sessions, contrary)
		}
	}
}

// The short cut of the simulation says what Judge says: the first change that it tells
// of is told there too, and never before.
func TestFirstVerdictIsThatOfJudge(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 30 {
		scores := learner{plateau: 0.15, gain: 0.2, rate: 0.2, day: 0.1, trace: 0.15}.practise(rng, 20)
		first := Unchanged
		for k := LeastSessions; k <= len(scores) && first == Unchanged; k++ {
			j, err := Judge(scores[:k], Spacing)
			if err != nil {
				t.Fatal(err)
			}
			first = j.Verdict
		}
		if got := ever(t, scores); got != first {
			t.Fatalf("the short cut says %q, Judge %q", got, first)
		}
	}
}

// The interval of the usual variation holds the true one in 95 of 100 cases, its square
// is right on average, and a steady trend changes nothing. True: standard normal scores.
func TestUsualVariationHolds(t *testing.T) {
	for _, n := range []int{6, 12, 40} {
		rng := rand.New(rand.NewPCG(5, 6))
		var held int
		var square float64
		const tries = 4000
		for range tries {
			x := make([]float64, n)
			for i := range x {
				x[i] = rng.NormFloat64() + 0.7*float64(i)
			}
			te, err := UsualVariation(x)
			if err != nil {
				t.Fatal(err)
			}
			square += te.Value * te.Value / tries
			if te.Interval.Low <= 1 && 1 <= te.Interval.High {
				held++
			}
		}
		t.Logf("%d scores: mean square %.3f, interval held in %d of %d", n, square, held, tries)
		near(t, fmt.Sprintf("mean square of the usual variation of %d scores", n), square, 1, 0.05)
		near(t, fmt.Sprintf("share of intervals of %d scores that hold", n), float64(held)/tries, Confidence, 0.015)
	}
}
