package back

import (
	"math"

	"unthreaded/game/look"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/scoring/progress"
)

// weeksChart is the sessions over time: each trace a small mark, each session a stitch at
// its middle through a thread that spans its half, the trend in chalk, and the learning
// curve where there is one.
func (r Room) weeksChart(pal look.Palette) []scene.Item {
	f := r.Weeks.Found()
	if len(f.Marks) == 0 {
		return r.emptyChart(pal)
	}
	c := r.Chart()
	items := usualBand(f, c, pal)
	items = append(items, r.chartAxes(f, c, pal)...)
	if c.Span == weeks.EachSession {
		items = append(items, traceMarks(f, c, pal)...)
	}
	if f.NoCurve == nil {
		items = append(items, learning(f, c, pal)...)
	} else {
		items = append(items, trend(f, c, pal)...)
	}
	items = append(items, sessions(c, pal)...)
	items = append(items, r.sewnSamples(c, pal)...)
	items = append(items, r.firstAndBest(pal)...)
	items = append(items, chartKey(c, pal)...)
	return append(items, r.pickedSession(c, pal)...)
}

// emptyChart shows the bare axes of what will be here.
func (r Room) emptyChart(pal look.Palette) []scene.Item {
	text := r.Book().Say("back.scene.empty")
	if !r.Weeks.Empty() {
		text = r.Book().Say("back.scene.no-measure")
		if r.Weeks.Busy() {
			text = r.Book().Say("back.working")
		}
	}
	c := weeks.ChartOf(weeks.Found{}, nil, nil, r.Screen.W, r.Screen.H-r.Screen.Strip, r.Book())
	axis := []geom.Point{geom.Pt(c.Left, c.Top), geom.Pt(c.Left, c.Bottom), geom.Pt(c.Right, c.Bottom)}
	return append(scene.Dashes(axis, 10, 6, 2, pal.Line), r.spoken(pal, text)...)
}

// chartAxes are the title, the values with running-stitch rules, and the dates.
func (r Room) chartAxes(f weeks.Found, c weeks.Chart, pal look.Palette) []scene.Item {
	b := r.Book()
	title := b.Say("back.chart." + string(f.Measure))
	if f.Motif == "" {
		title = b.Say("back.scene.usual")
	}
	items := []scene.Item{scene.TextLeft(title, 16, 24, 16, pal)}
	items = append(items, direction(f, b, pal)...)
	values, decimals := c.Values(math.Max(44, (c.Bottom-c.Top)/9))
	for _, v := range values {
		y := c.Y(v)
		items = append(items, scene.Dashes([]geom.Point{geom.Pt(c.Left, y), geom.Pt(c.Right, y)}, 10, 6, 1, pal.Line)...)
		items = append(items, scene.TextRight(valueText(v, decimals, f, b), c.Left-8, y, pal))
	}
	for _, d := range c.Dates(f, r.Weeks.Zone(), 84, b) {
		x := c.X(d.At)
		items = append(items, scene.Line(1.5, pal.Mute, geom.Pt(x, c.Bottom), geom.Pt(x, c.Bottom+6)))
		half := 0.27 * scene.LabelSize * float64(len(d.Text))
		items = append(items, scene.Text(d.Text, geom.Pt(math.Min(x, r.Screen.W-half-2), c.Bottom+18), pal.Mute))
	}
	return items
}

// direction tells which way is better, with an arrow.
func direction(f weeks.Found, b words.Book, pal look.Palette) []scene.Item {
	up, tip := f.Measure.Better() > 0, 1.0
	if up {
		tip = -1
	}
	text := b.Say("back.scene.is-better", up)
	x, y := 22.0, 45.0
	it := scene.Text(text, geom.Pt(x+14, y), pal.Thread)
	it.Align = scene.Left
	return []scene.Item{
		scene.Line(2.4, pal.Thread, geom.Pt(x, y-7*tip), geom.Pt(x, y+7*tip)),
		scene.Line(2.4, pal.Thread, geom.Pt(x-5, y+2*tip), geom.Pt(x, y+7*tip), geom.Pt(x+5, y+2*tip)),
		it,
	}
}

// valueText writes a value on the axis.
func valueText(v float64, decimals int, f weeks.Found, b words.Book) string {
	if f.Measure == progress.Flow || (f.Motif != "" && f.Measure != progress.Spacing) {
		return b.Amount(words.Decimal{Value: v, Digits: decimals})
	}
	return b.Say("unit.percent", words.Decimal{Value: 100 * v, Digits: max(0, decimals-2)})
}

