package stage

import (
	"math"

	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Sizes in CSS pixels.
const (
	apart       = 2.6 // how far a line that is sewn twice is set aside
	oddRadius   = 8.0
	threadWidth = 2.6
)

// drawing is the line work of a desk: seams dotted, lines in chalk, and under them
// the bands of the proof if she asks why.
func drawing(k plan.Desk, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	if k.Why {
		items = bands(k, v, pal)
	}
	for _, e := range k.Graph.Edges {
		path := scene.OnScreen(e.Path, v)
		if e.Kind == plane.Seam {
			items = append(items, scene.Dashes(path, 2, 6, 2, pal.Mute)...)
			continue
		}
		items = append(items, scene.Line(1.4, pal.Chalk, path...))
	}
	return items
}

// bands are drawn as broad ribbons along the lines they cover, those of odd groups
// in another tint than those round a single junction.
func bands(k plan.Desk, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	for _, b := range k.Reasons.Bands {
		tint := scene.Mix(pal.Cloth, pal.Long, 0.35)
		if len(b.Members) > 1 {
			tint = scene.Mix(pal.Cloth, pal.Short, 0.35)
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
				items = append(items, scene.Line(scene.RibbonWidth, tint, scene.OnScreen(part, v)...))
			}
		}
	}
	return items
}

// chunkMM is the length of route in mm that is drawn as one item, so that a route
// being played can grow by it.
const chunkMM = 1.5

// routeThread is the path of the route as thread in chunks, and the length of
// route in mm that is sewn once each of them is. What is sewn once more is broken
// and in the colour of a warning, what is travelled in the ditch dotted.
func routeThread(k plan.Desk, v screen.View, pal look.Palette) (items []scene.Item, ends []float64) {
	done := 0.0
	for _, p := range k.Pieces() {
		for _, st := range p.Stretches {
			shift := asideOf(k, st)
			for i, from := 0, st.From; from < st.To-1e-9; i, from = i+1, from+chunkMM {
				to := math.Min(from+chunkMM, st.To)
				if it, ok := wayChunk(st.Way, i, pal); ok {
					it.Points = scene.Aside(scene.OnScreen(p.Line.Section(from, to), v), shift)
					items, ends = append(items, it), append(ends, done+to)
				}
			}
		}
		done += p.Line.Length()
	}
	return items, ends
}

// wayChunk returns how chunk i of a stretch is drawn, false for not at all.
func wayChunk(w route.Way, i int, pal look.Palette) (scene.Item, bool) {
	switch w {
	case route.Again:
		return scene.Line(threadWidth, pal.Long), i%3 != 2
	case route.Hidden:
		return scene.Line(threadWidth+0.6, pal.Short), i%2 == 0
	}
	return scene.Line(threadWidth, pal.Thread), true
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
