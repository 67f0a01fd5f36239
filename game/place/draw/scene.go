package draw

import (
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/place/draw/board"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// boardKey names what is on the board.
type boardKey struct {
	design string
	rev    int
	view   screen.View
	screen screen.Cloth
	theme  look.Theme
	edge   bool
	side   sketch.Side
	markOn string
	foot   float64
	layer  string
}

// Scene draws the board: the photo and the block below, then the lines, then what can be
// taken hold of, then what is in hand.
func (r Room) Scene(st *scene.Layers) scene.List {
	b, v, pal := r.Board, r.View, r.Palette()
	at := func(layer string) boardKey {
		return boardKey{
			design: b.Design.ID, rev: b.Rev, view: v, screen: r.Screen, theme: r.Theme(),
			edge: r.Ruler.Edge, side: r.Ruler.Side, markOn: r.Ruler.MarkOn, foot: r.Settings.FootMM, layer: layer,
		}
	}
	st.Renew(scene.ChalkLayer, at("block"), func() []scene.Item { return append(photo(b, v), block(b, v, pal)...) })
	st.Renew(scene.StripLayer, at("lines"), func() []scene.Item { return drawn(b, v, pal) })
	st.Renew(scene.OverLayer, at("holds"), func() []scene.Item { return slices.Concat(r.rulerEdges(pal), r.sides(pal), holds(b, v, pal)) })
	st.Renew(scene.ThreadLayer, at("nothing"), func() []scene.Item { return nil })
	st.Moving = append(st.Moving, inHand(b, v, pal)...)
	return st.List(r.Screen, geom.Point{})
}

// photo is the photo under the block, dimmed.
func photo(b board.Board, v screen.View) []scene.Item {
	p := b.Design.Photo
	if p == nil || !p.Shown || b.Photo.Under == nil {
		return nil
	}
	share := p.Strength
	if b.Cornering() {
		share = 1
	}
	return []scene.Item{{
		Shape: scene.Picture, Image: b.Photo.Under, Width: share,
		Points: []geom.Point{v.ToScreen(b.Photo.Lo), v.ToScreen(b.Photo.Hi)},
	}}
}

// block is the outline of the block and its seams.
func block(b board.Board, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	for _, p := range b.Design.Shape.OutlinePieces() {
		items = append(items, scene.Line(1.6, pal.Mute, scene.OnScreen(p.Path, v)...))
	}
	for _, p := range b.Work {
		if p.Seam {
			items = append(items, scene.Dashes(scene.OnScreen(p.Path, v), 2, 6, 2, pal.Mute)...)
		}
	}
	return items
}

// drawn is what is sewn: the ready motif and the drawn lines, in chalk; the lines
// chosen are heavier and in the thread's colour.
func drawn(b board.Board, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	ready := len(b.Work) - len(b.Design.Lines)
	for i, p := range b.Work {
		if p.Seam && i < ready {
			continue
		}
		n := i - ready
		chosen := n >= 0 && (b.Chosen == n || b.Chosen == board.All)
		items = append(items, workLine(p, chosen, v, pal)...)
	}
	return items
}

func workLine(p motif.Piece, chosen bool, v screen.View, pal look.Palette) []scene.Item {
	path := scene.OnScreen(p.Path, v)
	switch {
	case p.Seam && chosen:
		return scene.Dashes(path, 2, 6, 3.4, pal.Thread)
	case p.Seam:
		return scene.Dashes(path, 2, 6, 2, pal.Mute)
	case chosen:
		return []scene.Item{scene.Line(3.2, pal.Thread, path...)}
	case p.Ruler:
		return []scene.Item{scene.Line(1.6, pal.Chalk, path...)}
	}
	return []scene.Item{scene.Line(2.2, pal.Chalk, path...)}
}

// inside is how far in CSS pixels the number of a side stands from it.
const inside = 16.0

// sides are the numbers of the block's sides while the marking list speaks of them, and the
// side that it is for.
func (r Room) sides(pal look.Palette) []scene.Item {
	of, line := quilt.MarkPlace(r.Ruler.MarkOn)
	pieces := r.Board.Design.Shape.OutlinePieces()
	if line != "" || r.Board.Design.Shape.Kind == motif.Circle || of == 0 && r.Board.MarkOn(r.Ruler.MarkOn).Count == 0 {
		return nil
	}
	of = max(of, 1) // of every side the list is for the first
	var items []scene.Item
	var taken []geom.Point
	for i, p := range pieces {
		l, err := geom.NewLine(geom.Polyline(scene.OnScreen(p.Path, r.View)))
		if err != nil {
			continue
		}
		c := pal.Mute
		if i+1 == of {
			c = pal.Ink
			items = append(items, scene.Line(3.2, pal.Thread, l.Path()...))
		}
		at := besideSide(l, taken)
		taken = append(taken, at)
		items = append(items, scene.Line(20, pal.Cloth, at), scene.Text(strconv.Itoa(i+1), at, c))
	}
	return items
}

// besideSide is the place of a side's number: within the block beside its middle, or where
// other numbers stand there, as across a narrow strip, farther along it.
func besideSide(l geom.Line, taken []geom.Point) geom.Point {
	const apart = 20.0 // CSS pixels, as wide as a number's ground
	var at geom.Point
	for _, share := range []float64{0.5, 0.38, 0.62, 0.25, 0.75} {
		s := share * l.Length()
		u := l.Tangent(s)
		at = r2.Add(l.At(s), geom.Pt(-inside*u.Y, inside*u.X)) // clockwise to the eye: inwards is to the right
		if !slices.ContainsFunc(taken, func(q geom.Point) bool { return geom.Dist(at, q) < apart }) {
			break
		}
	}
	return at
}

// holds are the dots of the block, and the points and handles of the line chosen.
func holds(b board.Board, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	for _, p := range b.Dots {
		at := v.ToScreen(p)
		items = append(items, scene.Line(9, pal.Cloth, at), scene.Line(6, pal.Ink, at))
	}
	if b.Chosen >= 0 {
		items = append(items, points(b.Design.Lines[b.Chosen], b.Node, v, pal)...)
	}
	if b.Cornering() {
		items = append(items, corners(b, v, pal)...)
	}
	return items
}

// corners are the four corners of the photo that are dragged to those of the block.
func corners(b board.Board, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	places := b.PhotoCorners()
	for i, p := range places {
		q := v.ToScreen(places[(i+1)%4])
		at := v.ToScreen(p)
		items = append(items, scene.Line(4, pal.Cloth, at, q), scene.Line(2, pal.Thread, at, q))
	}
	for i, p := range places {
		at := v.ToScreen(p)
		items = append(items, scene.Line(26, pal.Cloth, at), scene.Ring(at, 11, 2.4, pal.Thread))
		items = append(items, scene.Text([]string{"1", "2", "3", "4"}[i], at, pal.Ink))
	}
	return items
}

// rulerEdges are the edges of the ruler beside the ruler lines.
func (r Room) rulerEdges(pal look.Palette) []scene.Item {
	if !r.Ruler.Edge {
		return nil
	}
	var items []scene.Item
	b := r.Board
	draw := func(path geom.Spline) {
		edges, err := sketch.RulerEdges(path, r.Settings.FootMM, r.Ruler.Side)
		if err != nil {
			return
		}
		for _, e := range edges {
			if !e.NoRoom {
				ends := []geom.Point{r.View.ToScreen(e.From), r.View.ToScreen(e.To)}
				items = append(items, scene.Dashes(ends, 12, 4, 2, pal.Short)...)
			}
		}
	}
	for _, p := range b.Work[:len(b.Work)-len(b.Design.Lines)] {
		if p.Ruler {
			draw(geom.Straight(p.Path))
		}
	}
	for _, l := range b.Design.Lines {
		if l.Kind == string(plane.Ruler) {
			draw(l.Path)
		}
	}
	return items
}

// inHand is the stroke or the ruler line in hand, and the keyboard's cross.
func inHand(b board.Board, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	if len(b.Stroke) > 0 {
		items = append(items, scene.Line(scene.InkWidth, pal.Thread, scene.OnScreen(b.Stroke, v)...))
	}
	if n := len(b.Chain); n > 0 {
		chain := scene.OnScreen(b.Chain, v)
		items = append(items, scene.Line(2.2, pal.Thread, chain...))
		items = append(items, scene.Dashes([]geom.Point{chain[n-1], v.ToScreen(b.At)}, 6, 5, 2, pal.Thread)...)
		for _, at := range chain {
			items = append(items, scene.Line(8, pal.Thread, at))
		}
	}
	if b.Cross {
		at := v.ToScreen(b.At)
		for _, arm := range []geom.Point{{X: 14}, {Y: 14}} {
			items = append(items, scene.Line(4, pal.Cloth, r2.Sub(at, arm), r2.Add(at, arm)), scene.Line(2, pal.Ink, r2.Sub(at, arm), r2.Add(at, arm)))
		}
		items = append(items, scene.Ring(at, 8, 2, pal.Thread))
	}
	return items
}
