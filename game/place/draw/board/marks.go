package board

import (
	"unthreaded/game/words"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// SetMark marks count evenly spaced dots on a place of the design, 0 for none.
func (b Board) SetMark(on string, count int, spread sketch.Spread) Board {
	d, err := b.Design.WithMark(quilt.Mark{On: on, Count: count, Spread: spread})
	if err != nil {
		b.Said = words.Of("draw.dots.unmade")
		return b
	}
	b.Said = words.Msg{}
	return b.set(d, "mark "+on)
}

// MarkOn returns the mark on a place; its count is 0 where there is none.
func (b Board) MarkOn(on string) quilt.Mark {
	for _, m := range b.Design.Marks {
		if m.On == on {
			return m
		}
	}
	return quilt.Mark{On: on, Spread: sketch.WithEnds}
}
