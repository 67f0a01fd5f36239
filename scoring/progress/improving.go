package progress

import (
	"fmt"
	"slices"
)

// Improving judges a measure for each movement of the line on its own, those without
// any score left out. Looking at seven things finds something by chance more often than
// looking at one; the chances are made larger for it by Holm's rule. Fails as Judge
// does.
func Improving(sessions []Session, like Like, m Measure) (map[Movement]Judgement, error) {
	var at []Movement
	var judged []Judgement
	var p []float64
	for _, mv := range Movements {
		scores := HistoryOf(sessions, like, mv, m)
		if len(scores) == 0 {
			continue
		}
		j, err := weigh(scores)
		if err != nil {
			return nil, fmt.Errorf("judging %s at %s: %w", m, mv, err)
		}
		at, judged = append(at, mv), append(judged, j)
		// What is too early to judge was not looked at.
		if j.Sessions >= LeastSessions {
			p = append(p, j.Evidence)
		}
	}
	adjusted := Holm(p)
	out := map[Movement]Judgement{}
	for k, j := range judged {
		if j.Sessions >= LeastSessions {
			j.Evidence, adjusted = adjusted[0], adjusted[1:]
		}
		j.decide(m)
		out[at[k]] = j
	}
	return out, nil
}

// Holm makes chances larger so that with all those at most c, none is a false alarm
// but in a share c of all cases, however they hang together: the k-th smallest of n,
// from 0, times n-k, never less than the one before and at most 1 (Holm, Scandinavian
// Journal of Statistics 6, 1979). The order of p is kept. Cost O(n log n).
func Holm(p []float64) []float64 {
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case p[a] < p[b]:
			return -1
		case p[a] > p[b]:
			return 1
		}
		return a - b
	})
	out := make([]float64, len(p))
	var least float64
	for k, i := range order {
		least = min(1, max(least, p[i]*float64(len(p)-k)))
		out[i] = least
	}
	return out
}
