package trace

import (
	"math"

	"unthreaded/path/geom"
)

// resample returns n places at t0 + i/Rate. Each is the mean of the straight
// interpolation of the samples over one step centred on its time, which keeps
// the rounding of pixels at higher recording rates from folding into the
// result; near the ends and beside gaps the window shrinks, so that it stays
// centred. Samples must ascend in time. Cost O(samples + n).
func resample(s []Sample, gaps []Gap, t0 float64, n int) geom.Polyline {
	area := make(geom.Polyline, len(s))
	for i := 1; i < len(s); i++ {
		h := (s[i].T - s[i-1].T) / 2
		area[i].X = area[i-1].X + h*(s[i].P.X+s[i-1].P.X-2*s[0].P.X)
		area[i].Y = area[i-1].Y + h*(s[i].P.Y+s[i-1].P.Y-2*s[0].P.Y)
	}
	out := make(geom.Polyline, n)
	lo, mid, hi := 0, 0, 0
	from := s[0].T // the stretch, or the gap, around t begins here
	for i := range out {
		t := math.Min(t0+float64(i)/Rate, s[len(s)-1].T)
		for len(gaps) > 0 && t >= gaps[0].To {
			from, gaps = gaps[0].To, gaps[1:]
		}
		to := s[len(s)-1].T // and ends here
		if len(gaps) > 0 {
			to = gaps[0].From
			if t >= to {
				from, to = gaps[0].From, gaps[0].To
			}
		}
		mid = advance(s, mid, t)
		w := math.Min(0.5/Rate, math.Min(t-from, to-t))
		if w < 1e-9 {
			out[i] = between(s, mid, t)
			continue
		}
		lo, hi = advance(s, lo, t-w), advance(s, hi, t+w)
		a, b := areaAt(s, area, lo, t-w), areaAt(s, area, hi, t+w)
		out[i] = geom.Pt(s[0].P.X+(b.X-a.X)/(2*w), s[0].P.Y+(b.Y-a.Y)/(2*w))
	}
	return out
}

// advance returns the index, from i on, of the last sample at or before t that
// has a successor. The windows of neighbouring steps may shrink, so i may have
// to step back.
func advance(s []Sample, i int, t float64) int {
	for i > 0 && s[i].T > t {
		i--
	}
	for i < len(s)-2 && s[i+1].T <= t {
		i++
	}
	return i
}

func between(s []Sample, i int, t float64) geom.Point {
	return geom.Lerp(s[i].P, s[i+1].P, (t-s[i].T)/(s[i+1].T-s[i].T))
}

// areaAt returns the integral over time, up to t in the step after sample i, of
// the place relative to the first sample.
func areaAt(s []Sample, area geom.Polyline, i int, t float64) geom.Point {
	h := (t - s[i].T) / 2
	p := between(s, i, t)
	return geom.Pt(
		area[i].X+h*(s[i].P.X+p.X-2*s[0].P.X),
		area[i].Y+h*(s[i].P.Y+p.Y-2*s[0].P.Y))
}
