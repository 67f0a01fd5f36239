package trace

import "math"

// Cutoff is the frequency in Hz at which preparing a trace lets half the power
// of a position through. Residual analysis (Winter, Biomechanics and Motor
// Control of Human Movement) on recorded spirals gives 8 to 11 Hz, median 9, and
// the spectrum of handwriting ends at 10 to 14 Hz (Teulings and Maarse, Human
// Movement Science 3, 1984).
const Cutoff = 10.0

// twoPass is (sqrt 2 - 1)^(1/4): running a 2nd-order Butterworth filter forwards
// and backwards moves its -3 dB point down by this factor (Winter).
var twoPass = math.Pow(math.Sqrt2-1, 0.25)

// Biquad is a digital filter of 2nd order with A[0] = 1.
type Biquad struct{ B, A [3]float64 }

// Butterworth returns the 2nd-order low-pass with its -3 dB point at fc for
// samples at fs, both in Hz, by the bilinear transform with pre-warping. fc must
// lie between 0 and fs/2.
func Butterworth(fc, fs float64) Biquad { return lowpass(math.Tan(math.Pi * fc / fs)) }

// ZeroPhase returns the filter that has its -3 dB point at fc when it runs
// forwards and backwards, as FiltFilt does.
func ZeroPhase(fc, fs float64) Biquad {
	return lowpass(math.Tan(math.Pi*fc/fs) / twoPass)
}

func lowpass(k float64) Biquad {
	d := 1 + math.Sqrt2*k + k*k
	b := k * k / d
	return Biquad{
		B: [3]float64{b, 2 * b, b},
		A: [3]float64{1, 2 * (k*k - 1) / d, (1 - math.Sqrt2*k + k*k) / d},
	}
}

// filtPad is the number of values by which FiltFilt extends both ends.
const filtPad = 9

// FiltFilt runs the filter over x forwards and backwards and returns as many
// values, without a shift in time. Both ends are extended by odd reflection over
// filtPad values and the filter starts in its steady state: the conventions of
// scipy.signal.filtfilt, which refuses what is shorter than that. Cost O(n).
func (q Biquad) FiltFilt(x []float64) []float64 {
	if len(x) < 2 {
		return append([]float64(nil), x...)
	}
	ext := make([]float64, 0, len(x)+2*filtPad)
	for i := -filtPad; i < 0; i++ {
		ext = append(ext, reflected(x, i))
	}
	ext = append(ext, x...)
	for i := len(x); i < len(x)+filtPad; i++ {
		ext = append(ext, reflected(x, i))
	}
	q.run(ext, 0, 1)
	q.run(ext, len(ext)-1, -1)
	return ext[filtPad : filtPad+len(x)]
}

// reflected returns x[i], beyond the ends that of x turned round the end point.
func reflected(x []float64, i int) float64 {
	last := len(x) - 1
	switch {
	case i < 0:
		return 2*x[0] - reflected(x, -i)
	case i > last:
		return 2*x[last] - reflected(x, 2*last-i)
	}
	return x[i]
}

// run filters x in place from index i in steps of dir (direct form II
// transposed), starting in the steady state of its first value.
func (q Biquad) run(x []float64, i, dir int) {
	b0, b1, b2, a1, a2 := q.B[0], q.B[1], q.B[2], q.A[1], q.A[2]
	z1 := (b2 - a2) * x[i]
	z0 := (b1-a1)*x[i] + z1
	for range x {
		in := x[i]
		out := b0*in + z0
		z0 = b1*in - a1*out + z1
		z1 = b2*in - a2*out
		x[i] = out
		i += dir
	}
}
