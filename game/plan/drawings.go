package plan

import (
	"unthreaded/game/words"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
)

// Drawing is line work that a route can be planned for.
type Drawing struct {
	// Name is what she calls it; the ready drawings have none, see Title.
	ID, Name string
	Note     words.Msg
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
		out[i] = Drawing{ID: w.ID, Note: words.Of("motif.work-note." + w.ID), Row: w.Row, Strokes: func() []plane.Stroke { return Strokes(w.Pieces()) }}
	}
	return out
}

// DrawingOf returns the drawing of pieces made when they are needed.
func DrawingOf(id, name string, note words.Msg, pieces func() []motif.Piece) Drawing {
	return Drawing{ID: id, Name: name, Note: note, Strokes: func() []plane.Stroke { return Strokes(pieces()) }}
}

// Title is the drawing's name, as an argument of a message.
func (d Drawing) Title() any {
	if d.Name == "" {
		return words.Of("motif.work." + d.ID)
	}
	return d.Name
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
