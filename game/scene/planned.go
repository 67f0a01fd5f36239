package scene

import (
	"math"

	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Sizes in CSS pixels.
const (
	apart     = 2.6 // how far a line that is sewn twice is set aside
	oddRadius = 8.0
)

// Planned draws a planned route.
type Planned struct {
	Desk    plan.Desk
	View    screen.View
	Screen  screen.Cloth // bounds the labels
	Palette look.Palette
	Book    words.Book
	// Why tells that the reasons are drawn too.
	Why bool
}

// Lines are the line work: seams dotted, lines in chalk, and under them the bands of
// the proof if she asks why.
func (p Planned) Lines() []Item {
	var items []Item
	pal := p.Palette
	if p.Why {
		items = bands(p.Desk, p.View, pal)
	}
	for _, e := range p.Desk.Graph.Edges {
		path := OnScreen(e.Path, p.View)
		if e.Kind == plane.Seam {
			items = append(items, Dashes(path, 2, 6, 2, pal.Mute)...)
			continue
		}
		items = append(items, Line(1.4, pal.Chalk, path...))
	}
	return items
}

// bands are drawn as broad ribbons along the lines they cover, those of odd groups
// in another tint than those round a single junction.
func bands(k plan.Desk, v screen.View, pal look.Palette) []Item {
	var items []Item
	for _, b := range k.Reasons.Bands {
		tint := Mix(pal.Cloth, pal.Long, 0.35)
		if len(b.Members) > 1 {
			tint = Mix(pal.Cloth, pal.Short, 0.35)
		}
		for _, s := range b.Spans {
			e := k.Graph.Edges[s.Edge]
			l, err := geom.NewLine(e.Path)
			if err != nil {
				continue
			}
			// Spans are in the line's true length, of which the path is a picture.
			scale := l.Length() / e.Length
			lo, hi := math.Min(s.From, s.To)*scale, math.Max(s.From, s.To)*scale
			if part := l.Section(lo, hi); len(part) > 1 {
				items = append(items, Line(RibbonWidth, tint, OnScreen(part, v)...))
			}
		}
	}
	return items
}

// chunkMM is the length of route in mm that is drawn as one item, so that a route
// being played can grow by it.
const chunkMM = 1.5

// RouteThread is the path of the route as thread in chunks, and the length of
// route in mm that is sewn once each of them is. What is sewn once more is broken
// and in the colour of a warning, what is travelled in the ditch dotted.
func RouteThread(k plan.Desk, v screen.View, pal look.Palette) (items []Item, ends []float64) {
	done := 0.0
	for _, p := range k.Pieces() {
		for _, st := range p.Stretches {
			shift := asideOf(k, st)
			for i, from := 0, st.From; from < st.To-1e-9; i, from = i+1, from+chunkMM {
				to := math.Min(from+chunkMM, st.To)
				if it, ok := wayChunk(st.Way, i, pal); ok {
					it.Points = Aside(OnScreen(p.Line.Section(from, to), v), shift)
					items, ends = append(items, it), append(ends, done+to)
				}
			}
		}
		done += p.Line.Length()
	}
	return items, ends
}

// wayChunk returns how chunk i of a stretch is drawn, false for not at all.
func wayChunk(w route.Way, i int, pal look.Palette) (Item, bool) {
	switch w {
	case route.Again:
		return Line(RouteWidth, pal.Long), i%3 != 2
	case route.Hidden:
		return Line(RouteWidth+0.6, pal.Short), i%2 == 0
	}
	return Line(RouteWidth, pal.Thread), true
}

// asideOf returns how far a stretch is drawn to the right of its own direction: a
// line walked twice the same way is drawn on both sides, so that each is seen.
func asideOf(k plan.Desk, st route.Stretch) float64 {
	if !st.Twice {
		return 0
	}
	if st.Way != route.Sew && sameDirectionBefore(k.Route().Steps, st.Step) {
		return -apart
	}
	return apart
}

func sameDirectionBefore(steps []route.Step, i int) bool {
	for _, s := range steps[:i] {
		if s.Way != route.Jump && s.Edge == steps[i].Edge && s.Reverse == steps[i].Reverse {
			return true
		}
	}
	return false
}

// RouteWidth is the width in CSS pixels of the thread of a route.
const RouteWidth = 2.6
