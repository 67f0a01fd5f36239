package card

import (
	"fmt"

	"unthreaded/game"
	"unthreaded/game/bench"
	"unthreaded/game/glyph"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/route"
)

// Heights in mm on a route card.
const (
	titleRoom  = 14.0
	legendRoom = 8.0
	labelRoom  = 9.0 // round a drawing, for what is written at its edge
)

// Route returns the route card of the plan at the machine: one page.
func Route(m game.Model) (Page, error) {
	if m.Bench.Trouble != "" || m.Bench.Plan.ID == "" {
		return Page{}, fmt.Errorf("no route is planned")
	}
	pg := blank(m.Bench.Mine.Paper.Size())
	bottom := title(&pg, m, "Route card")
	steps := len(m.Desk.Route().Steps)
	y := picture(&pg, m.Desk, 0, steps, bottom, (pg.H-2*Margin)*0.52)
	y = legend(&pg, m.Desk, y) + 1
	facts(&pg, m, y)
	return pg, nil
}

// title writes the head of a page and returns where it ends, in mm.
func title(pg *Page, m game.Model, kind string) float64 {
	w := pg.W - 2*Margin
	kind += ", " + size(m)
	room := w - glyph.Width(kind, bodySize)/Px - 6
	pg.text(fitted(m.Bench.Plan.Name, titleSize, room), titleSize, scene.Left, ink.Ink, Margin, Margin+5)
	pg.text(fitted(kind, bodySize, w), bodySize, scene.Right, ink.Mute, pg.W-Margin, Margin+6)
	return Margin + titleRoom
}

// size tells how large the plan is.
func size(m game.Model) string {
	w, inches := m.Bench.Plan.Work, m.Settings.Units == game.Inches
	return words.Length(w.BlockW, inches) + " x " + words.Length(w.BlockH, inches)
}

// picture draws the steps of a route from y mm on, as large as fits into the width
// of the page and height mm, and returns where it ends.
func picture(pg *Page, k plan.Desk, first, after int, y, height float64) float64 {
	lo, hi := plan.Bounds(k.Graph)
	w, h := hi.X-lo.X, hi.Y-lo.Y
	scale := min((pg.W-2*Margin-2*labelRoom)/max(w, 1), (height-2*labelRoom)/max(h, 1))
	v := game.View{Scale: scale * Px, Zoom: scale}
	v.Origin = at(pg.W/2-scale*(lo.X+hi.X)/2, y+labelRoom-scale*lo.Y)
	// Labels stay on the page, within its margins.
	screen := game.Resized{W: (pg.W - Margin/2) * Px, H: (y + height) * Px}
	pg.add(scene.Route(k, first, after, v, screen, ink)...)
	for _, p := range k.Pieces() {
		for _, s := range p.Line.Dots {
			pg.add(dot(v.ToScreen(p.Line.At(s)))...)
		}
	}
	return y + h*scale + 2*labelRoom
}

// dot is a place to stop at with the ruler.
func dot(p geom.Point) []scene.Item {
	return []scene.Item{
		{Shape: scene.Stroke, Points: []geom.Point{p}, Width: 9, Colour: ink.Ink},
		{Shape: scene.Stroke, Points: []geom.Point{p}, Width: 5, Colour: ink.Paper},
	}
}

