package scene

import (
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// Sizes in CSS pixels.
const (
	weaveStep   = 6.0
	chalkWidth  = 2.0
	chalkDash   = 9.0
	chalkSpace  = 5.0
	arrowEvery  = 150.0
	arrowLength = 11.0
	startRadius = 8.0
	dotRadius   = 4.0
	labelSize   = 14.0
	inkWidth    = 2.5
)

// cloth is the ground, with a faint weave, and the running-stitch rule above the
// strip.
func cloth(s game.Resized, pal look.Palette) []Item {
	items := []Item{rect(0, 0, s.W, s.H, pal.Cloth)}
	bottom := s.H - s.Strip
	for x := weaveStep; x < s.W; x += weaveStep {
		items = append(items, line(1, pal.Weave, geom.Pt(x, 0), geom.Pt(x, bottom)))
	}
	for y := weaveStep; y < bottom; y += weaveStep {
		items = append(items, line(1, pal.Weave, geom.Pt(0, y), geom.Pt(s.W, y)))
	}
	if s.Strip > 0 {
		items = append(items, dashes([]geom.Point{geom.Pt(12, bottom), geom.Pt(s.W-12, bottom)}, 10, 6, 2, pal.Line)...)
	}
	return items
}

// chalk is the ideal line as it would be marked on the cloth: dashed, with arrows
// in the order of travel, a start dot, dots with their numbers, and the end.
//
// A winding line, such as a planned route, has its arrows numbered.
func chalk(l geom.Line, winding bool, v game.View, pal look.Palette) []Item {
	path := make([]geom.Point, len(l.Path()))
	for i, p := range l.Path() {
		path[i] = v.ToScreen(p)
	}
	items := dashes(path, chalkDash, chalkSpace, chalkWidth, pal.Chalk)
	items = append(items, arrows(l, v, pal)...)
	for i, s := range l.Dots {
		at := v.ToScreen(l.At(s))
		items = append(items, Item{Shape: Stroke, Points: []geom.Point{at}, Width: 2 * dotRadius, Colour: pal.Chalk})
		if i > 0 && i < len(l.Dots)-1 {
			items = append(items, label(strconv.Itoa(i+1), besideDot(l, s, at), pal.Ink))
		}
	}
	if winding {
		items = append(items, legs(l, v, pal)...)
	}
	return append(items, ends(l, v, pal)...)
}

// legs numbers the arrows of a line that runs over its own junctions, as far as
// there is room, so that its order can be followed.
func legs(l geom.Line, v game.View, pal look.Palette) []Item {
	var items []Item
	var taken []geom.Point
	step := arrowEvery / v.Scale
	n := 0
	for s := step * 0.3; s < l.Length()-step*0.15; s += step {
		n++
		if at := beside(l, s, 15, v); free(at, taken) {
			taken = append(taken, at)
			items = append(items, number(n, at, pal)...)
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

// ends marks where the line starts and where it ends.
func ends(l geom.Line, v game.View, pal look.Palette) []Item {
	start, end := v.ToScreen(l.At(0)), v.ToScreen(l.At(l.Length()))
	startText := "Start"
	if l.Closed() {
		startText = "Start and end"
	}
	items := []Item{
		{Shape: Stroke, Points: []geom.Point{start}, Width: 2 * startRadius, Colour: pal.Chalk},
		ring(start, startRadius+4, 2, pal.Chalk),
		label(startText, r2.Add(start, geom.Pt(0, startRadius+16)), pal.Ink),
	}
	if l.Closed() {
		return items
	}
	return append(items,
		Item{Shape: Stroke, Points: []geom.Point{end}, Width: 2*startRadius - 4, Colour: pal.Cloth},
		ring(end, startRadius-1, 2.5, pal.Chalk),
		label("End", r2.Add(end, geom.Pt(0, startRadius+16)), pal.Ink))
}

// arrows are heads on the line in the direction of travel, the first soon after
// the start.
func arrows(l geom.Line, v game.View, pal look.Palette) []Item {
	var items []Item
	step := arrowEvery / v.Scale
	for s := step * 0.3; s < l.Length()-step*0.15; s += step {
		tip := v.ToScreen(l.At(s))
		d := l.Tangent(s)
		back := r2.Sub(tip, r2.Scale(arrowLength, d))
		side := r2.Scale(arrowLength*0.5, geom.Pt(-d.Y, d.X))
		items = append(items, Item{
			Shape: Fill, Colour: pal.Chalk,
			Points: []geom.Point{r2.Add(tip, r2.Scale(3, d)), r2.Add(back, side), r2.Sub(back, side)},
		})
	}
	return items
}

func rect(x, y, w, h float64, c color.NRGBA) Item {
	return Item{Shape: Fill, Colour: c, Points: []geom.Point{
		geom.Pt(x, y), geom.Pt(x+w, y), geom.Pt(x+w, y+h), geom.Pt(x, y+h),
	}}
}

func line(width float64, c color.NRGBA, pts ...geom.Point) Item {
	return Item{Shape: Stroke, Points: pts, Width: width, Colour: c}
}

func label(text string, at geom.Point, c color.NRGBA) Item {
	return Item{Shape: Label, Text: text, Points: []geom.Point{at}, Width: labelSize, Colour: c}
}

// ring is a circle drawn as a stroke.
func ring(centre geom.Point, radius, width float64, c color.NRGBA) Item {
	return line(width, c, geom.Arc(centre, radius, 0, 2*math.Pi)...)
}
