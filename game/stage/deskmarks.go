package stage

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// marks are what is written on the route: arrows, numbers of steps, odd junctions,
// start and exit.
func marks(k plan.Desk, v screen.View, screen screen.Cloth, pal look.Palette) []scene.Item {
	var items []scene.Item
	var taken []geom.Point
	for _, h := range []plan.Handle{plan.StartHandle, plan.ExitHandle} {
		if p, ok := k.PlaceOf(h); ok {
			taken = append(taken, v.ToScreen(p))
		}
	}
	for _, o := range k.Reasons.Odd {
		items = append(items, scene.Ring(v.ToScreen(k.Graph.Nodes[o.Junction]), oddRadius, 2, pal.Long))
	}
	for _, p := range k.Pieces() {
		for _, st := range p.Stretches {
			mid := (st.From + st.To) / 2
			items = append(items, scene.ArrowAt(p.Line, mid, asideOf(k, st), v, pal))
			at := scene.Beside(p.Line, mid, 15, v)
			if scene.Free(at, taken) {
				taken = append(taken, at)
				items = append(items, scene.Number(st.Step+1, at, pal)...)
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
func changes(k plan.Desk, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	node := func(i int) geom.Point { return v.ToScreen(k.Graph.Nodes[i]) }
	// A letter at a junction stands beside it, clear of the handles.
	besideNode := func(i int) geom.Point { return r2.Add(node(i), geom.Pt(18, -20)) }
	for i, c := range k.Reasons.Changes {
		var at []geom.Point
		switch c.Kind {
		case route.AddLine, route.AllowStop:
			ends := []geom.Point{node(c.From), node(c.To)}
			items = append(items, scene.Dashes(ends, 4, 4, 2.4, pal.Over)...)
			at = []geom.Point{geom.Lerp(ends[0], ends[1], 0.5)}
		case route.DropLine:
			path := scene.OnScreen(k.Graph.Edges[c.Edge].Path, v)
			items = append(items, scene.Dashes(path, 4, 4, 3.4, pal.Over)...)
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
			items = append(items, scene.Line(24, pal.Over, p), scene.Item{
				Shape: scene.Label, Text: plan.Letter(i), Points: []geom.Point{p}, Width: scene.LabelSize, Colour: pal.Cloth,
			})
		}
	}
	return items
}

// deskEnds are the handles of start and exit; their labels stay on the screen.
func deskEnds(k plan.Desk, v screen.View, screen screen.Cloth, pal look.Palette) []scene.Item {
	var items []scene.Item
	start, ok := k.PlaceOf(plan.StartHandle)
	if !ok {
		return nil
	}
	exit, _ := k.PlaceOf(plan.ExitHandle)
	s, e := v.ToScreen(start), v.ToScreen(exit)
	together := geom.Dist(s, e) < 2
	if !together {
		items = append(items,
			scene.Line(2*scene.StartRadius, pal.Cloth, e), scene.Ring(e, scene.StartRadius, 3, pal.Ink),
			scene.WithinScreen(scene.Text("Leave", scene.AwayFrom(e, s), pal.Ink), screen))
	}
	text, at := "Start", scene.AwayFrom(s, e)
	if together {
		text, at = "Start and leave", r2.Add(s, geom.Pt(0, -scene.StartRadius-14))
	}
	return append(items,
		scene.Line(2*scene.StartRadius, pal.Ink, s), scene.Ring(s, scene.StartRadius+4, 2, pal.Ink),
		scene.WithinScreen(scene.Text(text, at, pal.Ink), screen))
}
