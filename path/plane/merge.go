package plane

import "slices"

// mergedPieces returns the pieces with each node merged away at which exactly
// two piece ends of one line meet. A closed line that meets nothing keeps the
// node at its start.
func (p *pieces) mergedPieces() []piece {
	list := slices.Clone(p.list)
	at := make([][]int, len(p.nodes))
	for i, e := range list {
		at[e.u] = append(at[e.u], i)
		at[e.v] = append(at[e.v], i)
	}
	gone := make([]bool, len(list))
	for _, n := range p.mergeOrder() {
		if len(at[n]) != 2 || at[n][0] == at[n][1] {
			continue
		}
		i, k := at[n][0], at[n][1]
		if list[i].line != list[k].line {
			continue
		}
		list[i] = joined(list[i], list[k], n)
		gone[k] = true
		far := list[i].u
		if slices.Contains(at[list[i].v], k) {
			far = list[i].v
		}
		at[far][slices.Index(at[far], k)] = i
		at[n] = nil
	}
	out := list[:0]
	for i, e := range list {
		if !gone[i] {
			out = append(out, e)
		}
	}
	return out
}

// mergeOrder returns all nodes, those at which chains end last.
func (p *pieces) mergeOrder() []int {
	var inner, ends []int
	for n := range p.nodes {
		if p.ends[n] {
			ends = append(ends, n)
		} else {
			inner = append(inner, n)
		}
	}
	return append(inner, ends...)
}

// joined returns the pieces a and b, which meet in node n, as one. It runs the
// way of a.
func joined(a, b piece, n int) piece {
	asDrawn := a.v == n
	if !asDrawn {
		a = a.reversed()
	}
	if b.u != n {
		b = b.reversed()
	}
	out := a
	out.v = b.v
	out.path = slices.Concat(a.path, b.path[1:])
	out.length = a.length + b.length
	out.ends = [2]mark{a.ends[0], b.ends[1]}
	if !asDrawn {
		out = out.reversed()
	}
	return out
}

// reversed returns the piece the other way round. The lengths walked along its
// chain lose their meaning in that and are not kept in step.
func (e piece) reversed() piece {
	e.u, e.v = e.v, e.u
	e.ends[0], e.ends[1] = e.ends[1], e.ends[0]
	e.path = slices.Clone(e.path)
	slices.Reverse(e.path)
	return e
}
