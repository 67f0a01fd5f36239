package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/words"
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
func markShare(v game.View) float64 { return within(v.Scale/fullScale, leastMark, 1) }

// ends marks where the line starts and where it ends, with their names where they hide
// least; start alone if no more is wanted.
func ends(l geom.Line, alone bool, v game.View, c crowd, pal look.Palette) []Item {
	f := markShare(v)
	start, text := v.ToScreen(l.At(0)), "Start"
	if l.Closed() && !alone {
		text, alone = "Start and end", true
	}
	items := []Item{
		line(2*startRadius*f, pal.Chalk, start),
		ring(start, (startRadius+4)*f, 2, pal.Chalk),
	}
	c.taken = append(c.taken[:len(c.taken):len(c.taken)], around(start, 2*(startRadius+4)*f, 2*(startRadius+4)*f))
	name := func(text string, mark geom.Point) {
		it := label(text, mark, pal.Ink)
		it.Width = math.Max(leastLetters, labelSize*f)
		it = c.beside(it, mark, (startRadius+9)*f)
		items = append(items, it)
		c = c.with([]Item{it}, geom.Point{})
	}
	if alone {
		name(text, start)
		return items
	}
	end := v.ToScreen(l.At(l.Length()))
	items = append(items,
		line((2*startRadius-4)*f, pal.Cloth, end),
		ring(end, (startRadius-1)*f, 2.5*math.Sqrt(f), pal.Chalk))
	c.taken = append(c.taken, around(end, 2*startRadius*f, 2*startRadius*f))
	name(text, start)
	name("End", end)
	return items
}

// crowdOf returns what names on the cloth have to keep clear of, seen from where the
// layers have the cloth.
func crowdOf(m game.Model, k chalkMarks) crowd {
	var rest geom.Point // how far the cloth is pushed while the start is under the needle
	var c crowd
	if k.held {
		rest = r2.Sub(m.Needle(), m.View.ToScreen(m.Line.At(0)))
		c.taken = []box{around(r2.Sub(m.Hold(), rest), 2*holdRadius+8, 2*holdRadius+8)}
	}
	c.room = inSight(m.Screen)
	c.room = box{r2.Sub(c.room.lo, rest), r2.Sub(c.room.hi, rest)}
	if k.what == keep.WholeLine {
		c.line = linePlaces(m.Line, m.View)
	}
	return c.with(sizeNote(m, look.Palette{}), r2.Scale(-1, rest))
}

// linePlaces returns places on the line on the screen, at most lineStep apart.
func linePlaces(l geom.Line, v game.View) []geom.Point {
	n := int(l.Length()*v.Scale/lineStep) + 1
	out := make([]geom.Point, n+1)
	for i := range out {
		out[i] = v.ToScreen(l.At(l.Length() * float64(i) / float64(n)))
	}
	return out
}

// sizeNote says on the cloth, in a corner where the line is not, that the line is shown
// smaller than it is.
func sizeNote(m game.Model, pal look.Palette) []Item {
	share := words.Percent(m.View.Zoom)
	if share == words.Percent(1) {
		return nil
	}
	text := share + " of true size"
	if !m.View.SizeKnown {
		text = "about " + text
	}
	s := m.Screen
	c := crowd{line: linePlaces(m.Line, m.View), room: inSight(s)}
	var best Item
	least := math.Inf(1)
	for _, top := range []bool{false, true} {
		for _, align := range []Align{Left, Right} {
			it := label(text, geom.Pt(12, s.H-s.Strip-14), pal.Mute)
			if it.Align = align; align == Right {
				it.Points[0].X = s.W - 12
			}
			if top {
				it.Points[0].Y = 14
			}
			b, _ := boxOf(it)
			if cost := c.cost(b); cost < least {
				best, least = it, cost
			}
		}
	}
	return []Item{best}
}
