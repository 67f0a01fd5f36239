package route

// mostSlots bounds the width of the frontier: five bits for each junction on it,
// one for its parity and four for its part.
const mostSlots = 12

// A frontierKey is what matters of the walks chosen so far: for each junction on
// the frontier its parity and the part that it belongs to (0: not yet touched),
// and at endsShift how many free ends are used up.
type frontierKey uint64

const (
	slotBits  = 5
	endsShift = slotBits * mostSlots
)

// slots is a key laid open.
type slots struct {
	odd  [mostSlots]bool
	part [mostSlots]uint8
	ends uint8
}

func (k frontierKey) open() slots {
	var s slots
	for i := range mostSlots {
		bits := k >> (slotBits * i)
		s.odd[i], s.part[i] = bits&1 == 1, uint8(bits>>1&15)
	}
	s.ends = uint8(k >> endsShift)
	return s
}

// key numbers the parts in the order in which they come.
func (s *slots) key() frontierKey {
	var k frontierKey
	var names [mostSlots + 2]uint8
	next := uint8(1)
	for i, p := range s.part {
		if p > 0 && names[p] == 0 {
			names[p] = next
			next++
		}
		bits := frontierKey(names[p]) << 1
		if s.odd[i] {
			bits |= 1
		}
		k |= bits << (slotBits * i)
	}
	return k | frontierKey(s.ends)<<endsShift
}

// fresh returns the name of a part that is not in use.
func (s *slots) fresh() uint8 {
	top := uint8(0)
	for _, p := range s.part {
		top = max(top, p)
	}
	return top + 1
}

// touch walks a line between two slots so often.
func (s *slots) touch(u, v, times int) {
	if times == 0 {
		return
	}
	if times%2 == 1 && u != v {
		s.odd[u], s.odd[v] = !s.odd[u], !s.odd[v]
	}
	if s.part[u] == 0 {
		s.part[u] = s.fresh()
	}
	if was, now := s.part[v], s.part[u]; was == 0 {
		s.part[v] = now
	} else if was != now {
		for i, p := range s.part {
			if p == was {
				s.part[i] = now
			}
		}
	}
}
