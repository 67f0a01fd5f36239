package scoring

import (
	"math"

	"unthreaded/path/geom"
)

// coverStep is the length in mm of the pieces of the line that are counted.
const coverStep = 0.5

// Span is a part of the line, in mm along it.
type Span struct {
	From float64 `json:"from_mm"`
	To   float64 `json:"to_mm"`
}

// Length returns the length of the span in mm.
func (s Span) Length() float64 { return s.To - s.From }

// Cover tells which parts of the line were sewn, and how often.
type Cover struct {
	// Missed are the parts that the movement never passed within the tolerance,
	// MissedMM their length.
	Missed   []Span  `json:"missed"`
	MissedMM float64 `json:"missed_mm"`
	// Doubled are the parts passed more than once, DoubledMM their length, and
	// ExtraMM the length sewn on top of the first time.
	Doubled   []Span  `json:"doubled"`
	DoubledMM float64 `json:"doubled_mm"`
	ExtraMM   float64 `json:"extra_mm"`
	// BackMM is the length passed against the direction of the line.
	BackMM float64 `json:"back_mm"`

	step   float64
	counts []int // passes over each piece
}

// countPasses counts for each piece of the line the passes that went over it within
// the tolerance. Cost O(points + line), more only where the place runs far ahead
// of the hand.
func (r *run) countPasses() Cover {
	n := max(1, int(math.Ceil(r.line.Length()/coverStep)))
	c := Cover{step: r.line.Length() / float64(n), counts: make([]int, n), Missed: []Span{}, Doubled: []Span{}}
	last := make([]int, n) // 1 + the last pass that counted
	for k, pass := range r.passes {
		for i := pass.I; i <= pass.J; i++ {
			a, b := r.pieces(pass.I, i, c.step, n)
			for q := a; q <= b; q++ {
				if last[q] == k+1 || !r.covers(max(pass.I, i-1), i, (float64(q)+0.5)*c.step, b > a+1) {
					continue
				}
				last[q] = k + 1
				c.counts[q]++
				if pass.To < pass.From {
					c.BackMM += c.step
				}
			}
		}
	}
	c.Missed, c.MissedMM = c.spans(func(count int) bool { return count == 0 })
	c.Doubled, c.DoubledMM = c.spans(func(count int) bool { return count > 1 })
	for _, count := range c.counts {
		c.ExtraMM += float64(max(0, count-1)) * c.step
	}
	return c
}

// pieces returns the first and last piece that the place went over between point
// i and the one before it, if that is still in the pass.
func (r *run) pieces(begin, i int, step float64, n int) (a, b int) {
	p, q := r.m.Place[max(begin, i-1)], r.m.Place[i]
	return min(n-1, int(min(p, q)/step)), min(n-1, int(max(p, q)/step))
}

// covers tells whether the hand between points i and j came within the tolerance
// of s mm along the line. Where the place went over several pieces at once, the
// line there is looked at, as it may have bulged away from the hand.
func (r *run) covers(i, j int, s float64, far bool) bool {
	if !far {
		return r.near(i) && r.near(j)
	}
	if r.m.Lost[i] || r.m.Lost[j] {
		return false
	}
	at := r.line.At(s)
	_, q := geom.NearestOnSegment(at, r.p.Points[i], r.p.Points[j])
	return geom.Dist(at, q) <= r.set.ToleranceMM
}

// spans joins neighbouring pieces whose count is as wanted.
func (c Cover) spans(wanted func(int) bool) (out []Span, total float64) {
	out = []Span{}
	for q := 0; q < len(c.counts); q++ {
		if !wanted(c.counts[q]) {
			continue
		}
		end := q
		for end < len(c.counts) && wanted(c.counts[end]) {
			end++
		}
		s := Span{From: float64(q) * c.step, To: float64(end) * c.step}
		out = append(out, s)
		total += s.Length()
		q = end
	}
	return out, total
}

// share returns the share of the line that was passed.
func (c Cover) share() Figure {
	return figure(1 - c.MissedMM/(c.step*float64(len(c.counts))))
}
