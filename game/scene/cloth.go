package scene

import (
	"image/color"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// Sizes in CSS pixels.
const (
	weaveStep   = 6.0
	ChalkWidth  = 2.0
	ChalkDash   = 9.0
	ChalkSpace  = 5.0
	arrowEvery  = 150.0
	ArrowLength = 11.0
	StartRadius = 8.0
	DotRadius   = 4.0
	LabelSize   = 14.0
	InkWidth    = 2.5
)

// Cloth is the ground, with a faint weave, and the running-stitch rule above the
// strip. It reaches one step of the weave beyond the screen, by which it may move.
func Cloth(s screen.Cloth, pal look.Palette) []Item {
	items := []Item{Rect(-weaveStep, -weaveStep, s.W+2*weaveStep, s.H+2*weaveStep, pal.Cloth)}
	bottom := s.H - s.Strip
	for x := 0.0; x < s.W; x += weaveStep {
		items = append(items, Line(1, pal.Weave, geom.Pt(x, -weaveStep), geom.Pt(x, bottom)))
	}
	for y := 0.0; y < bottom; y += weaveStep {
		items = append(items, Line(1, pal.Weave, geom.Pt(-weaveStep, y), geom.Pt(s.W, y)))
	}
	return append(items, Rule(s, pal)...)
}

// Rule is the running-stitch rule above the strip.
func Rule(s screen.Cloth, pal look.Palette) []Item {
	if s.Strip == 0 {
		return nil
	}
	y := s.H - s.Strip
	return Dashes([]geom.Point{geom.Pt(12, y), geom.Pt(s.W-12, y)}, 10, 6, 2, pal.Line)
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
		items = Dashes(OnScreen(l.Path(), v), ChalkDash, ChalkSpace, ChalkWidth, pal.Chalk)
		items = append(items, arrows(l, v, pal)...)
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
	// held tells that the cloth is taken hold of and moved.
	Held bool
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
// the start.
func arrows(l geom.Line, v screen.View, pal look.Palette) []Item {
	var items []Item
	step, length := arrowEvery/v.Scale, ArrowLength*markShare(v)
	for s := step * 0.3; s < l.Length()-step*0.15; s += step {
		tip := v.ToScreen(l.At(s))
		d := l.Tangent(s)
		back := r2.Sub(tip, r2.Scale(length, d))
		side := r2.Scale(length*0.5, geom.Pt(-d.Y, d.X))
		items = append(items, Item{
			Shape: Fill, Colour: pal.Chalk,
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
