package stage

import (
	"image/color"
	"math"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// topKey names what is on the table.
type topKey struct {
	quilt     string
	rev, gap  int
	back, own bool
	threads   int
	view      screen.View
	screen    screen.Cloth
	theme     look.Theme
	units     game.Units
	layer     string
}

// topPixel is how far in pixels a line on the top may be drawn from its place: below
// that the eye sees nothing, and a top has many thousands of points.
const topPixel = 0.35

// top brings the layers to the table: the pieces of cloth below, then the lines, then
// her own stitches, then the marks.
func (st *Stage) top(m game.Model, pal look.Palette) {
	d := m.Quilting
	if d.Top.Quilt.ID == "" {
		st.Blank(scene.ChalkLayer, game.QuiltPlan)
		return
	}
	key := topKey{
		quilt: d.Top.Quilt.ID, rev: d.Top.Rev, gap: d.Gap, back: d.Back, own: d.Own, threads: len(d.Threads),
		view: m.View, screen: m.Screen, theme: m.Theme(), units: m.Settings.Units,
	}
	at := func(layer string) topKey {
		k := key
		k.layer = layer
		return k
	}
	st.Renew(scene.ChalkLayer, at("pieces"), func() []scene.Item { return pieces(m, pal) })
	st.Renew(scene.StripLayer, at("lines"), func() []scene.Item { return topLines(m, pal) })
	st.Renew(scene.OverLayer, at("stitches"), func() []scene.Item { return ownStitches(m, pal) })
	st.Renew(scene.ThreadLayer, at("marks"), func() []scene.Item { return topMarks(m, pal) })
}

// pieces are the places of the top as pieces of cloth: blocks lie on the cloth as it
// is, what frames them is a little darker, alternate blocks between the two. From far
// off the seams are hardly seen.
func pieces(m game.Model, pal look.Palette) []scene.Item {
	var items []scene.Item
	seam, width := pal.Mute, 1.2
	if m.Quilting.Back {
		seam, width = scene.Mix(pal.Cloth, pal.Line, 0.8), 1
	}
	cells := m.Quilting.Top.Laying.Cells
	for _, c := range cells {
		if outline := scene.OnScreen(c.Outline(), m.View); onCloth(outline, m.Screen) {
			items = append(items, scene.Item{Shape: scene.Fill, Points: outline[:len(outline)-1], Colour: pieceTint(c.Kind, pal)})
		}
	}
	for _, c := range cells {
		if outline := scene.OnScreen(c.Outline(), m.View); onCloth(outline, m.Screen) {
			items = append(items, scene.Line(width, seam, outline...))
		}
	}
	return append(items, scene.Line(2.4, pal.Ink, scene.OnScreen(m.Quilting.Top.Outline(), m.View)...))
}

func pieceTint(k quilt.Kind, pal look.Palette) color.NRGBA {
	switch k {
	case quilt.Block:
		return scene.Mix(pal.Cloth, pal.Paper, 0.7)
	case quilt.Alternate:
		return scene.Mix(pal.Cloth, pal.Paper, 0.2)
	case quilt.Strip:
		return scene.Mix(pal.Cloth, pal.Line, 0.35)
	}
	return scene.Mix(pal.Cloth, pal.Line, 0.55)
}

// onCloth tells whether some of a shape's box is on the screen.
func onCloth(pts []geom.Point, s screen.Cloth) bool {
	lo, hi := geom.Polyline(pts).Bounds()
	return lo.X < s.W && hi.X > 0 && lo.Y < s.H && hi.Y > 0
}

// topLines are the ideal lines of all designs in their places. A work is thinned once
// for the size at which it is shown, however many places it lies in; where her own
// stitches are seen its lines are left out.
func topLines(m game.Model, pal look.Palette) []scene.Item {
	d := m.Quilting
	var items []scene.Item
	// A line keeps to the size of the top, within what is seen well.
	width := math.Max(1.1, math.Min(2.2, 3*m.View.Scale))
	if d.Back {
		width = 1.1
	}
	thinned := make([][]geom.Polyline, len(d.Top.Laying.Works))
	for _, p := range d.Top.Laying.Placed {
		w := d.Top.Laying.Works[p.Work]
		outline := scene.OnScreen(d.Top.Laying.Cells[p.Cell].Outline(), m.View)
		if _, own := d.Threads[w.Design.ID]; !onCloth(outline, m.Screen) || own && d.Back && d.Own && w.Own {
			continue
		}
		if thinned[p.Work] == nil {
			thinned[p.Work] = thin(w.Pieces, topPixel/(m.View.Scale*p.Where.Scale))
		}
		for _, path := range thinned[p.Work] {
			items = append(items, scene.Line(width, pal.Chalk, scene.OnScreen(p.Where.Path(path), m.View)...))
		}
	}
	return items
}

// thin returns the lines to be sewn, each within tol mm.
func thin(all []motif.Piece, tol float64) []geom.Polyline {
	out := []geom.Polyline{}
	for _, p := range all {
		if !p.Seam {
			out = append(out, p.Path.Thinned(tol))
		}
	}
	return out
}

// ownStitches are her own traces in every place in which their design lies as it is.
func ownStitches(m game.Model, pal look.Palette) []scene.Item {
	d := m.Quilting
	if !d.Back || !d.Own {
		return nil
	}
	var items []scene.Item
	for _, id := range d.Top.OwnDesigns() {
		own := d.Threads[id]
		for _, p := range d.Top.Laying.Placements(id) {
			if !onCloth(scene.OnScreen(d.Top.Laying.Cells[p.Cell].Outline(), m.View), m.Screen) {
				continue
			}
			for _, path := range own.Paths {
				path = path.Thinned(topPixel / (m.View.Scale * p.Where.Scale))
				items = append(items, scene.Line(math.Max(1.2, 0.4*m.View.Scale), pal.Thread, scene.OnScreen(p.Where.Path(path), m.View)...))
			}
		}
	}
	return items
}
