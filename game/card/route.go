package card

import (
	"image/color"
	"strings"

	"unthreaded/game/glyph"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// Heights in mm on a route card.
const (
	titleRoom  = 14.0
	legendRoom = 8.0
	labelRoom  = 9.0 // round a drawing, for what is written at its edge
)

// Route returns the route card of the plan at the machine: one page. Where the order in
// words has no room the picture takes it.
func Route(j sewing.Job) Page {
	pg, told := routePage(j, 0.46)
	if !told {
		pg, _ = routePage(j, 0.6)
	}
	return pg
}

// routePage lays the card out with a picture as high as a share of the page, and tells
// whether the order stands on it in words.
func routePage(j sewing.Job, share float64) (Page, bool) {
	pg := blank(j.W, j.H)
	bottom := title(&pg, j, j.Book.Say("card.route"))
	y := picture(&pg, j, 0, len(j.Desk.Moves()), bottom, (pg.H-2*Margin)*share)
	y = legend(&pg, j, y) + 1
	told := facts(&pg, j, y)
	return pg, told
}

// title writes the head of a page and returns where it ends, in mm.
func title(pg *Page, j sewing.Job, kind string) float64 {
	w := pg.W - 2*Margin
	lo, hi := plan.Bounds(j.Desk.Graph)
	kind = j.Book.Say("card.title", kind, words.LengthMM(hi.X-lo.X), words.LengthMM(hi.Y-lo.Y))
	room := w - glyph.Width(kind, bodySize)/Px - 6
	pg.text(fitted(j.Name, titleSize, room), titleSize, scene.Left, ink.Ink, Margin, Margin+5)
	pg.text(fitted(kind, bodySize, w), bodySize, scene.Right, ink.Mute, pg.W-Margin, Margin+6)
	return Margin + titleRoom
}

// picture draws the moves of a route from y mm on, as large as fits into the width
// of the page and height mm, and returns where it ends.
func picture(pg *Page, j sewing.Job, first, after int, y, height float64) float64 {
	k := j.Desk
	lo, hi := plan.Bounds(k.Graph)
	w, h := hi.X-lo.X, hi.Y-lo.Y
	scale := min((pg.W-2*Margin-2*labelRoom)/max(w, 1), (height-2*labelRoom)/max(h, 1))
	v := screen.View{Scale: scale * Px * fine, Zoom: scale}
	// Labels stay within the drawing's box, whose corner is the origin of what is
	// drawn: the width of the page between its margins.
	v.Origin = geom.Pt(fine*(pg.W/2-Margin-scale*(lo.X+hi.X)/2)*Px, fine*(labelRoom-scale*lo.Y)*Px)
	cloth := screen.Cloth{W: (pg.W - 2*Margin) * Px * fine, H: height * Px * fine}
	items := grounded(scene.Planned{Desk: k, View: v, Screen: cloth, Palette: ink, Book: j.Book}.Printed(first, after))
	for _, p := range k.Pieces() {
		for _, s := range p.Line.Dots {
			items = append(items, dot(v.ToScreen(p.Line.At(s)))...)
		}
	}
	pg.add(laid(items, at(Margin, y))...)
	return y + h*scale + 2*labelRoom
}

// fine is how much finer a drawing is on paper than on a screen: it is drawn larger
// by this and shrunk, so that more numbers have room. They are 8 pt high then.
const fine = 1.25

// laid returns the items of a drawing shrunk by fine, its corner at p.
func laid(items []scene.Item, p geom.Point) []scene.Item {
	out := make([]scene.Item, len(items))
	for i, it := range items {
		pts := make([]geom.Point, len(it.Points))
		for k, q := range it.Points {
			pts[k] = geom.Pt(p.X+q.X/fine, p.Y+q.Y/fine)
		}
		it.Points, it.Width = pts, it.Width/fine
		out[i] = it
	}
	return out
}

// grounded puts a ground of paper under the words, so that lines do not run through
// them; the numbers of steps have their own.
func grounded(items []scene.Item) []scene.Item {
	var out []scene.Item
	for _, it := range items {
		if it.Shape == scene.Label && strings.Trim(it.Text, "0123456789") != "" {
			half := glyph.Width(it.Text, it.Width) / 2
			p := it.Points[0]
			out = append(out, scene.Item{Shape: scene.Stroke, Width: it.Width * 1.2, Colour: ink.Paper,
				Points: []geom.Point{geom.Pt(p.X-half, p.Y), geom.Pt(p.X+half, p.Y)}})
		}
		out = append(out, it)
	}
	return out
}

// dot is a place to stop at with the ruler.
func dot(p geom.Point) []scene.Item {
	return []scene.Item{
		{Shape: scene.Stroke, Points: []geom.Point{p}, Width: 9, Colour: ink.Ink},
		{Shape: scene.Stroke, Points: []geom.Point{p}, Width: 5, Colour: ink.Paper},
	}
}

// legend explains the lines that are there, and returns where it ends in mm.
func legend(pg *Page, j sewing.Job, y float64) float64 {
	k := j.Desk
	x, mid := Margin, y+legendRoom/2
	entry := func(key string, sample ...scene.Item) {
		text := j.Book.Say("card.line." + key)
		w := 14 + glyph.Width(text, smallSize)/Px
		if x+w > pg.W-Margin {
			return
		}
		pg.add(sample...)
		pg.text(text, smallSize, scene.Left, ink.Ink, x+12, mid)
		x += w + 4
	}
	strokes := func(width float64, c color.NRGBA, ends ...float64) []scene.Item {
		var out []scene.Item
		for i := 0; i+1 < len(ends); i += 2 {
			out = append(out, scene.Item{Shape: scene.Stroke, Points: []geom.Point{at(x+ends[i], mid), at(x+ends[i+1], mid)}, Width: width, Colour: c})
		}
		return out
	}
	r := k.Route()
	entry("sewn", strokes(2.2, ink.Thread, 0, 9)...)
	if r.RetraceMM > 0 {
		entry("again", strokes(2.2, ink.Long, 0, 2.4, 3.4, 5.8, 6.8, 9)...)
	}
	if r.SeamMM > 0 {
		entry("hidden", scene.Barred([]geom.Point{at(x, mid), at(x+9, mid)}, 6, 1.3, ink.Short)...)
	}
	if k.HasSeams() {
		entry("seam", strokes(1.6, ink.Mute, 0, 0.4, 1.8, 2.2, 3.6, 4, 5.4, 5.8, 7.2, 7.6)...)
	}
	if hasDots(k) {
		entry("dot", dot(at(x+4.5, mid))...)
	}
	if len(k.Reasons.Odd) > 0 {
		entry("odd", scene.Item{Shape: scene.Stroke, Points: geom.Arc(at(x+4.5, mid), 7, 0, 6.2832), Width: 2, Colour: ink.Long})
	}
	return y + legendRoom
}

func hasDots(k plan.Desk) bool {
	for _, p := range k.Pieces() {
		if len(p.Line.Dots) > 0 {
			return true
		}
	}
	return false
}
