package progress

import (
	"math"
	"slices"
)

// Score is a measure of one session on one line.
type Score struct {
	// Session is the index of the session, At its start in seconds since 1970.
	Session int
	At      float64
	// Median is the score: half of the counted figures are at most this. Q1 and Q3
	// are the quartiles (type 7 of Hyndman and Fan, American Statistician 50,
	// 1996).
	Median, Q1, Q3 float64
	// Counted and Apart are the figures of the traces that were scored and of those
	// that were not, in the order of their times.
	Counted, Apart []float64
}

// Sure tells whether enough traces stand behind the score to judge progress by it.
func (s Score) Sure() bool { return len(s.Counted) >= LeastTraces }

// History returns the scores of a measure on the like of what is asked for, the
// earliest session first; sessions without a trace that counts are left out. The
// guide asked for is looked through: guided traces of the line stand in Apart.
func History(sessions []Session, like Like, m Measure) []Score {
	return history(sessions, like, func(t Trace) (float64, bool) {
		v, ok := t.Figures[m]
		return v, ok
	})
}

// HistoryOf is History for one movement on the line.
func HistoryOf(sessions []Session, like Like, at Movement, m Measure) []Score {
	return history(sessions, like, func(t Trace) (float64, bool) {
		v, ok := t.Places[at][m]
		return v, ok
	})
}

func history(sessions []Session, like Like, figure func(Trace) (float64, bool)) []Score {
	var out []Score
	for k, s := range sessions {
		score := Score{Session: k, At: s.From}
		for i, t := range s.Traces {
			like.Guide = t.Like.Guide
			v, ok := figure(t)
			if !ok || t.Like != like || math.IsNaN(v) || math.IsInf(v, 0) {
				continue
			}
			if s.Counts(i) {
				score.Counted = append(score.Counted, v)
			} else {
				score.Apart = append(score.Apart, v)
			}
		}
		if len(score.Counted) == 0 {
			continue
		}
		sorted := slices.Sorted(slices.Values(score.Counted))
		score.Q1, score.Median, score.Q3 = Quantile(sorted, 0.25), Quantile(sorted, 0.5), Quantile(sorted, 0.75)
		out = append(out, score)
	}
	return out
}

// Quantile returns the p-quantile of sorted values, one at least, by interpolation between
// the two nearest (type 7 of Hyndman and Fan).
func Quantile(sorted []float64, p float64) float64 {
	h := p * float64(len(sorted)-1)
	i := min(int(h), max(0, len(sorted)-2))
	if i+1 >= len(sorted) {
		return sorted[i]
	}
	return sorted[i] + (h-float64(i))*(sorted[i+1]-sorted[i])
}
