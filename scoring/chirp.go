package scoring

import (
	"math"
	"math/cmplx"

	"gonum.org/v1/gonum/dsp/fourier"
)

// magnitudes returns the magnitudes of the first k values of the discrete Fourier
// transform of x padded with zeros to n, by the chirp z-transform (Rabiner, Schafer
// and Rader, Bell System Technical Journal 48, 1969): w^(jm) is split by jm = (j^2
// + m^2 - (j-m)^2)/2 into a convolution, so that no more values are computed than
// are asked for. Cost O((len(x) + k) log(len(x) + k)).
func magnitudes(x []float64, n, k int) []float64 {
	size := 1
	for size < len(x)+k-1 {
		size *= 2
	}
	chirp := make([]complex128, max(len(x), k))
	for m := range chirp {
		// m^2 modulo 2n keeps the angle small and so exact.
		chirp[m] = cmplx.Rect(1, math.Pi*float64(m*m%(2*n))/float64(n))
	}
	a, b := make([]complex128, size), make([]complex128, size)
	for m, v := range x {
		a[m] = complex(v, 0) * cmplx.Conj(chirp[m])
	}
	for m := range k {
		b[m] = chirp[m]
	}
	for m := 1; m < len(x); m++ {
		b[size-m] = chirp[m]
	}
	fft := fourier.NewCmplxFFT(size)
	a, b = fft.Coefficients(a, a), fft.Coefficients(b, b)
	for i := range a {
		a[i] *= b[i]
	}
	a = fft.Sequence(a, a) // times size
	mag := make([]float64, k)
	for j := range mag {
		re, im := real(a[j]), imag(a[j])
		mag[j] = math.Sqrt(re*re+im*im) / float64(size)
	}
	return mag
}
