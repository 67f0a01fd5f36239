package scoring

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// The parameters of SPARC as its authors recommend them.
const (
	sparcPad       = 4    // zero-padding: 2^4 times the next power of 2
	sparcCutoff    = 10.0 // Hz
	sparcAmplitude = 0.05 // share of the largest magnitude
)

// SPARC returns the spectral arc length of a speed profile sampled at fs Hz, a
// negative number without unit; nearer 0 is smoother. Source: Balasubramanian,
// Melendez-Calderon, Roby-Brami and Burdet, Journal of NeuroEngineering and
// Rehabilitation 12:112, 2015. It is NaN if there is no movement. Cost
// O(n log n).
func SPARC(speed []float64, fs float64) float64 {
	return sparc(speed, fs, sparcPad, sparcCutoff, sparcAmplitude)
}

func sparc(speed []float64, fs float64, pad int, cutoff, amplitude float64) float64 {
	if len(speed) < 2 {
		return math.NaN()
	}
	nfft := 1 << (int(math.Ceil(math.Log2(float64(len(speed))))) + pad)
	df := fs / float64(nfft)
	mag := magnitudes(speed, nfft, min(nfft/2, int(cutoff/df))+1)
	// Speeds are not negative, so that the largest magnitude of all is among
	// these: it is that at 0 Hz.
	peak := floats.Max(mag)
	if !(peak > 0) {
		return math.NaN()
	}
	floats.Scale(1/peak, mag)
	return arcLength(mag, amplitude)
}

// arcLength returns minus the length of the curve of the magnitudes from the
// first to the last that reaches the amplitude, its width scaled to 1.
func arcLength(mag []float64, amplitude float64) float64 {
	first, last := -1, -1
	for k, m := range mag {
		if m >= amplitude {
			if first < 0 {
				first = k
			}
			last = k
		}
	}
	if last <= first {
		return math.NaN()
	}
	var sum float64
	for k := first + 1; k <= last; k++ {
		df, dm := 1/float64(last-first), mag[k]-mag[k-1]
		sum += math.Sqrt(df*df + dm*dm)
	}
	return -sum
}
