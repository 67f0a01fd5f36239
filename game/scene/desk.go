package scene

import (
	"fmt"
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

// marks are what is written on the route: arrows, numbers of steps, odd junctions,
// start and exit.
func marks(k plan.Desk, v game.View, screen game.Resized, pal look.Palette) []Item {
	var items []Item
	var taken []geom.Point
	for _, h := range []plan.Handle{plan.StartHandle, plan.ExitHandle} {
		if p, ok := k.PlaceOf(h); ok {
			taken = append(taken, v.ToScreen(p))
		}
	}
	for _, o := range k.Reasons.Odd {
		items = append(items, ring(v.ToScreen(k.Graph.Nodes[o.Junction]), oddRadius, 2, pal.Long))
	}
	for _, p := range k.Pieces() {
		for _, st := range p.Stretches {
			mid := (st.From + st.To) / 2
			items = append(items, arrowAt(p.Line, mid, asideOf(k, st), v, pal))
			at := beside(p.Line, mid, 15, v)
			if free(at, taken) {
				taken = append(taken, at)
				items = append(items, number(st.Step+1, at, pal)...)
			}
		}
	}
	if k.Why {
		items = append(items, changes(k, v, pal)...)
	}
	return append(items, deskEnds(k, v, screen, pal)...)
}

// changes marks what the proposed changes are about, with the letters they have in
// the list: a line to add or leave out, a junction to start or leave at.
func changes(k plan.Desk, v game.View, pal look.Palette) []Item {
	var items []Item
	node := func(i int) geom.Point { return v.ToScreen(k.Graph.Nodes[i]) }
	for i, c := range k.Reasons.Changes {
		var at []geom.Point
		switch c.Kind {
		case route.AddLine, route.AllowStop:
			ends := []geom.Point{node(c.From), node(c.To)}
			items = append(items, dashes(ends, 4, 4, 2.4, pal.Over)...)
			at = []geom.Point{geom.Lerp(ends[0], ends[1], 0.5)}
		case route.DropLine:
			path := onScreen(k.Graph.Edges[c.Edge].Path, v)
			items = append(items, dashes(path, 4, 4, 3.4, pal.Over)...)
			at = []geom.Point{path[len(path)/2]}
		case route.StartElsewhere, route.BothElsewhere:
			at = []geom.Point{node(c.Start)}
			if c.Kind == route.BothElsewhere && c.Exit != c.Start && c.Exit >= 0 {
				at = append(at, node(c.Exit))
			}
		case route.LeaveElsewhere:
			at = []geom.Point{node(c.Exit)}
		}
		for _, p := range at {
			items = append(items, line(24, pal.Over, p), Item{
				Shape: Label, Text: plan.Letter(i), Points: []geom.Point{p}, Width: labelSize, Colour: pal.Cloth,
			})
		}
	}
	return items
}

// beside returns the place d pixels to the right of the line at s.
func beside(l geom.Line, s, d float64, v game.View) geom.Point {
	u := l.Tangent(s)
	return r2.Add(v.ToScreen(l.At(s)), r2.Scale(d, geom.Pt(-u.Y, u.X)))
}

func free(p geom.Point, taken []geom.Point) bool {
	for _, q := range taken {
		if geom.Dist(p, q) < numberRoom {
			return false
		}
	}
	return true
}

func number(n int, at geom.Point, pal look.Palette) []Item {
	text := fmt.Sprint(n)
	l := label(text, at, pal.Ink)
	l.Width = numberSize
	half := 4 * float64(len(text)-1)
	ground := line(19, pal.Cloth, geom.Pt(at.X-half, at.Y), geom.Pt(at.X+half, at.Y))
	return []Item{ground, l}
}

// arrowAt is an arrow head on the line at s, shifted aside with its line.
func arrowAt(l geom.Line, s, d float64, v game.View, pal look.Palette) Item {
	u := l.Tangent(s)
	tip := r2.Add(v.ToScreen(l.At(s)), r2.Scale(d, geom.Pt(-u.Y, u.X)))
	back, side := r2.Sub(tip, r2.Scale(9, u)), r2.Scale(4.5, geom.Pt(-u.Y, u.X))
	return Item{Shape: Fill, Colour: pal.Thread, Points: []geom.Point{r2.Add(tip, r2.Scale(3, u)), r2.Add(back, side), r2.Sub(back, side)}}
}

// deskEnds are the handles of start and exit; their labels stay on the screen.
func deskEnds(k plan.Desk, v game.View, screen game.Resized, pal look.Palette) []Item {
	var items []Item
	start, ok := k.PlaceOf(plan.StartHandle)
	if !ok {
		return nil
	}
	exit, _ := k.PlaceOf(plan.ExitHandle)
	s, e := v.ToScreen(start), v.ToScreen(exit)
	together := geom.Dist(s, e) < 2
	if !together {
		items = append(items,
			line(2*startRadius, pal.Cloth, e), ring(e, startRadius, 3, pal.Ink),
			onTheScreen(label("Leave", awayFrom(e, s), pal.Ink), screen))
	}
	text := "Start"
	if together {
		text = "Start and leave"
	}
	return append(items,
		line(2*startRadius, pal.Ink, s), ring(s, startRadius+4, 2, pal.Ink),
		onTheScreen(label(text, awayFrom(s, e), pal.Ink), screen))
}

// onTheScreen moves a centred label so that it is not cut off; a letter is taken
// for 0.6 em wide.
func onTheScreen(l Item, s game.Resized) Item {
	half := 0.3 * l.Width * float64(len(l.Text))
	p := l.Points[0]
	p.X = math.Max(half+4, math.Min(s.W-half-4, p.X))
	p.Y = math.Max(l.Width, math.Min(s.H-s.Strip-l.Width, p.Y))
	l.Points = []geom.Point{p}
	return l
}

// awayFrom returns a place for a label under p, or over it if q is under it.
func awayFrom(p, q geom.Point) geom.Point {
	if q.Y > p.Y+1 {
		return r2.Add(p, geom.Pt(0, -startRadius-16))
	}
	return r2.Add(p, geom.Pt(0, startRadius+18))
}
