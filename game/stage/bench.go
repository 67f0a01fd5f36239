package stage

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/bench"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
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
	view        screen.View
	screen      screen.Cloth
	theme       look.Theme
	proof       *image.RGBA
}

// bench brings the layers to the place: one picture for each topic.
func (st *Stage) bench(m game.Model, pal look.Palette) {
	k := benchKey{
		m.Bench.Plan.ID, m.Bench.Rev, m.Desk.Rev, m.Settings.Units == game.Inches,
		m.Settings.SPM, m.Settings.StitchMM, m.View, m.Screen, m.Theme(), m.ProofSeen(),
	}
	st.Renew(scene.ChalkLayer, k, func() []scene.Item { return benchItems(m, pal) })
	st.Blank(scene.StripLayer, game.Machine)
}

func benchItems(m game.Model, pal look.Palette) []scene.Item {
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
	return proofItems(m, pal)
}

// lineWork is the drawing without the order in which it is sewn: seams dotted, lines
// to be sewn full.
func lineWork(m game.Model, width float64, c color.NRGBA, pal look.Palette) []scene.Item {
	var items []scene.Item
	for _, e := range m.Desk.Graph.Edges {
		path := scene.OnScreen(e.Path, m.View)
		if e.Kind == plane.Seam {
			items = append(items, scene.Dashes(path, 2, 6, 2, pal.Mute)...)
			continue
		}
		items = append(items, scene.Line(width, c, path...))
	}
	return items
}

// footItems show what the choice of the foot rests on: the tightest curve, and from
// there the way that fed cloth would take at its tightest.
func footItems(m game.Model, pal look.Palette) []scene.Item {
	items := lineWork(m, 2.4, pal.Chalk, pal)
	p, inches := m.Bench.Plan, m.Settings.Units == game.Inches
	b, bends := p.Tightest()
	if !bends {
		return append(items, scene.Spoken("No curve here: straight lines and corners", geom.Pt(m.Screen.W/2, 24), m.Screen, pal)...)
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
	items = append(items, scene.Dashes(arc, 9, 6, 3.2, pal.Ink)...)
	items = append(items, scene.Line(16, pal.Cloth, q), scene.Ring(q, 9, 3, pal.Long), scene.Line(6, pal.Long, q))
	legend := []string{
		"Ringed: the tightest curve, radius " + words.Length(p.Figures.SmallestRadius, inches),
		"Broken: as tight as fed cloth follows easily, radius " + words.Length(machine.GentleRadius, inches),
	}
	for i, text := range legend {
		l := scene.Text(text, geom.Pt(20, m.Screen.H-46+24*float64(i)), pal.Ink)
		l.Align = scene.Left
		items = append(items, l)
	}
	return items
}

// bobbinItems show the route with the places where the bobbin is to be changed.
func bobbinItems(m game.Model, pal look.Palette) []scene.Item {
	items := lineWork(m, scene.RouteWidth, pal.Thread, pal)
	f, err := m.Bench.Bobbins(m.Settings.StitchMM)
	if err != nil {
		return items
	}
	once := "block"
	if m.Bench.Plan.Row {
		once = "row"
	}
	// The first on top: it is the one that matters now.
	for i := len(f.Due) - 1; i >= 0; i-- {
		q := m.View.ToScreen(m.Bench.Plan.At(f.Due[i].At))
		items = append(items, bobbin(q, i+1, pal)...)
	}
	if len(f.Due) > 0 {
		q := m.View.ToScreen(m.Bench.Plan.At(f.Due[0].At))
		items = append(items, scene.Spoken(fmt.Sprintf("Next bobbin: %s %d", once, f.Due[0].Time), r2.Add(q, geom.Pt(0, 36)), m.Screen, pal)...)
	}
	return items
}

// bobbin is a bobbin as seen from above, with the number that it has in the list.
func bobbin(q geom.Point, n int, pal look.Palette) []scene.Item {
	l := scene.Text(fmt.Sprint(n), q, pal.Ink)
	return []scene.Item{
		scene.Line(42, pal.Cloth, q), scene.Ring(q, 19, 2.5, pal.Ink), scene.Ring(q, 15, 2, pal.Thread), scene.Ring(q, 11.5, 2, pal.Thread), l,
	}
}