// usualBand is how far she differs from day to day round her start: what leaves it is a
// change.
func usualBand(f weeks.Found, c weeks.Chart, pal look.Palette) []scene.Item {
	j := f.Judged
	if j.Verdict == progress.TooEarly || j.Verdict == "" {
		return nil
	}
	reach := progress.RealChange * j.Usual.Value
	top, bottom := c.Y(j.Before+reach), c.Y(j.Before-reach)
	return []scene.Item{scene.Rect(c.Left, top, c.Right-c.Left, math.Max(1, bottom-top), usualInk(pal))}
}

func usualInk(pal look.Palette) colour { return scene.Mix(pal.Cloth, pal.Line, 0.45) }

// traceMarks are all traces: a dot for each that counts, a small cross for warming up; of many
// in one place only one is drawn.
func traceMarks(f weeks.Found, c weeks.Chart, pal look.Palette) []scene.Item {
	ink := traceInk(pal)
	var items []scene.Item
	type spot struct {
		x, y   int
		counts bool
	}
	taken := map[spot]bool{}
	for _, k := range f.Marks {
		p := geom.Pt(c.X(k.At), c.Y(k.Value))
		at := spot{int(p.X / 2), int(p.Y / 2), k.Counts}
		if taken[at] {
			continue
		}
		taken[at] = true
		items = append(items, traceMark(p, k.Counts, ink)...)
	}
	return items
}

func traceInk(pal look.Palette) colour { return scene.Mix(pal.Cloth, pal.Chalk, 0.65) }

func traceMark(p geom.Point, counts bool, ink colour) []scene.Item {
	if counts {
		return []scene.Item{scene.Line(5, ink, p)}
	}
	return []scene.Item{
		scene.Line(1.4, ink, geom.Pt(p.X-2.5, p.Y-2.5), geom.Pt(p.X+2.5, p.Y+2.5)),
		scene.Line(1.4, ink, geom.Pt(p.X-2.5, p.Y+2.5), geom.Pt(p.X+2.5, p.Y-2.5)),
	}
}

// sessions are the scores, or those of a week or longer together: a thread over the middle
// half and a stitch across at the middle; hollow where too few traces stand behind it.
func sessions(c weeks.Chart, pal look.Palette) []scene.Item {
	var items []scene.Item
	half := math.Max(3, math.Min(9, (c.Right-c.Left)/float64(4*len(c.Groups)+1)))
	for _, g := range c.Groups {
		x, y := c.X(g.At), c.Y(g.Median)
		items = append(items, scene.Line(1.6, pal.Thread, geom.Pt(x, c.Y(g.Q1)), geom.Pt(x, c.Y(g.Q3))))
		items = append(items, across(geom.Pt(x, y), half, g.Sure, pal)...)
	}
	return items
}

// sewnSamples are the practice samples on the days on which they were sewn, at the foot of the
// chart, with the stitches counted where there is room.
func (r Room) sewnSamples(c weeks.Chart, pal look.Palette) []scene.Item {
	var items []scene.Item
	right := math.Inf(-1)
	for _, s := range c.Sewn {
		x := c.X(s.At)
		items = append(items, sewnSample(geom.Pt(x, c.Bottom-9), pal)...)
		text := r.Book().Amount(words.StitchMM(s.Piece.StitchMM()))
		half := 0.27 * scene.LabelSize * float64(len(text))
		if at := math.Max(c.Left+half, math.Min(r.Screen.W-half-4, x)); at-half > right {
			items = append(items, scene.Text(text, geom.Pt(at, c.Bottom-27), pal.Ink))
			right = at + half + 6
		}
	}
	return items
}

// sewnSample is a small piece of cloth with two stitches in it.
func sewnSample(p geom.Point, pal look.Palette) []scene.Item {
	return []scene.Item{
		scene.Rect(p.X-9, p.Y-7, 18, 14, pal.Ink), scene.Rect(p.X-7.6, p.Y-5.6, 15.2, 11.2, pal.Cloth),
		scene.Line(2.4, pal.Thread, geom.Pt(p.X-5, p.Y), geom.Pt(p.X-2, p.Y)),
		scene.Line(2.4, pal.Thread, geom.Pt(p.X+2, p.Y), geom.Pt(p.X+5, p.Y)),
	}
}

// across is the stitch at the middle of a session.
func across(p geom.Point, half float64, sure bool, pal look.Palette) []scene.Item {
	stitch := scene.Line(6, pal.Thread, geom.Pt(p.X-half, p.Y), geom.Pt(p.X+half, p.Y))
	if sure {
		return []scene.Item{stitch}
	}
	hollow := stitch
	hollow.Width, hollow.Colour = 3, pal.Cloth
	return []scene.Item{stitch, hollow}
}
