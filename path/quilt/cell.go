package quilt

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Kind is the kind of a place in the top. The sides of the borders are of a kind for
// each border, BorderKind.
type Kind string

// The kinds of place.
const (
	Block           Kind = "block"
	Alternate       Kind = "alternate"
	SettingTriangle Kind = "setting-triangle"
	CornerTriangle  Kind = "corner-triangle"
	Strip           Kind = "sashing"
	Cornerstone     Kind = "cornerstone"
	// HalfCornerstone is the triangle in which sashing on point ends at the edge.
	HalfCornerstone Kind = "half-cornerstone"
	// EdgeRow is a row from edge to edge, BorderLine a line all round a border: they lie
	// over other places.
	EdgeRow    Kind = "edge-row"
	BorderLine Kind = "border-line"
)

// BorderKind is the kind of the sides of border i, counted from 0, and
// BorderCornerKind that of the squares in its corners.
func BorderKind(i int) Kind       { return Kind(fmt.Sprintf("border-%d", i+1)) }
func BorderCornerKind(i int) Kind { return Kind(fmt.Sprintf("border-corner-%d", i+1)) }

// Border returns which border, counted from 1, a kind of its sides or of its corners
// belongs to; 0 for any other kind.
func (k Kind) Border() (n int, corner bool) {
	rest, ok := strings.CutPrefix(string(k), "border-")
	if !ok {
		return 0, false
	}
	rest, corner = strings.CutPrefix(rest, "corner-")
	n, err := strconv.Atoi(rest)
	if err != nil {
		return 0, false
	}
	return n, corner
}

// SpotCode is a way to say where a place lies.
type SpotCode string

// The ways, with what a Spot holds of each. Rows, and what stands in them, are counted
// from 1; Row 0 is above the first.
const (
	BlockSpot        SpotCode = "block"         // Row, N
	BetweenSpot      SpotCode = "between"       // on point, the row below Row: Row, N
	UprightSpot      SpotCode = "upright"       // a strip in a row: Row, N
	LevelSpot        SpotCode = "level"         // the long strip below a row: Row
	LevelPieceSpot   SpotCode = "level-piece"   // one of the strips below a row: Row, N
	StoneSpot        SpotCode = "stone"         // a cornerstone below a row: Row, N
	StripAtSpot      SpotCode = "strip-at"      // on point, in steps of the lattice: N across, Row down
	StoneAtSpot      SpotCode = "stone-at"      // the same
	HalfStoneAtSpot  SpotCode = "half-stone-at" // the same
	EdgeSpot         SpotCode = "edge"          // a triangle of an edge: N, Side
	CornerSpot       SpotCode = "corner"        // Side
	BorderSpot       SpotCode = "border"        // border N: Side
	BorderCornerSpot SpotCode = "border-corner" // border N: Side
	EdgeRowSpot      SpotCode = "edge-row"      // row N from edge to edge
	BorderLineSpot   SpotCode = "border-line"   // all round border N
)

// Spot tells where a place lies, for the words of it. Side is "upper", "lower", "left",
// "right", or of corners "upper-left" and so on.
type Spot struct {
	Code   SpotCode
	Row, N float64
	Side   string
}

// Cell is a place of the top that can hold a design.
type Cell struct {
	// ID names the place in documents and as the Block of its lines. It stays the
	// same when rows or columns are added below and to the right.
	ID    string
	Spot  Spot
	Kind  Kind
	Shape motif.Shape
	// Where leads from the shape's own mm, its box beginning at (0, 0), to the top.
	// In borders and triangles the shape is turned so that its upper side (of a
	// border) or its long side or right angle (of a triangle) looks outwards.
	Where Transform
}

// Outline returns the closed outline of the place on the top, in mm.
func (c Cell) Outline() geom.Polyline { return c.Where.Path(c.Shape.Outline()) }

// Transform scales by Scale, then turns by Turn radians (clockwise to the eye), then
// moves by Move mm.
type Transform struct {
	Scale, Turn float64
	Move        geom.Point
}

// Apply returns the image of p.
func (t Transform) Apply(p geom.Point) geom.Point {
	sin, cos := math.Sincos(t.Turn)
	return t.apply(p, sin, cos)
}

func (t Transform) apply(p geom.Point, sin, cos float64) geom.Point {
	return geom.Pt(t.Move.X+t.Scale*(p.X*cos-p.Y*sin), t.Move.Y+t.Scale*(p.X*sin+p.Y*cos))
}

// Path returns the image of a path.
func (t Transform) Path(pl geom.Polyline) geom.Polyline {
	sin, cos := math.Sincos(t.Turn)
	return pl.Map(func(p geom.Point) geom.Point { return t.apply(p, sin, cos) })
}

// After returns the transform that does first, then t.
func (t Transform) After(first Transform) Transform {
	return Transform{Scale: t.Scale * first.Scale, Turn: t.Turn + first.Turn, Move: t.Apply(first.Move)}
}

// about returns the transform that scales and turns and brings the point from to
// the point to.
func about(from, to geom.Point, scale, turn float64) Transform {
	t := Transform{Scale: scale, Turn: turn}
	t.Move = r2.Sub(to, t.Apply(from))
	return t
}

// cellAt returns a cell whose shape's box has its centre at the given place.
func cellAt(id string, at Spot, k Kind, s motif.Shape, centre geom.Point, turn float64) Cell {
	w, h := s.Box()
	return Cell{ID: id, Spot: at, Kind: k, Shape: s, Where: about(geom.Pt(w/2, h/2), centre, 1, turn)}
}

// layout is the cells of a top in the order in which rows are sewn.
type layout struct {
	cells []Cell
	rows  [][]int
}

// row adds a row of cells in sewing order.
func (l *layout) row(cells ...Cell) {
	if len(cells) == 0 {
		return
	}
	var row []int
	for _, c := range cells {
		row = append(row, len(l.cells))
		l.cells = append(l.cells, c)
	}
	l.rows = append(l.rows, row)
}

func (q Quilt) layout() layout {
	var l layout
	if q.Setting == OnPoint {
		q.onPoint(&l)
	} else {
		q.straight(&l)
	}
	q.borders(&l)
	return l
}

// Cells returns every place of the top, row by row as it is sewn, the borders last.
// The upper left corner of the top is (0, 0). The quilt must be valid. Cost
// O(places).
func (q Quilt) Cells() []Cell { return q.layout().cells }

// SewingRows returns the cells of each row in sewing order, as indices into Cells: on
// point the diagonal rows, each from lower left to upper right, the strips between
// rows as rows of their own, and each border clockwise from its upper left.
func (q Quilt) SewingRows() [][]int { return q.layout().rows }

// Kinds returns the kinds of place that the top has, in the order of Cells.
func (q Quilt) Kinds() []Kind {
	var out []Kind
	for _, c := range q.Cells() {
		if !slices.Contains(out, c.Kind) {
			out = append(out, c.Kind)
		}
	}
	return out
}
