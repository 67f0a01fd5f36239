package scene

import (
	"fmt"
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
)

// area is a part of the cloth that a picture may take.
type area struct{ x, y, w, h float64 }

// throatItems show the quilt from above with the row under the needle and what has
// to go through the throat, and beside it the throat from the front with the roll.
func throatItems(m game.Model, pal look.Palette) []Item {
	orders, err := m.Bench.Orders()
	if err != nil {
		return nil
	}
	fit := orders[0].Fits[min(m.Bench.Place, len(orders[0].Fits)-1)]
	w, h := m.Screen.W, m.Screen.H
	above, front := area{20, 40, w*0.5 - 30, h - 90}, area{w*0.5 + 10, 40, w*0.5 - 30, h - 90}
	if w < h {
		above, front = area{20, 34, w - 40, h*0.5 - 70}, area{20, h*0.5 + 10, w - 40, h*0.5 - 60}
	}
	return append(fromAbove(m, orders[0], fit, above, pal), fromFront(m, fit, front, pal)...)
}

// fromAbove is the quilt as it lies at the machine: the row runs up and down, the
// part right of the needle goes through the throat.
func fromAbove(m game.Model, o machine.RowOrder, f machine.Fit, a area, pal look.Palette) []Item {
	top := m.Bench.Top()
	scale := math.Min(a.w/top.Across, a.h/top.Along)
	x0, y0 := a.x+(a.w-top.Across*scale)/2, a.y+(a.h-top.Along*scale)/2
	// Unturned, the first edge is on the right.
	x := func(mm float64) float64 {
		if f.Turned {
			return x0 + mm*scale
		}
		return x0 + (top.Across-mm)*scale
	}
	y1 := y0 + top.Along*scale
	strip := func(from, to float64) (float64, float64) { return math.Min(x(from), x(to)), math.Abs(x(to) - x(from)) }
	items := []Item{rect(x0, y0, top.Across*scale, top.Along*scale, mix(pal.Cloth, pal.Paper, 0.7))}
	at := x(top.Rows[f.Row].To)
	if f.Turned {
		at = x(top.Rows[f.Row].From)
	}
	items = append(items, rect(at, y0, x0+top.Across*scale-at, y1-y0, mix(pal.Cloth, pal.Short, 0.3)))
	left, wide := strip(top.Rows[f.Row].From, top.Rows[f.Row].To)
	items = append(items, rect(left, y0, wide, y1-y0, mix(pal.Cloth, pal.Thread, 0.3)))
	place := make(map[int]int, len(o.Fits))
	for i, g := range o.Fits {
		place[g.Row] = i + 1
	}
	for i, r := range top.Rows {
		items = append(items, line(1, pal.Mute, geom.Pt(x(r.From), y0), geom.Pt(x(r.From), y1)))
		if l, wide := strip(r.From, r.To); wide > 20 {
			items = append(items, number(place[i], geom.Pt(l+wide/2, y0+18), pal)...)
		}
	}
	items = append(items, line(2.4, pal.Ink, geom.Pt(x0, y0), geom.Pt(x0+top.Across*scale, y0), geom.Pt(x0+top.Across*scale, y1), geom.Pt(x0, y1), geom.Pt(x0, y0)))
	items = append(items, needle(geom.Pt(at, (y0+y1)/2), pal)...)
	inches := m.Settings.Units == game.Inches
	head := "From above: the order of the rows"
	if f.Turned {
		head += ", quilt turned half way"
	}
	items = append(items, onTheScreen(label(head, geom.Pt(a.x+a.w/2, a.y-18), pal.Mute), m.Screen))
	return append(items, onTheScreen(label(words.Length(f.Right, inches)+" to the right of the needle", geom.Pt(a.x+a.w/2, a.y+a.h+20), pal.Ink), m.Screen))
}

