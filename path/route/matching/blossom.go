package matching

import "slices"

// commonRoot returns the outer node where the ways from x and y to the roots of
// their trees meet, or -1 if the trees differ.
func (s *solver) commonRoot(x, y int32) int32 {
	s.mark++
	for x >= 0 || y >= 0 {
		if x >= 0 {
			if s.seen[x] == s.mark {
				return x
			}
			s.seen[x] = s.mark
			x = s.up(x)
		}
		x, y = y, x
	}
	return -1
}

// up returns the next outer node on the way to the root, or -1 at the root.
func (s *solver) up(x int32) int32 {
	if s.mate[x] < 0 {
		return -1
	}
	return s.top[s.parent[s.top[s.mate[x]]].u]
}

// augment flips the matching on the way from e.u's node to its root, and
// matches that node along e.
func (s *solver) augment(e edge) {
	for {
		x := s.top[e.u]
		was := s.mate[x]
		s.marry(x, e)
		if was < 0 {
			return
		}
		y := s.top[was]
		up := s.parent[y]
		s.marry(y, up.reversed())
		e = up
	}
}

// marry matches node x to the outside along e, with e.u in x; within a blossom
// the member that holds e.u becomes the base and the others pair up.
func (s *solver) marry(x int32, e edge) {
	s.mate[x] = e.v
	if int(x) < s.n {
		return
	}
	base := s.member(x, e.u)
	at := s.evenPlace(x, base)
	ring := s.ring[x]
	for i := 0; i < at; i += 2 {
		pair := s.linkOf(ring[i], ring[i+1])
		s.marry(ring[i], pair)
		s.marry(ring[i+1], pair.reversed())
	}
	s.marry(base, e)
	s.ring[x] = append(slices.Clone(ring[at:]), ring[:at]...)
}

// member returns the member of blossom x that holds vertex v.
func (s *solver) member(x, v int32) int32 { return s.holds[(int(x)-s.n)*s.n+int(v)] }

// evenPlace returns the place of member m in the ring of x, after turning the
// ring round if needed so that the place is even: the members before it can
// then be paired.
func (s *solver) evenPlace(x, m int32) int {
	ring := s.ring[x]
	at := slices.Index(ring, m)
	if at%2 == 1 {
		slices.Reverse(ring[1:])
		at = len(ring) - at
	}
	return at
}

// contract makes one outer node of the ring that the tight pair e closes below
// root. Cost O(n) for each member.
func (s *solver) contract(e edge, root int32) {
	b := s.newBlossom()
	ring := []int32{root}
	climb := func(x int32) {
		for ; x != root; x = s.up(x) {
			y := s.top[s.mate[x]]
			ring = append(ring, x, y)
			s.enqueue(y)
		}
	}
	climb(s.top[e.u])
	slices.Reverse(ring[1:])
	climb(s.top[e.v])
	s.ring[b], s.mate[b], s.label[b], s.width[b] = ring, s.mate[root], outer, 0
	s.parent[b] = none
	s.setTop(b, b)
	s.relink(b)
	s.findBest(b)
}

func (s *solver) newBlossom() int32 {
	for b := s.n; ; b++ {
		if s.top[b] < 0 {
			return int32(b)
		}
	}
}

func (s *solver) setTop(x, top int32) {
	s.top[x] = top
	if int(x) >= s.n {
		for _, m := range s.ring[x] {
			s.setTop(m, top)
		}
	}
}

// relink finds the tightest pair between blossom b and every node outside, and
// which member holds which vertex. The order of slacks within b stays the same
// as long as b exists, since its vertices move together.
func (s *solver) relink(b int32) {
	row := s.link[int(b)*s.stride : (int(b)+1)*s.stride]
	for y := range row {
		row[y] = none
	}
	for _, m := range s.ring[b] {
		links := s.link[int(m)*s.stride : (int(m)+1)*s.stride]
		for y, e := range links {
			if e == none || s.top[y] < 0 || s.top[y] == b {
				continue
			}
			if row[y] == none || s.slack(e) < s.slack(row[y]) {
				row[y] = e
			}
		}
		s.eachVertex(m, func(v int32) { s.holds[(int(b)-s.n)*s.n+int(v)] = m })
	}
	for y, e := range row {
		s.link[y*s.stride+int(b)] = none
		if e != none {
			s.link[y*s.stride+int(b)] = e.reversed()
		}
	}
}

// findBest finds the tightest pair from the outer vertices to node x.
func (s *solver) findBest(x int32) {
	s.best[x] = none
	for u := 0; u < s.n; u++ {
		if s.top[u] == x || s.label[s.top[u]] != outer {
			continue
		}
		e := s.link[u*s.stride+int(x)]
		if e == none {
			continue
		}
		if gap := s.slack(e); s.best[x] == none || gap < s.gap[x] {
			s.best[x], s.gap[x] = e, gap
		}
	}
}

// expand takes an inner blossom of no width apart: the members on the even way
// from where it was reached to its base stay in the tree, the others are free.
func (s *solver) expand(b int32) {
	entry := s.member(b, s.parent[b].v)
	at := s.evenPlace(b, entry)
	ring := s.ring[b]
	for _, m := range ring {
		s.setTop(m, m)
	}
	s.top[b] = -1
	for i, m := range ring {
		s.best[m] = none
		switch {
		case i > at:
			s.label[m] = free
		case i%2 == 1:
			s.label[m] = outer
		case i == at:
			s.label[m], s.parent[m] = inner, s.parent[b]
		default:
			s.label[m], s.parent[m] = inner, s.linkOf(ring[i+1], m)
		}
	}
	for i, m := range ring {
		if s.label[m] != inner {
			s.findBest(m)
		}
		if i < at && i%2 == 1 {
			s.enqueue(m)
		}
	}
}
