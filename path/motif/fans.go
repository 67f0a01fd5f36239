package motif

import (
	"math"
	"slices"

	"unthreaded/path/geom"
)

// In a strip they are as large as makes few rows.
var _ = add(Figures, 70, fans1.inStrips(stripSizes{"size": {share: 0.5, most: 30, pitch: 0.5}}))

var fans1 = Motif{
	ID: "fans",
	Params: []Param{
		{ID: "size", Unit: "mm", Min: 8, Max: 200, Step: 1, Usual: 30},
		{ID: "count", Min: 1, Max: 6, Step: 1, Usual: 3},
		mirrorParam, sewnEdge(),
	},
	fit: fitFans,
}

// fitFans lays fans of radius R whose centres lie 2R apart in rows R/2 apart, every
// other row R further. A fan is hidden below the two of the next row before it, on
// whose rims its arcs end.
func fitFans(f field, v Values) ([]Piece, error) {
	size, n := v["size"], int(v["count"])
	if err := f.fine("radius-of-a-fan", size/math.Sqrt(float64(n)), 3000); err != nil {
		return nil, err
	}
	if size > 2*f.radius {
		return nil, f.tooLarge("radius-of-a-fan", size, 2*f.radius)
	}
	lo, hi := f.bounds()
	cols, rows := int(math.Ceil((hi.X-lo.X)/size/4))+1, int(math.Ceil((hi.Y-lo.Y+size)/(size/2)))
	upright := func(p geom.Point) geom.Point {
		if v["mirror"] == 1 {
			p.Y = lo.Y + hi.Y - p.Y
		}
		return p
	}
	var lines []geom.Polyline
	for j := range rows + 1 {
		for i := -cols; i <= cols; i++ {
			c := geom.Pt(f.middle.X+(2*float64(i)+float64(j%2))*size, hi.Y+size/2-float64(j)*size/2)
			if f.depth(upright(c)) > -size {
				lines = append(lines, fan(c, size, n)...)
			}
		}
	}
	for i, pl := range lines {
		lines[i] = pl.Map(upright)
	}
	return f.cutAll("arc", lines, size/float64(n), v["edge"] == 1), nil
}

// fanEnd returns the angle from straight up, in radians, at which the arc of radius
// r of a fan of radius 1 ends on the rim of the fan before it, whose centre lies 1
// to the side and 1/2 further down (law of cosines); and the angle of that place
// from straight up on that rim.
func fanEnd(r float64) (own, rim float64) {
	away := math.Sqrt(1.25)
	own = math.Pi/2 + math.Atan(0.5) - math.Acos((r*r+0.25)/(2*r*away))
	return own, math.Atan2(1-r*math.Sin(own), 0.5+r*math.Cos(own))
}

// fan returns the n arcs of a fan round c. Where arcs of the fans behind end on its
// rim, the rim has a vertex.
func fan(c geom.Point, radius float64, n int) []geom.Polyline {
	var out []geom.Polyline
	for k := 1; k <= n; k++ {
		r := float64(k) / float64(n)
		end, _ := fanEnd(r)
		stops := []float64{-end}
		if k == n {
			for i := 1; i <= n; i++ {
				_, rim := fanEnd(float64(i) / float64(n))
				stops = append(stops, -rim, rim)
			}
		}
		out = append(out, arcThrough(c, radius*r, append(stops, end)))
	}
	return out
}

// arcThrough returns the arc between the least and the greatest of the stops,
// angles from straight up in radians, with a vertex at each that lies 1e-6 apart.
func arcThrough(c geom.Point, radius float64, stops []float64) geom.Polyline {
	slices.Sort(stops)
	var out geom.Polyline
	for i := 1; i < len(stops); i++ {
		if stops[i]-stops[i-1] > 1e-6 {
			out = append(out, geom.Arc(c, radius, stops[i-1]-math.Pi/2, stops[i]-math.Pi/2)...)
		}
	}
	return out.Compact()
}
