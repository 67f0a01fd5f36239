package scoring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

const (
	// leastLeg is the shortest straight piece in mm that is judged.
	leastLeg = 10.0
	// legEnd in mm is left out at both ends of a leg: the corners have their own
	// measures.
	legEnd = 2.0
	// legSagitta is how far in mm a leg may bow and still count as straight.
	legSagitta = 0.01
)

// Leg is a straight piece of the line between corners, dots or ends, as it was
// sewn.
type Leg struct {
	From float64 `json:"from_mm"`
	To   float64 `json:"to_mm"`
	// Bow is the straightness of the movement in mm, whatever its direction: from
	// its highest peak to its lowest valley about the line that fits it best
	// (ISO 12780: STRt), and Wave the root mean square about the same line
	// (STRq).
	Bow  Figure `json:"bow_mm"`
	Wave Figure `json:"wave_mm"`
	// Tilt is the angle in radians by which that line turns away from the leg,
	// positive clockwise to the eye.
	Tilt Figure `json:"tilt_rad"`
}

// legs judges the straight pieces of the line.
func (r *run) legs() []Leg {
	out := []Leg{}
	last := 0.0
	for _, s := range append(append([]float64(nil), r.breaks...), r.line.Length()) {
		if s-last >= leastLeg && s-last-geom.Dist(r.line.At(last), r.line.At(s)) < legSlack(s-last) {
			out = append(out, Leg{From: last, To: s})
		}
		last = s
	}
	pts := make([]geom.Polyline, len(out))
	k := 0
	for i, place := range r.m.Place {
		for k > 0 && place < out[k].From {
			k--
		}
		for k < len(out)-1 && place > out[k].To {
			k++
		}
		if k < len(out) && place > out[k].From+legEnd && place < out[k].To-legEnd && r.matched(i) && !r.round[i] {
			pts[k] = append(pts[k], r.p.Points[i])
		}
	}
	for k := range out {
		out[k].judge(pts[k], r.line.Tangent((out[k].From+out[k].To)/2))
	}
	return out
}

// legSlack returns how much longer in mm than its chord a leg of that length is
// when it bows by legSagitta: 8/3 sagitta^2 / chord.
func legSlack(length float64) float64 { return 8.0/3*legSagitta*legSagitta/length + 1e-9 }

func (l *Leg) judge(pts geom.Polyline, along geom.Point) {
	if len(pts) < 3 {
		l.Bow = undefined(NotReached)
		l.Wave, l.Tilt = l.Bow, l.Bow
		return
	}
	c, dir := fitLine(pts)
	if r2.Dot(dir, along) < 0 {
		dir = r2.Scale(-1, dir)
	}
	lo, hi, sum := math.Inf(1), math.Inf(-1), 0.0
	for _, p := range pts {
		h := r2.Cross(dir, r2.Sub(p, c))
		lo, hi, sum = min(lo, h), max(hi, h), sum+h*h
	}
	l.Bow, l.Wave = figure(hi-lo), figure(math.Sqrt(sum/float64(len(pts))))
	l.Tilt = figure(math.Atan2(r2.Cross(along, dir), r2.Dot(along, dir)))
}

// fitLine returns the line of total least squares through the points, as their
// centroid and a unit direction.
func fitLine(pts geom.Polyline) (centroid, direction geom.Point) {
	for _, p := range pts {
		centroid = r2.Add(centroid, p)
	}
	centroid = r2.Scale(1/float64(len(pts)), centroid)
	var xx, yy, xy float64
	for _, p := range pts {
		d := r2.Sub(p, centroid)
		xx, yy, xy = xx+d.X*d.X, yy+d.Y*d.Y, xy+d.X*d.Y
	}
	a := math.Atan2(2*xy, xx-yy) / 2
	return centroid, geom.Pt(math.Cos(a), math.Sin(a))
}
