package scene

import (
	"fmt"
	"math"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/weeks"
	"unthreaded/path/geom"
	"unthreaded/scoring/progress"
)

// chartTitles say what the values are.
var chartTitles = map[progress.Measure]string{
	progress.Spacing: "Stitch length varies by", progress.Beside: "Beside the line, in mm",
	progress.Corners: "Past the corners, in mm", progress.Flow: "Smoothness (SPARC, no unit)",
}

// weeksChart is the sessions over time: each trace a small mark, each session a stitch at
// its middle through a thread that spans its half, the trend in chalk, and the learning
// curve where there is one.
func weeksChart(m game.Model, pal look.Palette) []Item {
	f := m.Back.Book.Found()
	if len(f.Marks) == 0 {
		return emptyChart(m, pal)
	}
	c := m.Chart()
	items := usualBand(f, c, pal)
	items = append(items, chartAxes(m, f, c, pal)...)
	items = append(items, traceMarks(f, c, pal)...)
	if f.NoCurve == nil {
		items = append(items, learning(f, c, pal)...)
	} else {
		items = append(items, trend(f, c, pal)...)
	}
	items = append(items, sessions(f, c, pal)...)
	return append(items, pickedSession(m, c, pal)...)
}

// emptyChart shows the bare axes of what will be here.
func emptyChart(m game.Model, pal look.Palette) []Item {
	text := "Your sessions will stand here, the newest on the right."
	if !m.Back.Book.Empty() {
		text = "No trace of these has this measure."
		if m.Back.Book.Busy() {
			text = "Working out your sessions."
		}
	}
	c := weeks.ChartOf(weeks.Found{}, m.Screen.W, m.Screen.H-m.Screen.Strip)
	axis := []geom.Point{geom.Pt(c.Left, c.Top), geom.Pt(c.Left, c.Bottom), geom.Pt(c.Right, c.Bottom)}
	return append(dashes(axis, 10, 6, 2, pal.Line), spoken(m, pal, text)...)
}

// chartAxes are the title, the values with running-stitch rules, and the dates.
func chartAxes(m game.Model, f weeks.Found, c weeks.Chart, pal look.Palette) []Item {
	title := chartTitles[f.Measure]
	if f.Motif == "" {
		title = "Against the usual for each line"
	}
	items := []Item{left(title, 16, 24, 16, pal)}
	items = append(items, direction(f, pal)...)
	if c.Right > legendFrom+legendWidth {
		items = append(items, legend(c, pal)...)
	}
	values, decimals := c.Values(math.Max(44, (c.Bottom-c.Top)/9))
	for _, v := range values {
		y := c.Y(v)
		items = append(items, dashes([]geom.Point{geom.Pt(c.Left, y), geom.Pt(c.Right, y)}, 10, 6, 1, pal.Line)...)
		items = append(items, right(valueText(v, decimals, f), c.Left-8, y, pal))
	}
	for _, d := range c.Dates(m.Back.Book.Zone(), 84) {
		x := c.X(d.At)
		items = append(items, line(1.5, pal.Mute, geom.Pt(x, c.Bottom), geom.Pt(x, c.Bottom+6)))
		it := label(d.Text, geom.Pt(x, c.Bottom+20), pal.Mute)
		if x > c.Right-30 {
			it.Align = Right
		}
		items = append(items, it)
	}
	return items
}

// direction tells which way is better, with an arrow.
func direction(f weeks.Found, pal look.Palette) []Item {
	text, tip := "down is better", 1.0
	if f.Measure.Better() > 0 {
		text, tip = "up is better", -1
	}
	x, y := 22.0, 48.0
	it := label(text, geom.Pt(x+14, y), pal.Thread)
	it.Align = Left
	return []Item{
		line(2.4, pal.Thread, geom.Pt(x, y-7*tip), geom.Pt(x, y+7*tip)),
		line(2.4, pal.Thread, geom.Pt(x-5, y+2*tip), geom.Pt(x, y+7*tip), geom.Pt(x+5, y+2*tip)),
		it,
	}
}

// valueText writes a value on the axis.
func valueText(v float64, decimals int, f weeks.Found) string {
	if f.Measure == progress.Flow || (f.Motif != "" && f.Measure != progress.Spacing) {
		return fmt.Sprintf("%.*f", decimals, v)
	}
	return fmt.Sprintf("%.*f %%", max(0, decimals-2), 100*v)
}

