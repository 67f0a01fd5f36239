package bench

// Back takes the last change back, Again does it again.
func (b Bench) Back() (Bench, Change) {
	then, rest, ok := last(b.past)
	if !ok {
		return b, Change{}
	}
	b.past, b.next = rest, append(b.next[:len(b.next):len(b.next)], b.State)
	return b.restored(then)
}

// Again does again what was taken back last.
func (b Bench) Again() (Bench, Change) {
	then, rest, ok := last(b.next)
	if !ok {
		return b, Change{}
	}
	b.next, b.past = rest, append(b.past[:len(b.past):len(b.past)], b.State)
	return b.restored(then)
}

func last(list []State) (State, []State, bool) {
	n := len(list)
	if n == 0 {
		return State{}, nil, false
	}
	return list[n-1], list[:n-1], true
}

func (b Bench) restored(then State) (Bench, Change) {
	c := difference(b.State, then)
	then.Trio = b.Trio
	b.State, b.Refused = then, Refusal{}
	b.Rev++
	return b.inRows(), c
}
