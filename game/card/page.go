// Package card makes what is printed and pinned beside the machine: the route card,
// the passes of a row, and the full-size template of a block in tiles. A page is
// laid out once, as a display list; PDF, PNG and SVG are made from that list, so
// that they cannot drift apart.
package card

import (
	"image/color"
	"strings"

	"unthreaded/game/glyph"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/path/geom"
)

// Px is the CSS pixels in a mm: CSS defines 96 px as one inch, which is 25.4 mm.
const Px = 96 / 25.4

// Page is one page: its size in mm, and what is on it in CSS pixels.
type Page struct {
	W, H float64
	List scene.List
}

// Margin is what stays free at the edges of a page in mm.
const Margin = sewing.Margin

// letter sizes in CSS pixels: 16 px are 12 pt.
const (
	titleSize = 28.0
	headSize  = 17.0
	bodySize  = 14.0
	smallSize = 12.0
)

// ink is the palette of print: that of daylight on white paper.
var ink = func() look.Palette {
	p := look.Of(look.Light)
	p.Cloth = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	p.Paper = p.Cloth
	return p
}()

func blank(w, h float64) Page {
	pg := Page{W: w, H: h, List: scene.List{W: w * Px, H: h * Px, Layers: make([]scene.Layer, 1)}}
	pg.add(scene.Item{Shape: scene.Fill, Colour: ink.Paper, Points: []geom.Point{
		geom.Pt(0, 0), geom.Pt(w*Px, 0), geom.Pt(w*Px, h*Px), geom.Pt(0, h*Px),
	}})
	return pg
}

func (p *Page) add(items ...scene.Item) {
	p.List.Layers[0].Items = append(p.List.Layers[0].Items, items...)
}

// Items returns what is on the page, from the bottom up.
func (p Page) Items() []scene.Item { return p.List.Layers[0].Items }

// at returns a place in mm as one in pixels.
func at(x, y float64) geom.Point { return geom.Pt(x*Px, y*Px) }

// rule draws a line of width mm along places in mm.
func (p *Page) rule(width float64, c color.NRGBA, pts ...geom.Point) {
	px := make([]geom.Point, len(pts))
	for i, q := range pts {
		px[i] = at(q.X, q.Y)
	}
	p.add(scene.Item{Shape: scene.Stroke, Points: px, Width: width * Px, Colour: c})
}

// box draws the outline of a rectangle whose edges are in the middle of the line.
func (p *Page) box(width float64, c color.NRGBA, x, y, w, h float64) {
	p.rule(width, c, geom.Pt(x, y), geom.Pt(x+w, y), geom.Pt(x+w, y+h), geom.Pt(x, y+h), geom.Pt(x, y))
}

// text writes a line of text of size pixels, its middle height at y mm.
func (p *Page) text(s string, size float64, align scene.Align, c color.NRGBA, x, y float64) {
	p.add(scene.Item{Shape: scene.Label, Text: glyph.Shown(s), Points: []geom.Point{at(x, y)}, Width: size, Colour: c, Align: align})
}

// fitted shortens a line of text so that it is no wider than width mm.
func fitted(s string, size, width float64) string {
	s = glyph.Shown(s)
	if glyph.Width(s, size) <= width*Px {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && glyph.Width(string(r)+"...", size) > width*Px {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + "..."
}

// wrapped breaks text into lines no wider than width mm; a word that is wider is
// broken too.
func wrapped(s string, size, width float64) []string {
	var lines []string
	line := ""
	fits := func(t string) bool { return glyph.Width(t, size) <= width*Px }
	for _, word := range strings.Fields(glyph.Shown(s)) {
		next := strings.TrimSpace(line + " " + word)
		if fits(next) {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; !fits(line); {
			head, rest := broken(line, fits)
			lines, line = append(lines, head), rest
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// broken takes as much of a word as fits, one letter at least.
func broken(word string, fits func(string) bool) (head, rest string) {
	r := []rune(word)
	n := 1
	for n < len(r) && fits(string(r[:n+1])) {
		n++
	}
	return string(r[:n]), string(r[n:])
}

// lineMM is the height in mm of a line of text of size pixels.
func lineMM(size float64) float64 { return size * 1.3 / Px }

// column writes text downwards from y mm and returns where it ended; what would go
// below bottom is left out.
type column struct {
	page            *Page
	x, w, y, bottom float64
}

func (c *column) write(s string, size float64, col color.NRGBA) {
	for _, l := range wrapped(s, size, c.w) {
		if c.y+lineMM(size) > c.bottom {
			return
		}
		c.page.text(l, size, scene.Left, col, c.x, c.y+lineMM(size)/2)
		c.y += lineMM(size)
	}
}

// head writes a heading with a running-stitch rule over it.
func (c *column) head(s string) {
	if c.y+lineMM(headSize)+3 > c.bottom {
		return
	}
	for x := c.x; x < c.x+c.w-1; x += 4.2 {
		c.page.rule(0.5, ink.Line, geom.Pt(x, c.y+1), geom.Pt(min(x+2.6, c.x+c.w), c.y+1))
	}
	c.y += 3
	c.page.text(fitted(s, headSize, c.w), headSize, scene.Left, ink.Ink, c.x, c.y+lineMM(headSize)/2)
	c.y += lineMM(headSize)
}

// figure writes a name on the left and its value on the right.
func (c *column) figure(name, value string) {
	if c.y+lineMM(bodySize) > c.bottom {
		return
	}
	y := c.y + lineMM(bodySize)/2
	value = fitted(value, bodySize, c.w*0.66)
	c.page.text(fitted(name, bodySize, c.w-glyph.Width(value, bodySize)/Px-2), bodySize, scene.Left, ink.Mute, c.x, y)
	c.page.text(value, bodySize, scene.Right, ink.Ink, c.x+c.w, y)
	c.y += lineMM(bodySize)
}
