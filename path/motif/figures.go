package motif

import (
	"math"

	"unthreaded/path/geom"
)

// sineGenerated returns one repeat of the line whose heading swings like a sine along
// its length, by w radians to either side (Langbein & Leopold, USGS Prof. Paper 422-H,
// 1966): from a gentle wave at 0.8 to ribbon candy at 1.8, in one formula and without a
// joint. It begins at its top. A repeat is J0(w) of its length long.
func sineGenerated(w, pitch float64) figure {
	f, slim := swung(w, 0)
	return figure{curves: []stretch{{f: f, t1: 1, pieces: 16}}, slim: slim, pitch: pitch, level: -1}
}

// sineLoops returns the same line swung so far, beyond the first zero of J0 at 2.405, that it
// goes backwards at its tops and feet: loops that stand up and hang down in turn. It begins
// midway, rising by pi - w.
func sineLoops(w, pitch float64) figure {
	f, slim := swung(w, 0.25)
	return figure{curves: []stretch{{f: f, t1: 1, pieces: 24}}, slim: slim, pitch: pitch, fades: true}
}

// swung returns a repeat of the sine-generated line from a phase, in repeats, and how high it
// is over its length.
func swung(w, phase float64) (f func(t float64) geom.Point, slim float64) {
	const steps = 512
	var xs, ys [steps + 1]float64
	head := func(s float64) (dx, dy float64) {
		dy, dx = math.Sincos(w * math.Sin(2*math.Pi*(s+phase)))
		return dx, dy
	}
	least, most := 0.0, 0.0
	for i := range steps {
		// Simpson's rule.
		a, m, b := float64(i)/steps, (float64(i)+0.5)/steps, float64(i+1)/steps
		ax, ay := head(a)
		mx, my := head(m)
		bx, by := head(b)
		xs[i+1], ys[i+1] = xs[i]+(ax+4*mx+bx)/(6*steps), ys[i]+(ay+4*my+by)/(6*steps)
		least, most = math.Min(least, ys[i+1]), math.Max(most, ys[i+1])
	}
	length, height := xs[steps], most-least
	return func(t float64) geom.Point {
		i := max(0, min(steps-1, int(t*steps)))
		a, k := float64(i)/steps, t*steps-float64(i)
		ax, ay := head(a)
		bx, by := head(a + 1.0/steps)
		x := hermite(xs[i], xs[i+1], ax/steps, bx/steps, k)
		y := hermite(ys[i], ys[i+1], ay/steps, by/steps, k)
		return geom.Pt(x/length, 2*(y-least)/height-1)
	}, height / math.Abs(length)
}

// hermite returns the cubic between two values with their slopes, at share t.
func hermite(a, b, da, db, t float64) float64 {
	u := 1 - t
	return a*(1+2*t)*u*u + b*t*t*(3-2*t) + da*t*u*u - db*t*t*u
}

// trochoid returns one repeat of loops that stand on the row: x = R t - d sin t,
// y = -d cos t with d/R = k above 1, from the foot of one to the foot of the next.
// Its radii are (d-R)^2/d at the top of a loop and (d+R)^2/d at the foot.
func trochoid(k, pitch float64) figure {
	f := func(t float64) geom.Point {
		s, c := math.Sincos(t)
		return geom.Pt((t+math.Pi)/(2*math.Pi)-k/(2*math.Pi)*s, -c)
	}
	return figure{curves: []stretch{{f: f, t0: -math.Pi, t1: math.Pi, pieces: 16}}, slim: k / math.Pi, pitch: pitch, level: 1}
}

// wishbone returns one repeat of loops that stand up and hang down in turn:
// x = t + c sin 2t, y = -h sin t.
func wishbone(c, h, pitch float64) figure {
	f := func(t float64) geom.Point {
		return geom.Pt((t+c*math.Sin(2*t))/(2*math.Pi), -math.Sin(t))
	}
	return figure{curves: []stretch{{f: f, t1: 2 * math.Pi, pieces: 24}}, slim: h / math.Pi, pitch: pitch, fades: true}
}
