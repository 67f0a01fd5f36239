package plane

import "math"

// line is what all strokes with the same name, kind and block make up.
type line struct {
	name  string
	kind  Kind
	block string
	// length is the true length of all its strokes in mm.
	length float64
}

// beats tells whether l is kept where l and m lie on each other. The order does
// not hang on the order of the strokes.
func (l line) beats(m line) bool {
	if a, b := strength(l.kind), strength(m.kind); a != b {
		return a > b
	}
	// Rounded, so that summing in another order cannot change the answer.
	if a, b := math.Round(l.length/Grid), math.Round(m.length/Grid); a != b {
		return a > b
	}
	if l.name != m.name {
		return l.name < m.name
	}
	return l.block < m.block
}

// strength orders kinds by what they ask for: a ruler line must be sewn, and
// straight; a sewn line must be sewn; a seam asks for nothing.
func strength(k Kind) int {
	switch k {
	case Ruler:
		return 2
	case Sewn:
		return 1
	}
	return 0
}

// chain is a run of strokes of one line, end on end, on the grid.
type chain struct {
	line int
	// pts has no two equal neighbours and at least two points.
	pts []gridPoint
	// at is the true length walked in mm at each of pts, ascending.
	at []float64
}

func (c chain) first() gridPoint   { return c.pts[0] }
func (c chain) last() gridPoint    { return c.pts[len(c.pts)-1] }
func (c chain) closed() bool       { return c.first() == c.last() }
func (c chain) length() float64    { return c.at[len(c.at)-1] - c.at[0] }
func (c chain) span(i int) float64 { return c.at[i+1] - c.at[i] }

// add appends a point. One that repeats its predecessor is left out, so that
// the length walked between the two goes to the next piece.
func (c *chain) add(p gridPoint, at float64) {
	if n := len(c.pts); n == 0 || c.pts[n-1] != p {
		c.pts = append(c.pts, p)
		c.at = append(c.at, at)
	}
}

// finish gives the last point the length walked at the end of the chain.
func (c *chain) finish(at float64) { c.at[len(c.at)-1] = at }

// reversed returns the chain walked the other way, from 0.
func (c chain) reversed() chain {
	n := len(c.pts)
	out := chain{c.line, make([]gridPoint, n), make([]float64, n)}
	for i := range c.pts {
		out.pts[n-1-i] = c.pts[i]
		out.at[n-1-i] = c.at[n-1] - c.at[i]
	}
	return out
}

// then returns the chain followed by d, which must start where c ends.
func (c chain) then(d chain) chain {
	end := c.at[len(c.at)-1]
	for i := 1; i < len(d.pts); i++ {
		c.pts = append(c.pts, d.pts[i])
		c.at = append(c.at, end+d.at[i]-d.at[0])
	}
	return c
}

// work is line work on its way to a graph.
type work struct {
	lines  []line
	chains []chain
	// drawn holds each chain as it was before anything was joined; its lengths
	// walked are those of the chain.
	drawn []chain
	res   *Result
}

// newWork rounds the strokes to the grid and joins strokes of one line that
// meet end to end, so that a line drawn in two parts is treated like one drawn
// in one go. Strokes without length are reported as trimmed.
func newWork(strokes []Stroke, res *Result) *work {
	w := &work{res: res}
	index := map[line]int{}
	var loose []chain
	for _, s := range strokes {
		key := line{name: s.Name, kind: s.Kind, block: s.Block}
		if _, ok := index[key]; !ok {
			index[key] = len(w.lines)
			w.lines = append(w.lines, key)
		}
		id := index[key]
		c, length := s.chain(id)
		w.lines[id].length += length
		if len(c.pts) < 2 {
			res.Trimmed = append(res.Trimmed, Trim{Stroke: s.Name, At: s.Path[0], Length: length, Whole: true})
			continue
		}
		loose = append(loose, c)
	}
	w.chains = link(loose)
	return w
}

// chain returns the stroke on the grid and its true length in mm.
func (s Stroke) chain(id int) (chain, float64) {
	cum := s.Path.Cumulative()
	total, scale := cum[len(cum)-1], 1.0
	length := total
	if s.Length > 0 {
		length = s.Length
		if total > 0 {
			scale = s.Length / total
		}
	}
	c := chain{line: id}
	for i, p := range s.Path {
		c.add(toGrid(p), cum[i]*scale)
	}
	c.finish(length)
	return c, length
}

// end is one end of a stroke: which line it belongs to and where it lies.
type end struct {
	line int
	p    gridPoint
}

// link joins chains of one line where exactly two of its ends lie on one
// point. Each result runs the way its first stroke was drawn. Cost O(points).
func link(loose []chain) []chain {
	ends := map[end][]int{}
	for i, c := range loose {
		for _, p := range [2]gridPoint{c.first(), c.last()} {
			ends[end{c.line, p}] = append(ends[end{c.line, p}], i)
		}
	}
	used := make([]bool, len(loose))
	var out []chain
	for i := range loose {
		if used[i] {
			continue
		}
		used[i] = true
		c := extend(loose[i], loose, ends, used)
		// The other way round for what comes before the start.
		c = extend(c.reversed(), loose, ends, used).reversed()
		out = append(out, c)
	}
	return out
}

// extend appends unused chains to the end of c for as long as one fits.
func extend(c chain, loose []chain, ends map[end][]int, used []bool) chain {
	for !c.closed() {
		at := ends[end{c.line, c.last()}]
		if len(at) != 2 {
			return c
		}
		next := at[0]
		if used[next] {
			next = at[1]
		}
		if used[next] {
			return c
		}
		used[next] = true
		d := loose[next]
		if d.first() != c.last() {
			d = d.reversed()
		}
		c = c.then(d)
	}
	return c
}
