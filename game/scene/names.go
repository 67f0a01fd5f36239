package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/path/geom"
)

// box is an upright rectangle on the screen, in CSS pixels.
type box struct{ lo, hi geom.Point }

// around returns the box of a width and height round its middle.
func around(c geom.Point, w, h float64) box {
	return box{geom.Pt(c.X-w/2, c.Y-h/2), geom.Pt(c.X+w/2, c.Y+h/2)}
}

func (b box) area() float64 {
	return math.Max(0, b.hi.X-b.lo.X) * math.Max(0, b.hi.Y-b.lo.Y)
}

// common returns the area that two boxes share.
func (b box) common(o box) float64 {
	return box{geom.Pt(math.Max(b.lo.X, o.lo.X), math.Max(b.lo.Y, o.lo.Y)),
		geom.Pt(math.Min(b.hi.X, o.hi.X), math.Min(b.hi.Y, o.hi.Y))}.area()
}

func (b box) holds(p geom.Point) bool {
	return p.X >= b.lo.X && p.X <= b.hi.X && p.Y >= b.lo.Y && p.Y <= b.hi.Y
}

// crowd is what the names on the cloth keep clear of.
type crowd struct {
	room  box          // the cloth in sight
	line  []geom.Point // places on the line, at most lineStep apart
	taken []box
}

const (
	lineStep = 3.0 // CSS pixels
	// outside is what a name beyond the cloth costs, more than any other place.
	outside = 1e6
	// letterWide is how wide a letter of Go Regular is on average, by its height.
	letterWide = 0.52
	// byArea is how many square pixels of another mark weigh as one place on the line.
	byArea = 10.0
	// farther is what it costs that a name stands a reach farther from its mark: less
	// than to hide anything.
	farther = 0.1
)

// inSight is the part of the screen on which names can be read.
func inSight(s game.Resized) box {
	const edge = 4
	return box{geom.Pt(edge, edge), geom.Pt(s.W-edge, s.H-s.Strip-edge)}
}

// boxOf returns the room that an item takes: of a label, a dot or an arrow; none of a
// longer stroke.
func boxOf(it Item) (box, bool) {
	p := it.Points[0]
	switch {
	case it.Shape == Label:
		b := around(p, letterWide*it.Width*float64(len(it.Text)), it.Width)
		if it.Align != Centre {
			half := geom.Pt((b.hi.X-b.lo.X)/2, 0)
			if it.Align == Right {
				half.X = -half.X
			}
			b = box{r2.Add(b.lo, half), r2.Add(b.hi, half)}
		}
		return b, true
	case it.Shape == Stroke && len(it.Points) == 1:
		return around(p, it.Width, it.Width), true
	case it.Shape == Fill:
		b := box{p, p}
		for _, q := range it.Points {
			b.lo = geom.Pt(math.Min(b.lo.X, q.X), math.Min(b.lo.Y, q.Y))
			b.hi = geom.Pt(math.Max(b.hi.X, q.X), math.Max(b.hi.Y, q.Y))
		}
		return b, true
	}
	return box{}, false
}

// with returns the crowd with the items, moved by shift, as well.
func (c crowd) with(items []Item, shift geom.Point) crowd {
	c.taken = c.taken[:len(c.taken):len(c.taken)]
	for _, it := range items {
		if b, ok := boxOf(it); ok {
			c.taken = append(c.taken, box{r2.Add(b.lo, shift), r2.Add(b.hi, shift)})
		}
	}
	return c
}

// cost weighs what a name in the box would hide; 0 for nothing.
func (c crowd) cost(b box) float64 {
	sum := 0.0
	if b.area()-b.common(c.room) > 1e-6 {
		sum = outside
	}
	for _, o := range c.taken {
		sum += b.common(o) / byArea
	}
	near := box{r2.Sub(b.lo, geom.Pt(2, 2)), r2.Add(b.hi, geom.Pt(2, 2))}
	for _, p := range c.line {
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

// beside returns the name, a label, at that place round its mark where it hides least:
// reach pixels from the mark's middle or, where all of these hide something, up to three
// times as far.
func (c crowd) beside(name Item, mark geom.Point, reach float64) Item {
	w, h := letterWide*name.Width*float64(len(name.Text)), name.Width
	if !c.room.holds(mark) {
		// It will come into sight as the cloth is pushed.
		c.room = box{geom.Pt(-outside, -outside), geom.Pt(outside, outside)}
	}
	best, least := mark, math.Inf(1)
	for far := 1.0; far <= 3 && least > 0; far++ {
		for _, d := range sides {
			r := far * reach
			if d.X != 0 && d.Y != 0 {
				r *= math.Sqrt2 / 2
			}
			at := r2.Add(mark, geom.Pt(d.X*(r+w/2), d.Y*(r+h/2)))
			at.X = within(at.X, c.room.lo.X+w/2, c.room.hi.X-w/2)
			if cost := c.cost(around(at, w, h)) + (far-1)*farther; cost < least {
				best, least = at, cost
			}
		}
	}
	name.Points = []geom.Point{best}
	return name
}
