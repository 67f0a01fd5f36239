package scene

import (
	"math"

	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// Where a millimetre takes fewer pixels than fullScale, as with a long row on a small
// screen, marks are drawn smaller, so that they do not hide the line: down to leastMark
// of their size, their letters to leastLetters pixels.
const (
	fullScale    = 2.2
	leastMark    = 0.6
	leastLetters = 12.0
)

// markShare returns the share of their size at which marks are drawn.
func markShare(v screen.View) float64 { return within(v.Scale/fullScale, leastMark, 1) }

// Ends marks where the line starts and where it ends, with their names where they hide
// least; start alone if no more is wanted.
func Ends(l geom.Line, alone bool, v screen.View, c Crowd, pal look.Palette) []Item {
	f := markShare(v)
	start, text := v.ToScreen(l.At(0)), c.Book.Say("page.start")
	if l.Closed() && !alone {
		text, alone = c.Book.Say("page.start-and-end"), true
	}
	items := []Item{
		Line(2*StartRadius*f, pal.Chalk, start),
		Ring(start, (StartRadius+4)*f, 2, pal.Chalk),
	}
	c.Taken = append(c.Taken[:len(c.Taken):len(c.Taken)], Around(start, 2*(StartRadius+4)*f, 2*(StartRadius+4)*f))
	name := func(text string, mark geom.Point) {
		it := Text(text, mark, pal.Ink)
		it.Width = math.Max(leastLetters, LabelSize*f)
		it = c.Beside(it, mark, (StartRadius+9)*f)
		items = append(items, it)
		c = c.With([]Item{it}, geom.Point{})
	}
	if alone {
		if !c.Footed {
			name(text, start)
		}
		return items
	}
	end := v.ToScreen(l.At(l.Length()))
	items = append(items,
		Line((2*StartRadius-4)*f, pal.Cloth, end),
		Ring(end, (StartRadius-1)*f, 2.5*math.Sqrt(f), pal.Chalk))
	c.Taken = append(c.Taken, Around(end, 2*StartRadius*f, 2*StartRadius*f))
	if !c.Footed {
		name(text, start)
	}
	name(c.Book.Say("page.end"), end)
	return items
}

// LinePlaces returns places on the line on the screen, at most lineStep apart.
func LinePlaces(l geom.Line, v screen.View) []geom.Point {
	n := int(l.Length()*v.Scale/lineStep) + 1
	out := make([]geom.Point, n+1)
	for i := range out {
		out[i] = v.ToScreen(l.At(l.Length() * float64(i) / float64(n)))
	}
	return out
}
