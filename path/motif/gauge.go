package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// roundOut describes a field by the distance from its middle to a rounded outline
// in each direction, for spirals and flowers that keep to its shape.
type roundOut struct {
	f     field
	power float64
	// normals point out through the sides, divided by their distance from the
	// middle.
	normals []geom.Point
}

// rounded returns the outline of f with its corners rounded, the less the higher
// the power, which must be positive.
func (f field) rounded(power float64) roundOut {
	r := roundOut{f: f, power: power}
	for i, a := range f.corners {
		u := f.ways[i]
		n := geom.Pt(u.Y, -u.X)
		r.normals = append(r.normals, r2.Scale(1/r2.Dot(n, r2.Sub(a, f.middle)), n))
	}
	return r
}

// at returns the distance in mm from the middle to the rounded outline at an angle
// in radians. The gauge of a polygon is the largest of its sides' (Minkowski); the
// power mean in its place is smooth and never less, so the rounded outline lies
// inside and touches the middle of each side.
func (r roundOut) at(angle float64) float64 {
	if r.normals == nil {
		return r.f.radius
	}
	s, c := math.Sincos(angle)
	var largest float64
	for _, n := range r.normals {
		largest = math.Max(largest, n.X*c+n.Y*s)
	}
	var sum float64
	for _, n := range r.normals {
		if g := (n.X*c + n.Y*s) / largest; g > 0 {
			sum += math.Pow(g, r.power)
		}
	}
	return 1 / (largest * math.Pow(sum, 1/r.power))
}

// point returns the place at an angle and a share of the way to the outline. The
// nearer to the middle, the more the outline gives way to the circle that touches
// its sides, since even gentle corners would be tight on the cloth there: by s(2-s)
// at share s, so that near the rim lines follow the outline evenly.
func (r roundOut) point(angle, share float64) geom.Point {
	d := share * (r.f.radius + (r.at(angle)-r.f.radius)*share*(2-share))
	s, c := math.Sincos(angle)
	return geom.Pt(r.f.middle.X+d*c, r.f.middle.Y+d*s)
}
