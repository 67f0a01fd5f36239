package scene

import (
	"image/color"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/scoring"
)

// Sizes in CSS pixels.
const (
	ChalkWidth  = 2.0
	ChalkDash   = 9.0
	ChalkSpace  = 5.0
	arrowEvery  = 150.0
	ArrowLength = 11.0
	StartRadius = 8.0
	DotRadius   = 4.0
	LabelSize   = 14.0
	InkWidth    = 2.5
	ghostWidth  = 1.6
)

// Cloth is the ground: the weave, felt from near, which at a share of 0 is gone, and the
// rule above the strip. It reaches one step of the weave beyond the screen,
// by which it may move.
func Cloth(s screen.Cloth, share float64, pal look.Palette) []Item {
	lo, hi := geom.Pt(-WeaveStep, -WeaveStep), geom.Pt(s.W+WeaveStep, s.H+WeaveStep)
	items := []Item{Rect(lo.X, lo.Y, hi.X-lo.X, hi.Y-lo.Y, pal.Cloth)}
	if share > 0 {
		items = append(items, Item{Shape: Tile, Points: []geom.Point{lo, hi}, Width: share, Image: weave(pal)})
		items = append(items, Rect(lo.X, s.H-s.Strip, hi.X-lo.X, hi.Y-s.H+s.Strip, pal.Cloth))
	}
	return append(items, Rule(s, pal)...)
}

// Rule is the line above the strip: a plain one, since dashes are chalk.
func Rule(s screen.Cloth, pal look.Palette) []Item {
	if s.Strip == 0 {
		return nil
	}
	y := s.H - s.Strip
	return []Item{Line(1, pal.Line, geom.Pt(0, y), geom.Pt(s.W, y))}
}

// Chalk is the ideal line as it would be marked on the cloth: dashed, with arrows
// in the order of travel, a start dot, dots with their numbers, and the end; or as
// much of that as the marks ask for.
//
// A winding line, such as a planned route, has its arrows numbered. What is in the crowd
// is kept clear of names.
func Chalk(l geom.Line, k ChalkMarks, v screen.View, c Crowd, pal look.Palette) []Item {
	var items []Item
	switch {
	case k.What == keep.NoMarks && k.Tracing:
		return nil
	case k.What == keep.NoMarks:
		return Ends(l, true, v, c, pal)
	case k.What == keep.EndsOnly:
		return Ends(l, false, v, c, pal)
	case k.What == keep.WholeLine:
		items = marked(l, k.Sewn, v, pal)
	case len(l.Dots) == 0:
		items = inchDots(l, v, k.Unnumbered, pal)
	}
	for i, s := range l.Dots {
		at := v.ToScreen(l.At(s))
		items = append(items, Line(2*DotRadius, pal.Chalk, at))
		if i > 0 && i < len(l.Dots)-1 && !k.Unnumbered {
			items = append(items, Text(strconv.Itoa(i+1), besideDot(l, s, at), pal.Ink))
		}
	}
	if k.Winding && k.What == keep.WholeLine {
		items = append(items, legs(l, v, pal)...)
	}
	return append(items, Ends(l, false, v, c.With(items, geom.Point{}), pal)...)
}

// marked is the line from end to end, with its arrows. Where it has been sewn over, chalk
// is rubbed to a ghost without dashes, which would show between the stitches as a second
// thread; what a trace left out stays as it was.
func marked(l geom.Line, sewn *replay.Sheet, v screen.View, pal look.Palette) []Item {
	if sewn == nil {
		items := Dashes(OnScreen(l.Path(), v), ChalkDash, ChalkSpace, ChalkWidth, pal.Chalk)
		return append(items, arrows(l, v, func(float64) color.NRGBA { return pal.Chalk })...)
	}
	ghost := Ghost(pal)
	items := []Item{Line(ghostWidth, ghost, OnScreen(l.Path(), v)...)}
	missed := sewn.Report.Cover.Missed
	for _, s := range missed {
		if part := l.Section(s.From, s.To); len(part) > 1 {
			items = append(items, Line(ghostWidth+1, pal.Cloth, OnScreen(part, v)...))
			items = append(items, Dashes(OnScreen(part, v), ChalkDash, ChalkSpace, ChalkWidth, pal.Chalk)...)
		}
	}
	return append(items, arrows(l, v, func(at float64) color.NRGBA {
		if slices.ContainsFunc(missed, func(s scoring.Span) bool { return s.From <= at && at <= s.To }) {
			return pal.Chalk
		}
		return ghost
	})...)
}

