package scene

import (
	"cmp"
	"math"
	"unthreaded/game/words"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// Box is an upright rectangle on the screen, in CSS pixels.
type Box struct{ Lo, Hi geom.Point }

// Around returns the box of a width and height round its middle.
func Around(c geom.Point, w, h float64) Box {
	return Box{geom.Pt(c.X-w/2, c.Y-h/2), geom.Pt(c.X+w/2, c.Y+h/2)}
}

func (b Box) area() float64 {
	return math.Max(0, b.Hi.X-b.Lo.X) * math.Max(0, b.Hi.Y-b.Lo.Y)
}

// common returns the area that two boxes share.
func (b Box) common(o Box) float64 {
	return Box{geom.Pt(math.Max(b.Lo.X, o.Lo.X), math.Max(b.Lo.Y, o.Lo.Y)),
		geom.Pt(math.Min(b.Hi.X, o.Hi.X), math.Min(b.Hi.Y, o.Hi.Y))}.area()
}

func (b Box) holds(p geom.Point) bool {
	return p.X >= b.Lo.X && p.X <= b.Hi.X && p.Y >= b.Lo.Y && p.Y <= b.Hi.Y
}

// Crowd is what the names on the cloth keep clear of.
type Crowd struct {
	Room  Box          // the cloth in sight
	Line  []geom.Point // places on the line, at most lineStep apart
	Taken []Box
	// Far is how many times its reach a name may be from its mark, 0 for usualFar.
	Far float64
	// Footed tells that the foot stands on the start, which needs no name then.
	Footed bool
	// Book is the language of the names.
	Book words.Book
}

const (
	lineStep = 3.0 // CSS pixels
	// outside is what a name beyond the cloth costs, more than any other place.
	outside = 1e6
	// letterWide is how wide a letter is on average, by its height.
	letterWide = 0.54
	// byArea is how many square pixels of another mark weigh as one place on the line.
	byArea = 10.0
	// farther is what it costs that a name stands a reach farther from its mark: less
	// than to hide anything.
	farther = 0.1
)

// InSight is the part of the screen on which names can be read.
func InSight(s screen.Cloth) Box {
	const edge = 4
	return Box{geom.Pt(edge, edge), geom.Pt(s.W-edge, s.H-s.Strip-edge)}
}

// BoxOf returns the room that an item takes: of a label, a dot or an arrow; none of a
// longer stroke.
func BoxOf(it Item) (Box, bool) {
	p := it.Points[0]
	switch {
	case it.Shape == Label:
		b := Around(p, letterWide*it.Width*float64(len(it.Text)), it.Width)
		if it.Align != Centre {
			half := geom.Pt((b.Hi.X-b.Lo.X)/2, 0)
			if it.Align == Right {
				half.X = -half.X
			}
			b = Box{r2.Add(b.Lo, half), r2.Add(b.Hi, half)}
		}
		return b, true
	case it.Shape == Stroke && len(it.Points) == 1:
		return Around(p, it.Width, it.Width), true
	case it.Shape == Fill:
		b := Box{p, p}
		for _, q := range it.Points {
			b.Lo = geom.Pt(math.Min(b.Lo.X, q.X), math.Min(b.Lo.Y, q.Y))
			b.Hi = geom.Pt(math.Max(b.Hi.X, q.X), math.Max(b.Hi.Y, q.Y))
		}
		return b, true
	}
	return Box{}, false
}

// With returns the crowd with the items, moved by shift, as well.
func (c Crowd) With(items []Item, shift geom.Point) Crowd {
	c.Taken = c.Taken[:len(c.Taken):len(c.Taken)]
	for _, it := range items {
		if b, ok := BoxOf(it); ok {
			c.Taken = append(c.Taken, Box{r2.Add(b.Lo, shift), r2.Add(b.Hi, shift)})
		}
	}
	return c
}

// Cost weighs what a name in the box would hide; 0 for nothing.
func (c Crowd) Cost(b Box) float64 {
	sum := 0.0
	if b.area()-b.common(c.Room) > 1e-6 {
		sum = outside
	}
	for _, o := range c.Taken {
		sum += b.common(o) / byArea
	}
	near := Box{r2.Sub(b.Lo, geom.Pt(2, 2)), r2.Add(b.Hi, geom.Pt(2, 2))}
	for _, p := range c.Line {
		if near.holds(p) {
			sum++
		}
	}
	return sum
}

// sides are the places of a name round its mark, the best liked first.
var sides = []geom.Point{
	{X: 0, Y: 1}, {X: 0, Y: -1}, {X: 1, Y: 0}, {X: -1, Y: 0},
	{X: 1, Y: 1}, {X: -1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1},
}

const usualFar = 3.0

// Beside returns the name, a label, at that place round its mark where it hides least:
// reach pixels from the mark's middle or, where all of these hide something, up to
// Far times as far.
func (c Crowd) Beside(name Item, mark geom.Point, reach float64) Item {
	w, h := letterWide*name.Width*float64(len(name.Text)), name.Width
	if !c.Room.holds(mark) {
		// It will come into sight as the cloth is pushed.
		c.Room = Box{geom.Pt(-outside, -outside), geom.Pt(outside, outside)}
	}
	best, least := mark, math.Inf(1)
	for far := 1.0; far <= cmp.Or(c.Far, usualFar) && least > 0; far++ {
		for _, d := range sides {
			r := far * reach
			if d.X != 0 && d.Y != 0 {
				r *= math.Sqrt2 / 2
			}
			at := r2.Add(mark, geom.Pt(d.X*(r+w/2), d.Y*(r+h/2)))
			at.X = within(at.X, c.Room.Lo.X+w/2, c.Room.Hi.X-w/2)
			if cost := c.Cost(Around(at, w, h)) + (far-1)*farther; cost < least {
				best, least = at, cost
			}
		}
	}
	name.Points = []geom.Point{best}
	return name
}
