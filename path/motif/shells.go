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

// Rows and shells that come out whole in blocks with level sides, in a strip two or three rows.
var _ = add(Figures, 60, clamshell1.redrawn(func(f field, v Values) ([]Piece, error) {
	if f.shape.Kind == Square || f.shape.Kind == Rectangle {
		return fitWholeShells(f, v)
	}
	return fitClamshell(f, v)
}).sized(stripSizes{"size": {share: 0.7, most: 42, pitch: 0.5}}).alongSides())

var clamshell1 = Motif{
	ID: "clamshell", row: &row{max: 1, usual: 1}, Smooth: false,
	Params: []Param{
		{ID: "size", Unit: "mm", Min: 6, Max: 200, Step: 1, Usual: 30},
		mirrorParam, sewnEdge(),
	},
	fit: fitClamshell,
}

// fitWholeShells lays whole rows of whole shells of about the given width, half shells at the
// ends of every other row: of the numbers that come near that width those that stretch a shell
// least along the row.
func fitWholeShells(f field, v Values) ([]Piece, error) {
	size := v["size"]
	if err := f.fine("width-of-a-shell", size, 1500); err != nil {
		return nil, err
	}
	if size > 2*f.radius {
		return nil, f.tooLarge("width-of-a-shell", size, 2*f.radius)
	}
	lo, hi := f.bounds()
	w, h := hi.X-lo.X, hi.Y-lo.Y
	rows, cols, least := 1, 1, math.Inf(1)
	about := 2 * h / size
	for n := max(1, int(about/1.2)); n <= int(math.Ceil(about*1.2)); n++ {
		m := max(1, int(math.Round(w*float64(n)/(2*h))))
		stretch := math.Abs(math.Log(w * float64(n) / (2 * h * float64(m))))
		if cost := stretch + 0.2*math.Abs(math.Log(float64(n)/about)); cost < least {
			rows, cols, least = n, m, cost
		}
	}
	r := h / float64(rows)
	wide := w / (2 * float64(cols)) / r
	var lines []geom.Polyline
	for j := range rows {
		row := shellRow(geom.Pt(0, hi.Y-float64(j)*r), r, cols, j%2 == 1)
		lines = append(lines, row.Map(func(p geom.Point) geom.Point {
			p.X = lo.X + p.X*wide
			if v["mirror"] == 1 {
				p.Y = lo.Y + hi.Y - p.Y
			}
			return p
		}))
	}
	return f.cutAll("row", lines, size, v["edge"] == 1), nil
}

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
