package progress

import (
	"fmt"
	"math"
)

// Verdict is what can be said about progress.
type Verdict string

// The verdicts. TooEarly and Unchanged both say that it cannot be told yet.
const (
	ReallyBetter Verdict = "better"
	Unchanged    Verdict = "not-told"
	ReallyWorse  Verdict = "worse"
	TooEarly     Verdict = "too-early"
)

// What a verdict asks for. Rules were compared by simulation, each with the bound at which,
// with a look after each of 60 sessions, 46 of 1000 are ever told of a change who stay as they
// are, the worst of four kinds of people: days that stray by 5 to 15 %, traces by 15 to 25 %,
// and spells of good and bad days, 0.3 of a day kept to the next. Of those who get better by
// a quarter over 30 sessions (days 8 %, traces 15 %, no spells) they find, with a look after
// each session (the last five of 16,000 people each, the others of 1000 to 4000):
//
//	rule                                                fast first  steadily
//	Mann-Kendall, and 2 typical errors                     57 %      54 %
//	slope over the number of the session                   63 %      68 %
//	first third against last third                         41 %      44 %
//	best split into before and after                       33 %      29 %
//	slope over its root, allowing for the spells found     71 %      68 %
//	the same bound three looks in a row                    68 %      64 %
//	a look at every third session                          74 %      73 %
//	slope over its root (Drift), and 1 typical error       70 %      68 %
//	the same, the bound 1.2 % wider for each session from the 28th on or before it   81 %   80 %
//	1.4 %                                                  82 %      81 %
//	1.6 %                                                  82 %      82 %
//
// That of 1.4 % is taken: a bound as wide at each look spends most of its false words where
// little can be told yet, or was told long ago. What it costs is patience in the first
// sessions: of those who learn very fast fewer are told at the tenth. Without spells it is
// wrong of 15 to 20 in 1000.
const (
	// LeastSessions is the fewest sessions with a sure score.
	LeastSessions = 6
	// RealChange is the least change in typical errors (Hopkins 2000).
	RealChange = 1.0
	// MostChance is the largest chance of a drift as large, to either side: that of 2.88
	// standard deviations. It is small since there are many looks.
	MostChance = 0.00398
	// surestAt is the number of sessions at which a drift counts in full; it counts for less
	// by lessSure for each session more or fewer.
	surestAt = 28.0
	lessSure = 0.014
)

// Judgement is the verdict and what it stands on.
type Judgement struct {
	Verdict Verdict
	// Sessions is how many have a sure score; the others were left out.
	Sessions int
	// Before is the median of the first 3 of them, Now of the last third, 3 to 5;
	// Change is the difference, InErrors the same in typical errors.
	Before, Now, Change, InErrors float64
	Usual                         TypicalError
	// Slope is that of TheilSen in units of the measure a day, with its interval.
	Slope         float64
	SlopeInterval Interval
	// Evidence is the least chance of a Drift as large in the direction of Change, of all
	// looks after a session at which the change was real, 1 if at none; made larger where
	// several things were looked at, and the farther the look is from the session at which a
	// drift counts in full.
	Evidence float64

	drift float64
}

// Judge tells whether a measure is better or worse than at the start. Two things have to
// agree: the change is beyond the usual variation from session to session, now, and the
// drift of the scores was no chance, now or after an earlier session at which the change
// was real too. So a verdict that was right stays while the gain does, even after years on
// the plateau. Before LeastSessions sure scores it is too early to say, and the other
// fields are empty. It fails if times or values are not finite, or all times the same.
// Cost O(n^2 log n).
func Judge(scores []Score, m Measure) (Judgement, error) {
	j, err := weigh(scores)
	if err != nil {
		return Judgement{}, fmt.Errorf("judging %s: %w", m, err)
	}
	j.decide(m)
	return j, nil
}

// weigh is Judge without its verdict.
func weigh(scores []Score) (Judgement, error) {
	var days, values []float64
	for _, s := range scores {
		if s.Sure() {
			days, values = append(days, s.At/86400), append(values, s.Median)
		}
	}
	n := len(values)
	if err := pairs(days, values); err != nil || n < LeastSessions {
		return Judgement{Sessions: n}, err
	}
	var j Judgement
	evidence := map[bool]float64{false: 1, true: 1} // by whether the measure rose
	for k := LeastSessions; k <= n; k++ {
		var err error
		if j, err = look(values[:k]); err != nil {
			return j, err
		}
		if rose := j.Change > 0; math.Abs(j.InErrors) > RealChange && rose == (j.drift > 0) {
			evidence[rose] = min(evidence[rose], j.chance())
		}
	}
	j.Evidence = evidence[j.Change > 0]
	var err error
	if j.Slope, _, err = TheilSen(days, values); err != nil {
		return j, err
	}
	j.SlopeInterval, err = SlopeInterval(days, values)
	return j, err
}

// look weighs the scores up to one session.
func look(values []float64) (Judgement, error) {
	n := len(values)
	last := max(3, min(5, n/3))
	j := Judgement{Sessions: n, Before: median(values[:3]), Now: median(values[n-last:])}
	var err error
	if j.Usual, err = UsualVariation(values); err != nil {
		return j, err
	}
	j.drift = Drift(values)
	if j.Change = j.Now - j.Before; j.Change != 0 {
		j.InErrors = j.Change / j.Usual.Value
	}
	// Scores that never stray leave a typical error of 0, or nearly.
	j.InErrors = max(-mostErrors, min(mostErrors, j.InErrors))
	return j, nil
}

// chance returns the chance of the drift at this look, as it counts.
func (j Judgement) chance() float64 {
	return math.Erfc(math.Abs(j.drift) / (1 + lessSure*math.Abs(float64(j.Sessions)-surestAt)) / math.Sqrt2)
}

// mostErrors bounds a change in typical errors.
const mostErrors = 1000

func (j *Judgement) decide(m Measure) {
	switch {
	case j.Sessions < LeastSessions:
		j.Verdict = TooEarly
	case math.Abs(j.InErrors) <= RealChange || j.Evidence > MostChance:
		j.Verdict = Unchanged
	case j.Change*float64(m.Better()) > 0:
		j.Verdict = ReallyBetter
	default:
		j.Verdict = ReallyWorse
	}
}
