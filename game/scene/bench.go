package scene

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/bench"
	"unthreaded/game/look"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/plane"
)

// benchKey names what is shown at the machine.
type benchKey struct {
	plan        string
	rev, desk   int
	inches      bool
	spm, stitch float64
	view        game.View
	screen      game.Resized
	theme       look.Theme
}

// bench brings the layers to the place: one picture for each topic.
func (st *Stage) bench(m game.Model, pal look.Palette) {
	k := benchKey{
		m.Bench.Plan.ID, m.Bench.Rev, m.Desk.Rev, m.Settings.Units == game.Inches,
		m.Settings.SPM, m.Settings.StitchMM, m.View, m.Screen, m.Theme(),
	}
	st.renew(chalkLayer, k, func() []Item { return benchItems(m, pal) })
	st.blank(stripLayer, game.Machine)
}

func benchItems(m game.Model, pal look.Palette) []Item {
	if m.Bench.Trouble != "" || m.Bench.Plan.ID == "" {
		return nil
	}
	switch m.Bench.Topic {
	case bench.FootTopic:
		return footItems(m, pal)
	case bench.SpeedTopic:
		return speedItems(m, pal)
	case bench.ThreadTopic:
		return bobbinItems(m, pal)
	case bench.ThroatTopic:
		return throatItems(m, pal)
	case bench.MarksTopic:
		return markItems(m, pal)
	case bench.CheckTopic:
		return careItems(m, pal)
	}
	return Route(m.Desk, 0, len(m.Desk.Route().Steps), m.View, m.Screen, pal)
}

// lineWork is the drawing without the order in which it is sewn: seams dotted, lines
// to be sewn full.
func lineWork(m game.Model, width float64, c color.NRGBA, pal look.Palette) []Item {
	var items []Item
	for _, e := range m.Desk.Graph.Edges {
		path := onScreen(e.Path, m.View)
		if e.Kind == plane.Seam {
			items = append(items, dashes(path, 2, 6, 2, pal.Mute)...)
			continue
		}
		items = append(items, line(width, c, path...))
	}
	return items
}

// footItems show what the choice of the foot rests on: the tightest curve, and from
// there the way that fed cloth would take at its tightest.
func footItems(m game.Model, pal look.Palette) []Item {
	items := lineWork(m, 2.4, pal.Chalk, pal)
	p, inches := m.Bench.Plan, m.Settings.Units == game.Inches
	b, bends := p.Tightest()
	if !bends {
		return append(items, said("No curve here: straight lines and corners", geom.Pt(m.Screen.W/2, 24), m.Screen, pal)...)
	}
	q, r := m.View.ToScreen(b.At), machine.GentleRadius*m.View.Scale
	side := geom.Pt(-b.Along.Y, b.Along.X)
	if !b.Right {
		side = r2.Scale(-1, side)
	}
	// A fifth of the circle each way, or less where that would leave the cloth.
	reach := math.Min(math.Pi/5, 160/r)
	from := math.Atan2(-side.Y, -side.X)
	arc := geom.Arc(r2.Add(q, r2.Scale(r, side)), r, from-reach, from+reach)
	items = append(items, dashes(arc, 9, 6, 3.2, pal.Ink)...)
	items = append(items, line(16, pal.Cloth, q), ring(q, 9, 3, pal.Long), line(6, pal.Long, q))
	legend := []string{
		"Ringed: the tightest curve, radius " + words.Length(p.Figures.SmallestRadius, inches),
		"Broken: as tight as fed cloth follows easily, radius " + words.Length(machine.GentleRadius, inches),
	}
	for i, text := range legend {
		l := label(text, geom.Pt(20, m.Screen.H-46+24*float64(i)), pal.Ink)
		l.Align = Left
		items = append(items, l)
	}
	return items
}

// said is a label on a ground of cloth that stays on the screen.
func said(text string, at geom.Point, screen game.Resized, pal look.Palette) []Item {
	l := onTheScreen(label(text, at, pal.Ink), screen)
	p, half := l.Points[0], 0.22*labelSize*float64(len(text))
	return []Item{line(22, pal.Cloth, geom.Pt(p.X-half, p.Y), geom.Pt(p.X+half, p.Y)), l}
}

// bobbinItems show the route with the places where the bobbin is to be changed.
func bobbinItems(m game.Model, pal look.Palette) []Item {
	items := lineWork(m, threadWidth, pal.Thread, pal)
	f, err := m.Bench.Bobbins(m.Settings.StitchMM)
	if err != nil {
		return items
	}
	for _, g := range dueGroups(m, f) {
		q := m.View.ToScreen(g.at)
		items = append(items, bobbin(q, pal)...)
		items = append(items, said(g.text, r2.Add(q, geom.Pt(0, 34)), m.Screen, pal)...)
	}
	return items
}

// dueGroup are changes of the bobbin at one place on the plan.
type dueGroup struct {
	at   geom.Point
	text string
}

// dueGroups gathers the changes that fall on one place, as one mark each.
func dueGroups(m game.Model, f bench.Bobbins) []dueGroup {
	once := "block"
	if m.Bench.Plan.Row {
		once = "row"
	}
	var out []dueGroup
next:
	for i, d := range f.Due {
		at := m.Bench.Plan.At(d.At)
		text := fmt.Sprintf("bobbin %d in %s %d", i+2, once, d.Time)
		for k := range out {
			if geom.Dist(out[k].at, at)*m.View.Scale < 40 {
				out[k].text += ", " + text
				continue next
			}
		}
		out = append(out, dueGroup{at, "Put in " + text})
	}
	return out
}

// bobbin is a bobbin as seen from above.
func bobbin(q geom.Point, pal look.Palette) []Item {
	return []Item{
		line(36, pal.Cloth, q), ring(q, 16, 2.5, pal.Ink), ring(q, 11, 2, pal.Thread), ring(q, 7.5, 2, pal.Thread), line(7, pal.Ink, q),
	}
}
