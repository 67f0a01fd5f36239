package machine

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
)

// area is a part of the cloth that a picture may take.
type area struct{ x, y, w, h float64 }

// throatItems show the quilt from above with the row under the needle and what has
// to go through the throat, and beside it the throat from the front with the roll.
func (r Room) throatItems(pal look.Palette) []scene.Item {
	orders, err := r.bench.Orders()
	if err != nil {
		return nil
	}
	fit := orders[0].Fits[min(r.bench.Place, len(orders[0].Fits)-1)]
	w, h := r.Screen.W, r.Screen.H
	above, front := area{20, 40, w*0.5 - 30, h - 90}, area{w*0.5 + 10, 40, w*0.5 - 30, h - 90}
	if w < h {
		above, front = area{20, 34, w - 40, h*0.5 - 84}, area{20, h*0.5 + 24, w - 40, h*0.5 - 64}
	}
	return append(r.fromAbove(orders[0], fit, above, pal), r.fromFront(fit, front, pal)...)
}

// captions stand over and under a picture.
func (r Room) captions(a area, head, foot string, pal look.Palette) []scene.Item {
	return []scene.Item{
		scene.WithinScreen(scene.Text(head, geom.Pt(a.x+a.w/2, a.y-18), pal.Mute), r.Screen),
		scene.WithinScreen(scene.Text(foot, geom.Pt(a.x+a.w/2, a.y+a.h+20), pal.Ink), r.Screen),
	}
}

// fromFront is the throat to scale, with the roll in it.
func (r Room) fromFront(f machine.Fit, a area, pal look.Palette) []scene.Item {
	mine := r.bench.Mine
	// The machine takes a third of the throat more, to the sides and up and down.
	scale := math.Min(a.w/(mine.ThroatW*1.3), a.h/(math.Max(mine.ThroatH, f.Roll)*1.35))
	t := area{w: mine.ThroatW * scale, h: mine.ThroatH * scale}
	t.x = a.x + (a.w-t.w*1.22)/2
	t.y = a.y + a.h/2 + (math.Max(t.h, f.Roll*scale)+0.22*t.h)/2 - t.h
	items := r.body(t, mine.Hand*scale, pal)
	bed, half := t.y+t.h, f.Roll*scale/2
	centre := geom.Pt(math.Max(t.x+t.w-half, t.x+mine.Hand*scale+half), bed-half)
	c, text := pal.Thread, "rolled"
	switch {
	case f.Rolls:
	case f.Bunches && a.w < captionRoom:
		c, text = pal.Short, "bunch"
	case f.Bunches:
		c, text = pal.Short, "bunch-long"
	default:
		c, text = pal.Long, "not"
	}
	thick := r.bench.Job.Thickness * scale
	sheet := math.Max(2, thick)
	items = append(items, scene.Line(sheet, c, geom.Pt(t.x-0.08*t.w, bed-sheet/2), geom.Pt(centre.X, bed-sheet/2)))
	items = append(items, roll(centre, half, thick, c, pal)...)
	// A broken rim says it as the colour does.
	if !f.Rolls {
		items = append(items, scene.Dashes(geom.Arc(centre, half+5, 0, 2*math.Pi), 6, 5, 2, c)...)
	}
	book, rolled, fits := r.Book(), words.LengthMM(f.Roll), words.Of("machine.fits."+text)
	head, foot := book.Say("machine.seen.front", words.LengthMM(mine.ThroatW), words.LengthMM(mine.ThroatH)), book.Say("machine.seen.roll", rolled, fits)
	if a.w < captionRoom {
		head, foot = book.Say("machine.seen.front-short"), book.Say("machine.seen.roll-short", rolled, fits)
	}
	return append(items, r.captions(a, head, foot, pal)...)
}

// body is the machine round its throat t, with the needle and the room for the hand.
func (r Room) body(t area, hand float64, pal look.Palette) []scene.Item {
	c, bed := scene.Mix(pal.Cloth, pal.Mute, 0.35), t.y+t.h
	arm := 0.22 * t.h
	items := []scene.Item{
		scene.Rect(t.x-0.08*t.w, t.y-arm, t.w*1.3, arm, c), scene.Rect(t.x+t.w, t.y-1, t.w*0.22, t.h+1, c),
		scene.Rect(t.x-0.08*t.w, bed, t.w*1.3, arm*0.6, c),
		scene.Line(3, pal.Ink, geom.Pt(t.x, t.y), geom.Pt(t.x, bed-4)), scene.Line(7, pal.Ink, geom.Pt(t.x, t.y), geom.Pt(t.x, bed-t.h*0.35)),
	}
	items = append(items, scene.Dashes([]geom.Point{geom.Pt(t.x+hand, t.y), geom.Pt(t.x+hand, bed)}, 5, 5, 1.6, pal.Mute)...)
	if hand > 44 {
		items = append(items, scene.Text(r.Book().Say("machine.seen.hand"), geom.Pt(t.x+hand/2+2, t.y+14), pal.Ink))
	}
	return items
}

// roll is the end of a rolled quilt: a spiral whose turns lie as far apart as the
// sandwich is thick, or as can be told apart.
func roll(centre geom.Point, r, thick float64, c color.NRGBA, pal look.Palette) []scene.Item {
	turns := math.Max(1, math.Min(r/math.Max(thick, 5), 20))
	var pts []geom.Point
	for a := 0.0; a <= turns*2*math.Pi; a += 0.15 {
		d := r * a / (turns * 2 * math.Pi)
		pts = append(pts, r2.Add(centre, geom.Pt(d*math.Cos(a), d*math.Sin(a))))
	}
	return []scene.Item{scene.Line(2*r, scene.Mix(pal.Cloth, pal.Paper, 0.7), centre), scene.Line(2, c, pts...), scene.Ring(centre, r, 2.4, c)}
}

// careItems show the needle from above, at true size where the cloth has room: the
// foot, and the zone that fingers stay out of.
func (r Room) careItems(pal look.Palette) []scene.Item {
	q := geom.Pt(r.Screen.W/2, r.Screen.H*0.5)
	px := math.Min(r.Screen.TrueSize(), math.Min(r.Screen.W, r.Screen.H-120)/110)
	zone, foot := 40*px, 8*px
	items := r.lineWork(1.4, scene.Mix(pal.Cloth, pal.Chalk, 0.35), pal)
	items = append(items, scene.Line(2*zone, scene.Mix(pal.Cloth, pal.Long, 0.25), q))
	items = append(items, scene.Dashes(geom.Arc(q, zone, 0, 2*math.Pi), 10, 6, 3, pal.Long)...)
	items = append(items, scene.Line(2*foot, pal.Paper, q), scene.Ring(q, foot, 4, pal.Ink), scene.Line(5, pal.Ink, q))
	items = append(items, scene.Spoken(r.Book().Say("machine.seen.foot"), geom.Pt(q.X, q.Y+foot+18), r.Screen, pal)...)
	return append(items, scene.Spoken(r.Book().Say("machine.seen.fingers"), geom.Pt(q.X, q.Y-zone-18), r.Screen, pal)...)
}
