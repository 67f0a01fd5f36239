package scoring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/scoring/align"
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
	// Missed are the parts that the movement left out, however far beside the line it
	// went elsewhere, MissedMM their length.
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
	counts []int // passes over each piece of the line, as the movement is laid over it
	close  []int // the same within the tolerance
}

// countPasses counts for each piece of the line the passes that went over it, as the
// movement is laid over the line and as it was.
func (r *run) countPasses() Cover {
	n := max(1, int(math.Ceil(r.line.Length()/coverStep)))
	c := Cover{step: r.line.Length() / float64(n), Missed: []Span{}, Doubled: []Span{}}
	middles := make(geom.Polyline, n)
	for q := range middles {
		middles[q] = r.line.At((float64(q) + 0.5) * c.step)
	}
	if r.m.Fit.Kind == align.InPlace {
		c.counts, c.BackMM = r.passesWithin(r.p.Points, r.m.Offset, c.step, middles)
		c.close = c.counts
	} else {
		beside := make([]float64, len(r.m.Laid))
		for i, p := range r.m.Laid {
			beside[i] = align.Offset(r.line, p, r.m.Place[i])
		}
		c.counts, c.BackMM = r.passesWithin(r.m.Laid, beside, c.step, middles)
		c.close, _ = r.passesWithin(r.p.Points, r.m.Offset, c.step, middles)
	}
	c.Doubled, c.DoubledMM = c.spans(func(count int) bool { return count > 1 })
	for _, count := range c.counts {
		c.ExtraMM += float64(max(0, count-1)) * c.step
	}
	return c
}

// passesWithin counts for each piece of the line, step mm long, the passes of points
// that went over it within the tolerance, and the length in mm passed going back; beside
// are the offsets in mm of the points from the line, middles the middles of the pieces.
// Cost O(points + line), more only where the place runs far ahead of the hand.
func (r *run) passesWithin(pts geom.Polyline, beside []float64, step float64, middles geom.Polyline) (counts []int, back float64) {
	n := len(middles)
	counts = make([]int, n)
	last := make([]int, n) // 1 + the last pass that counted
	near := make([]bool, len(pts))
	for i, d := range beside {
		near[i] = !r.m.Lost[i] && math.Abs(d) <= r.set.ToleranceMM
	}
	covers := func(i, j, q int, far bool) bool {
		// Where the place went over several pieces at once, the line there is looked at, as
		// it may have bulged away from the hand.
		if !far {
			return near[i] && near[j]
		}
		if r.m.Lost[i] || r.m.Lost[j] {
			return false
		}
		_, p := geom.NearestOnSegment(middles[q], pts[i], pts[j])
		return r2.Norm2(r2.Sub(middles[q], p)) <= r.set.ToleranceMM*r.set.ToleranceMM
	}
	for k, pass := range r.passes {
		for i := pass.I; i <= pass.J; i++ {
			a, b := r.pieces(pass.I, i, step, n)
			for q := a; q <= b; q++ {
				if last[q] == k+1 || !covers(max(pass.I, i-1), i, q, b > a+1) {
					continue
				}
				last[q] = k + 1
				counts[q]++
				if pass.To < pass.From {
					back += step
				}
			}
		}
	}
	return counts, back
}

// pieces returns the first and last piece that the place went over between point
// i and the one before it, if that is still in the pass.
func (r *run) pieces(begin, i int, step float64, n int) (a, b int) {
	p, q := r.m.Place[max(begin, i-1)], r.m.Place[i]
	return min(n-1, int(min(p, q)/step)), min(n-1, int(max(p, q)/step))
}

// far returns the parts of the line that the movement, as laid over it, did not pass
// within the tolerance: left out, or strayed from.
func (c Cover) far() []Span {
	far, _ := c.spans(func(count int) bool { return count == 0 })
	return far
}

// leaveOut sets what was left out: before the first and after the last place that the hand
// came to, the parts it went round, and those along which it was lost.
func (r *run) leaveOut() {
	c := &r.cover
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, at := range r.m.Place {
		if !r.m.Lost[i] {
			lo, hi = min(lo, at), max(hi, at)
		}
	}
	if lo > hi || r.m.Another {
		c.Missed, c.MissedMM = []Span{{0, r.line.Length()}}, r.line.Length()
		return
	}
	var out []Span
	if lo > coverStep {
		out = append(out, Span{0, lo})
	}
	k := 0
	for _, s := range c.far() {
		for k < len(r.cuts) && r.cuts[k].From < s.From {
			k++
		}
		cut := k < len(r.cuts) && r.cuts[k].Span == s
		if s = (Span{max(lo, s.From), min(hi, s.To)}); s.Length() > 0 && (cut || r.lostIn(s)) {
			out = append(out, s)
		}
	}
	if hi < r.line.Length()-coverStep {
		out = append(out, Span{hi, r.line.Length()})
	}
	for _, s := range out {
		if n := len(c.Missed); n > 0 && s.From <= c.Missed[n-1].To+c.step {
			c.Missed[n-1].To = s.To
		} else {
			c.Missed = append(c.Missed, s)
		}
		c.MissedMM += s.Length()
	}
}

// lostIn tells whether the hand was lost for most of its time along the span, or jumped
// over it.
func (r *run) lostIn(s Span) bool {
	var lost, all int
	for i, at := range r.m.Place {
		if at >= s.From && at <= s.To {
			all++
			if r.m.Lost[i] {
				lost++
			}
		}
	}
	return 2*lost > all
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

// sewn returns the share of the line that was gone along.
func (c Cover) sewn() Figure {
	return figure(max(0, 1-c.MissedMM/(c.step*float64(len(c.counts)))))
}

// share returns the share of the line that was passed within the tolerance.
func (c Cover) share() Figure {
	passed := 0
	for _, count := range c.close {
		if count > 0 {
			passed++
		}
	}
	return figure(float64(passed) / float64(len(c.close)))
}
