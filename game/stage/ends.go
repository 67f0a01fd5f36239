package stage

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// crowdOf returns what names on the cloth have to keep clear of, seen from where the
// layers have the cloth.
func crowdOf(m game.Model, k scene.ChalkMarks) scene.Crowd {
	var rest geom.Point // how far the cloth is pushed while the start is under the needle
	var c scene.Crowd
	if k.Held {
		rest = r2.Sub(m.Needle(), m.View.ToScreen(m.Line.At(0)))
		c.Taken = []scene.Box{scene.Around(r2.Sub(m.Hold(), rest), 2*holdRadius+8, 2*holdRadius+8)}
	}
	c.Room = scene.InSight(m.Screen)
	c.Room = scene.Box{Lo: r2.Sub(c.Room.Lo, rest), Hi: r2.Sub(c.Room.Hi, rest)}
	if k.What == keep.WholeLine {
		c.Line = scene.LinePlaces(m.Line, m.View)
	}
	return c.With(sizeNote(m, look.Palette{}), r2.Scale(-1, rest))
}

// sizeNote says on the cloth, in a corner where the line is not, that the line is shown
// smaller than it is.
func sizeNote(m game.Model, pal look.Palette) []scene.Item {
	share := words.Percent(m.View.Zoom)
	if share == words.Percent(1) {
		return nil
	}
	text := share + " of true size"
	if !m.View.SizeKnown {
		text = "about " + text
	}
	s := m.Screen
	c := scene.Crowd{Line: scene.LinePlaces(m.Line, m.View), Room: scene.InSight(s)}
	var best scene.Item
	least := math.Inf(1)
	for _, top := range []bool{false, true} {
		for _, align := range []scene.Align{scene.Left, scene.Right} {
			it := scene.Text(text, geom.Pt(12, s.H-s.Strip-14), pal.Mute)
			if it.Align = align; align == scene.Right {
				it.Points[0].X = s.W - 12
			}
			if top {
				it.Points[0].Y = 14
			}
			b, _ := scene.BoxOf(it)
			if cost := c.Cost(b); cost < least {
				best, least = it, cost
			}
		}
	}
	return []scene.Item{best}
}
