// Package synth is a synthetic hand with known faults: tests ask what its movements come to,
// and the example of weeks of practice is traced by it.
package synth

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// Hand tells how a line is traced.
type Hand struct {
	// Hz is the rate of its samples.
	Hz float64
	// Speed returns the speed in mm/s at the place s mm along the line.
	Speed func(s float64) float64
	// Beside returns how many mm to the right of the line it goes at s; nil for 0.
	Beside func(s float64) float64
	// Overshoot is how many mm it goes past each corner, straight on and back.
	Overshoot float64
	// Stop ends the trace there, in mm along the line; 0 for the end of the line.
	Stop float64
}

// Steady returns the speed function of an even hand.
func Steady(mmPerS float64) func(float64) float64 {
	return func(float64) float64 { return mmPerS }
}

// step is the fineness in mm with which the movement is worked out.
const step = 0.02

// Samples returns the movement along the line, the first sample at time 0.
func (h Hand) Samples(l geom.Line) []trace.Sample {
	stop := h.Stop
	if stop == 0 {
		stop = l.Length()
	}
	w := walk{hand: h}
	w.to(h.place(l, 0), 0)
	corner := 0
	for s := step; s <= stop; s += step {
		if corner < len(l.Corners) && l.Corners[corner] <= s {
			w.past(l, l.Corners[corner])
			corner++
		}
		w.to(h.place(l, s), s)
	}
	return append(w.out, trace.Sample{T: w.t, P: w.at, Pressure: 0.5})
}

func (h Hand) place(l geom.Line, s float64) geom.Point {
	p := l.At(s)
	if h.Beside == nil {
		return p
	}
	d := l.Tangent(s)
	return r2.Add(p, r2.Scale(h.Beside(s), geom.Pt(-d.Y, d.X)))
}

// walk moves the hand in time and takes a sample whenever one is due.
type walk struct {
	hand Hand
	at   geom.Point
	t    float64
	out  []trace.Sample
}

// to moves to p at the speed of the place s.
func (w *walk) to(p geom.Point, s float64) {
	if len(w.out) == 0 {
		w.at = p
		w.out = append(w.out, trace.Sample{P: p, Pressure: 0.5})
		return
	}
	took := geom.Dist(w.at, p) / w.hand.Speed(s)
	for {
		due := float64(len(w.out)) / w.hand.Hz
		if due > w.t+took || took == 0 {
			break
		}
		w.out = append(w.out, trace.Sample{T: due, P: geom.Lerp(w.at, p, (due-w.t)/took), Pressure: 0.5})
	}
	w.t += took
	w.at = p
}

// past goes beyond the corner at s and comes back.
func (w *walk) past(l geom.Line, s float64) {
	v, d := l.At(s), l.Tangent(s)
	for x := 0.0; x < 2*w.hand.Overshoot; x += step {
		beyond := x
		if x > w.hand.Overshoot {
			beyond = 2*w.hand.Overshoot - x
		}
		w.to(r2.Add(v, r2.Scale(beyond, d)), s)
	}
}
