package card

import (
	"bytes"
	"fmt"

	"codeberg.org/go-pdf/fpdf"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// PDF returns the pages as a document at true size. The text is text, in the
// embedded font; viewers are asked not to scale the page for print.
func PDF(title string, pages []Page) ([]byte, error) {
	if len(pages) == 0 {
		return nil, fmt.Errorf("a document needs a page")
	}
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: pages[0].W, Ht: pages[0].H}})
	f.AddUTF8FontFromBytes(fontName, "", glyph.TTF())
	f.SetTitle(glyph.Shown(title), true)
	f.SetCreator("Unthreaded", true)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetLineCapStyle("round")
	f.SetLineJoinStyle("round")
	for _, p := range pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: p.W, Ht: p.H})
		for _, it := range p.Items() {
			draw(f, it)
		}
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return nil, fmt.Errorf("writing the document: %w", err)
	}
	return b.Bytes(), nil
}

const fontName = "go"

// draw puts an item on the page, in mm.
func draw(f *fpdf.Fpdf, it scene.Item) {
	if len(it.Points) == 0 {
		return
	}
	r, g, b := int(it.Colour.R), int(it.Colour.G), int(it.Colour.B)
	p := it.Points[0]
	switch it.Shape {
	case scene.Stroke:
		f.SetDrawColor(r, g, b)
		f.SetLineWidth(it.Width / Px)
		path(f, it.Points)
		if len(it.Points) == 1 {
			f.LineTo(p.X/Px, p.Y/Px) // with round ends, a disc
		}
		f.DrawPath("D")
	case scene.Fill:
		f.SetFillColor(r, g, b)
		path(f, it.Points)
		f.ClosePath()
		f.DrawPath("F")
	case scene.Label:
		f.SetTextColor(r, g, b)
		f.SetFont(fontName, "", it.Width*0.75) // 96 px are 72 pt
		f.Text((p.X-shift(it))/Px, (p.Y+glyph.Baseline*it.Width)/Px, it.Text)
	}
}

// shift returns how far left of its place a label begins, in pixels.
func shift(it scene.Item) float64 {
	switch it.Align {
	case scene.Centre:
		return glyph.Width(it.Text, it.Width) / 2
	case scene.Right:
		return glyph.Width(it.Text, it.Width)
	}
	return 0
}

func path(f *fpdf.Fpdf, pts []geom.Point) {
	f.MoveTo(pts[0].X/Px, pts[0].Y/Px)
	for _, p := range pts[1:] {
		f.LineTo(p.X/Px, p.Y/Px)
	}
}