// usualBand is how far she differs from day to day round her start: what leaves it is a
// change.
func usualBand(f weeks.Found, c weeks.Chart, pal look.Palette) []Item {
	j := f.Judged
	if j.Verdict == progress.TooEarly || j.Verdict == "" {
		return nil
	}
	reach := progress.RealChange * j.Usual.Value
	top, bottom := c.Y(j.Before+reach), c.Y(j.Before-reach)
	items := []Item{rect(c.Left, top, c.Right-c.Left, math.Max(1, bottom-top), mix(pal.Cloth, pal.Line, 0.45))}
	it := label("your usual variation round the start", geom.Pt(c.Right-6, top+12), pal.Mute)
	it.Align = Right
	return append(items, it)
}

// traceMarks are all traces: a dot for each that counts, a small cross for warming up; of many
// in one place only one is drawn, and what is beyond the chart is an arrow head at its edge.
func traceMarks(f weeks.Found, c weeks.Chart, pal look.Palette) []Item {
	ink := mix(pal.Cloth, pal.Chalk, 0.65)
	var items []Item
	taken := map[[3]int]bool{}
	for _, k := range f.Marks {
		p := geom.Pt(c.X(k.At), c.Y(k.Value))
		kind := 0
		if k.Counts {
			kind = 1
		}
		if c.Beyond(k.Value) {
			kind = 2
		}
		place := [3]int{int(p.X / 2), int(p.Y / 2), kind}
		if taken[place] {
			continue
		}
		taken[place] = true
		items = append(items, traceMark(p, kind, ink)...)
	}
	return items
}

func traceMark(p geom.Point, kind int, ink colour) []Item {
	switch kind {
	case 1:
		return []Item{line(5, ink, p)}
	case 2:
		return []Item{line(1.5, ink, geom.Pt(p.X-4, p.Y+5), p, geom.Pt(p.X+4, p.Y+5))}
	}
	return []Item{
		line(1.4, ink, geom.Pt(p.X-2.5, p.Y-2.5), geom.Pt(p.X+2.5, p.Y+2.5)),
		line(1.4, ink, geom.Pt(p.X-2.5, p.Y+2.5), geom.Pt(p.X+2.5, p.Y-2.5)),
	}
}

// sessions are the scores: a thread over the middle half of the traces and a stitch across
// at the middle one; hollow where too few traces stand behind it.
func sessions(f weeks.Found, c weeks.Chart, pal look.Palette) []Item {
	var items []Item
	half := math.Max(3, math.Min(9, (c.Right-c.Left)/float64(4*len(f.Scores)+1)))
	for _, s := range f.Scores {
		x, y := c.X(s.At), c.Y(s.Median)
		items = append(items, line(1.6, pal.Thread, geom.Pt(x, c.Y(s.Q1)), geom.Pt(x, c.Y(s.Q3))))
		stitch := line(6, pal.Thread, geom.Pt(x-half, y), geom.Pt(x+half, y))
		items = append(items, stitch)
		if !s.Sure() {
			stitch.Width, stitch.Colour = 3, pal.Cloth
			items = append(items, stitch)
		}
	}
	return items
}

// Sizes in CSS pixels of the legend, which stands in the upper right corner where there is
// room beside the title.
const (
	legendFrom  = 290.0
	legendWidth = 520.0
)

// legend names the marks.
func legend(c weeks.Chart, pal look.Palette) []Item {
	x, y := c.Right-legendWidth, 24.0
	ink := mix(pal.Cloth, pal.Chalk, 0.65)
	named := func(text string, from float64) Item {
		it := label(text, geom.Pt(from, y), pal.Mute)
		it.Align = Left
		return it
	}
	items := []Item{
		line(1.6, pal.Thread, geom.Pt(x, y-10), geom.Pt(x, y+10)), line(6, pal.Thread, geom.Pt(x-9, y), geom.Pt(x+9, y)),
		named("a session: its middle, and half of its traces", x+18),
	}
	items = append(items, traceMark(geom.Pt(x+328, y), 1, ink)...)
	items = append(items, named("a trace", x+338))
	items = append(items, traceMark(geom.Pt(x+406, y), 0, ink)...)
	return append(items, named("one to warm up", x+416))
}
