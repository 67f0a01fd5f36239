package scoring

// markResting marks the points by a pause with the needle down, as near as the ends
// of the movement are left out of evenness: there the hand comes to rest and gets
// under way again.
func (r *run) markResting() {
	r.resting = make([]bool, len(r.p.Points))
	reach := int(endTime * r.p.Rate)
	for _, q := range r.p.Pauses {
		for i := max(0, q.I-reach); i < min(len(r.resting), q.I+reach); i++ {
			r.resting[i] = true
		}
	}
}

// rests tells whether a pause with the needle down lies at or next to points i to end
// (not included).
func (r *run) rests(i, end int) bool {
	for _, q := range r.p.Pauses {
		if i <= q.I && q.I <= end {
			return true
		}
	}
	return false
}

// pausedIn tells whether the hand was away between two times in seconds.
func (r *run) pausedIn(from, to float64) bool {
	for _, q := range r.p.Pauses {
		if from < q.T && q.T < to {
			return true
		}
	}
	return false
}

// restsOn adds the pauses to the stops on the dots on which the needle stood.
func (r *run) restsOn(dots []Dot) {
	for _, q := range r.p.Pauses {
		if r.at(r.line.Dots, q.I-1) {
			dots[nearest(r.line.Dots, r.m.Place[q.I-1])].Stop += q.Pause
		}
	}
}