// fromFront is the throat to scale, with the roll in it, or beside it what does not
// go in.
func fromFront(m game.Model, f machine.Fit, a area, pal look.Palette) []Item {
	mine, inches := m.Bench.Mine, m.Settings.Units == game.Inches
	// The machine takes a quarter of the throat more on the right and above.
	scale := math.Min(a.w/(mine.ThroatW*1.3), a.h/(math.Max(mine.ThroatH, f.Roll)*1.35))
	w, h := mine.ThroatW*scale, mine.ThroatH*scale
	arm := 0.22 * h
	x0 := a.x + (a.w-w*1.22)/2
	bed := a.y + a.h/2 + (math.Max(h, f.Roll*scale)+arm)/2
	body := mix(pal.Cloth, pal.Mute, 0.35)
	items := []Item{
		rect(x0-0.08*w, bed-h-arm, w*1.3, arm, body), rect(x0+w, bed-h-1, w*0.22, h+1, body),
		rect(x0-0.08*w, bed, w*1.3, arm*0.6, body),
	}
	items = append(items, line(3, pal.Ink, geom.Pt(x0, bed-h), geom.Pt(x0, bed-4)), line(7, pal.Ink, geom.Pt(x0, bed-h), geom.Pt(x0, bed-h*0.35)))
	items = append(items, dashes([]geom.Point{geom.Pt(x0+mine.Hand*scale, bed-h), geom.Pt(x0+mine.Hand*scale, bed)}, 5, 5, 1.6, pal.Mute)...)
	r := f.Roll * scale / 2
	c, text := pal.Thread, "fits rolled"
	centre := geom.Pt(math.Max(x0+w-r, x0+mine.Hand*scale+r), bed-r)
	switch {
	case f.Rolls:
	case f.Bunches:
		c, text = pal.Short, "too thick rolled; fits bunched loosely"
	default:
		c, text = pal.Long, "does not fit"
	}
	sheet := math.Max(2, m.Bench.Job.Thickness*scale)
	items = append(items, line(sheet, c, geom.Pt(x0-0.08*w, bed-sheet/2), geom.Pt(centre.X, bed-sheet/2)))
	if hand := mine.Hand * scale; hand > 40 {
		items = append(items, label("hand", geom.Pt(x0+hand/2, bed-h+14), pal.Mute))
	}
	items = append(items, roll(centre, r, m.Bench.Job.Thickness*scale, c, pal)...)
	// A broken rim says it as the colour does.
	if !f.Rolls {
		items = append(items, dashes(geom.Arc(centre, r+5, 0, 2*math.Pi), 6, 5, 2, c)...)
	}
	mid := geom.Pt(a.x+a.w/2, a.y-18)
	size := fmt.Sprintf("From the front: throat %s x %s", words.Length(mine.ThroatW, inches), words.Length(mine.ThroatH, inches))
	items = append(items, onTheScreen(label(size, mid, pal.Mute), m.Screen))
	below := onTheScreen(label(fmt.Sprintf("Roll of %s: %s", words.Length(f.Roll, inches), text), geom.Pt(mid.X, a.y+a.h+20), pal.Ink), m.Screen)
	return append(items, below)
}

// roll is the end of a rolled quilt: a spiral whose turns lie as far apart as the
// sandwich is thick, or as can be told apart.
func roll(centre geom.Point, r, thick float64, c color.NRGBA, pal look.Palette) []Item {
	turns := math.Max(1, math.Min(r/math.Max(thick, 5), 20))
	var pts []geom.Point
	for a := 0.0; a <= turns*2*math.Pi; a += 0.15 {
		d := r * a / (turns * 2 * math.Pi)
		pts = append(pts, r2.Add(centre, geom.Pt(d*math.Cos(a), d*math.Sin(a))))
	}
	return []Item{line(2*r, mix(pal.Cloth, pal.Paper, 0.7), centre), line(2, c, pts...), ring(centre, r, 2.4, c)}
}

// careItems show the needle from above, at true size where the cloth has room: the
// foot, and the zone that fingers stay out of.
func careItems(m game.Model, pal look.Palette) []Item {
	q := geom.Pt(m.Screen.W/2, m.Screen.H*0.5)
	px := math.Min(game.TrueSize, math.Min(m.Screen.W, m.Screen.H-120)/110)
	zone, foot := 40*px, 8*px
	items := lineWork(m, 1.4, mix(pal.Cloth, pal.Chalk, 0.35), pal)
	items = append(items, line(2*zone, mix(pal.Cloth, pal.Long, 0.25), q))
	items = append(items, dashes(geom.Arc(q, zone, 0, 2*math.Pi), 10, 6, 3, pal.Long)...)
	items = append(items, line(2*foot, pal.Paper, q), ring(q, foot, 4, pal.Ink), line(5, pal.Ink, q))
	items = append(items, said("Needle and foot", geom.Pt(q.X, q.Y+foot+18), m.Screen, pal)...)
	return append(items, said("Fingers stay outside, on the flat quilt", geom.Pt(q.X, q.Y-zone-18), m.Screen, pal)...)
}
