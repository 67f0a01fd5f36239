package scene

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// Planned draws a planned route.
type Planned struct {
	Desk    plan.Desk
	View    screen.View
	Screen  screen.Cloth // bounds the labels
	Palette look.Palette
	Book    words.Book
	// Why tells that the reasons are drawn too, Advised are the changes that are advised, as
	// indices of the desk's offers.
	Why     bool
	Advised []int
	// Open is the stay whose moves are numbered, -1 for none: of a row each place has one
	// number then.
	Open int
	// Near tells that only a part is in the window: there is room for more numbers.
	Near bool
	// OnPaper tells that odd junctions are ringed at all times.
	OnPaper bool
	// first and after bound the moves that are drawn; 0 and 0 for all.
	first, after int
	// width is that of the thread once it is measured.
	width float64
}

// has tells whether a move is drawn.
func (p Planned) has(move int) bool { return p.after == 0 || move >= p.first && move < p.after }

// Lines are the line work: seams dotted, lines in chalk, and under them the bands of
// the proof if she asks why.
func (p Planned) Lines() []Item {
	var items []Item
	pal := p.Palette
	if p.Why {
		items = bands(p.Desk, p.View, pal)
	}
	for _, e := range p.Desk.Graph.Edges {
		path := OnScreen(e.Path, p.View)
		if e.Kind == plane.Seam {
			items = append(items, Dashes(path, 2, 6, 1.6, pal.Mute)...)
			continue
		}
		items = append(items, Line(math.Min(1.4, p.Width()), pal.Chalk, path...))
	}
	return items
}

// bands are drawn as broad ribbons along the lines they cover, those of odd groups
// in another tint than those round a single junction.
func bands(k plan.Desk, v screen.View, pal look.Palette) []Item {
	var items []Item
	for _, b := range k.Reasons.Bands {
		tint := Mix(pal.Cloth, pal.Long, 0.35)
		if len(b.Members) > 1 {
			tint = Mix(pal.Cloth, pal.Short, 0.35)
		}
		for _, s := range b.Spans {
			e := k.Graph.Edges[s.Edge]
			l, err := geom.NewLine(e.Path)
			if err != nil {
				continue
			}
			// Spans are in the line's true length, of which the path is a picture.
			scale := l.Length() / e.Length
			lo, hi := math.Min(s.From, s.To)*scale, math.Max(s.From, s.To)*scale
			if part := l.Section(lo, hi); len(part) > 1 {
				items = append(items, Line(RibbonWidth, tint, OnScreen(part, v)...))
			}
		}
	}
	return items
}

// The thread of a route is as wide as spacingShare of the space between its lines, in CSS
// pixels between the two bounds: where lines are dense it is thin.
const (
	thinnest, thickest = 1.0, 2.6
	spacingShare       = 0.16
)

// Width is how wide the thread is drawn, in CSS pixels. The space between lines is that of
// lines which fill the drawing evenly: its area by their length.
func (p Planned) Width() float64 {
	if p.width > 0 {
		return p.width
	}
	lo, hi := plan.Bounds(p.Desk.Graph)
	length := p.Desk.Length()
	if length == 0 {
		return thickest
	}
	space := (hi.X - lo.X) * (hi.Y - lo.Y) / length * p.View.Scale
	return within(spacingShare*space, thinnest, thickest)
}

// Hue is the colour of the thread a share of the way along the route: from pale over the
// thread's own to dark, or from dim to bright on dark cloth, in even steps of lightness, so
// that the order shows in grey as well.
func Hue(pal look.Palette, t float64) color.NRGBA {
	pale, dark := Mix(pal.Thread, pal.Cloth, 0.5), pal.Ink
	at := func(u float64) color.NRGBA {
		if u < 0.5 {
			return Mix(pale, pal.Thread, 2*u)
		}
		return Mix(pal.Thread, dark, 2*u-1)
	}
	want := lightness(pale) + within(t, 0, 1)*(lightness(dark)-lightness(pale))
	up := lightness(dark) > lightness(pale)
	lo, hi := 0.0, 1.0
	for range 8 { // to a 256th: the steps of a colour
		if mid := (lo + hi) / 2; lightness(at(mid)) < want == up {
			lo = mid
		} else {
			hi = mid
		}
	}
	return at((lo + hi) / 2)
}

