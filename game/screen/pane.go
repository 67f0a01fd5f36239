package screen

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Pane shows a thing of a size (mm), its upper left corner at From on the cloth: whole in
// the middle of the screen, or a part of it larger.
type Pane struct {
	From, Size geom.Point
	// Whole is the share of true size at which all of it is seen, Most how much larger
	// than that it is shown at most.
	Whole, Most float64
	// Zoom is how much larger than whole it is shown, with the place Around (mm) in the
	// middle. Below 1 it is shown smaller than whole.
	Zoom   float64
	Around geom.Point
}

// Larger tells whether only a part is shown.
func (p Pane) Larger() bool { return p.Zoom > 1 }

// View returns the view on a screen.
func (p Pane) View(s Cloth) View {
	v := View{Scale: p.scale(s), Zoom: p.Whole * p.Zoom, TrueSize: s.TrueSize(), SizeKnown: s.SizeKnown}
	at := r2.Add(p.From, r2.Scale(0.5, p.Size))
	if p.Larger() {
		at = p.within(p.Around)
	}
	v.Origin = r2.Sub(s.Middle(), r2.Scale(v.Scale, at))
	return v
}

func (p Pane) scale(s Cloth) float64 { return s.TrueSize() * p.Whole * p.Zoom }

func (p Pane) within(at geom.Point) geom.Point {
	lo, hi := p.From, r2.Add(p.From, p.Size)
	return geom.Pt(math.Max(lo.X, math.Min(hi.X, at.X)), math.Max(lo.Y, math.Min(hi.Y, at.Y)))
}

// At shows it so many times larger than whole, within what is allowed.
func (p Pane) At(zoom float64) Pane {
	p.Zoom = math.Max(1, math.Min(math.Max(1, p.Most), zoom))
	return p
}

// Stepped shows it a step larger ("+") or smaller ("-") about a place, or whole ("0").
func (p Pane) Stepped(how string, about geom.Point) Pane {
	const step = 1.5
	p.Around = about
	switch how {
	case "+":
		return p.At(math.Max(p.Zoom, p.Zoom*step))
	case "-":
		return p.At(p.Zoom / step)
	}
	return p.At(1)
}

// Showing shows it so many times larger than whole with a place of the cloth (mm) at one
// of the screen (CSS pixels), as far as the middle of the screen stays on it.
func (p Pane) Showing(s Cloth, cloth, at geom.Point, zoom float64) Pane {
	p = p.At(zoom)
	p.Around = p.within(r2.Add(cloth, r2.Scale(1/p.scale(s), r2.Sub(s.Middle(), at))))
	return p
}

// wheelZoom is by how much a thing grows for each CSS pixel of a wheel turned with ctrl,
// or of two fingers spread on a touchpad: a click of a wheel, 100 pixels in most browsers,
// is 1.28 times.
const wheelZoom = 1.0025

// Wheeled takes a turn of the wheel by so many CSS pixels at a place of the screen: it
// moves the thing, or shows it larger or smaller about that place.
func (p Pane) Wheeled(s Cloth, at, by geom.Point, zoom bool) Pane {
	if zoom {
		return p.Showing(s, p.View(s).ToCloth(at), at, p.Zoom*math.Pow(wheelZoom, -by.Y))
	}
	return p.Showing(s, p.View(s).ToCloth(r2.Add(at, by)), at, p.Zoom)
}

// Finger is a pointer that is down, at a place in CSS pixels.
type Finger struct {
	ID  int
	At  geom.Point
	Pen bool
}

// Grip is what pointers that are down hold of a pane: one moves it, two move it and show
// it larger or smaller.
type Grip struct {
	// Fingers are those that are down, in the order they came. The slice is never written
	// into.
	Fingers []Finger
	holds   bool
	// held is the place on the cloth (mm) that lay under the finger, or between the first
	// two, when they took hold; wide is how far apart they were (CSS pixels), zoom how
	// large the pane was shown.
	held       geom.Point
	wide, zoom float64
}

// Find returns the finger of a pointer, -1 if it is not down.
func (g Grip) Find(id int) int {
	for i, f := range g.Fingers {
		if f.ID == id {
			return i
		}
	}
	return -1
}

// Down returns the grip with one finger more, Moved with one where it has come to, Lifted
// without one; one that is not down changes nothing.
func (g Grip) Down(f Finger) Grip {
	if g.Find(f.ID) >= 0 {
		return g.Moved(f.ID, f.At)
	}
	g.Fingers = append(g.Fingers[:len(g.Fingers):len(g.Fingers)], f)
	return g
}

// Moved returns the grip with a finger where it has come to.
func (g Grip) Moved(id int, at geom.Point) Grip {
	if i := g.Find(id); i >= 0 {
		g.Fingers = append([]Finger{}, g.Fingers...)
		g.Fingers[i].At = at
	}
	return g
}

// Lifted returns the grip without a finger. One of those that held lets go.
func (g Grip) Lifted(id int) Grip {
	i := g.Find(id)
	if i < 0 {
		return g
	}
	g.Fingers = append(append([]Finger{}, g.Fingers[:i]...), g.Fingers[i+1:]...)
	g.holds = g.holds && i >= 2
	return g
}

// Hold takes hold of a pane with the fingers that are down, at most two of them.
func (g Grip) Hold(p Pane, s Cloth) Grip {
	if len(g.Fingers) == 0 {
		return g
	}
	at, wide := g.between()
	g.holds, g.held, g.wide, g.zoom = true, p.View(s).ToCloth(at), wide, p.Zoom
	return g
}

// Holds tells whether the fingers hold the pane.
func (g Grip) Holds() bool { return g.holds }

// Pull keeps what the fingers hold under them.
func (g Grip) Pull(p Pane, s Cloth) Pane {
	at, wide := g.between()
	return p.Showing(s, g.held, at, g.zoom*wide/g.wide)
}

// between returns the place in the middle of the fingers that hold, and how far apart
// they are: 1 for one alone, and at least that.
func (g Grip) between() (at geom.Point, wide float64) {
	a := g.Fingers[0].At
	if len(g.Fingers) == 1 {
		return a, 1
	}
	b := g.Fingers[1].At
	return geom.Lerp(a, b, 0.5), math.Max(1, geom.Dist(a, b))
}
