// Package practice plans what to rehearse next: a warm-up made of what goes worst, and
// a course that takes the guide away step by step and then mixes the motifs.
//
// The rules behind it are advice of moderate strength. That help at every try is leant
// on and should fade (guidance hypothesis: Salmoni, Schmidt and Walter, Psychological
// Bulletin 95, 1984; Winstein and Schmidt, Journal of Experimental Psychology: Learning,
// Memory, and Cognition 16, 1990; both from memory) and that mixing tasks holds better
// than repeating one (contextual interference) are strong in the laboratory and weak in
// the field (Czyz et al., Scientific Reports 14, 2024). So nothing here is forced.
//
// All functions are pure: times come in as seconds since 1970, and chance comes from a
// seed that is part of the state.
package practice

// Seed is the state of a generator of chance.
type Seed uint64

// next returns a number in [0, 1) and the seed after it (splitmix64: Steele, Lea and
// Flood, OOPSLA 2014).
func (s Seed) next() (float64, Seed) {
	s += 0x9e3779b97f4a7c15
	z := uint64(s)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	z ^= z >> 31
	return float64(z>>11) / (1 << 53), s
}

// draw returns an index drawn in proportion to the weights, none negative, and the
// seed after it; -1 if all are 0.
func (s Seed) draw(weights []float64) (int, Seed) {
	var sum float64
	for _, w := range weights {
		sum += w
	}
	if sum == 0 {
		return -1, s
	}
	u, s := s.next()
	u *= sum
	last := -1
	for i, w := range weights {
		if w > 0 {
			last = i
			if u < w {
				break
			}
		}
		u -= w
	}
	return last, s
}
