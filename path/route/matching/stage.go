package matching

// stage grows a forest of tight pairs from all unmatched nodes until two trees
// meet, and matches two more nodes along the path between their roots. It
// returns false if the potentials can grow for ever: then there is no perfect
// matching. Cost O(n^2).
func (s *solver) stage() bool {
	s.queue = s.queue[:0]
	for x := range s.label {
		s.label[x], s.best[x], s.parent[x] = free, none, none
	}
	for x := range s.top {
		if s.isTop(x) && s.mate[x] < 0 {
			s.label[x] = outer
			s.enqueue(int32(x))
		}
	}
	for {
		for len(s.queue) > 0 {
			u := s.queue[len(s.queue)-1]
			s.queue = s.queue[:len(s.queue)-1]
			if s.scan(u) {
				return true
			}
		}
		delta := s.step()
		if delta == Missing {
			return false
		}
		s.shift(delta)
		if s.takeTight() {
			return true
		}
		s.expandEmpty()
	}
}

func (s *solver) enqueue(x int32) {
	s.eachVertex(x, func(v int32) { s.queue = append(s.queue, v) })
}

// scan looks at all pairs of an outer vertex: tight ones are used at once, the
// tightest of the others is kept for each node. It returns true after a match.
func (s *solver) scan(u int32) bool {
	row := s.w[int(u)*s.n : (int(u)+1)*s.n]
	x := s.top[u]
	for v, w := range row {
		y := s.top[v]
		if y == x || w == Missing || s.label[y] == inner {
			continue
		}
		gap := w - s.potential[u] - s.potential[v]
		if gap > 0 {
			if s.best[y] == none || gap < s.gap[y] {
				s.best[y], s.gap[y] = edge{u, int32(v)}, gap
			}
			continue
		}
		if s.use(edge{u, int32(v)}) {
			return true
		}
		x = s.top[u]
	}
	return false
}

// use takes a tight pair from an outer node to another that is not inner: it
// grows the tree, closes a ring, or joins two trees and returns true.
func (s *solver) use(e edge) bool {
	x, y := s.top[e.u], s.top[e.v]
	if s.label[y] == free {
		s.label[y], s.parent[y], s.best[y] = inner, e, none
		z := s.top[s.mate[y]]
		s.label[z], s.best[z] = outer, none
		s.enqueue(z)
		return false
	}
	if root := s.commonRoot(x, y); root >= 0 {
		s.contract(e, root)
		return false
	}
	s.augment(e)
	s.augment(e.reversed())
	return true
}

// step returns how far the potentials can move before a pair gets tight or an
// inner blossom empties, or Missing if nothing ever stops them.
func (s *solver) step() int64 {
	delta := int64(Missing)
	for x := range s.top {
		if !s.isTop(x) {
			continue
		}
		switch {
		case s.label[x] == inner && x >= s.n:
			delta = min(delta, s.width[x])
		case s.best[x] == none:
		case s.label[x] == free:
			delta = min(delta, s.gap[x])
		case s.label[x] == outer:
			delta = min(delta, s.gap[x]/2)
		}
	}
	return delta
}

// shift moves the bands: those of outer nodes grow by delta, those of inner
// nodes shrink by it.
func (s *solver) shift(delta int64) {
	for v := range s.potential {
		switch s.label[s.top[v]] {
		case outer:
			s.potential[v] += delta
		case inner:
			s.potential[v] -= delta
		}
	}
	for x := range s.top {
		if !s.isTop(x) {
			continue
		}
		switch s.label[x] {
		case free:
			s.gap[x] -= delta
		case outer:
			s.gap[x] -= 2 * delta
			s.width[x] += delta
		case inner:
			s.width[x] -= delta
		}
	}
}

// takeTight uses the pairs that a shift made tight.
func (s *solver) takeTight() bool {
	for x := range s.top {
		if s.isTop(x) && s.label[x] != inner && s.best[x] != none && s.gap[x] == 0 && s.use(s.best[x]) {
			return true
		}
	}
	return false
}

func (s *solver) expandEmpty() {
	for x := s.n; x < s.stride; x++ {
		if s.isTop(x) && s.label[x] == inner && s.width[x] == 0 {
			s.expand(int32(x))
		}
	}
}
