package motif

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var _ = add(Ruled, 60, Motif{
	ID: "ruler-zigzag", Former: []string{"dot-to-dot"}, row: &rulerZigzag, Continuous: true,
	Params: []Param{
		{ID: "count", Min: 3, Max: 60, Step: 1, Usual: 9},
		{ID: "angle", Max: 1, Step: 1, Choices: []string{"upright", "level"}},
		{ID: "mirror", Max: 1, Step: 1, Choices: []string{"first", "second"}},
	},
	fit: fitDotToDot,
})

// fitDotToDot returns a zigzag of count lines whose dots are evenly spaced across
// the field, on its one and its other side in turn.
func fitDotToDot(f field, v Values) ([]Piece, error) {
	along, across := geom.Pt(0, 1), geom.Pt(1, 0)
	if v["angle"] == 1 {
		along, across = across, along
	}
	lo, hi := f.reach(across)
	long0, long1 := f.reach(along)
	n := int(v["count"])
	if hi-lo < 2*float64(n) {
		return nil, &Refusal{TooMany, "points", f.shape, float64(n), math.Floor((hi - lo) / 2),
			fmt.Errorf("%d points are too many for the %s: take at most %d", n, f.shape.describe(), int((hi-lo)/2))}
	}
	var out geom.Polyline
	for i := 0; i <= n; i++ {
		t := math.Max(1e-9, math.Min(1-1e-9, float64(i)/float64(n)))
		p := r2.Scale(lo+(hi-lo)*t, across)
		t0, t1 := f.clip(p, along)
		if t1-t0 < math.Min((hi-lo)/float64(n), long1-long0)/4 {
			continue // where the sides meet in a corner
		}
		if (i+int(v["mirror"]))%2 == 0 {
			t0 = t1
		}
		out = append(out, r2.Add(p, r2.Scale(t0, along)))
	}
	return []Piece{{Name: "zigzag", Path: out, Ruler: true}}, nil
}

var sunburstParams = []Param{
	{ID: "count", Min: 5, Max: 60, Step: 1, Usual: 20},
	{ID: "inner", Unit: "%", Min: 10, Max: 80, Step: 5, Usual: 35},
	{ID: "twist", Unit: "%", Min: -100, Max: 100, Step: 10},
}

// The sunburst as it was first drawn: its inner dots on the rim shrunk towards the middle,
// so that rays of a strip lie flat.
var sunburst1 = Motif{
	ID: "sunburst", Continuous: true, Closed: true, Params: sunburstParams,
	fit: fitSunburst,
}

// Rays about the middle of a triangle crowd in its tips, those in a strip leave it bare.
var _ = add(Ruled, 90, sunburst2.without(except(OneMiddle, strip).and(except(Crowded, HalfSquare, SettingTriangle))))

var sunburst2 = Motif{
	ID: "sunburst", before: &sunburst1, Continuous: true, Closed: true, Params: sunburstParams,
	fit: fitRays,
}

// fitRays returns a closed zigzag between count dots evenly spaced on the rim and as many
// between them on the rim moved inwards, which is inner of the way to the middle short of it;
// twist moves the inner dots on by a share of the spacing.
func fitRays(f field, v Values) ([]Piece, error) {
	n := int(v["count"])
	rim, err := geom.NewLine(f.outline())
	if err != nil {
		return nil, err
	}
	core, ok := f.inset(f.radius * (1 - v["inner"]/100))
	if !ok {
		return nil, f.tooLarge("inner", v["inner"], 0)
	}
	if most := int(core.outline().Length() / 2); n > most {
		return nil, &Refusal{TooMany, "rays", f.shape, float64(n), float64(most),
			fmt.Errorf("%d rays are too many for the %s: take at most %d, or a larger middle", n, f.shape.describe(), most)}
	}
	var out geom.Polyline
	for i := range n {
		s := rim.Length() * float64(i) / float64(n)
		in := math.Mod(s+rim.Length()*(1+(0.5+v["twist"]/200)/float64(n)), rim.Length())
		out = append(out, rim.At(s), f.onto(core, rim.At(in)))
	}
	return []Piece{{Name: "zigzag", Path: append(out, out[0]), Ruler: true}}, nil
}

// onto returns, for a place on the outline, the one as far along the same side of the outline
// of a field within.
func (f field) onto(core field, p geom.Point) geom.Point {
	if f.corners == nil {
		return r2.Add(f.middle, r2.Scale(core.radius/f.radius, r2.Sub(p, f.middle)))
	}
	best, least := p, math.Inf(1)
	for i, a := range f.corners {
		k := (i + 1) % len(f.corners)
		side := r2.Sub(f.corners[k], a)
		if off := math.Abs(r2.Cross(f.ways[i], r2.Sub(p, a))); off < least {
			t := r2.Dot(r2.Sub(p, a), side) / r2.Norm2(side)
			if t < -1e-9 || t > 1+1e-9 {
				continue
			}
			best, least = geom.Lerp(core.corners[i], core.corners[k], t), off
		}
	}
	return best
}

// fitSunburst returns a closed zigzag between count dots evenly spaced on the rim
// and as many on the rim shrunk towards the middle; twist moves the inner dots on
// by a share of the spacing.
func fitSunburst(f field, v Values) ([]Piece, error) {
	n := int(v["count"])
	rim, err := geom.NewLine(f.outline())
	if err != nil {
		return nil, err
	}
	if most := int(rim.Length() * v["inner"] / 100 / 2); n > most {
		return nil, &Refusal{TooMany, "rays", f.shape, float64(n), float64(most),
			fmt.Errorf("%d rays are too many for the %s: take at most %d, or a larger middle", n, f.shape.describe(), most)}
	}
	var out geom.Polyline
	for i := range n {
		s := rim.Length() * float64(i) / float64(n)
		in := math.Mod(s+rim.Length()*(1+(0.5+v["twist"]/200)/float64(n)), rim.Length())
		out = append(out, rim.At(s), geom.Lerp(f.middle, rim.At(in), v["inner"]/100))
	}
	return []Piece{{Name: "zigzag", Path: append(out, out[0]), Ruler: true}}, nil
}
