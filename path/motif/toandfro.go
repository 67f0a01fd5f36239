package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var _ = add(Flowing, 90, toAndFro1.without(except(BareTips, HalfSquare, SettingTriangle)).alongSides())

var toAndFro1 = Motif{
	ID: "to-and-fro", row: &row{max: 1, usual: 1}, Continuous: true, Smooth: true,
	Params: []Param{
		spacingParam(3, 10), angleParam(0),
		{ID: "mirror", Max: 1, Step: 1, Choices: []string{"left", "right"}},
	},
	fit: fitToAndFro,
}

// chord is a line across a field: its place across the lines and its ends along
// them, in mm.
type chord struct{ at, lo, hi float64 }

// fitToAndFro lays parallel lines exactly one spacing apart, whose turns just touch
// the rim of the field.
func fitToAndFro(f field, v Values) ([]Piece, error) {
	spacing := v["spacing"]
	lines, err := f.ruled(spacing, v["angle"])
	if err != nil {
		return nil, err
	}
	along := r2.Unit(r2.Sub(lines[0][1], lines[0][0]))
	across := geom.Pt(-along.Y, along.X)
	var chords []chord
	for _, pl := range lines {
		c := chord{r2.Dot(pl[0], across), r2.Dot(pl[0], along), r2.Dot(pl[1], along)}
		if c.hi-c.lo > 2*spacing {
			chords = append(chords, c)
		}
	}
	if len(chords) == 0 {
		return nil, f.tooLarge("spacing", spacing, f.radius/2)
	}
	way := 1 - 2*v["mirror"]
	return one("line", f.boustrophedon(chords, along, way, spacing/2)), nil
}

// boustrophedon joins chords, one turn of the given radius after the other, from
// the low end of the first for way 1, from its high end for way -1.
func (f field) boustrophedon(chords []chord, along geom.Point, way, radius float64) geom.Polyline {
	across := geom.Pt(-along.Y, along.X)
	at := func(t, u float64) geom.Point { return r2.Add(r2.Scale(t, along), r2.Scale(u, across)) }
	end := func(c chord, way float64) geom.Point {
		if way > 0 {
			return at(c.hi, c.at)
		}
		return at(c.lo, c.at)
	}
	out := geom.Polyline{end(chords[0], -way)}
	from := math.Atan2(across.Y, across.X) - math.Pi
	for i, c := range chords[1:] {
		mid := (chords[i].at + c.at) / 2
		centre := at(f.turnPlace(along, across, mid, radius, way), mid)
		out = append(out, geom.Arc(centre, radius, from, from+way*math.Pi)...)
		way = -way
	}
	return append(out, end(chords[len(chords)-1], way))
}

// turnPlace returns how far along a circle of the given radius, mid mm across, may
// have its centre, so that it stays in the field: where it first touches a side.
func (f field) turnPlace(along, across geom.Point, mid, radius, sign float64) float64 {
	if f.corners == nil {
		m := r2.Sub(r2.Scale(mid, across), f.middle)
		d := r2.Dot(m, across)
		inner := f.radius - radius
		return r2.Dot(f.middle, along) + sign*math.Sqrt(math.Max(0, inner*inner-d*d))
	}
	place := math.Inf(int(sign))
	for i, p := range f.corners {
		u := f.ways[i]
		// Distance inside the side of the centre: c0 + slope * t >= radius.
		slope := r2.Cross(u, along)
		c0 := r2.Cross(u, r2.Sub(r2.Scale(mid, across), p))
		if sign*slope < -1e-12 {
			place = sign * math.Min(sign*place, sign*(radius-c0)/slope)
		}
	}
	return place
}
