package board

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// moving does m to the chosen lines, all where none is chosen; keep leaves the
// lines as they were and adds the moved ones.
func (b Board) moving(m sketch.Affine, keep bool) Board {
	if len(b.Design.Lines) == 0 {
		b.Said = words.Of("draw.no-line")
		return b
	}
	if b.Chosen == None {
		b.Chosen = All
	}
	if !keep {
		return b.mapped(b.paths(), m, "")
	}
	lines := b.lines()
	for i, l := range b.Design.Lines {
		if b.Chosen == All || b.Chosen == i {
			copied := quilt.Line{Name: fmt.Sprintf("copy %d", len(lines)+1), Kind: l.Kind, Path: l.Path.Map(m.Apply)}
			copied.Dots = dotsOf(copied, l)
			lines = append(lines, copied)
		}
	}
	b.Chosen, b.Node = All, None // so that what follows takes the copies along
	return b.withLines(lines, "")
}

// MirrorAcross mirrors the chosen lines left to right about the middle of the
// block, MirrorDown top to bottom; keep adds the mirrored lines to the old ones.
func (b Board) MirrorAcross(keep bool) Board {
	w, _ := b.Design.Shape.Box()
	return b.moving(sketch.MirrorUpright(w/2), keep)
}

// MirrorDown mirrors top to bottom.
func (b Board) MirrorDown(keep bool) Board {
	_, h := b.Design.Shape.Box()
	return b.moving(sketch.MirrorLevel(h/2), keep)
}

// Turn turns the chosen lines by an angle in degrees, clockwise to the eye, about
// the middle of the block.
func (b Board) Turn(degrees float64, keep bool) Board {
	w, h := b.Design.Shape.Box()
	return b.moving(sketch.Rotate(degrees*math.Pi/180, geom.Pt(w/2, h/2)), keep)
}

// MaxRepeats is the largest number of copies in a row.
const MaxRepeats = 40

// Repeat makes a row of n of the chosen lines, each a pitch in mm further than the
// one before; where the end of one meets the start of the next they are joined.
// Said tells how many lie in the block where not all do.
func (b Board) Repeat(n int, pitch geom.Point) Board {
	if n < 2 || n > MaxRepeats || !geom.Finite(pitch) || r2.Norm(pitch) < 0.5 {
		b.Said = words.Of("draw.row-takes", MaxRepeats)
		return b
	}
	b.Said = words.Msg{}
	if b.Chosen == None {
		b.Chosen = All
	}
	var rest []quilt.Line
	var paths []geom.Spline
	kind := ""
	for i, l := range b.Design.Lines {
		if b.Chosen == All || b.Chosen == i {
			paths = append(paths, l.Path)
			kind = l.Kind
		} else {
			rest = append(rest, l)
		}
	}
	if len(paths) == 0 {
		b.Said = words.Of("draw.no-line")
		return b
	}
	row, err := sketch.Row(paths, n, pitch, b.reach())
	if err != nil {
		b.Said = words.Why(err)
		return b
	}
	for i, p := range row {
		l := quilt.Line{Name: b.Book.Say("draw.row-line", i+1), Kind: kind, Path: p}
		l.Dots = cornersAsDots(l)
		rest = append(rest, l)
	}
	b.Chosen, b.Node = All, None
	if b = b.withLines(rest, ""); b.Said.None() {
		b.Said = rowNote(b.copiesIn(paths, n, pitch), n)
	}
	return b
}

// copiesIn counts the copies of a row that lie in the box of the block.
func (b Board) copiesIn(paths []geom.Spline, n int, pitch geom.Point) int {
	var all geom.Polyline
	for _, p := range paths {
		lo, hi := p.Bounds()
		all = append(all, lo, hi)
	}
	lo, hi := all.Bounds()
	w, h := b.Design.Shape.Box()
	const slack = 0.1 // mm, the width of a thread
	in := 0
	for k := range n {
		by := r2.Scale(float64(k), pitch)
		from, to := r2.Add(lo, by), r2.Add(hi, by)
		if from.X >= -slack && from.Y >= -slack && to.X <= w+slack && to.Y <= h+slack {
			in++
		}
	}
	return in
}

// rowNote tells how many of n copies fit; nothing where all do.
func rowNote(in, n int) words.Msg {
	if in == n {
		return words.Msg{}
	}
	return words.Of("draw.row-note", in, n)
}

// FitToBlock makes the chosen lines as large as the block allows with its margin,
// and puts them in its middle.
func (b Board) FitToBlock() Board {
	if len(b.Design.Lines) == 0 {
		b.Said = words.Of("draw.no-line")
		return b
	}
	if b.Chosen == None {
		b.Chosen = All
	}
	var paths []geom.Spline
	for i, l := range b.Design.Lines {
		if b.Chosen == All || b.Chosen == i {
			paths = append(paths, l.Path)
		}
	}
	w, h := b.Design.Shape.Box()
	m, err := sketch.FitBox(paths, geom.Pt(0, 0), geom.Pt(w, h), b.Design.Margin)
	if err != nil {
		b.Said = words.Why(err)
		return b
	}
	return b.mapped(b.paths(), m, "")
}