// lightness is L* of a colour (CIE 015:2018, from memory), 0 to 100.
func lightness(c color.NRGBA) float64 {
	y := look.Luminance(c)
	if y > 216.0/24389 {
		return 116*math.Cbrt(y) - 16
	}
	return y * 24389 / 27
}

// measured is the picture that knows how wide its thread is.
func (p Planned) measured() Planned {
	p.width = p.Width()
	return p
}

// hues is the number of shades in which a route is drawn at least.
const hues = 48

// Thread is the path of the route in chunks, and the length of route in mm that is sewn once
// each of them is. What is sewn once more lies beside the first walk, broken and in the
// colour of a warning; what is travelled in the ditch has bars across it.
func (p Planned) Thread() (items []Item, ends []float64) {
	p = p.measured()
	total := p.Desk.Length()
	chunk := math.Max(total/hues, 6/p.View.Scale)
	done := 0.0
	for _, piece := range p.Desk.Pieces() {
		for _, st := range piece.Stretches {
			for from := st.From; from < st.To-1e-9 && p.has(st.Step); from += chunk {
				to := math.Min(from+chunk, st.To)
				for _, it := range p.sewn(piece.Line, from, to, st.Way, Hue(p.Palette, (done+to)/total)) {
					items, ends = append(items, it), append(ends, done+to)
				}
			}
		}
		done += piece.Line.Length()
	}
	return items, ends
}

// sewn draws a part of a path as it is sewn.
func (p Planned) sewn(l geom.Line, from, to float64, way route.Way, c color.NRGBA) []Item {
	path := l.Section(from, to)
	if len(path) < 2 {
		return nil
	}
	w := p.Width()
	pts := OnScreen(path, p.View)
	switch way {
	case route.Again:
		return Dashes(Aside(pts, w+1.6), 6, 3.5, w, p.Palette.Long)
	case route.Hidden:
		step := barEvery / p.View.Scale
		items := []Item{Line(barWidth, p.Palette.Short, pts...)}
		for s := math.Ceil(from/step) * step; s < to; s += step {
			items = append(items, bar(p.View.ToScreen(l.At(s)), l.Tangent(s), barHalf, barWidth, p.Palette.Short))
		}
		return items
	}
	return []Item{Line(w, c, pts...)}
}

// Tail is the part of the route that Thread has not drawn yet, after a number of its
// items, up to a place in mm along the route.
func (p Planned) Tail(ends []float64, n int, reached float64) []Item {
	from := 0.0
	if n > 0 {
		from = ends[n-1]
	}
	return p.between(from, reached, func(way route.Way, at float64) color.NRGBA { return Hue(p.Palette, at/p.Desk.Length()) })
}

// between draws the route between two places in mm along it.
func (p Planned) between(from, to float64, hue func(way route.Way, at float64) color.NRGBA) []Item {
	var items []Item
	done := 0.0
	for _, piece := range p.Desk.Pieces() {
		for _, st := range piece.Stretches {
			a, b := math.Max(from-done, st.From), math.Min(to-done, st.To)
			if b > a {
				items = append(items, p.sewn(piece.Line, a, b, st.Way, hue(st.Way, done+b))...)
			}
		}
		done += piece.Line.Length()
	}
	return items
}

// Between draws the moves from first up to, not including, after.
func (p Planned) Between(first, after int) []Item {
	p.first, p.after = first, after
	items, _ := p.Thread()
	return items
}

