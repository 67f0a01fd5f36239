package practice

import (
	"cmp"
	"math"
	"slices"

	"unthreaded/scoring/progress"
)

const (
	// leastLooks is the fewest traces with a movement that make a weak spot.
	leastLooks = 3
	// recentLooks is how many of the latest traces with a movement are looked at.
	recentLooks = 12
	// doubt is the number of traces that say nothing with which the others are mixed,
	// so that three traces do not weigh as much as twelve.
	doubt = 3.0
	// mostWorse bounds the weight: three times as bad as usual.
	mostWorse = 1.0986 // ln 3
)

// WeakSpot is a movement that goes worse than this person's others.
type WeakSpot struct {
	Movement progress.Movement `json:"movement"`
	// Weight is 0 where it goes as usual or better and 1 where it is e times as bad.
	Weight float64 `json:"weight"`
	// Uneven and Beside are how many times her own usual value of the whole line
	// these measures are there; 0 if not known.
	Uneven float64 `json:"uneven"`
	Beside float64 `json:"beside"`
	// Traces is how many traces it stands on.
	Traces int `json:"traces"`
}

// WeakSpots compares each movement with the whole line of the same trace, so that the
// motif, the device and the day drop out: for either measure the median over the last
// traces, in the order of their times, of ln(there / anywhere). The weight is the larger
// of the two, less for few traces. Movements in fewer than 3 traces are left out. The
// worst comes first. Traces of warm-ups and with a guide count here too.
func WeakSpots(traces []progress.Trace) []WeakSpot {
	sorted := slices.Clone(traces)
	slices.SortStableFunc(sorted, func(a, b progress.Trace) int { return cmp.Compare(a.At, b.At) })
	var out []WeakSpot
	for _, m := range progress.Movements {
		uneven, n1 := worse(sorted, m, progress.Uneven)
		beside, n2 := worse(sorted, m, progress.Beside)
		if max(n1, n2) < leastLooks {
			continue
		}
		w := WeakSpot{Movement: m, Traces: max(n1, n2)}
		for _, x := range []struct {
			ln   float64
			n    int
			here *float64
		}{{uneven, n1, &w.Uneven}, {beside, n2, &w.Beside}} {
			if x.n >= leastLooks {
				*x.here = math.Exp(x.ln)
				w.Weight = max(w.Weight, min(x.ln, mostWorse)*float64(x.n)/(float64(x.n)+doubt))
			}
		}
		out = append(out, w)
	}
	slices.SortStableFunc(out, func(a, b WeakSpot) int { return cmp.Compare(b.Weight, a.Weight) })
	return out
}

// worse returns the median of ln(there / anywhere) over the last traces that have
// both, and how many these are.
func worse(sorted []progress.Trace, m progress.Movement, what progress.Measure) (float64, int) {
	var ln []float64
	for i := len(sorted) - 1; i >= 0 && len(ln) < recentLooks; i-- {
		here, whole := sorted[i].Places[m][what], sorted[i].Places[progress.Anywhere][what]
		if here > 0 && whole > 0 && !math.IsInf(here/whole, 0) {
			ln = append(ln, math.Log(here/whole))
		}
	}
	if len(ln) == 0 {
		return 0, 0
	}
	slices.Sort(ln)
	return (ln[(len(ln)-1)/2] + ln[len(ln)/2]) / 2, len(ln)
}