// legend explains the lines that are there, and returns where it ends in mm.
func legend(pg *Page, k plan.Desk, y float64) float64 {
	x, mid := Margin, y+legendRoom/2
	entry := func(text string, sample ...scene.Item) {
		w := 14 + glyph.Width(text, smallSize)/Px
		if x+w > pg.W-Margin {
			return
		}
		pg.add(sample...)
		pg.text(text, smallSize, scene.Left, ink.Ink, x+12, mid)
		x += w + 4
	}
	stroke := func(width float64, c int) scene.Item {
		colours := []scene.Item{{Colour: ink.Thread}, {Colour: ink.Long}, {Colour: ink.Short}}
		return scene.Item{Shape: scene.Stroke, Points: []geom.Point{at(x, mid), at(x+9, mid)}, Width: width, Colour: colours[c].Colour}
	}
	gap := func(from float64) scene.Item {
		return scene.Item{Shape: scene.Stroke, Points: []geom.Point{at(x+from, mid), at(x+from+0.8, mid)}, Width: 6, Colour: ink.Paper}
	}
	r := k.Route()
	entry("sewn", stroke(2.6, 0))
	if r.RetraceMM > 0 {
		entry("sewn once more", stroke(2.6, 1), gap(3), gap(6))
	}
	if r.SeamMM > 0 {
		entry("hidden in the ditch", stroke(3.2, 2), gap(1.5), gap(4), gap(6.5))
	}
	if hasDots(k) {
		entry("dot", dot(at(x+4.5, mid))...)
	}
	if len(k.Reasons.Odd) > 0 {
		entry("odd junction", scene.Item{Shape: scene.Stroke, Points: geom.Arc(at(x+4.5, mid), 7, 0, 6.2832), Width: 2, Colour: ink.Long})
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

// facts writes the figures, the reasons, the order in words and the cautions under
// the drawing, as far as there is room.
func facts(pg *Page, m game.Model, y float64) {
	const gutter = 8.0
	w := (pg.W - 2*Margin - gutter) / 2
	bottom := pg.H - Margin
	left := column{page: pg, x: Margin, w: w, y: y, bottom: bottom}
	right := column{page: pg, x: Margin + w + gutter, w: w, y: y, bottom: bottom}
	figures(&left, m)
	left.head("Take care")
	for _, c := range m.Bench.Items() {
		if c.Caution {
			left.write(c.Text, smallSize, ink.Ink)
		}
	}
	left.write("The manual of your machine has the last word.", smallSize, ink.Mute)
	if because := m.Desk.Because(); because != "" {
		right.head("Why something is added")
		right.write(because, bodySize, ink.Ink)
	}
	right.head("The order in words")
	for i, text := range shortened(m.Desk.Order(), int((bottom-right.y)/lineMM(smallSize))) {
		right.write(fitted(fmt.Sprintf("%s%s", numbered(i, text), text), smallSize, w), smallSize, ink.Ink)
	}
}

// numbered is the number before a step; a line that stands for several has none.
func numbered(i int, text string) string {
	if text == leftOut {
		return ""
	}
	return fmt.Sprintf("%d  ", i+1)
}

// leftOut stands for steps that have no room.
const leftOut = "and so on, by the numbers in the drawing"

// shortened keeps as many steps as there is room for.
func shortened(order []string, room int) []string {
	if len(order) <= room {
		return order
	}
	return append(order[:max(0, min(room-1, len(order))):max(0, min(room-1, len(order)))], leftOut)
}

// figures writes how the machine is set and what the plan takes.
func figures(c *column, m game.Model) {
	s, b := m.Settings, m.Bench
	inches := s.Units == game.Inches
	c.head("At the machine")
	c.figure("Foot", b.Method().Name())
	c.figure("Needle speed", fmt.Sprintf("%.0f stitches a minute", s.SPM))
	c.figure("Stitches", words.StitchInBoth(s.StitchMM))
	c.figure("Hand", words.InBoth(s.HandSpeed()))
	r := m.Desk.Route()
	c.figure("Length", words.Length(b.Plan.Work.Length(), inches))
	if r.RetraceMM > 0 {
		c.figure("of it sewn twice", words.Length(r.RetraceMM, inches))
	}
	if parts, err := b.Parts(s.HandSpeed(), s.StitchMM); err == nil {
		c.figure("Time", "about "+words.Duration(parts[0].Time.Total))
		c.figure("Thread, above and below", words.Thread(parts[0].Thread.Top, inches)+" each")
	}
	if f, err := b.Bobbins(s.StitchMM); err == nil && len(f.Due) > 0 {
		c.figure("Next bobbin", due(b, f.Due[0], inches))
	}
	if b.Plan.Ruled() {
		c.figure("Ruler's edge", words.Small(b.Mine.Offset)+" beside the line")
	}
}

func due(b bench.Bench, d bench.Due, inches bool) string {
	once := "block"
	if b.Plan.Row {
		once = "row"
	}
	return fmt.Sprintf("in %s %d, %s along", once, d.Time, words.Length(d.At, inches))
}

// Passes returns the two passes of a row on one page.
func Passes(m game.Model) (Page, error) {
	if !m.Bench.Plan.OutAndBack {
		return Page{}, fmt.Errorf("the plan is sewn in one pass")
	}
	second := m.Desk.Choices[m.Desk.Pick].Second
	steps := len(m.Desk.Route().Steps)
	pg := blank(m.Bench.Mine.Paper.Size())
	y := title(&pg, m, "Both passes")
	room := (pg.H - Margin - y - 2*legendRoom) / 2
	for _, pass := range []struct {
		name         string
		first, after int
	}{{"The way out", 0, second}, {"The way home", second, steps}} {
		c := column{page: &pg, x: Margin, w: pg.W - 2*Margin, y: y, bottom: pg.H - Margin}
		c.head(fmt.Sprintf("%s: steps %d to %d, %s", pass.name, pass.first+1, pass.after, passLength(m, pass.first, pass.after)))
		y = picture(&pg, m.Desk, pass.first, pass.after, c.y, room-(c.y-y))
	}
	legend(&pg, m.Desk, y)
	return pg, nil
}

// passLength tells how long the steps from first up to after are.
func passLength(m game.Model, first, after int) string {
	sum := 0.0
	for _, s := range m.Desk.Route().Steps[first:after] {
		if s.Way != route.Jump {
			sum += m.Desk.Graph.Edges[s.Edge].Length
		}
	}
	return words.Length(sum, m.Settings.Units == game.Inches)
}

// usable is the part of the paper within its margins, in mm.
func usable(p bench.Paper, landscape bool) (w, h float64) {
	w, h = p.Size()
	if landscape {
		w, h = h, w
	}
	return w - 2*Margin, h - 2*Margin
}

// inch is the side of the smaller test square in mm.
const inch = machine.MMPerInch