// StripStroke draws a stretch of the route pulled straight, as it is sewn.
func StripStroke(from, to, y float64, way route.Way, c color.NRGBA, pal look.Palette) []Item {
	pts := []geom.Point{geom.Pt(from+1, y), geom.Pt(math.Max(from+1, to-1), y)}
	switch way {
	case route.Again:
		return Dashes(pts, 7, 5, RouteWidth+2, pal.Long)
	case route.Hidden:
		return Barred(pts, barEvery, barWidth, pal.Short)
	}
	return []Item{Line(RouteWidth+2, c, pts...)}
}

// What is travelled in the ditch is a thin line with short bars across it, in CSS pixels:
// no other line has this shape, so that it is told apart in grey as well.
const barEvery, barHalf, barWidth = 7.0, 3.5, 1.5

// Barred draws a line of a width with bars across it at so many pixels from each other, as
// what is travelled in the ditch is drawn.
func Barred(pts []geom.Point, every, width float64, c color.NRGBA) []Item {
	items := []Item{Line(width, c, pts...)}
	l, err := geom.NewLine(geom.Polyline(pts))
	if err != nil {
		return items
	}
	for s := every / 2; s < l.Length(); s += every {
		items = append(items, bar(l.At(s), l.Tangent(s), every/2, width, c))
	}
	return items
}

func bar(at, along geom.Point, half, width float64, c color.NRGBA) Item {
	d := geom.Pt(-half*along.Y, half*along.X)
	return Line(width, c, r2.Sub(at, d), r2.Add(at, d))
}

// Caption is a line of text at the foot of the cloth, on a ground of its own.
func Caption(text string, s screen.Cloth, pal look.Palette) []Item {
	it := Text(text, geom.Pt(s.W/2, s.H-s.Strip-LabelSize-2), pal.Ink)
	half := math.Min(s.W/2-LabelSize, WidthOf(text, LabelSize)/2)
	ground := Line(1.7*LabelSize, pal.Paper, geom.Pt(it.Points[0].X-half, it.Points[0].Y), geom.Pt(it.Points[0].X+half, it.Points[0].Y))
	return []Item{ground, it}
}

// Lit draws a move over the others: with a rim of cloth, broad, and an arrow where it goes.
func (p Planned) Lit(move int) []Item {
	moves := p.Desk.Moves()
	if move < 0 || move >= len(moves) || moves[move].Kind == steps.StopMove {
		return nil
	}
	pts := OnScreen(moves[move].Path, p.View)
	w := p.Width()
	c := Mix(p.Palette.Thread, p.Palette.Ink, 0.3)
	if moves[move].Kind == steps.AgainMove {
		c, pts = p.Palette.Long, Aside(pts, w+1.6)
	}
	items := []Item{Line(w+5, p.Palette.Cloth, pts...), Line(w+1.8, c, pts...)}
	if l, err := geom.NewLine(geom.Polyline(pts)); err == nil && l.Length() > 24 {
		items = append(items, arrow(l, l.Length()*0.7, 10, c))
		items = append(items, Line(w+6, c, pts[0]), Line(w+2, p.Palette.Cloth, pts[0]))
	}
	return items
}

// arrow is an arrow head of a size on a line on the screen, at s pixels along it.
func arrow(l geom.Line, s, size float64, c color.NRGBA) Item {
	u := l.Tangent(s)
	tip := l.At(s)
	return Item{Shape: Fill, Colour: c, Points: []geom.Point{
		geom.Pt(tip.X+0.4*size*u.X, tip.Y+0.4*size*u.Y),
		geom.Pt(tip.X-0.6*size*u.X-0.45*size*u.Y, tip.Y-0.6*size*u.Y+0.45*size*u.X),
		geom.Pt(tip.X-0.6*size*u.X+0.45*size*u.Y, tip.Y-0.6*size*u.Y-0.45*size*u.X),
	}}
}

// RouteWidth is the width in CSS pixels of the thread of a route with room round it.
const RouteWidth = thickest
