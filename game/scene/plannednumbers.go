package scene

import (
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/route/steps"
)

// every is how many moves apart numbers are that have to be there with the whole in the
// window, beside the first and the last.
const every = 5

// Sizes in CSS pixels: roomy is how long a move is that has its number although it need
// not; ledFar how far a number may stand from its move where there is room for more.
const (
	roomy  = 34.0
	ledFar = 60.0
	// stayFar is how far over or under its place the number of a place may stand.
	stayFar = 36.0
)

// spot is what gets a number: a move, or a stay in a place of a row.
type spot struct {
	number int
	move   int
	needed bool
}

// spots returns what gets a number, what needs one first.
func (p Planned) spots() []spot {
	stays := p.Desk.Stays()
	var out []spot
	if len(stays) > 1 && p.Open < 0 {
		for i, s := range stays {
			out = append(out, spot{number: i + 1, move: s.First, needed: i == 0 || i == len(stays)-1 || (i+1)%every == 0})
		}
	} else if len(stays) > 0 {
		s := stays[0]
		if p.Open >= 0 && p.Open < len(stays) {
			s = stays[p.Open]
		}
		n := 0
		for i := s.First; i < s.After; i++ {
			if p.Desk.Moves()[i].Kind == steps.StopMove {
				continue
			}
			n++
			out = append(out, spot{number: n, move: i, needed: n == 1 || n%every == 0})
		}
		if n > 0 {
			out[n-1].needed = true
		}
	}
	out = slices.DeleteFunc(out, func(s spot) bool { return !p.has(s.move) })
	slices.SortStableFunc(out, func(a, b spot) int {
		switch {
		case a.needed == b.needed:
			return 0
		case a.needed:
			return -1
		}
		return 1
	})
	return out
}

// numbers writes the numbers, each with an arrow where its move begins, and arrows where
// the direction of a move is in doubt without one.
func (p Planned) numbers(f *Field) []Item {
	var items []Item
	stays := p.Desk.Stays()
	moves := p.Desk.Moves()
	if len(stays) > 1 && p.Open < 0 {
		for _, s := range p.spots() {
			items = append(items, p.stayNumber(f, s, OnScreen(span(moves[stays[s.number-1].First:stays[s.number-1].After]), p.View))...)
		}
		return append(items, p.stayHeads(stays)...)
	}
	var h heads
	for _, s := range p.spots() {
		run, ok := p.inSight(p.drawn(moves[s.move]))
		if !ok {
			continue
		}
		var number []Item
		if s.needed || p.Near || run.Length() >= roomy {
			number = p.moveNumber(f, s, run)
			items = append(items, number...)
		}
		if number != nil || inDoubt(moves, s.move) {
			items = append(items, p.heads(&h, run, moves[s.move].Form)...)
		}
	}
	return items
}

// drawn is the path of a move on the screen, beside itself where all of it is sewn again.
func (p Planned) drawn(m steps.Move) []geom.Point {
	if m.Kind == steps.AgainMove {
		return Aside(OnScreen(m.Path, p.View), p.Width()+1.6)
	}
	return OnScreen(m.Path, p.View)
}

// inDoubt tells whether the direction of a move does not follow from the one before it: the
// first, one after a stop, one that comes back to where it began, and one whose two ends are
// those of the one before.
func inDoubt(moves []steps.Move, i int) bool {
	m := moves[i]
	if i == 0 || moves[i-1].Kind == steps.StopMove || m.Form == steps.Ring {
		return true
	}
	const same = 1.0 // mm
	before := moves[i-1]
	return geom.Dist(m.Path[len(m.Path)-1], before.Path[0]) < same
}

// inSight returns the part of a path on the screen from where it first comes into the window until it
// leaves it.
func (p Planned) inSight(pts []geom.Point) (geom.Line, bool) {
	in := func(q geom.Point) bool { return InSight(p.Screen).holds(q) }
	if p.Near {
		l, err := geom.NewLine(geom.Polyline(pts))
		if err != nil {
			return l, false
		}
		n := int(l.Length()/8) + 1
		first, last := -1, -1
		for k := 0; k <= n; k++ {
			switch inside := in(l.At(l.Length() * float64(k) / float64(n))); {
			case inside && first < 0:
				first, last = k, k
			case inside && last == k-1:
				last = k
			}
		}
		if first < 0 || first == last {
			return l, false
		}
		pts = l.Section(l.Length()*float64(first)/float64(n), l.Length()*float64(last)/float64(n))
	}
	l, err := geom.NewLine(geom.Polyline(pts))
	return l, err == nil && l.Length() > 0
}

