package machine

import (
	"fmt"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
)

// chart maps values to a frame on the screen.
type chart struct {
	left, top, right, bottom float64
	x0, x1, y0, y1           float64
}

func (c chart) at(x, y float64) geom.Point {
	return geom.Pt(c.left+(x-c.x0)/(c.x1-c.x0)*(c.right-c.left), c.bottom-(y-c.y0)/(c.y1-c.y0)*(c.bottom-c.top))
}

// speedItems are the hand speeds that make 8, 10 and 12 stitches per inch, over the
// needle speeds of her machine, with where she is set now and her own speed.
func (r Room) speedItems(pal look.Palette) []scene.Item {
	mine, s := r.bench.Mine, r.Settings
	top := machine.StitchOf(machine.MinUsualSPI) * mine.MaxSPM / 60
	own := r.pace().Hand
	c := chart{left: 74, top: 56, right: r.Screen.W - 84, bottom: r.Screen.H - 64,
		x0: mine.MinSPM, x1: mine.MaxSPM, y0: 0, y1: max(top, own, s.HandSpeed()) * 1.06}
	if c.x1-c.x0 < 1 {
		c.x0 -= 50
		c.x1 += 50
	}
	items := speedAxes(c, r.Book(), pal)
	for _, spi := range []float64{machine.MinUsualSPI, 10, machine.MaxUsualSPI} {
		hand := func(spm float64) float64 { return machine.StitchOf(spi) * spm / 60 }
		end := c.at(c.x1, hand(c.x1))
		items = append(items, scene.Line(2.4, pal.Chalk, c.at(c.x0, hand(c.x0)), end))
		name := r.Book().Say("machine.seen.spi", whole(spi))
		if !r.Inches() {
			name = r.Book().Amount(words.SmallMM(machine.StitchOf(spi)))
		}
		l := scene.Text(name, geom.Pt(end.X+6, end.Y), pal.Ink)
		l.Align = scene.Left
		items = append(items, l)
	}
	if own > 0 {
		a, b := c.at(c.x0, own), c.at(c.x1, own)
		items = append(items, scene.Dashes([]geom.Point{a, b}, 10, 6, 2.4, pal.Thread)...)
		items = append(items, scene.Spoken(r.Book().Say("machine.seen.own"), geom.Pt((a.X+b.X)/2, a.Y-14), r.Screen, pal)...)
	}
	if s.SPM < c.x0 || s.SPM > c.x1 {
		return append(items, scene.Spoken(r.Book().Say("machine.seen.not-kept"), geom.Pt(r.Screen.W/2, c.top-30), r.Screen, pal)...)
	}
	now := c.at(s.SPM, s.HandSpeed())
	items = append(items, scene.Dashes([]geom.Point{geom.Pt(now.X, c.bottom), now, geom.Pt(c.left, now.Y)}, 4, 4, 1.6, pal.Thread)...)
	items = append(items, scene.Line(18, pal.Cloth, now), scene.Line(14, pal.Thread, now))
	return append(items, scene.Spoken(r.Book().Say("machine.seen.now"), geom.Pt(now.X-6, now.Y-22), r.Screen, pal)...)
}

// speedAxes are the frame, its steps, and what they mean.
func speedAxes(c chart, book words.Book, pal look.Palette) []scene.Item {
	items := []scene.Item{scene.Line(1.5, pal.Mute, geom.Pt(c.left, c.top), geom.Pt(c.left, c.bottom), geom.Pt(c.right, c.bottom))}
	step := 100.0
	for (c.x1-c.x0)/step > 9 || (c.right-c.left)/((c.x1-c.x0)/step) < 46 {
		step *= 2
	}
	for v := step; v <= c.x1; v += step {
		if v >= c.x0 {
			p := c.at(v, 0)
			items = append(items, scene.Line(1.5, pal.Mute, p, geom.Pt(p.X, p.Y+5)), scene.Text(fmt.Sprintf("%.0f", v), geom.Pt(p.X, p.Y+17), pal.Mute))
		}
	}
	unit, name := 10.0, book.Say("machine.seen.hand-mm")
	if book.Inches {
		unit, name = machine.MMPerInch/2, book.Say("machine.seen.hand-in")
	}
	for c.y1/unit > 10 {
		unit *= 2
	}
	for v := unit; v <= c.y1; v += unit {
		p := c.at(c.x0, v)
		text := fmt.Sprintf("%.0f", v)
		if book.Inches {
			text = book.Amount(words.Decimal{Value: machine.InchesPerSecond(v), Digits: 1})
		}
		l := scene.Text(text, geom.Pt(p.X-9, p.Y), pal.Mute)
		l.Align = scene.Right
		items = append(items, scene.Line(1.5, pal.Mute, p, geom.Pt(p.X-5, p.Y)), l)
	}
	head := scene.Text(name, geom.Pt(16, c.top-24), pal.Ink)
	head.Align = scene.Left
	foot := scene.Text(book.Say("machine.seen.needle"), geom.Pt(c.right, c.bottom+40), pal.Ink)
	foot.Align = scene.Right
	return append(items, head, foot)
}
