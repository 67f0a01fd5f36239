package board

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// NoSVG says that a file is none that can be read, which changes nothing.
func (b Board) NoSVG() Board {
	b.Said = words.Of("draw.file.no-svg")
	return b
}

// ImportLines adds the lines of a file at their true size. Lines that lie outside the block
// are brought to its middle. What the file holds beside lines is told in Said. A file without
// lines, or that would make the design too large, changes nothing.
func (b Board) ImportLines(lines []quilt.Line, leftOut words.Msg) Board {
	if len(lines) == 0 {
		b.Said = words.Of("draw.file.no-lines", leftOut)
		return b
	}
	return b.added(lines, leftOut)
}

// ImportInk adds lines drawn elsewhere, as points in mm, smoothed a little; see ImportLines.
// What is too short for a line is left out.
func (b Board) ImportInk(ink []geom.Polyline) Board {
	var lines []quilt.Line
	for _, p := range ink {
		if l, err := loose(motif.Piece{Path: p}); err == nil && p.Length() > 0 {
			lines = append(lines, quilt.Line{Kind: string(plane.Sewn), Path: l.Path})
		}
	}
	return b.ImportLines(lines, words.Msg{})
}

// added adds lines that come from a file, and tells of it with what was left out.
func (b Board) added(from []quilt.Line, leftOut words.Msg) Board {
	added, note := b.placed(from)
	lines := b.lines()
	for i, l := range added {
		name := l.Name
		if name == "" {
			name = b.Book.Say("draw.file.line", i+1)
		}
		lines = append(lines, quilt.Line{Name: clipped(name), Kind: l.Kind, Path: l.Path, Dots: l.Dots})
	}
	d := b.Design
	d.Lines = lines
	if err := d.Validate(); err != nil {
		b.Said = words.Of("draw.file.too-much")
		return b
	}
	b.Said = words.Msg{}
	b = b.set(d, "")
	b.Said = words.Of("draw.file.read", len(added), note, leftOut)
	return b
}

func clipped(name string) string {
	if len(name) > quilt.MaxName {
		return strings.ToValidUTF8(name[:quilt.MaxName], "")
	}
	return name
}

// placed returns the lines where they are if they lie in the block, else moved to
// its middle, and a word on that.
func (b Board) placed(lines []quilt.Line) ([]quilt.Line, words.Msg) {
	var all geom.Polyline
	for _, l := range lines {
		lo, hi := l.Path.Bounds()
		all = append(all, lo, hi)
	}
	lo, hi := all.Bounds()
	w, h := b.Design.Shape.Box()
	const slack = 0.1
	if lo.X > -slack && lo.Y > -slack && hi.X < w+slack && hi.Y < h+slack {
		return lines, words.Msg{}
	}
	by := r2.Sub(geom.Pt(w/2, h/2), r2.Scale(0.5, r2.Add(lo, hi)))
	m := sketch.Translate(by.X, by.Y)
	out := make([]quilt.Line, len(lines))
	for i, l := range lines {
		l.Path = l.Path.Map(m.Apply)
		out[i] = l
	}
	note := words.Of("draw.file.moved", true)
	if hi.X-lo.X > w || hi.Y-lo.Y > h {
		note = words.Of("draw.file.larger", true, words.LengthMM(math.Ceil(hi.X-lo.X)), words.LengthMM(math.Ceil(hi.Y-lo.Y)))
	}
	return out, note
}
