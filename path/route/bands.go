package route

import "slices"

// Band is one part of the proof that what a route adds cannot be avoided: a band
// round an odd junction or an odd group of them. The route must pass every band
// once more than the lines through it allow; bands do not overlap; and the widths
// of all bands add up to what is added (T-cut packing, Edmonds & Johnson, Math.
// Programming 5, 1973; drawn as moats by Juenger & Pulleyblank, 1993, from
// memory).
type Band struct {
	// Members are the odd junctions inside, ascending: one, three, five ...
	Members []int
	// Width is what it costs to pass the band once, in mm at the prices of the
	// rules.
	Width float64
	// Spans are the parts of lines that the band covers.
	Spans []Span
}

// Span is a part of a line, in mm of its length from its U. From is the end
// nearer to the middle of the band's members, Depth how much of the band, in mm
// at the prices, lies before it.
type Span struct {
	Edge     int
	From, To float64
	Depth    float64
}

// bands reads the bands off the proof of a least join: in the order of the odd
// junctions, then of the groups, inner before outer. Costs must have no
// tie-breaks. Cost: for each band a search over what it covers and a look at all
// lines.
func (f *finder) bands(p proof) []Band {
	var out []Band
	// inside holds, in halves of a cost unit, how much of each odd junction's own
	// bands lies inside the next one.
	inside := make([]int64, len(p.odd))
	add := func(members []int, width int64) {
		if width > 0 {
			b := Band{Width: halves(width)}
			for _, i := range members {
				b.Members = append(b.Members, int(p.odd[i]))
			}
			b.Spans = f.spans(p, members, inside, width)
			out = append(out, b)
		}
		for _, i := range members {
			inside[i] += width
		}
	}
	for i := range p.odd {
		add([]int{i}, p.match.Radius[i])
	}
	for _, g := range p.match.Groups {
		add(g.Members, g.Width)
	}
	return out
}

// halves returns the worth in mm of a number of halves of a cost unit.
func halves(h int64) float64 { return float64(h) / (2 * costUnit << tieBits) }

// spans returns the parts of lines that lie at a depth from 0 to width, where
// the depth of a place is its distance from the nearest member, less what lies
// inside. All depths here are in halves of a cost unit.
func (f *finder) spans(p proof, members []int, inside []int64, width int64) []Span {
	t := f.fresh()
	set := func(v int32, depth int64) {
		if t.dist[v] == unreached {
			t.touched = append(t.touched, v)
		}
		t.dist[v] = depth
		f.push(entry{depth, v})
	}
	for _, i := range members {
		set(p.odd[i], -inside[i])
	}
	for len(f.heap) > 0 {
		e := f.pop()
		if e.dist > t.dist[e.v] {
			continue
		}
		for _, h := range f.n.halves(e.v) {
			if d := e.dist + 2*f.n.lines[h.line].cost; f.open(h.line) && d < min(width, t.dist[h.to]) {
				set(h.to, d)
			}
		}
	}
	var lines []int32
	for _, v := range t.touched {
		for _, h := range f.n.halves(v) {
			if f.open(h.line) && int(h.line) < len(f.n.g.Edges) && f.n.lines[h.line].cost > 0 {
				lines = append(lines, h.line)
			}
		}
	}
	slices.Sort(lines)
	var out []Span
	for _, i := range slices.Compact(lines) {
		out = append(out, f.n.spansOf(i, t.dist, width)...)
	}
	return out
}

// spansOf returns the parts of line i that lie at a depth from 0 to width.
func (n *network) spansOf(i int32, depth []int64, width int64) []Span {
	l, length := n.lines[i], n.g.Edges[i].Length
	scale := length / float64(2*l.cost)
	var out []Span
	for _, side := range covered(depth[l.u], depth[l.v], 2*l.cost, width) {
		s := Span{Edge: int(i), From: float64(side.from) * scale, To: float64(side.to) * scale, Depth: halves(side.depth)}
		if side.back {
			s.From, s.To = length-s.From, length-s.To
		}
		out = append(out, s)
	}
	return out
}

// side is a covered part of a line, in cost from one of its ends: from its u, or
// if back is set from its v.
type side struct {
	from, to, depth int64
	back            bool
}

// covered returns the parts of a line of the given cost, whose ends lie at depths
// du and dv, that lie between 0 and width deep. From either end the depth grows
// until the two meet.
func covered(du, dv, cost, width int64) []side {
	var out []side
	for _, back := range [2]bool{false, true} {
		near, far := du, dv
		if back {
			near, far = dv, du
		}
		if near == unreached {
			continue
		}
		meet := cost
		if far != unreached {
			meet = min(cost, (cost+far-near)/2)
			if back {
				meet = min(cost, cost-(cost+near-far)/2)
			}
		}
		s := side{from: max(0, -near), to: min(meet, width-near), back: back}
		s.depth = max(near, 0)
		if s.from < s.to {
			out = append(out, s)
		}
	}
	return out
}
