package route

import (
	"errors"

	"unthreaded/path/route/matching"
)

// ErrApart is returned where the lines lie in pieces, or away from start or
// exit, and no line, seam or stop that the rules allow leads across.
var ErrApart = errors.New("nothing that may be walked leads from one part of the lines to another")

// demand says what extra walks have to make whole: every line that is walked
// anyway (must), the lines that may not be walked again (bans, nil for none), the
// ends, junctions to come by, and stop-and-starts that are granted for nothing.
type demand struct {
	must  []bool
	bans  []bool
	ends  Ends
	visit []int
	stops int
}

// join is a set of extra walks that leaves an even number of line ends at every
// junction but the ends of the route: a T-join (Edmonds & Johnson, Math.
// Programming 5, 1973).
type join struct {
	extra       []uint8 // per line of the network: how often it is walked again
	cost        int64
	start, exit int32   // Nowhere for a closed route
	stops       []int32 // where granted stops go up and come down
}

// proof is the matching that a join was made from.
type proof struct {
	odd   []int32 // the junctions matched; vertices beyond are free ends
	match matching.Result
	dist  []int64 // between odd junctions, by rows; matching.Missing where not needed
}

// oddJunctions returns the junctions at which extra walks must begin or end: an
// odd number of lines meet there, not counting a start or exit as one more line.
func (n *network) oddJunctions(d demand) []int32 {
	odd := make([]bool, n.junctions())
	for i, must := range d.must {
		if must {
			l := n.lines[i]
			odd[l.u] = !odd[l.u]
			odd[l.v] = !odd[l.v]
		}
	}
	if d.ends.Rule == Fixed || d.ends.Rule == StartOnly {
		odd[d.ends.Start] = !odd[d.ends.Start]
	}
	if d.ends.Rule == Fixed {
		odd[d.ends.Exit] = !odd[d.ends.Exit]
	}
	var out []int32
	for v, is := range odd {
		if is {
			out = append(out, int32(v))
		}
	}
	return out
}

// freeEnds returns the number of ends that the route may choose.
func (e Ends) freeEnds() int {
	switch e.Rule {
	case StartOnly:
		return 1
	case Free:
		return 2
	}
	return 0
}

// leastJoin returns a join of least cost. Whether it hangs together with the
// lines is another matter. Each free end is one more vertex to match, at no cost
// with any odd junction or another free end, and so is either side of a stop that
// is granted; in the air no route ends, so from there it comes down first.
func (f *finder) leastJoin(d demand) (join, proof, error) {
	f.bans = d.bans
	p, err := f.pairUp(f.n.oddJunctions(d), d.ends.freeEnds()+2*d.stops)
	if err != nil {
		return join{}, p, err
	}
	return f.joinOf(d.ends, p), p, nil
}

// joinOf walks the matched pairs; a line walked by two of them cancels out.
func (f *finder) joinOf(ends Ends, p proof) join {
	n := f.n
	j := join{extra: make([]uint8, len(n.lines)), start: Nowhere, exit: Nowhere}
	if ends.Rule != Free {
		j.start = int32(ends.Start)
	}
	if ends.Rule == Fixed {
		j.exit = int32(ends.Exit)
	}
	k := len(p.odd)
	goal := make([]bool, n.junctions())
	for i, v := range p.odd {
		switch m := p.match.Mate[i]; {
		case m < k && i < m:
			to := p.odd[m]
			goal[to] = true
			n.walk(f.search(p.odd[i:i+1], goal, 1), to, func(l int32) { j.extra[l] ^= 1 })
			goal[to] = false
		case m < k:
		case v == n.air:
			landing := f.landing()
			j.extra[landing] ^= 1
			j.end(ends, m-k, n.lines[landing].u)
		default:
			j.end(ends, m-k, v)
		}
	}
	if j.start == j.exit {
		j.exit = Nowhere
		if ends.Rule == Free {
			j.start = Nowhere
		}
	}
	j.cost = n.costOf(j.extra)
	return j
}

// end gives junction v to free end number i, those of granted stops counted after
// those of the route.
func (j *join) end(ends Ends, i int, v int32) {
	switch {
	case i >= ends.freeEnds():
		j.stops = append(j.stops, v)
	case ends.Rule == Free && j.start == Nowhere:
		j.start = v
	default:
		j.exit = v
	}
}

// landing returns the cheapest way down from the air, -1 if there is none.
func (f *finder) landing() int32 {
	for _, h := range f.n.halves(f.n.air) {
		if f.open(h.line) {
			return h.line
		}
	}
	return -1
}

func (n *network) costOf(extra []uint8) int64 {
	sum := int64(0)
	for l, times := range extra {
		if times > 0 {
			sum += int64(times) * n.lines[l].cost
		}
	}
	return sum
}

// anchors returns the junctions that a route must come to: one end of each line
// it must walk, its given start and exit, those to come by.
func (n *network) anchors(d demand) []int32 {
	var out []int32
	for i, must := range d.must {
		if must {
			out = append(out, n.lines[i].u)
		}
	}
	if r := d.ends.Rule; r == Fixed || r == StartOnly || (r == Closed && d.ends.Start != Nowhere) {
		out = append(out, int32(d.ends.Start))
	}
	if d.ends.Rule == Fixed {
		out = append(out, int32(d.ends.Exit))
	}
	for _, v := range d.visit {
		out = append(out, int32(v))
	}
	return out
}

// parts returns what hangs together by the lines that are walked: must or extra
// (nil for none).
func (n *network) parts(must []bool, extra []uint8) sets {
	s := newSets(n.junctions())
	for i, l := range n.lines {
		if must[i] || (extra != nil && extra[i] > 0) {
			s.union(l.u, l.v)
		}
	}
	return s
}

// connected tells whether the anchors of d hang together by what j walks.
func (n *network) connected(d demand, j join) bool {
	return n.parts(d.must, j.extra).together(n.anchors(d))
}
