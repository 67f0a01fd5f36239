package geom

import "math"

// Curvature returns the signed curvature in 1/mm of the line at arc lengths
// k*step, k = 0, 1, ..., from circles through points one reach before and after
// (Menger curvature: 4 x area over the product of the sides). reach in mm smooths
// over the chords of a flattened curve, whose error is at most 2*Sagitta/reach^2
// (0.0025 at 2 mm); values within reach of an end repeat the
// nearest one inside. Positive turns clockwise to the eye. Cost O(length/step).
func (l Line) Curvature(step, reach float64) []float64 {
	n := int(l.Length()/step) + 1
	out := make([]float64, n)
	for k := range out {
		s := math.Max(reach, math.Min(l.Length()-reach, float64(k)*step))
		out[k] = menger(l.At(s-reach), l.At(s), l.At(s+reach))
	}
	return out
}

func menger(a, b, c Point) float64 {
	cross := (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
	d := Dist(a, b) * Dist(b, c) * Dist(c, a)
	if d == 0 {
		return 0
	}
	return 2 * cross / d
}
