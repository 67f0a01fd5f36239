package scene

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

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
	// A letter at a junction stands beside it, clear of the handles.
	besideNode := func(i int) geom.Point { return r2.Add(node(i), geom.Pt(18, -20)) }
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
			at = []geom.Point{besideNode(c.Start)}
			if c.Kind == route.BothElsewhere && c.Exit != c.Start && c.Exit >= 0 {
				at = append(at, besideNode(c.Exit))
			}
		case route.LeaveElsewhere:
			at = []geom.Point{besideNode(c.Exit)}
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
	text, at := "Start", awayFrom(s, e)
	if together {
		text, at = "Start and leave", r2.Add(s, geom.Pt(0, -startRadius-14))
	}
	return append(items,
		line(2*startRadius, pal.Ink, s), ring(s, startRadius+4, 2, pal.Ink),
		onTheScreen(label(text, at, pal.Ink), screen))
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
