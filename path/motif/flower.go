package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

var _ = add(Figures, 50, Motif{
	ID: "flower", before: &flower1, Continuous: true, Closed: true, Smooth: true,
	// In a long rectangle and in triangles its petals are drawn out to slivers.
	lacks:  aboutMiddle,
	Params: flowerParams(8),
	fit:    fitFlower,
})

// The flower as it was first drawn, with six petals, which suit no square.
var flower1 = Motif{
	ID: "flower", Continuous: true, Closed: true, Smooth: true, Params: flowerParams(6), fit: fitFlower,
}

func flowerParams(petals float64) []Param {
	return []Param{
		{ID: "count", Min: 4, Max: 24, Step: 1, Usual: petals},
		{ID: "inner", Unit: "%", Min: 5, Max: 60, Step: 5, Usual: 30},
		{ID: "width", Unit: "%", Min: 80, Max: 200, Step: 10, Usual: 130},
		{ID: "start", Unit: "degrees", Min: 0, Max: 345, Step: 15},
		cornersParam,
	}
}

// fitFlower returns a closed line that swings out to the rounded outline once for
// each petal and in to the middle between them; going out it overtakes and going
// in it falls back by a share of a petal, which rounds the petals.
func fitFlower(f field, v Values) ([]Piece, error) {
	n, inner := v["count"], v["inner"]/100
	if gap := 2 * math.Pi * f.radius * inner / n; gap < 1 {
		return nil, &Refusal{TooMany, "petals", f.shape, n, float64(int(2 * math.Pi * f.radius * inner)), fmt.Errorf("%g petals are too many for the %s: take at most %d, or a larger middle", n, f.shape.describe(), int(2*math.Pi*f.radius*inner))}
	}
	r := f.rounded(cornerPower[int(v["corners"])])
	// At 100 % a petal is nearly as wide as its share of the circle.
	swing := 1.9 * v["width"] / 100 / n
	path := geom.Flatten(func(t float64) geom.Point {
		share := (1+inner)/2 - (1-inner)/2*math.Cos(n*t)
		return r.point(v["start"]*math.Pi/180+t-swing*math.Sin(n*t), share)
	}, 0, 2*math.Pi, int(n)*16)
	path[len(path)-1] = path[0]
	return one("flower", path), nil
}
