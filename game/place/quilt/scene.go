package quilt

import (
	"image/color"
	"math"

	"unthreaded/game/look"
	"unthreaded/game/place"
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
	units     place.Units
	layer     string
}

// topPixel is how far in pixels a line on the top may be drawn from its place: below
// that the eye sees nothing, and a top has many thousands of points.
const topPixel = 0.35

// reliefPixel is the same for the puckers beside a line.
const reliefPixel = 1.0

// Scene draws the table: the pieces of cloth below, then the lines, then her own stitches,
// then the marks.
func (r Room) Scene(st *scene.Layers) scene.List {
	if r.Top.Quilt.ID == "" {
		st.Blank(scene.ChalkLayer, place.QuiltPlan)
		return st.List(r.Screen, geom.Point{})
	}
	pal := r.Palette()
	at := func(layer string) topKey {
		return topKey{
			quilt: r.Top.Quilt.ID, rev: r.Top.Rev, gap: r.Gap, back: r.Away.Back, own: r.Away.Own, threads: len(r.Away.Threads),
			view: r.View, screen: r.Screen, theme: r.Theme(), units: r.Settings.Units, layer: layer,
		}
	}
	st.Renew(scene.ChalkLayer, at("pieces"), func() []scene.Item { return pieces(r, pal) })
	st.Renew(scene.StripLayer, at("lines"), func() []scene.Item { return topLines(r, pal) })
	st.Renew(scene.OverLayer, at("stitches"), func() []scene.Item { return ownStitches(r, pal) })
	st.Renew(scene.ThreadLayer, at("marks"), func() []scene.Item { return topMarks(r, pal) })
	return st.List(r.Screen, geom.Point{})
}

// pieces are the places of the top as pieces of cloth: blocks lie on the cloth as it
// is, what frames them is a little darker, alternate blocks between the two. From far
// off the seams are hardly seen.
func pieces(r Room, pal look.Palette) []scene.Item {
	items := scene.Shadow(scene.OnScreen(r.Top.Outline(), r.View), pal)
	seam, width := pal.Mute, 1.2
	if r.Away.Back {
		seam, width = scene.Mix(pal.Cloth, pal.Line, 0.8), 1
	}
	cells := r.Top.Laying.Cells
	for _, c := range cells {
		if outline := scene.OnScreen(c.Outline(), r.View); onCloth(outline, r.Screen) {
			items = append(items, scene.Item{Shape: scene.Fill, Points: outline[:len(outline)-1], Colour: pieceTint(c.Kind, pal)})
		}
	}
	if r.Away.Back {
		lo, hi := geom.Polyline(scene.OnScreen(r.Top.Outline(), r.View)).Bounds()
		items = append(items, scene.Relief(lo, hi, sewnLines(r), r.View.Scale, pal)...)
	}
	for _, c := range cells {
		if outline := scene.OnScreen(c.Outline(), r.View); onCloth(outline, r.Screen) {
			items = append(items, scene.Line(width, seam, outline...))
		}
	}
	return append(items, scene.Line(2.4, pal.Ink, scene.OnScreen(r.Top.Outline(), r.View)...))
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
func topLines(r Room, pal look.Palette) []scene.Item {
	var items []scene.Item
	// A line keeps to the size of the top, within what is seen well.
	width := math.Max(1.1, math.Min(2.2, 3*r.View.Scale))
	chalk := pal.Chalk
	if r.Away.Back {
		width, chalk = 1.1, awayChalk(pal)
	}
	thinned := make([][]geom.Polyline, len(r.Top.Laying.Works))
	for _, p := range r.Top.Laying.Placed {
		w := r.Top.Laying.Works[p.Work]
		outline := scene.OnScreen(r.Top.Laying.Cells[p.Cell].Outline(), r.View)
		if _, own := r.Away.Threads[w.Design.ID]; !onCloth(outline, r.Screen) || own && r.Away.Back && r.Away.Own && w.Own {
			continue
		}
		if thinned[p.Work] == nil {
			thinned[p.Work] = thin(w.Pieces, topPixel/(r.View.Scale*p.Where.Scale))
		}
		for _, path := range thinned[p.Work] {
			items = append(items, scene.Line(width, chalk, scene.OnScreen(p.Where.Path(path), r.View)...))
		}
	}
	for _, o := range r.Top.Laying.Overs {
		if onCloth(scene.OnScreen(o.Cell.Outline(), r.View), r.Screen) {
			for _, path := range thin(o.Pieces, topPixel/r.View.Scale) {
				items = append(items, scene.Line(width, chalk, scene.OnScreen(o.Cell.Where.Path(path), r.View)...))
			}
		}
	}
	return items
}

// awayChalk is the colour of the lines from some way off: nearer to ink, since light and shade
// of the relief lie under them.
func awayChalk(pal look.Palette) color.NRGBA { return scene.Mix(pal.Chalk, pal.Ink, 0.25) }

// sewnLines are the lines of all designs in their places on the screen, as far as the eye can
// tell from some way off.
func sewnLines(r Room) [][]geom.Point {
	var out [][]geom.Point
	for _, p := range r.Top.Laying.Placed {
		for _, path := range thin(r.Top.Laying.Works[p.Work].Pieces, reliefPixel/(r.View.Scale*p.Where.Scale)) {
			out = append(out, scene.OnScreen(p.Where.Path(path), r.View))
		}
	}
	for _, o := range r.Top.Laying.Overs {
		for _, path := range thin(o.Pieces, reliefPixel/r.View.Scale) {
			out = append(out, scene.OnScreen(o.Cell.Where.Path(path), r.View))
		}
	}
	return out
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
func ownStitches(r Room, pal look.Palette) []scene.Item {
	if !r.Away.Back || !r.Away.Own {
		return nil
	}
	var items []scene.Item
	for _, id := range r.Top.OwnDesigns() {
		own := r.Away.Threads[id]
		for _, p := range r.Top.Laying.Placements(id) {
			if !onCloth(scene.OnScreen(r.Top.Laying.Cells[p.Cell].Outline(), r.View), r.Screen) {
				continue
			}
			for _, path := range own.Paths {
				path = path.Thinned(topPixel / (r.View.Scale * p.Where.Scale))
				items = append(items, scene.Line(math.Max(1.2, 0.4*r.View.Scale), pal.Thread, scene.OnScreen(p.Where.Path(path), r.View)...))
			}
		}
	}
	return items
}
