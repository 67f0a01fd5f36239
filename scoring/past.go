package scoring

import "unthreaded/path/geom"

const (
	// pastMM is the distance in mm run on past the end of the line from which on the
	// movement no longer belongs to it, and how far before the end its place may still
	// lie: a hand that runs on in a bow comes by the last of the line again.
	pastMM = 3.0
	// leastPast is the least distance in mm past the end that counts as a fault: two
	// stitches.
	leastPast = 5.0
)

// markPast marks the points that ran on past the end of the line, and notes how far
// the hand got from where it was nearest to the end. A hand that runs on across the
// line has its place on the last of it for a while.
func (r *run) markPast() {
	n, end := len(r.p.Points), r.line.Length()
	r.past = make([]bool, n)
	last, nearest := r.line.At(end), -1
	for i := n - 1; i >= 0 && (r.m.Lost[i] || r.m.Place[i] >= end-pastMM); i-- {
		if nearest < 0 || geom.Dist(r.p.Points[i], last) < geom.Dist(r.p.Points[nearest], last) {
			nearest = i
		}
	}
	if nearest < 0 || r.m.Lost[nearest] {
		return
	}
	for i := nearest; i < n; i++ {
		if d := geom.Dist(r.p.Points[nearest], r.p.Points[i]); d > pastMM {
			r.past[i], r.ranOn = true, max(r.ranOn, d)
		}
	}
}

// pastFaults tells of a hand that ran on past the end.
func (r *run) pastFaults() []Fault {
	if r.ranOn < leastPast {
		return nil
	}
	end := r.line.Length()
	return []Fault{{Kind: PastEnd, From: end, To: end, At: end, Size: r.ranOn, Gravity: r.ranOn / leastPast}}
}
