package trace

import (
	"math"
	"slices"

	"unthreaded/path/geom"
)

// What is faster than a hand. A quick stroke of the arm reaches a few hundred mm/s on a
// screen; a faulty sample is thousands away. Both are ours, tried on recorded hands,
// none of whose samples they drop.
const (
	// fastest is the speed in mm/s that no hand has, unless all of the movement is
	// quick: then it is quicker times the median.
	fastest = 500.0
	quicker = 10.0
	// leastJump is the distance in mm below which nothing is a fault: two samples with
	// nearly equal times make any speed out of the rounding of a pixel.
	leastJump = 2.0
	// faultMost samples and faultTime seconds are what a device goes astray for.
	faultMost = 3
	faultTime = 0.060
)

// dropFaulty leaves out the samples that no hand can have made: those the last good one
// reaches only at a speed that no hand has, where soon after one follows that it reaches
// at less, and less than half as far away. The first and the last go where nothing else
// is as far from its neighbour: browsers do report true samples in a burst, with the
// times of the burst. Samples must ascend in time; the result shares their memory. Cost
// O(n), and O(n log n) where a sample lies leastJump from the one before.
func dropFaulty(s []Sample) []Sample {
	if len(s) < 4 || !leaps(s) {
		return s
	}
	speed, far := usual(s)
	limit := max(fastest, quicker*speed)
	alone := func(a, b Sample) bool {
		return tooFast(a, b, limit) && geom.Dist(a.P, b.P) > quicker*max(leastJump, far)
	}
	if alone(s[0], s[1]) && !alone(s[1], s[2]) {
		s = s[1:]
	}
	if n := len(s); alone(s[n-2], s[n-1]) && !alone(s[n-3], s[n-2]) {
		s = s[:n-1]
	}
	good := s[:1]
	for i := 1; i < len(s); i++ {
		if last := good[len(good)-1]; tooFast(last, s[i], limit) {
			i += astray(last, s[i:], limit)
		}
		good = append(good, s[i])
	}
	return good
}

// leaps tells whether any sample lies more than leastJump from the one before.
func leaps(s []Sample) bool {
	for i := 1; i < len(s); i++ {
		if geom.Dist(s[i-1].P, s[i].P) > leastJump {
			return true
		}
	}
	return false
}

// astray returns how many of the samples, of which the last good one cannot reach the
// first, are faulty; 0 where the movement went on from there.
func astray(last Sample, s []Sample, limit float64) int {
	far := geom.Dist(last.P, s[0].P)
	for j := 1; j < len(s) && j <= faultMost && s[j].T-last.T <= faultTime; j++ {
		if !tooFast(last, s[j], limit) && geom.Dist(last.P, s[j].P) < far/2 {
			return j
		}
	}
	return 0
}

// tooFast tells whether no hand gets from a to b.
func tooFast(a, b Sample, limit float64) bool {
	d := geom.Dist(a.P, b.P)
	return d > leastJump && d > limit*(b.T-a.T)
}

// usual returns the medians of the speeds in mm/s and of the distances in mm between
// neighbouring samples.
func usual(s []Sample) (speed, far float64) {
	v, d := make([]float64, len(s)-1), make([]float64, len(s)-1)
	for i := range v {
		d[i] = geom.Dist(s[i].P, s[i+1].P)
		v[i] = math.Min(math.MaxFloat64, d[i]/(s[i+1].T-s[i].T))
	}
	slices.Sort(v)
	slices.Sort(d)
	return v[len(v)/2], d[len(d)/2]
}
