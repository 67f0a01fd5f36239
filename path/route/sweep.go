package route

// choice is a state of the frontier, what it costs, and how it came about: a line
// walked again so many times, after the choice at prev.
type choice struct {
	key   frontierKey
	cost  int64
	prev  int32
	line  int32
	extra uint8
}

// sweep finds the least connected join by passing over the drawing once. Of the
// junctions passed only those with lines ahead, the frontier, matter, and of them
// only parity and which hang together, so that all choices which agree in that
// can be taken as one (frontier method, Sekine & Imai, and Knuth, TAOCP 4A,
// 7.1.4; from memory). It is exact, and its cost grows with the number of states
// of the frontier, not with that of the loose pieces.
type sweep struct {
	n       *network
	d       demand
	needed  []bool // the junctions to come by
	ahead   int    // how many of them have not been reached
	slot    []int  // of each junction on the frontier, else -1
	used    [mostSlots]bool
	choices []choice
	layer   int // where the current states begin
	index   map[frontierKey]int32
	most    int    // bounds the choices
	limit   int64  // costs from here on are of no interest
	best    choice // the one that finishes best; it has no line if none does
}

// connectedBySweep returns the least join for d that hangs together and costs
// less than the given one, or the given one if there is none. The second result
// is false if the frontier gets too wide or its states too many.
func (f *finder) connectedBySweep(d demand, incumbent join) (join, bool) {
	n := f.n
	s := &sweep{
		n: n, d: d, needed: make([]bool, n.junctions()), slot: make([]int, n.junctions()),
		index: map[frontierKey]int32{}, most: f.work / 4, limit: incumbent.cost, best: choice{line: -1},
	}
	for v := range s.slot {
		s.slot[v] = -1
	}
	for _, v := range n.anchors(d) {
		if !s.needed[v] {
			s.needed[v] = true
			s.ahead++
		}
	}
	order, width := s.narrowOrder()
	if width > mostSlots {
		return incumbent, false
	}
	s.choices = []choice{{prev: -1, line: -1}}
	passed := make([]bool, n.junctions())
	for _, v := range order {
		if !s.pass(v, passed) {
			return incumbent, false
		}
		passed[v] = true
	}
	if s.best.line < 0 {
		return incumbent, true
	}
	return s.join(), true
}

// walkable tells whether a line takes part: it must be walked or may be.
func (s *sweep) walkable(l int32) bool { return s.d.must[l] || !s.d.bans[l] }

// pass takes the frontier over junction v: its neighbours ahead come onto it,
// the lines to them are chosen, and v leaves it.
func (s *sweep) pass(v int32, passed []bool) bool {
	s.enter(v)
	for _, h := range s.n.halves(v) {
		if !passed[h.to] && s.walkable(h.line) {
			s.enter(h.to)
		}
	}
	var last int32 = -1
	for _, h := range s.n.halves(v) {
		if passed[h.to] || !s.walkable(h.line) || h.line == last {
			continue
		}
		last = h.line // a loop comes twice in a row
		if !s.choose(h.line) {
			return false
		}
	}
	s.leave(v)
	return true
}

func (s *sweep) enter(v int32) {
	if s.slot[v] >= 0 {
		return
	}
	free := 0
	for s.used[free] {
		free++
	}
	s.slot[v], s.used[free] = free, true
	if !s.needed[v] {
		return
	}
	s.ahead--
	for i := s.layer; i < len(s.choices); i++ {
		open := s.choices[i].key.open()
		open.part[free] = open.fresh()
		s.choices[i].key = open.key()
	}
}

// choose makes the states after each number of walks along a line.
func (s *sweep) choose(l int32) bool {
	from, to := s.layer, len(s.choices)
	s.layer = to
	clear(s.index)
	a := s.n.lines[l]
	u, v := s.slot[a.u], s.slot[a.v]
	first, most := 0, 2
	if s.d.must[l] {
		first, most = 1, 1
	}
	if s.d.bans[l] || a.u == a.v {
		most = 0
	}
	for i := from; i < to; i++ {
		open := s.choices[i].key.open()
		for extra := 0; extra <= most; extra++ {
			cost := s.choices[i].cost + int64(extra)*a.cost
			if cost >= s.limit {
				break
			}
			next := open
			next.touch(u, v, first+extra)
			s.put(choice{key: next.key(), cost: cost, prev: int32(i), line: l, extra: uint8(extra)})
		}
	}
	return len(s.choices) <= s.most
}

// put adds a choice to the current states, or lets the cheaper of two with the
// same key stand.
func (s *sweep) put(c choice) {
	if i, there := s.index[c.key]; !there {
		s.index[c.key] = int32(len(s.choices))
		s.choices = append(s.choices, c)
	} else if c.cost < s.choices[i].cost {
		s.choices[i] = c
	}
}

// leave takes v off the frontier. Its parity must be right by now, but for a
// free end; and the part it belongs to must have others on the frontier, unless
// all is done.
func (s *sweep) leave(v int32) {
	at := s.slot[v]
	start, exit := s.d.ends.given()
	wanted := (int(v) == start) != (int(v) == exit)
	clear(s.index)
	old := s.choices[s.layer:]
	s.choices = s.choices[:s.layer]
	for _, c := range old {
		open := c.key.open()
		if open.odd[at] != wanted {
			if v == s.n.air || int(open.ends) == s.d.ends.freeEnds() {
				continue
			}
			open.ends++
		}
		part := open.part[at]
		open.odd[at], open.part[at] = false, 0
		alone, others := part > 0, false
		for _, p := range open.part {
			alone = alone && p != part
			others = others || p > 0
		}
		switch c.key = open.key(); {
		case !alone:
			s.put(c)
		case !others && s.ahead == 0 && c.cost < s.limit:
			s.limit, s.best = c.cost, c
		}
	}
	s.slot[v], s.used[at] = -1, false
}

// join reads the walks off the best choice, and its ends off their parity.
func (s *sweep) join() join {
	n := s.n
	j := join{extra: make([]uint8, len(n.lines)), cost: s.best.cost, start: Nowhere, exit: Nowhere}
	for c := s.best; c.line >= 0; c = s.choices[c.prev] {
		j.extra[c.line] = c.extra
	}
	odd := make([]bool, n.junctions())
	for l, a := range n.lines {
		times := int(j.extra[l])
		if s.d.must[l] {
			times++
		}
		if times%2 == 1 && a.u != a.v {
			odd[a.u], odd[a.v] = !odd[a.u], !odd[a.v]
		}
	}
	start, exit := s.d.ends.given()
	j.start, j.exit = int32(start), int32(exit)
	if start == exit {
		j.exit = Nowhere
	}
	for v, is := range odd {
		switch given := v == start || v == exit; {
		case !is || given && s.d.ends.Rule == Fixed:
		case given && s.d.ends.Rule == StartOnly:
		case j.start == Nowhere:
			j.start = int32(v)
		default:
			j.exit = int32(v)
		}
	}
	return j
}
