package scene

import (
	"math"
	"slices"

	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/route/steps"
)

// heads are the tips of the arrows that are drawn, so that no two lie on each other.
type heads []geom.Point

// Sizes in CSS pixels: headIn is how far from the beginning or end of its move an arrow
// stands where it has room; a move longer than twoHeads has one at its end too, one longer
// than threeHeads that bends another halfway. In the picture of a row arrows are apartInRow of their
// size apart, so that they never hide the lines.
const (
	headIn               = 24.0
	twoHeads, threeHeads = 150.0, 360.0
	apartInRow           = 5
)

// headSize is the size of an arrow, in CSS pixels.
func (p Planned) headSize() float64 { return within(4*p.Width(), 6, 10) }

// heads are the arrows of a move: one near its beginning, one near its end, one halfway,
// each where it has room along its own line.
func (p Planned) heads(h *heads, run geom.Line, form steps.Form) []Item {
	size, l := p.headSize(), run.Length()
	items := p.head(h, run, 2*size, math.Min(headIn, 0.5*l), 1)
	if l > twoHeads {
		items = append(items, p.head(h, run, 2*size, l-headIn, -1)...)
	}
	if l > threeHeads && form != steps.Straight {
		items = append(items, p.head(h, run, 2*size, l/2, 1)...)
	}
	return items
}

// head is an arrow on a run at s, or the nearest place farther along it, or back, that is
// apart from all others.
func (p Planned) head(h *heads, run geom.Line, apart, s, way float64) []Item {
	size := p.headSize()
	for k := range 8 {
		u := s + way*float64(k)*0.75*size
		if u < 0.8*size || u > run.Length()-0.6*size {
			break
		}
		at := run.At(u)
		if slices.ContainsFunc(*h, func(q geom.Point) bool { return geom.Dist(at, q) < apart }) {
			continue
		}
		*h = append(*h, at)
		return []Item{arrow(run, u, size, Mix(p.Palette.Thread, p.Palette.Ink, 0.5))}
	}
	return nil
}

// stayHeads are the arrows within the places of a row: where the first line of each place
// begins, where the last one ends, and between them where there is room.
func (p Planned) stayHeads(stays []plan.Stay) []Item {
	var items []Item
	var h heads
	moves := p.Desk.Moves()
	apart := apartInRow * p.headSize()
	for _, s := range stays {
		var runs []geom.Line
		for i := s.First; i < s.After; i++ {
			if moves[i].Kind == steps.StopMove || !p.has(i) {
				continue
			}
			if run, ok := p.inSight(p.drawn(moves[i])); ok {
				runs = append(runs, run)
			}
		}
		if len(runs) == 0 {
			continue
		}
		items = append(items, p.head(&h, runs[0], p.headSize(), math.Min(0.7*headIn, 0.5*runs[0].Length()), 1)...)
		last := runs[len(runs)-1]
		items = append(items, p.head(&h, last, 2*p.headSize(), last.Length()-0.7*headIn, -1)...)
		for _, run := range runs {
			if run.Length() >= roomy {
				items = append(items, p.head(&h, run, apart, 0.5*run.Length(), 1)...)
			}
		}
	}
	return items
}

// stops are the ways of the needle from where the thread is cut to where it begins anew:
// dotted, with a knot where it is tied off and an arrow where it goes.
func (p Planned) stops() []Item {
	const knot = 6.0
	var items []Item
	stays := p.Desk.Stays()
	for i, m := range p.Desk.Moves() {
		if m.Kind != steps.StopMove || !p.has(i) || p.Open >= 0 && (p.Open >= len(stays) || i < stays[p.Open].First || i >= stays[p.Open].After) {
			continue
		}
		pts := OnScreen(m.Path, p.View)
		from, to := pts[0], pts[len(pts)-1]
		if way, err := geom.NewLine(geom.Polyline{from, to}); err == nil && way.Length() > knot {
			items = append(items, Dashes([]geom.Point{from, to}, 0.5, 4.5, 2, p.Palette.Mute)...)
			if way.Length() > 3*p.headSize() {
				items = append(items, arrow(way, 0.6*way.Length(), 0.8*p.headSize(), p.Palette.Mute))
			}
		}
		items = append(items, Line(knot, p.Palette.Cloth, from), Ring(from, knot/2, 1.5, p.Palette.Ink))
	}
	return items
}
