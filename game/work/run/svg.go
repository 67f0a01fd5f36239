package run

import (
	"bytes"
	"strings"

	"unthreaded/game/words"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/svg"
)

// readSVG reads the lines of an SVG file.
func readSVG(in work.SVGIn) work.SVGOut {
	drawing, err := svg.Read(strings.NewReader(in.Doc))
	if err != nil {
		return work.SVGOut{Unreadable: true}
	}
	out := work.SVGOut{LeftOut: unread(drawing.Unread)}
	for _, l := range drawing.Lines {
		out.Lines = append(out.Lines, quilt.Line{Name: l.Name, Kind: l.Kind, Path: l.Path, Dots: l.Dots})
	}
	return out
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

// saved returns a block as an SVG file in mm: its outline and seams, the motif and the drawn
// lines. It fails where the design's motif does not fit.
func saved(in work.SaveIn) work.SaveOut {
	d := in.Design
	w, h := d.Shape.Box()
	out := svg.Drawing{W: w, H: h, Title: d.Name, Desc: in.About}
	pieces, err := d.Pieces()
	if err != nil {
		return work.SaveOut{}
	}
	for _, p := range pieces[:len(pieces)-len(d.Lines)] {
		out.Lines = append(out.Lines, svg.Line{Name: p.Name, Kind: kindOf(p), Path: geom.Straight(p.Path)})
	}
	for _, l := range d.Lines {
		out.Lines = append(out.Lines, svg.Line{Name: l.Name, Kind: l.Kind, Path: l.Path, Closed: l.Path.Closed(), Dots: l.Dots})
	}
	var buf bytes.Buffer
	if svg.Write(&buf, out) != nil {
		return work.SaveOut{}
	}
	return work.SaveOut{Doc: buf.Bytes()}
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
