package scoring

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/stat"

	"unthreaded/scoring/trace"
)

const (
	// wobbleEvery is the number of points whose mean speed is looked at for a
	// wobble: 30 values a second, far above wobbleMost.
	wobbleEvery = 4
	// wobbleLeast and wobbleMost in Hz bound the wobbles that are looked for;
	// slower ones are a hand that tires or curves, faster ones tremor or noise.
	wobbleLeast, wobbleMost = 0.5, 6.0
	// leastWobble is the least time in seconds of cruising that shows a wobble.
	leastWobble = 2.0
)

// Wobble is the strongest regular swing of the hand's speed, after taking off
// what it slows in curves.
type Wobble struct {
	// Hz is how often a second, Share the amplitude as a share of the mean speed:
	// 0.2 for a hand that runs 20 % faster and slower in turn. Fit is the share
	// of the variance of the speed that it makes up.
	Hz    Figure `json:"hz"`
	Share Figure `json:"share"`
	Fit   Figure `json:"fit"`
}

func (r *run) wobble() Wobble {
	x, known := r.swing()
	var values []float64
	for i, ok := range known {
		if ok {
			values = append(values, x[i])
		}
	}
	fs := r.p.Rate / wobbleEvery
	if float64(len(values)) < leastWobble*fs {
		why := undefined(TooShort)
		return Wobble{Hz: why, Share: why, Fit: why}
	}
	mean, variance := stat.PopMeanVariance(values, nil)
	for i, ok := range known {
		if x[i] -= mean; !ok {
			x[i] = 0
		}
	}
	hz := strongest(x, fs)
	amplitude, left := fitSine(x, known, 2*math.Pi*hz/fs)
	if !(variance > 0) {
		return Wobble{Hz: undefined(NoSwing), Share: figure(0), Fit: figure(0)}
	}
	share := amplitude / (1 + mean) / gain(hz, r.p.Rate)
	return Wobble{Hz: figure(hz), Share: figure(share), Fit: figure(1 - left/variance)}
}

// gain returns what preparing a trace at rate Hz and averaging over wobbleEvery
// points leave of a swing of the speed at hz: the two passes of a Butterworth
// filter, the central difference, and the mean.
func gain(hz, rate float64) float64 {
	w := math.Tan(math.Pi*hz/rate) / math.Tan(math.Pi*trace.Cutoff/rate)
	filter := 1 / (1 + (math.Sqrt2-1)*math.Pow(w, 4))
	step := 2 * math.Pi * hz / rate
	average := math.Sin(wobbleEvery*step/2) / (wobbleEvery * math.Sin(step/2))
	return filter * math.Sin(step) / step * average
}

// swing returns the speed over the speed expected there, less 1, in means of
// wobbleEvery points, and which of them are known.
func (r *run) swing() (x []float64, known []bool) {
	n := len(r.p.Speed) / wobbleEvery
	x, known = make([]float64, n), make([]bool, n)
	for k := range x {
		known[k] = true
		for i := k * wobbleEvery; i < (k+1)*wobbleEvery; i++ {
			if !r.steady(i) || !(r.expected[i] > 0) {
				known[k] = false
				break
			}
			x[k] += (r.p.Speed[i]/r.expected[i] - 1) / wobbleEvery
		}
	}
	return x, known
}

// steady tells whether the speed at point i says something of the hand's
// evenness: it cruises, on the line, and does not stop or turn round there.
func (r *run) steady(i int) bool { return r.cruise[i] && !r.round[i] && !r.halting[i] }

// expect works out the speed in mm/s of an even hand at each point: the median, or
// what the law of curves gives where the hand follows it clearly.
func (r *run) expect(s Slowing) {
	r.expected = make([]float64, len(r.p.Speed))
	for i := range r.expected {
		r.expected[i] = r.speed
		if v := r.law(s, r.m.Place[i]); v > 0 && s.clear() {
			r.expected[i] = v
		}
	}
}

// strongest returns the frequency in Hz of the largest swing of x, sampled at fs
// Hz, between wobbleLeast and wobbleMost. The spectrum is padded to 4 times its
// length, so that the peak is met to 1/8 of a cycle over all of x.
func strongest(x []float64, fs float64) float64 {
	n := 4 << int(math.Ceil(math.Log2(float64(len(x)))))
	padded := make([]float64, n)
	copy(padded, x)
	best, at := 0.0, wobbleLeast
	for k, c := range fourier.NewFFT(n).Coefficients(nil, padded) {
		if f := float64(k) * fs / float64(n); f >= wobbleLeast && f <= wobbleMost && cmplx.Abs(c) > best {
			best, at = cmplx.Abs(c), f
		}
	}
	return at
}

// fitSine fits a sine of w radians a step to the known values of x, whose mean is
// 0, by least squares and returns its amplitude and the variance it leaves.
func fitSine(x []float64, known []bool, w float64) (amplitude, left float64) {
	var n, s, c, ss, cc, sc, xs, xc, xx float64
	for i, ok := range known {
		if !ok {
			continue
		}
		sin, cos := math.Sincos(w * float64(i))
		n, s, c = n+1, s+sin, c+cos
		ss, cc, sc = ss+sin*sin, cc+cos*cos, sc+sin*cos
		xs, xc, xx = xs+x[i]*sin, xc+x[i]*cos, xx+x[i]*x[i]
	}
	// A constant is fitted too: it takes the means off sine and cosine.
	ss, cc, sc = ss-s*s/n, cc-c*c/n, sc-s*c/n
	det := ss*cc - sc*sc
	if !(det > 1e-9*n*n) {
		return 0, xx / n // the known values hardly span a part of a cycle
	}
	a, b := (xs*cc-xc*sc)/det, (xc*ss-xs*sc)/det
	return math.Hypot(a, b), max(0, xx-a*xs-b*xc) / n
}
