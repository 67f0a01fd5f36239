package scoring

import (
	"math"
	"sort"
)

const (
	// shortcutShare is the share of a missed part's length below which the
	// movement between its ends is a way round it: a hand that strays beside the
	// line goes about as far as the line does.
	shortcutShare = 0.85
	// onLineMM is the distance in mm within which the hand is back on the line.
	onLineMM = 1.0
)

// shortcut is a part of the line that was left out by going another way.
type shortcut struct {
	Span
	i, end int // the points on the way round, i <= k < end; none where it took one step
}

// shortcuts finds the missed parts of some length that the hand went round, or in
// which it left out a dot. The movement there says nothing of how well the line
// was kept.
func (r *run) shortcuts() []shortcut {
	var out []shortcut
	for _, s := range r.cover.far() {
		if s.Length() < 2*r.set.ToleranceMM {
			continue
		}
		end := sort.SearchFloat64s(r.m.S, s.To)
		if end == len(r.m.S) {
			continue // it stopped earlier
		}
		i := end
		for i > 0 && r.m.Place[i-1] > s.From {
			i--
		}
		if i == 0 {
			continue // it began later
		}
		hand, line := r.p.Arc[end]-r.p.Arc[i-1], r.m.Place[end]-r.m.Place[i-1]
		if hand > shortcutShare*line && !r.holdsDot(s) {
			continue
		}
		for i > 0 && math.Abs(r.m.Offset[i-1]) > onLineMM {
			i--
		}
		for end < len(r.m.S) && math.Abs(r.m.Offset[end]) > onLineMM {
			end++
		}
		out = append(out, shortcut{s, i, end})
	}
	return out
}

// holdsDot tells whether a dot lies inside the span.
func (r *run) holdsDot(s Span) bool {
	k := sort.SearchFloat64s(r.line.Dots, s.From)
	return k < len(r.line.Dots) && r.line.Dots[k] <= s.To
}
