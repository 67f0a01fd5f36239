package svg

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"unthreaded/path/geom"
)

// look is how a kind of line is drawn in a written file; other programs show it so.
var look = map[string]string{
	Sewn:  `stroke="#000000"`,
	Ruler: `stroke="#1f4e8c"`,
	Seam:  `stroke="#8a8a8a" stroke-dasharray="2 1.5"`,
}

// The sizes in mm of what is seen in a written file: about a thread, and a dot that
// stands out from it.
const (
	strokeWidth = 0.4
	dotRadius   = 0.9
)

// head is the text before the lines: the page twice, in mm and as the viewBox, so
// that one user unit is one millimetre.
const head = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%[1]smm" height="%[2]smm" viewBox="0 0 %[1]s %[2]s">
`

// Write writes the drawing as SVG 1.1: at true size, one user unit a millimetre,
// numbers to 1e-4 mm, curves as curves, names as titles, kinds and dots by the
// marks that the package names. Unread is not written. It writes nothing that Read
// would refuse; an error names the line, counted from 1.
func Write(w io.Writer, d Drawing) error {
	if err := d.Validate(); err != nil {
		return err
	}
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, head, number(d.W), number(d.H))
	element(b, "title", clip(d.Title, MaxText))
	element(b, "desc", clip(d.Desc, MaxText))
	fmt.Fprintf(b, `<g fill="none" stroke-width="%s" stroke-linecap="round" stroke-linejoin="round">`+"\n", number(strokeWidth))
	for _, l := range d.Lines {
		writeLine(b, l)
	}
	b.WriteString("</g>\n</svg>\n")
	if err := b.Flush(); err != nil {
		return fmt.Errorf("writing the SVG file: %w", err)
	}
	return nil
}

// Validate reports what keeps a drawing from being written: a page without size, or
// a line, counted from 1, with a faulty path, an unknown kind, dots off the line or
// out of order, or beyond a limit.
func (d Drawing) Validate() error {
	for _, size := range []float64{d.W, d.H} {
		if !(size >= written && size <= MaxPlace) {
			return fmt.Errorf("a page of %v x %v mm: its sides must be greater than 0 and at most %g mm", d.W, d.H, MaxPlace)
		}
	}
	if len(d.Lines) > MaxLines {
		return fmt.Errorf("%d lines are more than %d", len(d.Lines), MaxLines)
	}
	curves, dots := 0, 0
	for i, l := range d.Lines {
		if err := l.validate(); err != nil {
			return fmt.Errorf("line %d (%s): %w", i+1, clip(l.Name, 40), err)
		}
		curves += l.Path.Pieces()
		if dots += len(l.Dots); curves > MaxCurves || dots > MaxDots {
			return fmt.Errorf("line %d (%s): more than %d curves or %d dots", i+1, clip(l.Name, 40), MaxCurves, MaxDots)
		}
	}
	return nil
}

func (l Line) validate() error {
	if err := l.Path.Validate(); err != nil {
		return err
	}
	if l.Kind != Sewn && l.Kind != Ruler && l.Kind != Seam {
		return fmt.Errorf("there is no kind %q", clip(l.Kind, 20))
	}
	long := false
	for i, p := range l.Path {
		if !(math.Max(math.Abs(p.X), math.Abs(p.Y)) < MaxPlace) {
			return fmt.Errorf("point %d lies farther than %g mm from the page", i, MaxPlace)
		}
		long = long || geom.Dist(p, l.Path[0]) > 2*written
	}
	if !long {
		return errors.New("the line has no length")
	}
	if l.Closed && geom.Dist(l.Path[0], l.Path[len(l.Path)-1]) > written {
		return errors.New("the line is closed and does not end where it starts")
	}
	if len(l.Dots) == 0 {
		return nil
	}
	return onLine(slices.Clone(l.Dots), flatLength(l.Path))
}

// writeLine writes one path, in a group with the picture of its dots if it has any.
func writeLine(b *bufio.Writer, l Line) {
	if len(l.Dots) > 0 {
		b.WriteString("<g>\n")
	}
	fmt.Fprintf(b, `<path class="%s" %s d="%s"`, l.Kind, look[l.Kind], pathData(l.Path, l.Closed))
	if len(l.Dots) > 0 {
		fmt.Fprintf(b, ` %s="`, dotsAttribute)
		for i, s := range l.Dots {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(number(s))
		}
		b.WriteByte('"')
	}
	if name := clip(l.Name, MaxName); name != "" {
		b.WriteByte('>')
		element(b, "title", name)
		b.WriteString("</path>\n")
	} else {
		b.WriteString("/>\n")
	}
	if len(l.Dots) > 0 {
		writeDots(b, l)
		b.WriteString("</g>\n")
	}
}

func writeDots(b *bufio.Writer, l Line) {
	line, err := geom.NewLine(l.Path.Flatten())
	if err != nil {
		return // cannot be: the line was validated and has length
	}
	for _, s := range l.Dots {
		p := line.At(s)
		fmt.Fprintf(b, `<circle class="%s" cx="%s" cy="%s" r="%s" %s/>`+"\n",
			dotClass, number(p.X), number(p.Y), number(dotRadius), look[l.Kind])
	}
}

// element writes an element of text, nothing if there is none.
func element(b *bufio.Writer, name, text string) {
	if text == "" {
		return
	}
	var plain bytes.Buffer
	xml.EscapeText(&plain, []byte(text)) // a Buffer takes all
	fmt.Fprintf(b, "<%[1]s>%[2]s</%[1]s>", name, plain.Bytes())
}

// number writes v with at most four decimals, none of them a zero at the end.
func number(v float64) string {
	s := strconv.AppendFloat(nil, math.Round(v*1e4)/1e4+0, 'f', 4, 64)
	s = bytes.TrimRight(s, "0")
	s = bytes.TrimSuffix(s, []byte("."))
	if string(s) == "-0" || string(s) == "" || string(s) == "-" {
		return "0"
	}
	return string(s)
}

// pathData writes the spline as the path data of SVG, absolute, in mm to 1e-4 mm:
// L for a straight piece whose control points lie at its thirds, C for any other,
// and Z at the end of a closed line in place of a last straight piece to its start.
func pathData(s geom.Spline, closed bool) string {
	if len(s) == 0 {
		return ""
	}
	n := s.Pieces()
	out := append([]byte("M"), pair(s[0])...)
	for i := range n {
		a, p, q, e := s.Piece(i)
		if closed && i == n-1 {
			e = s[0]
		}
		straight := geom.Dist(p, geom.Lerp(a, e, 1.0/3)) <= samePlace && geom.Dist(q, geom.Lerp(a, e, 2.0/3)) <= samePlace
		switch {
		case closed && straight && i == n-1 && pair(a) != pair(e): // Z draws it
		case straight:
			out = append(append(out, " L"...), pair(e)...)
		default:
			out = append(append(out, " C"...), pair(p)+" "+pair(q)+" "+pair(e)...)
		}
	}
	if closed {
		out = append(out, " Z"...)
	}
	return string(out)
}

// pair writes the two coordinates of a place.
func pair(p geom.Point) string { return number(p.X) + " " + number(p.Y) }
