package machine

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/place"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/plane"
)

// seenKey names what is shown at the machine.
type seenKey struct {
	plan        string
	rev, desk   int
	book        words.Book
	spm, stitch float64
	view        screen.View
	screen      screen.Cloth
	theme       look.Theme
	proof       *image.RGBA
}

// Scene is as place.Room has it: one picture for each topic.
func (r Room) Scene(st *scene.Layers) scene.List {
	k := seenKey{
		r.bench.Plan.ID, r.bench.Rev, r.Desk.Rev, r.Book(),
		r.Settings.SPM, r.Settings.StitchMM, r.view, r.Screen, r.Theme(), r.proofSeen(),
	}
	st.Renew(scene.ChalkLayer, k, r.items)
	st.Blank(scene.StripLayer, place.Machine)
	return st.List(r.Screen, geom.Point{})
}

func (r Room) items() []scene.Item {
	if len(r.topics()) == 0 {
		return nil
	}
	pal := r.Palette()
	switch r.topic() {
	case bench.FootTopic:
		return r.footItems(pal)
	case bench.SpeedTopic:
		return r.speedItems(pal)
	case bench.ThreadTopic:
		if _, wanted := r.proofWanted(); !wanted {
			return r.bobbinItems(pal)
		}
	case bench.ThroatTopic:
		return r.throatItems(pal)
	case bench.MarksTopic:
		return r.markItems(pal)
	case bench.CheckTopic:
		return r.careItems(pal)
	}
	if _, wanted := r.proofWanted(); !wanted {
		return r.lineWork(2.4, pal.Chalk, pal)
	}
	return r.proofItems(pal)
}

// lineWork is the drawing without the order in which it is sewn: seams dotted, lines
// to be sewn full.
func (r Room) lineWork(width float64, c color.NRGBA, pal look.Palette) []scene.Item {
	var items []scene.Item
	for _, e := range r.Desk.Graph.Edges {
		path := scene.OnScreen(e.Path, r.view)
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
func (r Room) footItems(pal look.Palette) []scene.Item {
	items := r.lineWork(2.4, pal.Chalk, pal)
	p := r.bench.Plan
	b, bends := p.Tightest()
	if !bends {
		return append(items, scene.Spoken(r.Book().Say("machine.seen.no-curve"), geom.Pt(r.Screen.W/2, 24), r.Screen, pal)...)
	}
	q, radius := r.view.ToScreen(b.At), machine.GentleRadius*r.view.Scale
	side := geom.Pt(-b.Along.Y, b.Along.X)
	if !b.Right {
		side = r2.Scale(-1, side)
	}
	// A fifth of the circle each way, or less where that would leave the cloth.
	reach := math.Min(math.Pi/5, 160/radius)
	from := math.Atan2(-side.Y, -side.X)
	arc := geom.Arc(r2.Add(q, r2.Scale(radius, side)), radius, from-reach, from+reach)
	items = append(items, scene.Dashes(arc, 9, 6, 3.2, pal.Ink)...)
	items = append(items, scene.Line(16, pal.Cloth, q), scene.Ring(q, 9, 3, pal.Long), scene.Line(6, pal.Long, q))
	legend := []string{
		r.Book().Say("machine.seen.tightest", words.LengthMM(p.Figures.SmallestRadius)),
		r.Book().Say("machine.seen.gentle", words.LengthMM(machine.GentleRadius)),
	}
	for i, text := range legend {
		l := scene.Text(text, geom.Pt(20, r.Screen.H-46+24*float64(i)), pal.Ink)
		l.Align = scene.Left
		items = append(items, l)
	}
	return items
}

// bobbinItems show the route with the places where the bobbin is to be changed.
func (r Room) bobbinItems(pal look.Palette) []scene.Item {
	items := r.lineWork(scene.RouteWidth, pal.Thread, pal)
	f, err := r.bench.Bobbins(r.Settings.StitchMM)
	if err != nil {
		return items
	}
	// The first on top: it is the one that matters now.
	for i := len(f.Due) - 1; i >= 0; i-- {
		q := r.view.ToScreen(r.bench.Plan.At(f.Due[i].At))
		items = append(items, bobbin(q, i+1, pal)...)
	}
	if len(f.Due) > 0 {
		q := r.view.ToScreen(r.bench.Plan.At(f.Due[0].At))
		items = append(items, scene.Spoken(r.Book().Say("machine.seen.bobbin", r.bench.Plan.Row, f.Due[0].Time), r2.Add(q, geom.Pt(0, 36)), r.Screen, pal)...)
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
