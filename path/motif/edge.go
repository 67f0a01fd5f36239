package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// RunsEdgeToEdge tells that rows of the motif can run from edge to edge of a top.
func (m Motif) RunsEdgeToEdge() bool { return m.figure != nil }

// RowHeights returns the least and the largest height in mm that rows of a figure take.
func RowHeights() (least, most float64) {
	p := sizeParam(0)
	return p.Min, p.Max
}

// FromEdgeToEdge returns the motifs whose rows can run from edge to edge of a top.
func FromEdgeToEdge() []Motif {
	var out []Motif
	for _, m := range Ready() {
		if m.RunsEdgeToEdge() {
			out = append(out, m)
		}
	}
	return out
}

// EdgeToEdge lays rows of the motif over a whole top of w x h mm, whatever is pieced in it:
// each row is a piece of its own from the left edge to the right, of whole repeats, the
// upper row first; rows are in phase and evenly spaced at about the distance of the figure,
// and, without liveliness, alike.
// Laid.Repeats are those in a row and the rows. It fails for a motif that is no row, and as
// Fit does. Cost that of Fit.
func (m Motif) EdgeToEdge(w, h float64, v Values) (Laid, error) {
	if !m.RunsEdgeToEdge() {
		return Laid{}, fmt.Errorf("%s: it does not run from edge to edge: take a motif of rows", m.ID)
	}
	s := Shape{Kind: Rectangle, W: w, H: h}
	if err := s.Validate(); err != nil {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, err)
	}
	all, err := m.complete(s, v)
	if err != nil {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, err)
	}
	g := m.figure()
	if all["mirror"] == 1 {
		g = g.flipped()
	}
	g.pitch = math.Max(closest, g.pitch*100/all["density"])
	f := newField(s, 0)
	if err := f.fine("height-of-a-row", all["size"]/math.Sqrt(math.Max(1, g.slim)), 1500); err != nil {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, err)
	}
	c := course{figure: g, half: math.Min(all["size"], h) / 2, alive: all["liveliness"] / 100, noise: newWander(all["variation"])}
	levels := c.levels(f)
	if len(levels) == 0 {
		return Laid{}, fmt.Errorf("%s: %w", m.ID, f.tooLarge("height-of-a-row", all["size"], mostRows(f, c)))
	}
	out := Laid{Repeats: [2]int{c.spread(f, levels[0], 0, w).n, len(levels)}}
	out.Stretch = w / (float64(out.Repeats[0]) * c.length())
	points := 0
	same := c.row(f, levels[len(levels)/2], 0, w).path
	for i, y := range levels {
		path := same.Map(func(p geom.Point) geom.Point { return geom.Pt(p.X, p.Y+y-levels[len(levels)/2]) })
		if c.alive > 0 {
			path = c.row(f, y, 0, w).path
		}
		points += len(path)
		out.Pieces = append(out.Pieces, Piece{Name: fmt.Sprintf("row %d", i+1), Path: path})
	}
	if points > MaxPoints {
		return Laid{}, fmt.Errorf("%s: the rows have %d points, too many: take larger measures", m.ID, points)
	}
	return out, nil
}