// moveNumber writes the number of a move beside its beginning.
func (p Planned) moveNumber(f *Field, s spot, run geom.Line) []Item {
	most := 0.0
	switch {
	case s.needed && !p.Near:
		most = 2 * (p.Screen.W + p.Screen.H)
	case p.Near:
		most = ledFar
	}
	return p.beside(f, strconv.Itoa(s.number), run, p.Width(), most)
}

// beside writes a number beside the beginning of a run of thread of a width, or up to most
// pixels away.
func (p Planned) beside(f *Field, text string, run geom.Line, width, most float64) []Item {
	w, h := WidthOf(text, NumberSize), NumberSize
	off := math.Hypot(w, h)/2 + width/2 + clearOf
	first := math.Min(14, 0.3*run.Length())
	for s := first; s < 0.6*run.Length() && s < 120; s += 6 {
		u, foot := run.Tangent(s), run.At(s)
		for _, d := range [2]float64{1, -1} {
			for _, o := range [2]float64{off - 3, off + 2} {
				at := r2.Add(foot, r2.Scale(d*o, geom.Pt(-u.Y, u.X)))
				if b := Around(at, w, h); f.Free(b) {
					f.Take(b)
					return p.flag(f, text, at, b.nearest(foot), foot)
				}
			}
		}
	}
	at, thin, found := f.Place(w, h, run.At(first), nil, most)
	if !found {
		return nil
	}
	if thin == nil {
		thin = []geom.Point{Around(at, w, h).nearest(run.At(first)), run.At(first)}
	}
	return p.flag(f, text, at, thin[0], thin[1])
}

// flag is a number with a thin line from its box to the place on the thread that it is of.
func (p Planned) flag(f *Field, text string, at, edge, foot geom.Point) []Item {
	f.thin = append(f.thin, [2]geom.Point{edge, foot})
	it := Text(text, at, p.Palette.Ink)
	it.Width = NumberSize
	return []Item{Line(1, p.Palette.Ink, edge, foot), Line(3.5, p.Palette.Ink, foot), it}
}

// NumberOn writes a number beside the beginning of a path, where it has room.
func NumberOn(f *Field, text string, path geom.Polyline, v screen.View, pal look.Palette) []Item {
	run, err := geom.NewLine(geom.Polyline(OnScreen(path, v)))
	if err != nil {
		return nil
	}
	p := Planned{Palette: pal, Near: true}
	return p.beside(f, text, run, RouteWidth, ledFar)
}

// stayNumber writes the number of a stay over its place, or under it, or where there is
// room.
func (p Planned) stayNumber(f *Field, s spot, box []geom.Point) []Item {
	lo, hi := box[0], box[1]
	text := strconv.Itoa(s.number)
	w := WidthOf(text, NumberSize)
	middle := (lo.X + hi.X) / 2
	var wanted []geom.Point
	for off := clearOf + 3; off < stayFar; off += 3 {
		for _, y := range [2]float64{lo.Y - NumberSize/2 - off, hi.Y + NumberSize/2 + off} {
			for _, shift := range [3]float64{0, 5, -5} {
				wanted = append(wanted, geom.Pt(middle+shift, y))
			}
		}
	}
	most := ledFar
	if s.needed {
		most = 2 * (p.Screen.W + p.Screen.H)
	}
	at, thin, found := f.Place(w, NumberSize, geom.Pt(middle, (lo.Y+hi.Y)/2), wanted, most)
	if !found {
		return nil
	}
	it := Text(text, at, p.Palette.Ink)
	it.Width = NumberSize
	return p.led(it, thin)
}

// span returns the corners of the box round the lines of some moves; round ditch and stops
// only where there is nothing else.
func span(moves []steps.Move) geom.Polyline {
	var all, other geom.Polyline
	for _, m := range moves {
		if m.Kind == steps.SewMove {
			all = append(all, m.Path...)
		}
		other = append(other, m.Path...)
	}
	if len(all) == 0 {
		all = other
	}
	lo, hi := all.Bounds()
	return geom.Polyline{lo, hi}
}
