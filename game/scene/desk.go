package scene

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Sizes in CSS pixels.
const (
	apart       = 2.6  // how far a line that is sewn twice is set aside
	numberSize  = 13.0 // of the numbers of steps
	numberRoom  = 34.0 // least distance between numbers
	bandWidth   = 18.0
	oddRadius   = 8.0
	threadWidth = 2.6
)

// drawing is the line work of a desk: seams dotted, lines in chalk, and under them
// the bands of the proof if she asks why.
func drawing(k plan.Desk, v game.View, pal look.Palette) []Item {
	var items []Item
	if k.Why {
		items = bands(k, v, pal)
	}
	for _, e := range k.Graph.Edges {
		path := onScreen(e.Path, v)
		if e.Kind == plane.Seam {
			items = append(items, dashes(path, 2, 6, 2, pal.Mute)...)
			continue
		}
		items = append(items, line(1.4, pal.Chalk, path...))
	}
	return items
}

func onScreen(pl geom.Polyline, v game.View) []geom.Point {
	out := make([]geom.Point, len(pl))
	for i, p := range pl {
		out[i] = v.ToScreen(p)
	}
	return out
}

// bands are drawn as broad ribbons along the lines they cover, those of odd groups
// in another tint than those round a single junction.
func bands(k plan.Desk, v game.View, pal look.Palette) []Item {
	var items []Item
	for _, b := range k.Reasons.Bands {
		tint := mix(pal.Cloth, pal.Long, 0.35)
		if len(b.Members) > 1 {
			tint = mix(pal.Cloth, pal.Short, 0.35)
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
				items = append(items, line(bandWidth, tint, onScreen(part, v)...))
			}
		}
	}
	return items
}

// mix returns the colour a share t of the way from a to b.
func mix(a, b color.NRGBA, t float64) color.NRGBA {
	m := func(x, y uint8) uint8 { return uint8(math.Round(float64(x) + t*(float64(y)-float64(x)))) }
	return color.NRGBA{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: 255}
}

// chunkMM is the length of route in mm that is drawn as one item, so that a route
// being played can grow by it.
const chunkMM = 1.5

// routeThread is the path of the route as thread in chunks, and the length of
// route in mm that is sewn once each of them is. What is sewn once more is broken
// and in the colour of a warning, what is travelled in the ditch dotted.
func routeThread(k plan.Desk, v game.View, pal look.Palette) (items []Item, ends []float64) {
	done := 0.0
	for _, p := range k.Pieces() {
		for _, st := range p.Stretches {
			shift := asideOf(k, st)
			for i, from := 0, st.From; from < st.To-1e-9; i, from = i+1, from+chunkMM {
				to := math.Min(from+chunkMM, st.To)
				if it, ok := wayChunk(st.Way, i, pal); ok {
					it.Points = aside(onScreen(p.Line.Section(from, to), v), shift)
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
		return line(threadWidth, pal.Long), i%3 != 2
	case route.Hidden:
		return line(threadWidth+0.6, pal.Short), i%2 == 0
	}
	return line(threadWidth, pal.Thread), true
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

// aside shifts a chain of points by d to the right of its direction.
func aside(pts []geom.Point, d float64) []geom.Point {
	if d == 0 || len(pts) < 2 {
		return pts
	}
	out := make([]geom.Point, len(pts))
	for i := range pts {
		a, b := pts[max(0, i-1)], pts[min(len(pts)-1, i+1)]
		u := r2.Unit(r2.Sub(b, a))
		out[i] = r2.Add(pts[i], r2.Scale(d, geom.Pt(-u.Y, u.X)))
	}
	return out
}
