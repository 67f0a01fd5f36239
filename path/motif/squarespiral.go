package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var _ = add(Ruled, 20, squareSpiral1.redrawn(func(f field, v Values) ([]Piece, error) {
	return fitSquareSpiral(f, v, evenly)
}))

var squareSpiral1 = Motif{
	ID: "square-spiral", row: &squareSpiral, Continuous: true,
	Params: []Param{
		spacingParam(3, 10),
		{ID: "mirror", Max: 1, Step: 1, Choices: []string{"clockwise", "anticlockwise"}},
	},
	fit: func(f field, v Values) ([]Piece, error) { return fitSquareSpiral(f, v, atOnce) },
}

// fitSquareSpiral returns lines parallel to the sides, each round exactly one
// spacing within the one before; in a circle an Archimedean spiral.
func fitSquareSpiral(f field, v Values, in descent) ([]Piece, error) {
	spacing := v["spacing"]
	if err := f.fine("spacing", spacing, 20000); err != nil {
		return nil, err
	}
	if f.radius < 1.25*spacing {
		return nil, f.tooLarge("spacing", spacing, f.radius/1.25)
	}
	if f.corners == nil {
		w := whorl{out: f.rounded(1), mirrored: v["mirror"] == 1}
		return one("spiral", w.arm(f.radius/spacing-0.35, spacing, false)), nil
	}
	corners := append([]geom.Point{}, f.corners...)
	if v["mirror"] == 1 {
		for i := range corners {
			corners[i] = f.corners[len(corners)-1-i]
		}
	}
	path := geom.Polyline{corners[0]}
	for k := 0; ; k++ {
		p, ok := spiralCorner(corners, k, spacing, in)
		last := path[len(path)-1]
		way := r2.Sub(corners[(k+1)%len(corners)], corners[k%len(corners)])
		if !ok || r2.Dot(r2.Sub(p, last), r2.Unit(way)) < spacing/2 {
			break
		}
		path = append(path, p)
	}
	return []Piece{{Name: "spiral", Path: path, Ruler: true}}, nil
}

// spiralCorner returns where side k of a spiral, which lies in(k, n) spacings
// within that side of the outline, meets side k+1.
func spiralCorner(corners []geom.Point, k int, spacing float64, in descent) (geom.Point, bool) {
	n := len(corners)
	side := func(k int) (p, d geom.Point) {
		a, b := corners[k%n], corners[(k+1)%n]
		d = r2.Unit(r2.Sub(b, a))
		inward := geom.Pt(-d.Y, d.X)
		if r2.Dot(inward, r2.Sub(corners[(k+2)%n], b)) < 0 {
			inward = r2.Scale(-1, inward)
		}
		return r2.Add(a, r2.Scale(spacing*in(k, n), inward)), d
	}
	p, d := side(k)
	q, e := side(k + 1)
	cross := r2.Cross(d, e)
	if math.Abs(cross) < 1e-9 {
		return geom.Point{}, false
	}
	return r2.Add(p, r2.Scale(r2.Cross(r2.Sub(q, p), e)/cross, d)), true
}
