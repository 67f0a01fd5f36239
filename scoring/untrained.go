package scoring

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/dsp/fourier"
)

// untrainedExponent returns the exponent with which a hand that moves as smoothly
// as it can slows where the logarithm of the curvature swings nu times a turn of
// the direction: (2/3)(1+nu^2/2)/(1+nu^2+nu^4/15) (Huh and Sejnowski, PNAS 112,
// 2015). It is 2/3 for a spiral, 0.33 for an ellipse, falling with nu.
func untrainedExponent(nu float64) float64 {
	n2 := nu * nu
	return 2.0 / 3 * (1 + n2/2) / (1 + n2 + n2*n2/15)
}

// turnSamples is the number of places, less 1, at which the curvature of one
// curve of the line is looked at over the angle of its direction.
const turnSamples = 128

// untrained returns the exponent of an untrained hand on this line. Speed and
// curvature swing alike at each number of swings a turn, each with its exponent;
// the regression over all of them weighs these by the power of the curvature.
// The swings are taken from each curve (of one hand, between straight parts and
// corners) by a cosine transform over the angle of its direction.
func (r *run) untrained() Figure {
	var sum, weight float64
	var all []float64
	for _, c := range r.curves() {
		x, angle := r.byAngle(c[0], c[1])
		if angle < math.Pi/2 {
			continue
		}
		all = append(all, x...)
		swing := fourier.NewDCT(len(x)).Transform(nil, x)
		for k := 1; k < len(swing); k++ {
			w := swing[k] * swing[k] * angle
			sum += w * untrainedExponent(float64(k)*math.Pi/angle)
			weight += w
		}
	}
	if why := tooAlike(all, 1); why != "" {
		return undefined(why)
	}
	return figure(sum / weight)
}

// curves returns the stretches of places of r.bends, first and last, that bend
// the same way.
func (r *run) curves() [][2]int {
	var out [][2]int
	begin := -1
	for i, k := range r.bends.kappa {
		s := float64(i) * r.bends.step
		in := curved(k) && distance(r.line.Corners, s) >= cornerMM
		if begin >= 0 && (!in || (k > 0) != (r.bends.kappa[begin] > 0)) {
			out = append(out, [2]int{begin, i - 1})
			begin = -1
		}
		if in && begin < 0 {
			begin = i
		}
	}
	if begin >= 0 {
		out = append(out, [2]int{begin, len(r.bends.kappa) - 1})
	}
	return out
}

// byAngle returns the logarithm of the curvature between two places at even
// steps of the angle of the direction, and the whole angle in radians.
func (r *run) byAngle(i, j int) (x []float64, angle float64) {
	turn := make([]float64, j-i+1)
	for k := i + 1; k <= j; k++ {
		turn[k-i] = turn[k-i-1] + math.Abs(r.bends.kappa[k-1]+r.bends.kappa[k])/2*r.bends.step
	}
	angle = turn[j-i]
	if j-i < 2 {
		return nil, 0
	}
	x = make([]float64, turnSamples+1)
	for q := range x {
		a := angle * float64(q) / turnSamples
		k := max(1, min(j-i, sort.SearchFloat64s(turn, a)))
		f := (a - turn[k-1]) / (turn[k] - turn[k-1])
		lo, hi := math.Log(math.Abs(r.bends.kappa[i+k-1])), math.Log(math.Abs(r.bends.kappa[i+k]))
		x[q] = lo + f*(hi-lo)
	}
	return x, angle
}
