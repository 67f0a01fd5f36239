package scene

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/board"
	"unthreaded/game/look"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/sketch"
)

// boardKey names what is on the board.
type boardKey struct {
	design string
	rev    int
	view   game.View
	screen game.Resized
	theme  look.Theme
	edge   bool
	side   sketch.Side
	foot   float64
	layer  string
}

// board brings the layers to the board: the photo and the block below, then the
// lines, then what can be taken hold of, then what is in hand.
func (st *Stage) board(m game.Model, pal look.Palette) {
	d := m.Drawing
	key := boardKey{
		design: d.Board.Design.ID, rev: d.Board.Rev, view: m.View, screen: m.Screen, theme: m.Theme(),
		edge: d.Edge, side: d.EdgeSide, foot: m.Settings.FootMM,
	}
	at := func(layer string) boardKey {
		k := key
		k.layer = layer
		return k
	}
	st.renew(chalkLayer, at("block"), func() []Item { return append(photo(d.Board, m.View), block(d.Board, m.View, pal)...) })
	st.renew(stripLayer, at("lines"), func() []Item { return drawn(d.Board, m.View, pal) })
	st.renew(overLayer, at("holds"), func() []Item {
		return append(rulerEdges(m, pal), holds(d.Board, m.View, pal)...)
	})
	st.renew(threadLayer, at("nothing"), func() []Item { return nil })
	st.moving = append(st.moving, inHand(d.Board, m.View, pal)...)
}

// photo is the photo under the block, dimmed.
func photo(b board.Board, v game.View) []Item {
	p := b.Design.Photo
	if p == nil || !p.Shown || b.Photo.Under == nil {
		return nil
	}
	share := p.Strength
	if b.Cornering() {
		share = 1
	}
	return []Item{{
		Shape: Picture, Image: b.Photo.Under, Width: share,
		Points: []geom.Point{v.ToScreen(b.Photo.Lo), v.ToScreen(b.Photo.Hi)},
	}}
}

// block is the outline of the block and its seams.
func block(b board.Board, v game.View, pal look.Palette) []Item {
	var items []Item
	for _, p := range b.Design.Shape.OutlinePieces() {
		items = append(items, line(1.6, pal.Mute, onScreen(p.Path, v)...))
	}
	for _, p := range b.Work {
		if p.Seam {
			items = append(items, dashes(onScreen(p.Path, v), 2, 6, 2, pal.Mute)...)
		}
	}
	return items
}

// drawn is what is sewn: the ready motif and the drawn lines, in chalk; the lines
// chosen are heavier and in the thread's colour.
func drawn(b board.Board, v game.View, pal look.Palette) []Item {
	var items []Item
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

func workLine(p motif.Piece, chosen bool, v game.View, pal look.Palette) []Item {
	path := onScreen(p.Path, v)
	switch {
	case p.Seam && chosen:
		return dashes(path, 2, 6, 3.4, pal.Thread)
	case p.Seam:
		return dashes(path, 2, 6, 2, pal.Mute)
	case chosen:
		return []Item{line(3.2, pal.Thread, path...)}
	case p.Ruler:
		return []Item{line(1.6, pal.Chalk, path...)}
	}
	return []Item{line(2.2, pal.Chalk, path...)}
}

// holds are the dots of the block, and the points and handles of the line chosen.
func holds(b board.Board, v game.View, pal look.Palette) []Item {
	var items []Item
	for _, p := range b.Dots {
		at := v.ToScreen(p)
		items = append(items, line(9, pal.Cloth, at), line(6, pal.Ink, at))
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
func corners(b board.Board, v game.View, pal look.Palette) []Item {
	var items []Item
	places := b.PhotoCorners()
	for i, p := range places {
		q := v.ToScreen(places[(i+1)%4])
		at := v.ToScreen(p)
		items = append(items, line(4, pal.Cloth, at, q), line(2, pal.Thread, at, q))
	}
	for i, p := range places {
		at := v.ToScreen(p)
		items = append(items, line(26, pal.Cloth, at), ring(at, 11, 2.4, pal.Thread))
		items = append(items, label([]string{"1", "2", "3", "4"}[i], at, pal.Ink))
	}
	return items
}

// rulerEdges are the edges of the ruler beside the ruler lines.
func rulerEdges(m game.Model, pal look.Palette) []Item {
	if !m.Drawing.Edge {
		return nil
	}
	var items []Item
	b := m.Drawing.Board
	draw := func(path geom.Spline) {
		edges, err := sketch.RulerEdges(path, m.Settings.FootMM, m.Drawing.EdgeSide)
		if err != nil {
			return
		}
		for _, e := range edges {
			if !e.NoRoom {
				ends := []geom.Point{m.View.ToScreen(e.From), m.View.ToScreen(e.To)}
				items = append(items, dashes(ends, 12, 4, 2, pal.Short)...)
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
func inHand(b board.Board, v game.View, pal look.Palette) []Item {
	var items []Item
	if len(b.Stroke) > 0 {
		items = append(items, line(inkWidth, pal.Thread, onScreen(b.Stroke, v)...))
	}
	if n := len(b.Chain); n > 0 {
		chain := onScreen(b.Chain, v)
		items = append(items, line(2.2, pal.Thread, chain...))
		items = append(items, dashes([]geom.Point{chain[n-1], v.ToScreen(b.At)}, 6, 5, 2, pal.Thread)...)
		for _, at := range chain {
			items = append(items, line(8, pal.Thread, at))
		}
	}
	if b.Cross {
		at := v.ToScreen(b.At)
		for _, arm := range []geom.Point{{X: 14}, {Y: 14}} {
			items = append(items, line(4, pal.Cloth, r2.Sub(at, arm), r2.Add(at, arm)), line(2, pal.Ink, r2.Sub(at, arm), r2.Add(at, arm)))
		}
		items = append(items, ring(at, 8, 2, pal.Thread))
	}
	return items
}
