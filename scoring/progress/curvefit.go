package progress

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// fit is the least-squares problem of a curve. For a given rate the curve is linear
// in plateau and gain, so that only the rate has to be searched for (variable
// projection: Golub and Pereyra, SIAM Journal on Numerical Analysis 10, 1973).
type fit struct {
	n, y []float64
	// first is the first session and span the number to the last; the curve is
	// worked out from the first one, where the exponential is 1.
	first, span float64
	// step is the least difference between sessions in a row.
	step float64
	// basis is room for the exponential at each session.
	basis []float64
}

// newFit takes sessions in ascending order, none twice, two at least.
func newFit(n, y []float64) *fit {
	f := &fit{n: n, y: y, first: n[0], span: n[len(n)-1] - n[0], step: math.Inf(1), basis: make([]float64, len(n))}
	for i := 1; i < len(n); i++ {
		f.step = min(f.step, n[i]-n[i-1])
	}
	return f
}

// The rates looked at: with the least, leastRate over the span, the curve departs from
// a straight line by a thousandth of what is gained; with the most, mostRate over the
// step, less than a hundredth is left after the first session.
const (
	leastRate = 0.01
	mostRate  = 5.0
	rateSteps = 60
)

// curve returns the curve of least squares, and the sum.
func (f *fit) curve() (Curve, float64) {
	rate, rss := f.search(1e-8, func(rate float64) float64 { _, _, rss := f.linear(rate); return rss })
	plateau, gain, _ := f.linear(rate)
	return Curve{Plateau: plateau, Gain: gain * math.Exp(rate*f.first), Rate: rate}, rss
}

// search returns the rate at which a function of it is least, and that value: the
// best of a geometric grid, and the golden section round it until ln(rate) is known to
// the given width.
func (f *fit) search(width float64, of func(rate float64) float64) (rate, least float64) {
	lo := math.Log(leastRate / f.span)
	step := (math.Log(mostRate/f.step) - lo) / rateSteps
	least = math.Inf(1)
	var best int
	for k := range rateSteps + 1 {
		if v := of(math.Exp(lo + float64(k)*step)); v < least {
			best, least = k, v
		}
	}
	a, b := lo+float64(max(0, best-1))*step, lo+float64(min(rateSteps, best+1))*step
	golden := (math.Sqrt(5) - 1) / 2
	for b-a > width {
		p, q := b-golden*(b-a), a+golden*(b-a)
		if of(math.Exp(p)) <= of(math.Exp(q)) {
			b = q
		} else {
			a = p
		}
	}
	rate = math.Exp((a + b) / 2)
	return rate, of(rate)
}

// linear returns the plateau, the gain at the first session and the sum of squares
// at a rate.
func (f *fit) linear(rate float64) (plateau, gain, rss float64) {
	// 1 - e^-x, exact for small x, is as good a basis and keeps its digits.
	for i, n := range f.n {
		f.basis[i] = -math.Expm1(-rate * (n - f.first))
	}
	start, rise := stat.LinearRegression(f.basis, f.y, nil, false)
	for i, b := range f.basis {
		e := f.y[i] - start - rise*b
		rss += e * e
	}
	return start + rise, -rise, rss
}

// at returns the least sum of squares of all curves with this plateau.
func (f *fit) at(plateau float64) float64 {
	// The sum of squares is level there: its error is that of the square of the width.
	_, rss := f.search(1e-4, func(rate float64) float64 {
		var bb, by, rss float64
		for i, n := range f.n {
			b := math.Exp(-rate * (n - f.first))
			f.basis[i] = b
			bb += b * b
			by += b * (f.y[i] - plateau)
		}
		gain := by / bb
		for i, b := range f.basis {
			e := f.y[i] - plateau - gain*b
			rss += e * e
		}
		return rss
	})
	return rss
}

// level returns the sum of squares about the mean.
func (f *fit) level() float64 {
	_, variance := stat.PopMeanVariance(f.y, nil)
	return variance * float64(len(f.y))
}

// gained is how much the curve changes from the first session to the last.
func (f *fit) gained(c Curve) float64 { return math.Abs(c.At(f.first) - c.At(f.first+f.span)) }

// plateaus returns the plateaus whose best curve has at most the given sum of squares
// (likelihood profile: Bates and Watts, Nonlinear Regression Analysis, 1988, section
// 6.1). ok is false if on one side there is no end to them within half of what was
// gained.
func (f *fit) plateaus(c Curve, limit float64) (i Interval, ok bool) {
	low, ok1 := f.edge(c, -f.gained(c)/2, limit)
	high, ok2 := f.edge(c, f.gained(c)/2, limit)
	return Interval{low, high}, ok1 && ok2
}

// edge bisects between the plateau of the curve and that plus reach for where the
// sum of squares passes the limit.
func (f *fit) edge(c Curve, reach, limit float64) (float64, bool) {
	if f.at(c.Plateau+reach) <= limit {
		return 0, false
	}
	in, out := 0.0, 1.0
	for range 24 {
		if mid := (in + out) / 2; f.at(c.Plateau+mid*reach) <= limit {
			in = mid
		} else {
			out = mid
		}
	}
	return c.Plateau + in*reach, true
}
