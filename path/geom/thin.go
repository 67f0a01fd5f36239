package geom

// Thinned leaves out points as long as the line stays within tol of them (Douglas
// and Peucker, The Canadian Cartographer 10, 1973). The ends stay. Cost O(n log n)
// as a rule, O(n^2) at worst.
func (pl Polyline) Thinned(tol float64) Polyline {
	if len(pl) < 3 {
		return pl
	}
	keep := make([]bool, len(pl))
	keep[0], keep[len(pl)-1] = true, true
	// The parts still to be looked at, by their ends.
	parts := [][2]int{{0, len(pl) - 1}}
	for len(parts) > 0 {
		a, b := parts[len(parts)-1][0], parts[len(parts)-1][1]
		parts = parts[:len(parts)-1]
		if at, far := pl.farthest(a, b); far > tol {
			keep[at] = true
			parts = append(parts, [2]int{a, at}, [2]int{at, b})
		}
	}
	var out Polyline
	for i, k := range keep {
		if k {
			out = append(out, pl[i])
		}
	}
	return out
}

// farthest returns the point between a and b that lies farthest from the straight
// way between them, and how far.
func (pl Polyline) farthest(a, b int) (at int, far float64) {
	for i := a + 1; i < b; i++ {
		_, q := NearestOnSegment(pl[i], pl[a], pl[b])
		if d := Dist(pl[i], q); d > far {
			at, far = i, d
		}
	}
	return at, far
}
