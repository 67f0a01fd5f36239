package scene

import (
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// oddRadius is that of a ring round an odd junction, in CSS pixels.
const oddRadius = 8.0

// Marks are what is written on the route: start and exit, numbers, arrows where a direction
// is in doubt, and with the reasons odd junctions and what changes are about.
func (p Planned) Marks() []Item {
	var items []Item
	if p.Why || p.OnPaper {
		for _, o := range p.Desk.Reasons.Odd {
			items = append(items, Ring(p.View.ToScreen(p.Desk.Graph.Nodes[o.Junction]), oddRadius, 2, p.Palette.Long))
		}
	}
	p = p.measured()
	f := p.field()
	ends := p.ends(f)
	items = append(items, p.stops()...)
	items = append(items, p.numbers(f)...)
	if p.Why {
		items = append(items, p.changes()...)
	}
	return append(items, ends...)
}

// Ends are the handles of start and exit with their names.
func (p Planned) Ends() []Item { return p.ends(p.field()) }

// field knows where the lines run.
func (p Planned) field() *Field {
	f := NewField(InSight(p.Screen))
	for i, m := range p.Desk.Moves() {
		if !p.has(i) {
			continue
		}
		pts := OnScreen(m.Path, p.View)
		if m.Kind != steps.StopMove && m.AgainMM() > 0 {
			f.Run(Aside(pts, p.Width()+1.6))
		}
		f.Run(pts)
	}
	for _, e := range p.Desk.Graph.Edges {
		f.Run(OnScreen(e.Path, p.View))
	}
	return f
}

// ends are the handles of start and exit, their names where they hide nothing.
func (p Planned) ends(f *Field) []Item {
	k, pal, b := p.Desk, p.Palette, p.Book
	start, ok := k.PlaceOf(plan.StartHandle)
	if !ok {
		return nil
	}
	exit, _ := k.PlaceOf(plan.ExitHandle)
	if moves := k.Moves(); p.after > p.first {
		start = moves[p.first].Path[0]
		exit = moves[p.after-1].Path[len(moves[p.after-1].Path)-1]
	}
	s, e := p.View.ToScreen(start), p.View.ToScreen(exit)
	together := geom.Dist(s, e) < 2
	radius := StartRadius * markShare(p.View)
	f.Take(Around(s, 2*radius+8, 2*radius+8))
	items := []Item{Line(2*radius, pal.Ink, s), Ring(s, radius+4, 2, pal.Ink)}
	text := b.Say("route.start")
	if together {
		text = b.Say("route.start-and-leave")
	} else {
		f.Take(Around(e, 2*radius+4, 2*radius+4))
		items = append([]Item{Line(2*radius, pal.Cloth, e), Ring(e, radius, 3, pal.Ink)}, items...)
	}
	items = append(items, p.label(f, text, LabelSize, s, radius+12, 2*p.Screen.W)...)
	if !together {
		items = append(items, p.label(f, b.Say("route.leave"), LabelSize, e, radius+12, 2*p.Screen.W)...)
	}
	return items
}

// label writes a text beside a mark, below it or above, right or left, or where there is
// room.
func (p Planned) label(f *Field, text string, size float64, mark geom.Point, reach, most float64) []Item {
	w := WidthOf(text, size)
	var wanted []geom.Point
	for _, d := range sides {
		wanted = append(wanted, r2.Add(mark, geom.Pt(d.X*(reach+w/2), d.Y*(reach+size/2))))
	}
	at, thin, found := f.Place(w, size, mark, wanted, most)
	if !found {
		return nil
	}
	it := Text(text, at, p.Palette.Ink)
	it.Width = size
	return p.led(it, thin)
}

// led is a label with the thin line that leads to its mark, if there is one.
func (p Planned) led(it Item, thin []geom.Point) []Item {
	if thin == nil {
		return []Item{it}
	}
	return []Item{Line(1, p.Palette.Mute, thin...), Line(3.5, p.Palette.Ink, thin[1]), it}
}

// WidthOf returns how wide a label is at most; figures are 0.586 em wide.
func WidthOf(text string, size float64) float64 {
	if _, err := strconv.Atoi(text); err == nil {
		return 0.59 * size * float64(len(text))
	}
	return 1.1 * letterWide * size * float64(len([]rune(text)))
}

// changes marks what the proposed changes are about, with the letters they have in
// the list: a line to add or leave out, a junction to start or leave at.
func (p Planned) changes() []Item {
	k, v, pal := p.Desk, p.View, p.Palette
	var items []Item
	node := func(i int) geom.Point { return v.ToScreen(k.Graph.Nodes[i]) }
	// A letter at a junction stands beside it, clear of the handles.
	besideNode := func(i int) geom.Point { return r2.Add(node(i), geom.Pt(18, -20)) }
	for n, i := range p.Advised {
		c := k.Reasons.Changes[k.Offers[i].Change]
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
		for _, q := range at {
			items = append(items, Line(24, pal.Over, q), Item{
				Shape: Label, Text: plan.Letter(n), Points: []geom.Point{q}, Width: LabelSize, Colour: pal.Cloth,
			})
		}
	}
	return items
}
