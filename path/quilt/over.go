package quilt

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Overall is a motif of rows quilted from edge to edge, whatever is pieced under it.
type Overall struct {
	Recipe
	// Within keeps the rows within the borders; else they go over them as well.
	Within bool `json:"within_borders,omitempty"`
}

// Over is one line laid over places of the top: a row from edge to edge, or a border sewn
// all round. Those places hold nothing of their own while it lies there; what was chosen
// for them is kept.
type Over struct {
	// Cell is the line as a place of its own: its id and its box. Where leads from the
	// mm of Pieces to the top.
	Cell   Cell
	Pieces []motif.Piece
	// Border counts from 0 the border it goes round, -1 for a row.
	Border  int
	Pattern string // the id of its motif
	// Repeats are those in a row and the rows, or along a level and an upright side of a
	// border; Stretch by how much each is longer (above 1) or shorter than it would be.
	Repeats [2]int
	Stretch float64
	// Like is the index of the first line with the same pieces.
	Like int
}

// OverMisfit tells why a line cannot be laid over the top as it is set; Border counts
// from 0, -1 for the rows from edge to edge.
type OverMisfit struct {
	Border int
	Err    error
}

// seamRoom in mm is how far a line round a border keeps from its seams: 1/4 in, or a sixth
// of a narrow border. Judgements of ours.
const seamRoom = 0.25 * inch

// Covered tells whether a line that lies over the top takes a place.
func (q Quilt) Covered(c Cell) bool {
	n, _ := c.Kind.Border()
	switch {
	case q.Overall != nil && !(n > 0 && q.Overall.Within):
		return true
	case n > 0 && n <= len(q.Borders):
		return q.Borders[n-1].Line != nil
	}
	return false
}

// overs is the same for quilts whose lines over the top are the same; "" for none.
func (q Quilt) overs() string {
	lined := slices.ContainsFunc(q.Borders, func(b Border) bool { return b.Line != nil })
	if q.Overall == nil && !lined {
		return ""
	}
	doc, err := json.Marshal([]any{q.Overall, q.Borders, q.Inner()})
	if err != nil {
		return "" // no number of a valid quilt fails
	}
	return string(doc)
}

// layOver lays the rows from edge to edge and the lines round borders. Cost that of the
// motifs.
func (l *Laying) layOver(q Quilt) {
	if q.Overall != nil {
		l.layOverall(q)
	}
	for i, b := range q.Borders {
		if b.Line != nil && (q.Overall == nil || q.Overall.Within) {
			l.layRound(q, i)
		}
	}
}

func (l *Laying) layOverall(q Quilt) {
	size, at := q.Size(), 0.0
	if q.Overall.Within {
		size, at = q.Inner(), q.framed()
	}
	m, _ := q.Overall.Motif()
	laid, err := m.EdgeToEdge(size.W, size.H, q.Overall.Values)
	if err != nil {
		l.OverMisfits = append(l.OverMisfits, OverMisfit{-1, err})
		return
	}
	like := len(l.Overs)
	for i, piece := range laid.Pieces {
		lo, hi := piece.Path.Bounds()
		shape := motif.Shape{Kind: motif.Rectangle, W: size.W, H: hi.Y - lo.Y}
		c := cellAt(fmt.Sprintf("edge-row-%d", i+1), Spot{Code: EdgeRowSpot, N: float64(i + 1)}, EdgeRow, shape,
			geom.Pt(at+size.W/2, at+(lo.Y+hi.Y)/2), 0)
		piece.Path = piece.Path.Map(func(p geom.Point) geom.Point { return geom.Pt(p.X, p.Y-lo.Y) })
		o := Over{Cell: c, Pieces: []motif.Piece{piece}, Border: -1, Pattern: m.ID, Repeats: laid.Repeats, Stretch: laid.Stretch, Like: len(l.Overs)}
		if samePath(l.firstPath(like), piece.Path) {
			o.Like, o.Pieces = like, l.Overs[like].Pieces
		}
		l.Overs = append(l.Overs, o)
	}
}

// firstPath returns the path of a row, nil where it is not there yet.
func (l *Laying) firstPath(row int) geom.Polyline {
	if row >= len(l.Overs) {
		return nil
	}
	return l.Overs[row].Pieces[0].Path
}

// samePath tells whether two paths are the same but for rounding.
func samePath(a, b geom.Polyline) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if geom.Dist(a[i], b[i]) > 1e-6 {
			return false
		}
	}
	return true
}

func (l *Laying) layRound(q Quilt, i int) {
	size, at := q.Inner(), q.framed()
	for k := range i + 1 {
		w := q.Borders[k].WidthMM
		size, at = Size{size.W + 2*w, size.H + 2*w}, at-w
	}
	width := q.Borders[i].WidthMM
	m, _ := q.Borders[i].Line.Motif()
	margin := math.Min(seamRoom, width/6)
	if m.Group == motif.Ruled { // ruler work goes from seam to seam
		margin = 0
	}
	laid, err := m.Around(motif.Border{W: size.W, H: size.H, Width: width}, margin, q.Borders[i].Line.Values)
	if err != nil {
		l.OverMisfits = append(l.OverMisfits, OverMisfit{i, err})
		return
	}
	c := cellAt(fmt.Sprintf("border-%d-line", i+1), Spot{Code: BorderLineSpot, N: float64(i + 1)}, BorderLine,
		motif.Shape{Kind: motif.Rectangle, W: size.W, H: size.H}, geom.Pt(at+size.W/2, at+size.H/2), 0)
	l.Overs = append(l.Overs, Over{Cell: c, Pieces: laid.Pieces, Border: i, Pattern: m.ID, Repeats: laid.Repeats, Stretch: laid.Stretch, Like: len(l.Overs)})
}

// linesOver returns the lines that lie over the top, in its mm.
func (l Laying) linesOver() []motif.Piece {
	var out []motif.Piece
	for _, o := range l.Overs {
		for _, piece := range o.Pieces {
			piece.Path, piece.Block = o.Cell.Where.Path(piece.Path), o.Cell.ID
			out = append(out, piece)
		}
	}
	return out
}

// validateOver reports a motif that cannot lie over a top.
func (q Quilt) validateOver() error {
	if q.Overall != nil {
		if err := q.Overall.validate(); err != nil {
			return fmt.Errorf("edge_to_edge.%w", err)
		}
		if m, _ := q.Overall.Motif(); !m.RunsEdgeToEdge() {
			return fmt.Errorf("edge_to_edge.pattern: %q is no motif of rows", m.ID)
		}
	}
	for i, b := range q.Borders {
		if b.Line == nil {
			continue
		}
		if err := b.Line.validate(); err != nil {
			return fmt.Errorf("borders[%d].line.%w", i, err)
		}
		if m, _ := b.Line.Motif(); !m.GoesRound() {
			return fmt.Errorf("borders[%d].line.pattern: %q does not go round a border", i, m.ID)
		}
	}
	return nil
}
