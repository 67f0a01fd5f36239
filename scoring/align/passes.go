package align

// Pass is a stretch of the movement that went along the line one way: points I
// to J, from the place From to the place To in mm. To < From is going back.
type Pass struct {
	I, J     int
	From, To float64
}

// Passes splits the movement where it turned round, by at least turn mm, and
// where it jumped. Smaller to and fro, as hands do at a corner, belongs to the
// pass around it. Passes ascend in time and leave no point out. Cost O(points).
func (m Match) Passes(turn float64) []Pass {
	var out []Pass
	begin := 0
	for _, j := range m.Jumps {
		out = m.split(out, begin, j.I, turn)
		begin = j.I + 1
	}
	return m.split(out, begin, len(m.Place)-1, turn)
}

// split appends the passes of points i to last, between which nothing jumps.
func (m Match) split(out []Pass, i, last int, turn float64) []Pass {
	lo, hi := i, i // the least and the furthest place since the pass began
	way := 0       // 1 going on, -1 going back, 0 not known yet
	add := func(a, b int) { out = append(out, Pass{I: a, J: b, From: m.Place[a], To: m.Place[b]}) }
	begin := i
	for k := i; k <= last; k++ {
		if m.Place[k] < m.Place[lo] {
			lo = k
		}
		if m.Place[k] > m.Place[hi] {
			hi = k
		}
		switch {
		case way >= 0 && m.Place[hi]-m.Place[k] >= turn:
			if way > 0 || hi > begin {
				add(begin, hi)
				begin = hi
			}
			way, lo = -1, k
		case way <= 0 && m.Place[k]-m.Place[lo] >= turn:
			if way < 0 || lo > begin {
				add(begin, lo)
				begin = lo
			}
			way, hi = 1, k
		}
	}
	add(begin, last)
	return out
}
