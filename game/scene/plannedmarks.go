package scene

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// Marks are what is written on the route: arrows, numbers of steps, odd junctions,
// start and exit.
func (p Planned) Marks() []Item {
	k, v, pal := p.Desk, p.View, p.Palette
	var items []Item
	var taken []geom.Point
	for _, h := range []plan.Handle{plan.StartHandle, plan.ExitHandle} {
		if q, ok := k.PlaceOf(h); ok {
			taken = append(taken, v.ToScreen(q))
		}
	}
	for _, o := range k.Reasons.Odd {
		items = append(items, Ring(v.ToScreen(k.Graph.Nodes[o.Junction]), oddRadius, 2, pal.Long))
	}
	groups := GroupsOf(k)
	for _, piece := range k.Pieces() {
		for _, st := range piece.Stretches {
			n := st.Step + 1
			if groups != nil {
				if n = groups[st.Step]; n == 0 {
					continue // a place has one number; its moves have theirs where it is opened
				}
			}
			mid := (st.From + st.To) / 2
			items = append(items, ArrowAt(piece.Line, mid, asideOf(k, st), v, pal))
			at := Beside(piece.Line, mid, 15, v)
			if Free(at, taken) {
				taken = append(taken, at)
				items = append(items, Number(n, at, pal)...)
			}
		}
	}
	if p.Why {
		items = append(items, changes(k, v, pal)...)
	}
	return append(items, p.Ends()...)
}

// GroupsOf returns the number of the stay that begins with a step; nil for a route that is
// not through several places.
func GroupsOf(k plan.Desk) map[int]int {
	if !k.Moved() || len(k.Choices[k.Pick].Groups) < 2 {
		return nil
	}
	out := map[int]int{}
	for i, g := range k.Choices[k.Pick].Groups {
		out[g] = i + 1
	}
	return out
}

// changes marks what the proposed changes are about, with the letters they have in
// the list: a line to add or leave out, a junction to start or leave at.
func changes(k plan.Desk, v screen.View, pal look.Palette) []Item {
	var items []Item
	node := func(i int) geom.Point { return v.ToScreen(k.Graph.Nodes[i]) }
	// A letter at a junction stands beside it, clear of the handles.
	besideNode := func(i int) geom.Point { return r2.Add(node(i), geom.Pt(18, -20)) }
	for i, c := range k.Reasons.Changes {
		var at []geom.Point
		switch c.Kind {
		case route.AddLine, route.AllowStop:
			ends := []geom.Point{node(c.From), node(c.To)}
			items = append(items, Dashes(ends, 4, 4, 2.4, pal.Over)...)
			at = []geom.Point{geom.Lerp(ends[0], ends[1], 0.5)}
		case route.DropLine:
			path := OnScreen(k.Graph.Edges[c.Edge].Path, v)
			items = append(items, Dashes(path, 4, 4, 3.4, pal.Over)...)
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
			items = append(items, Line(24, pal.Over, p), Item{
				Shape: Label, Text: plan.Letter(i), Points: []geom.Point{p}, Width: LabelSize, Colour: pal.Cloth,
			})
		}
	}
	return items
}

// Ends are the handles of start and exit; their labels stay on the screen.
func (p Planned) Ends() []Item {
	k, v, pal, b := p.Desk, p.View, p.Palette, p.Book
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
			Line(2*StartRadius, pal.Cloth, e), Ring(e, StartRadius, 3, pal.Ink),
			WithinScreen(Text(b.Say("route.leave"), AwayFrom(e, s), pal.Ink), p.Screen))
	}
	text, at := b.Say("route.start"), AwayFrom(s, e)
	if together {
		text, at = b.Say("route.start-and-leave"), r2.Add(s, geom.Pt(0, -StartRadius-14))
	}
	return append(items,
		Line(2*StartRadius, pal.Ink, s), Ring(s, StartRadius+4, 2, pal.Ink),
		WithinScreen(Text(text, at, pal.Ink), p.Screen))
}
