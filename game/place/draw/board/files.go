package board

import (
	"bytes"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
	"unthreaded/path/svg"
)

// ImportSVG adds the lines of an SVG file at their true size. Lines that lie
// outside the block are brought to its middle. What the file holds beside lines is
// told in Said. A file that cannot be read, or that would make the design too
// large, changes nothing.
func (b Board) ImportSVG(doc string) Board {
	drawing, err := svg.Read(strings.NewReader(doc))
	if err != nil {
		b.Said = words.Of("draw.file.no-svg")
		return b
	}
	if len(drawing.Lines) == 0 {
		b.Said = words.Of("draw.file.no-lines", unread(drawing.Unread))
		return b
	}
	return b.added(drawing.Lines, unread(drawing.Unread))
}

// ImportInk adds lines drawn elsewhere, as points in mm, smoothed a little; see ImportSVG.
// What is too short for a line is left out.
func (b Board) ImportInk(ink []geom.Polyline) Board {
	var lines []svg.Line
	for _, p := range ink {
		if l, err := loose(motif.Piece{Path: p}); err == nil && p.Length() > 0 {
			lines = append(lines, svg.Line{Kind: svg.Sewn, Path: l.Path})
		}
	}
	if len(lines) == 0 {
		b.Said = words.Of("draw.file.no-lines", words.Msg{})
		return b
	}
	return b.added(lines, words.Msg{})
}

// added adds lines that come from a file, and tells of it with what was left out.
func (b Board) added(from []svg.Line, leftOut words.Msg) Board {
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
func (b Board) placed(lines []svg.Line) ([]svg.Line, words.Msg) {
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
	out := make([]svg.Line, len(lines))
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

// unread tells what was left out of a file, the first few by name and place.
func unread(u []svg.Unread) words.Msg {
	if len(u) == 0 {
		return words.Msg{}
	}
	const most = 4
	var said words.List
	for _, x := range u[:min(most, len(u))] {
		said = append(said, words.Of("draw.file.unread."+string(x.Code), x.Of, x.Where))
	}
	return words.Of("draw.file.left-out", true, said, max(0, len(u)-most))
}

// ExportSVG returns the block as an SVG file in mm: its outline and seams, the
// motif and the drawn lines, about being a word on the file. It fails where the design's
// motif does not fit.
func (b Board) ExportSVG(about string) ([]byte, error) {
	d := b.Design
	w, h := d.Shape.Box()
	out := svg.Drawing{W: w, H: h, Title: d.Name, Desc: about}
	pieces, err := d.Pieces()
	if err != nil {
		return nil, err
	}
	for _, p := range pieces[:len(pieces)-len(d.Lines)] {
		out.Lines = append(out.Lines, svg.Line{Name: p.Name, Kind: kindOf(p), Path: geom.Straight(p.Path)})
	}
	for _, l := range d.Lines {
		out.Lines = append(out.Lines, svg.Line{Name: l.Name, Kind: l.Kind, Path: l.Path, Closed: l.Path.Closed(), Dots: l.Dots})
	}
	var buf bytes.Buffer
	if err := svg.Write(&buf, out); err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}

func kindOf(p motif.Piece) string {
	switch {
	case p.Seam:
		return string(plane.Seam)
	case p.Ruler:
		return string(plane.Ruler)
	}
	return string(plane.Sewn)
}
