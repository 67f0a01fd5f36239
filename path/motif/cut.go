package motif

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// cut returns the parts of a line inside the field that are at least shortest mm
// long, their ends on its rim exactly.
func (f field) cut(pl geom.Polyline, shortest float64) []geom.Polyline {
	if f.deepest(pl) >= 0 && pl.Length() >= shortest {
		return []geom.Polyline{pl}
	}
	var out []geom.Polyline
	var at geom.Polyline
	end := func() {
		if at = at.Compact(); at.Length() >= shortest {
			out = append(out, at)
		}
		at = nil
	}
	for i := 1; i < len(pl); i++ {
		from, to, enters, leaves := f.cutOne(pl[i-1], pl[i])
		if enters {
			end()
		}
		if from != to {
			if len(at) == 0 {
				at = append(at, from)
			}
			at = append(at, to)
		}
		if leaves {
			end()
		}
	}
	end()
	return out
}

// cutOne returns the part of a segment inside the field, both ends equal when there
// is none, and whether it begins or ends on the rim between p and q.
func (f field) cutOne(p, q geom.Point) (from, to geom.Point, enters, leaves bool) {
	const touch = 1e-7 // a line on the rim counts as inside
	n := geom.Dist(p, q)
	if n == 0 {
		return p, p, false, false
	}
	d := r2.Scale(1/n, r2.Sub(q, p))
	lo, hi := f.clip(p, d)
	if lo > n+touch || hi < -touch || hi-lo < touch {
		return p, p, true, true
	}
	from, to = p, q
	if enters = lo > touch; enters {
		from = r2.Add(p, r2.Scale(lo, d))
	}
	if leaves = hi < n-touch; leaves {
		to = r2.Add(p, r2.Scale(hi, d))
	}
	return from, to, enters, leaves
}

// cutAll cuts lines at the rim of the field, drops what is shorter than a share of
// the size of the motif, and names the parts; rim adds the rim itself, unless it
// is the seam round the block.
func (f field) cutAll(what string, lines []geom.Polyline, size float64, rim bool) []Piece {
	shortest := math.Max(1, 0.15*size)
	var out []Piece
	for _, pl := range lines {
		for _, part := range f.cut(pl, shortest) {
			out = append(out, Piece{Name: fmt.Sprintf("%s %d", what, len(out)+1), Path: part})
		}
	}
	if rim && f.margin > 0 {
		out = append(out, Piece{Name: "rim", Path: f.outline()})
	}
	return out
}
