package scoring

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/stat"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// noise is what the device alone adds to the figures of evenness, as standard
// deviations: to the filtered speed in mm/s and to the stitch length in mm.
type noise struct{ speed, stitch float64 }

// rounding finds the noise by doing to the smoothed movement what the device did
// to the true one: it is sampled at the recorded times, give or take the step of
// the clock, and rounded to whole pixels. The errors go through the same
// preparing, and what they add to the speed along the way is the noise. The
// smoothed movement lies nearer to the recorded pixels than chance would have it:
// rounded to them again it shows too little noise, rounded to pixels half a pixel
// off too much, so each direction is taken once this way and once that. A formula for white noise
// (Lanshammar, Journal of Biomechanics 15, 1982) is of little use: rounded places
// of a hand slower than a pixel a sample form a staircase, whose noise no faster
// sampling takes away.
func (r *run) rounding(tr trace.Trace) noise {
	if !(tr.PixelMM > 0) && !(tr.ClockStep > 0) {
		return noise{}
	}
	var speed, stitch float64 // variances
	for k := range shifts {
		errs, err := trace.Prepare(r.errors(tr, k))
		if err != nil || len(errs.Points) != len(r.p.Points) {
			return noise{} // the clock or the pixel is not of this world
		}
		v, l := r.along(errs.Points)
		speed, stitch = speed+v*v/float64(len(shifts)), stitch+l*l/float64(len(shifts))
	}
	return noise{speed: math.Sqrt(speed), stitch: math.Sqrt(stitch)}
}

// shifts are shares of a pixel by which the pixels are moved.
var shifts = [...][2]float64{{0, 0.5}, {0.5, 0}}

// errors returns the errors in mm of sampling the smoothed movement at the times
// of the trace, the pixels moved by the k-th of the shifts.
func (r *run) errors(tr trace.Trace, k int) trace.Trace {
	errs := tr
	errs.Samples = make([]trace.Sample, len(tr.Samples))
	for i, s := range tr.Samples {
		p := r.p.At(s.T)
		q := p
		if tr.ClockStep > 0 {
			q = r.p.At(s.T + tr.ClockStep*(chance(i+k*len(tr.Samples))-0.5))
		}
		if d := tr.PixelMM; d > 0 {
			q = geom.Pt((math.Round(q.X/d+shifts[k][0])-shifts[k][0])*d, (math.Round(q.Y/d+shifts[k][1])-shifts[k][1])*d)
		}
		errs.Samples[i] = trace.Sample{T: s.T, P: r2.Sub(q, p)}
	}
	return errs
}

// along returns the standard deviations of what prepared errors of place add to
// the speed in mm/s where the hand cruises, and to the stitches in mm that count.
func (r *run) along(errs geom.Polyline) (speed, stitch float64) {
	var dv, dl []float64
	arc := make([]float64, len(errs)) // error of the path up to each point
	for i := 1; i < len(errs)-1; i++ {
		way := r2.Sub(r.p.Points[i+1], r.p.Points[i-1])
		var v float64
		if n := r2.Norm(way); n > 0 {
			v = r2.Dot(r2.Sub(errs[i+1], errs[i-1]), way) / n / 2 * r.p.Rate
		}
		arc[i] = arc[i-1] + v/r.p.Rate
		if r.cruise[i] {
			dv = append(dv, v)
		}
	}
	for _, k := range r.counted() {
		dl = append(dl, arc[r.index(r.falls[k].T)]-arc[r.index(r.falls[k-1].T)])
	}
	return spread(dv), spread(dl)
}

func spread(d []float64) float64 {
	if len(d) < 2 {
		return 0
	}
	return stat.PopStdDev(d, nil)
}

// chance returns the i-th of a fixed series of numbers that look random, in
// [0, 1): a report must not differ from one computation to the next (splitmix64,
// Steele, Lea and Flood, OOPSLA 2014).
func chance(i int) float64 {
	z := (uint64(i) + 1) * 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return float64((z^z>>31)>>11) / (1 << 53)
}

// quiet returns the coefficient of variation of the values without the noise of
// standard deviation sd, which is independent of them and so taken off in
// quadrature.
func quiet(values []float64, sd float64) Figure {
	mean, all := stat.PopMeanStdDev(values, nil)
	switch {
	case !(mean > 0):
		return undefined(NoMovement)
	case sd > mostNoise*mean:
		return undefined(CoarsePixels)
	case sd > littleNoise*mean && all < clearOf*sd:
		return Figure{Why: HiddenByPixels, Least: clearOf * sd / mean}
	}
	return figure(math.Sqrt(max(0, all*all-sd*sd)) / mean)
}

// mostNoise is the share of the mean that noise may take up before a coefficient
// of variation says nothing.
const mostNoise = 0.1

// Noise above littleNoise of the mean hides a coefficient of variation unless the
// spread is clearOf times as large; below it, what is hidden does not matter. Ours.
const (
	littleNoise = 0.06
	clearOf     = 1.2
)

// shareWithin returns the share of the values that differ from target by at most
// share of it.
func shareWithin(values []float64, target, share float64) float64 {
	n := floats.Count(func(v float64) bool { return math.Abs(v/target-1) <= share }, values)
	return float64(n) / float64(len(values))
}
