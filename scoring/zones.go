package scoring

import "math"

const (
	// zoneTime in seconds is the time over which speed is averaged to find slow
	// and fast parts.
	zoneTime = 0.6
	// zoneSlow and zoneFast are the shares of the expected speed beyond which a
	// part is slow or fast: stitches clearly off by the eye.
	zoneSlow, zoneFast = 0.70, 1.40
	// zoneMM is the least length in mm of such a part: a few stitches.
	zoneMM = 5.0
	// haltTime in seconds bounds how long a hand takes to slow down for a stop
	// and to get under way again.
	haltTime = 0.5
)

// zone is a part of the movement, points i to end (not included), over which a
// value was low or high.
type zone struct {
	i, end int
	// worst is the most extreme value, at point at.
	worst float64
	at    int
}

// markHalting marks the points where the hand slows down for a stop or to turn
// round, and gets under way again.
func (r *run) markHalting() {
	r.halting = make([]bool, len(r.p.Points))
	limit := int(haltTime * r.p.Rate)
	mark := func(i, end int) {
		for k := i; k >= 0 && k > i-limit && (k >= i-1 || r.p.Speed[k] < 0.9*r.speed); k-- {
			r.halting[k] = true
		}
		for k := i; k < len(r.halting) && k < end+limit && (k <= end || r.p.Speed[k] < 0.9*r.speed); k++ {
			r.halting[k] = true
		}
	}
	for _, s := range r.stops {
		mark(s.i, s.end)
	}
	for _, p := range r.passes[1:] {
		w := int(leastStop * r.p.Rate)
		mark(max(0, p.I-w), min(len(r.halting)-1, p.I+w))
	}
}

// speedZones returns the parts where the speed, averaged over zoneTime, lies below
// zoneSlow and above zoneFast times the expected one for at least zoneMM, with its
// share of it.
func (r *run) speedZones() (slow, fast []zone) {
	ratio := make([]float64, len(r.p.Speed))
	for i := range ratio {
		ratio[i] = math.NaN()
		if r.steady(i) && r.expected[i] > 0 {
			ratio[i] = r.p.Speed[i] / r.expected[i]
		}
	}
	mean := smoothed(ratio, int(zoneTime/2*r.p.Rate))
	long := func(z zone) bool { return r.p.Arc[z.end-1]-r.p.Arc[z.i] >= zoneMM }
	slow = zones(mean, func(i int) float64 { return -mean[i] }, -zoneSlow, long)
	fast = zones(mean, func(i int) float64 { return mean[i] }, zoneFast, long)
	return slow, fast
}

// smoothed returns the means of x over the known (not NaN) values within w places
// in the same stretch of known ones.
func smoothed(x []float64, w int) []float64 {
	out := make([]float64, len(x))
	for i := 0; i < len(x); i++ {
		if out[i] = math.NaN(); math.IsNaN(x[i]) {
			continue
		}
		end := i
		sum := []float64{0}
		for end < len(x) && !math.IsNaN(x[end]) {
			sum = append(sum, sum[len(sum)-1]+x[end])
			end++
		}
		for k := i; k < end; k++ {
			a, b := max(i, k-w), min(end, k+w+1)
			out[k] = (sum[b-i] - sum[a-i]) / float64(b-a)
		}
		i = end - 1
	}
	return out
}

// zones returns the stretches of x on which height reaches the bound and that
// are big enough.
func zones(x []float64, height func(i int) float64, bound float64, enough func(zone) bool) []zone {
	var out []zone
	for i := 0; i < len(x); i++ {
		if !(height(i) >= bound) {
			continue
		}
		z := zone{i: i, end: i, at: i}
		for z.end < len(x) && height(z.end) >= bound {
			if height(z.end) > height(z.at) {
				z.at = z.end
			}
			z.end++
		}
		z.worst = x[z.at]
		if enough(z) {
			out = append(out, z)
		}
		i = z.end
	}
	return out
}