// inchDots are the dots of a line that has none of its own, an inch apart and numbered in
// its order as far as there is room: a spiral cannot be read from dots alone.
func inchDots(l geom.Line, v screen.View, unnumbered bool, pal look.Palette) []Item {
	var items []Item
	var taken []geom.Point
	n := 1 // the start
	for s := screen.MMPerInch; s < l.Length(); s += screen.MMPerInch {
		n++
		items = append(items, Line(2*DotRadius, pal.Chalk, v.ToScreen(l.At(s))))
		at := Beside(l, s, 13, v)
		crowded := slices.ContainsFunc(taken, func(p geom.Point) bool { return geom.Dist(p, at) < LabelSize+2 })
		if !unnumbered && !crowded {
			taken = append(taken, at)
			items = append(items, Text(strconv.Itoa(n), at, pal.Ink))
		}
	}
	return items
}

// ChalkMarks tell what is marked of the line.
type ChalkMarks struct {
	What                         string
	Unnumbered, Winding, Tracing bool
	// Held tells that the cloth is taken hold of and moved.
	Held bool
	// Sewn is the measured trace that lies on the line, nil for none.
	Sewn *replay.Sheet
}

// legs numbers the arrows of a line that runs over its own junctions, as far as
// there is room, so that its order can be followed.
func legs(l geom.Line, v screen.View, pal look.Palette) []Item {
	var items []Item
	var taken []geom.Point
	step := arrowEvery / v.Scale
	n := 0
	for s := step * 0.3; s < l.Length()-step*0.15; s += step {
		n++
		if at := Beside(l, s, 15, v); Free(at, taken) {
			taken = append(taken, at)
			items = append(items, Number(n, at, pal)...)
		}
	}
	return items
}

// besideDot returns a place for a dot's number, outside the corner of the line.
func besideDot(l geom.Line, s float64, at geom.Point) geom.Point {
	out := r2.Sub(l.Tangent(s), l.Tangent(s+0.01))
	if n := r2.Norm(out); n > 0.1 {
		return r2.Add(at, r2.Scale(16/n, out))
	}
	return r2.Add(at, geom.Pt(0, -16))
}

// arrows are heads on the line in the direction of travel, the first soon after
// the start, coloured by their place.
func arrows(l geom.Line, v screen.View, c func(s float64) color.NRGBA) []Item {
	var items []Item
	step, length := arrowEvery/v.Scale, ArrowLength*markShare(v)
	for s := step * 0.3; s < l.Length()-step*0.15; s += step {
		tip := v.ToScreen(l.At(s))
		d := l.Tangent(s)
		back := r2.Sub(tip, r2.Scale(length, d))
		side := r2.Scale(length*0.5, geom.Pt(-d.Y, d.X))
		items = append(items, Item{
			Shape: Fill, Colour: c(s),
			Points: []geom.Point{r2.Add(tip, r2.Scale(3, d)), r2.Add(back, side), r2.Sub(back, side)},
		})
	}
	return items
}

func Rect(x, y, w, h float64, c color.NRGBA) Item {
	return Item{Shape: Fill, Colour: c, Points: []geom.Point{
		geom.Pt(x, y), geom.Pt(x+w, y), geom.Pt(x+w, y+h), geom.Pt(x, y+h),
	}}
}

func Line(width float64, c color.NRGBA, pts ...geom.Point) Item {
	return Item{Shape: Stroke, Points: pts, Width: width, Colour: c}
}

func Text(text string, at geom.Point, c color.NRGBA) Item {
	return Item{Shape: Label, Text: text, Points: []geom.Point{at}, Width: LabelSize, Colour: c}
}

// Ring is a circle drawn as a stroke.
func Ring(centre geom.Point, radius, width float64, c color.NRGBA) Item {
	return Line(width, c, geom.Arc(centre, radius, 0, 2*math.Pi)...)
}
