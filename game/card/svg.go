package card

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"image/png"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/softdraw"
	"unthreaded/path/geom"
)

// SVG returns the page as a drawing whose physical size is true.
func SVG(title string, p Page) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n<title>%s</title>\n",
		num(p.W), num(p.H), num(p.List.W), num(p.List.H), escaped(glyph.Shown(title)))
	for _, it := range p.Items() {
		element(&b, it)
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func element(b *bytes.Buffer, it scene.Item) {
	if len(it.Points) == 0 {
		return
	}
	switch it.Shape {
	case scene.Stroke:
		fmt.Fprintf(b, "<path d=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%s\" stroke-linecap=\"round\" stroke-linejoin=\"round\"/>\n",
			outline(it.Points), hex(it.Colour), num(it.Width))
	case scene.Fill:
		fmt.Fprintf(b, "<path d=\"%sZ\" fill=\"%s\"/>\n", outline(it.Points), hex(it.Colour))
	case scene.Label:
		// The width is given, so that another font takes the same room.
		fmt.Fprintf(b, "<text x=\"%s\" y=\"%s\" font-family=\"Go, sans-serif\" font-size=\"%s\" fill=\"%s\" textLength=\"%s\" lengthAdjust=\"spacingAndGlyphs\">%s</text>\n",
			num(it.Points[0].X-shift(it)), num(it.Points[0].Y+glyph.Baseline*it.Width), num(it.Width), hex(it.Colour),
			num(glyph.Width(it.Text, it.Width)), escaped(it.Text))
	}
}

func outline(pts []geom.Point) string {
	var b bytes.Buffer
	for i, p := range pts {
		c := 'L'
		if i == 0 {
			c = 'M'
		}
		fmt.Fprintf(&b, "%c%s %s", c, num(p.X), num(p.Y))
	}
	if len(pts) == 1 {
		b.WriteString("h0") // with round ends, a disc
	}
	return b.String()
}

// num writes pixels to 0.001, a quarter of a micrometre.
func num(v float64) string { return trimmed(fmt.Sprintf("%.3f", v)) }

func trimmed(s string) string {
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return s
}

func hex(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func escaped(s string) string {
	var b bytes.Buffer
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return "" // a buffer takes all
	}
	return b.String()
}

// phoneScale is the pixels of a picture for each CSS pixel: 192 to the inch, at
// which the smallest text is 24 pixels high.
const phoneScale = 2

// PNG returns the page as a picture.
func PNG(p Page) ([]byte, error) {
	var b bytes.Buffer
	if err := png.Encode(&b, softdraw.Draw(p.List, phoneScale)); err != nil {
		return nil, fmt.Errorf("writing the picture: %w", err)
	}
	return b.Bytes(), nil
}
