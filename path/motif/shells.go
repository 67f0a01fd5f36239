package motif

import (
	"math"

	"unthreaded/path/geom"
)

// sewnEdge is edgeParam for motifs that are usually sewn round, since most of
// their lines end on the rim.
func sewnEdge() Param {
	p := edgeParam
	p.Usual = 1
	return p
}

var _ = add(Figures, 60, Motif{
	ID: "clamshell", Smooth: false,
	Params: []Param{
		{ID: "size", Unit: "mm", Min: 6, Max: 200, Step: 1, Usual: 30},
		mirrorParam, sewnEdge(),
	},
	fit: fitClamshell,
})

// fitClamshell lays rows of shells of exactly the given width, a shell's top in the
// middle of the field.
func fitClamshell(f field, v Values) ([]Piece, error) {
	size := v["size"]
	if err := f.fine("width-of-a-shell", size, 1500); err != nil {
		return nil, err
	}
	if size > 2*f.radius {
		return nil, f.tooLarge("width-of-a-shell", size, 2*f.radius)
	}
	lo, hi := f.bounds()
	r := size / 2
	cols, rows := int(math.Ceil((hi.X-lo.X)/size/2))+1, int(math.Ceil((hi.Y-lo.Y)/r))+1
	var lines []geom.Polyline
	for j := range rows {
		lines = append(lines, shellRow(geom.Pt(f.middle.X, hi.Y-float64(j)*r), r, cols, j%2 == 1))
	}
	if v["mirror"] == 1 {
		for i, pl := range lines {
			lines[i] = pl.Map(func(p geom.Point) geom.Point { return geom.Pt(p.X, lo.Y+hi.Y-p.Y) })
		}
	}
	return f.cutAll("row", lines, size, v["edge"] == 1), nil
}

// shellRow returns a row of half circles of radius r, cols of them to either side
// of the middle, a valley at p or, if shifted, a top above it. It is made of
// quarters whose ends are set exactly, so that rows meet in one point.
func shellRow(p geom.Point, r float64, cols int, shifted bool) geom.Polyline {
	var row geom.Polyline
	for q := -2 * cols; q < 2*cols; q++ {
		x0, x1 := p.X+float64(q)*r, p.X+float64(q+1)*r
		rising := (q%2 == 0) != shifted
		centre, from, left, right := geom.Pt(x1, p.Y), math.Pi, geom.Pt(x0, p.Y), geom.Pt(x1, p.Y-r)
		if !rising {
			centre, from, left, right = geom.Pt(x0, p.Y), -math.Pi/2, geom.Pt(x0, p.Y-r), geom.Pt(x1, p.Y)
		}
		arc := geom.Arc(centre, r, from, from+math.Pi/2)
		arc[0], arc[len(arc)-1] = left, right
		row = append(row, arc...)
	}
	return row.Compact()
}
