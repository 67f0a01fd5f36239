package plan

import (
	"unthreaded/path/motif"
	"unthreaded/path/plane"
)

// Drawing is line work that a route can be planned for.
type Drawing struct {
	ID, Name, Note string
	// Row tells that the strokes belong to blocks side by side.
	Row bool
	// Strokes makes the lines.
	Strokes func() []plane.Stroke
}

// Drawings returns the ready drawings.
func Drawings() []Drawing {
	works := motif.Works()
	out := make([]Drawing, len(works))
	for i, w := range works {
		out[i] = Drawing{ID: w.ID, Name: w.Name, Note: w.Note, Row: w.Row, Strokes: func() []plane.Stroke { return Strokes(w.Pieces()) }}
	}
	return out
}

// DrawingOf returns the drawing of pieces made when they are needed.
func DrawingOf(id, name, note string, pieces func() []motif.Piece) Drawing {
	return Drawing{ID: id, Name: name, Note: note, Strokes: func() []plane.Stroke { return Strokes(pieces()) }}
}

// Find returns the drawing with the given ID among all.
func Find(all []Drawing, id string) (Drawing, bool) {
	for _, d := range all {
		if d.ID == id {
			return d, true
		}
	}
	return Drawing{}, false
}

// Strokes makes the lines of a drawing what the plane is built from.
func Strokes(pieces []motif.Piece) []plane.Stroke {
	out := make([]plane.Stroke, len(pieces))
	for i, p := range pieces {
		kind := plane.Sewn
		switch {
		case p.Seam:
			kind = plane.Seam
		case p.Ruler:
			kind = plane.Ruler
		}
		out[i] = plane.Stroke{Name: p.Name, Kind: kind, Block: p.Block, Path: p.Path, Length: p.Length}
	}
	return out
}
