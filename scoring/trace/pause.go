package trace

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"unthreaded/path/geom"
)

// Hold is a moment at which the hand took hold anew, after it had let go with the
// needle down. The needle stands meanwhile, so the pause is cut out of the times of
// the samples: the last sample before it lies at T, and the movement goes on from
// its place at T too.
type Hold struct {
	// T is the time in seconds on the clock of the samples, Pause how long in
	// seconds the hand was away.
	T     float64 `json:"t_s"`
	Pause float64 `json:"pause_s"`
}

// Pause is a hold among prepared points: I is the first point after it.
type Pause struct {
	Hold
	I int
}

// checkHolds reports the first hold that cannot be.
func (tr Trace) checkHolds() error {
	if len(tr.Holds) > len(tr.Samples) {
		return fmt.Errorf("the trace has %d holds, more than its %d samples", len(tr.Holds), len(tr.Samples))
	}
	for i, h := range tr.Holds {
		if !geom.Finite(geom.Pt(h.T, h.Pause)) || h.Pause < 0 {
			return fmt.Errorf("hold %d: time %v s after a pause of %v s cannot be", i, h.T, h.Pause)
		}
	}
	return nil
}

// findPauses returns the holds that part the n points prepared from samples s, in
// order of time; one before the first or after the last sample parts nothing.
func findPauses(holds []Hold, s []Sample, t0 float64, n int) []Pause {
	var out []Pause
	for _, h := range holds {
		i := int(math.Ceil((h.T-t0)*Rate - 1e-6))
		if h.T > s[0].T && h.T < s[len(s)-1].T && i > 0 && i < n {
			out = append(out, Pause{h, i})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].T < out[j].T })
	return out
}

// seams returns where smoothing must not reach across, in order of time: the gaps,
// and the pauses as gaps without length.
func (p Prepared) seams() []Gap {
	if len(p.Pauses) == 0 {
		return p.Gaps
	}
	all := slices.Clone(p.Gaps)
	for _, q := range p.Pauses {
		all = append(all, Gap{From: q.T, To: q.T, First: q.I, End: q.I})
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].From != all[j].From {
			return all[i].From < all[j].From
		}
		return all[i].To < all[j].To
	})
	return all
}
