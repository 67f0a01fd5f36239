package back

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/scoring/progress"
)

// Sizes in CSS pixels of a month on the cloth.
const (
	leastCell = 49.0
	mostCell  = 66.0
	monthHead = 62.0 // its name and those of the days
	monthGap  = 28.0
)

// calendar is as many months as fit, the last one on the right: each day practised is a
// patch with its minutes. What the figures are stands over the first month.
func (r Room) calendar(pal look.Palette) []scene.Item {
	w, h := r.Screen.W, r.Screen.H-r.Screen.Strip
	cols := max(1, int((w-16)/(7*leastCell+monthGap)))
	rows := max(1, int((h-16)/(6*leastCell+monthHead)))
	if cols*rows > 6 {
		rows = 1 + 5/cols
	}
	cell := math.Min(mostCell, math.Min(((w-16)/float64(cols)-monthGap)/7, ((h-16)/float64(rows)-monthHead)/6))
	width, height := 7*cell+monthGap, 6*cell+monthHead
	x0, y0 := (w-width*float64(cols)+monthGap)/2, (h-height*float64(rows))/2+8
	zone := r.Weeks.Zone()
	today := zone.Date(r.nowS())
	practised := map[string]progress.Day{}
	for _, d := range r.Weeks.Found().Days {
		practised[dayID(d.Year, d.Month, d.Day)] = d
	}
	var items []scene.Item
	for k := range cols * rows {
		first := time.Date(today.Year(), today.Month()-time.Month(cols*rows-1-k+r.Month), 1, 0, 0, 0, 0, time.UTC)
		at := geom.Pt(x0+float64(k%cols)*width, y0+float64(k/cols)*height)
		items = append(items, month(first, at, cell, today, practised, r.Book(), pal)...)
	}
	over := scene.Text(r.Book().Say("back.scene.minutes"), geom.Pt(x0+7*cell-4, y0+16), pal.Thread)
	over.Align = scene.Right
	return append(items, over)
}

func dayID(y int, mo time.Month, d int) string { return fmt.Sprintf("%04d-%02d-%02d", y, mo, d) }

// month is one month, its weeks beginning on Monday (ISO 8601).
func month(first time.Time, at geom.Point, cell float64, today time.Time, practised map[string]progress.Day, b words.Book, pal look.Palette) []scene.Item {
	name := scene.Text(b.Say("unit.month-year", b.Say("unit.month-long."+strconv.Itoa(int(first.Month()))), strconv.Itoa(first.Year())), geom.Pt(at.X+4, at.Y+16), pal.Ink)
	name.Align, name.Width = scene.Left, 18
	items := []scene.Item{name}
	for i := range 7 {
		items = append(items, scene.Text(b.Say("unit.weekday."+strconv.Itoa(i+1)), geom.Pt(at.X+(float64(i)+0.5)*cell, at.Y+monthHead-16), pal.Mute))
	}
	for d := first; d.Month() == first.Month(); d = d.AddDate(0, 0, 1) {
		column := (int(d.Weekday()) + 6) % 7
		week := (d.Day() - 1 + (int(first.Weekday())+6)%7) / 7
		corner := geom.Pt(at.X+float64(column)*cell, at.Y+monthHead+float64(week)*cell)
		p, done := practised[dayID(d.Year(), d.Month(), d.Day())]
		if done {
			items = append(items, patch(corner, cell, p, pal)...)
			continue
		}
		ink := pal.Mute
		if d.Format(time.DateOnly) == today.Format(time.DateOnly) {
			ink = pal.Ink
			items = append(items, scene.Line(2.4, pal.Chalk, geom.Pt(corner.X+cell*0.3, corner.Y+cell*0.78), geom.Pt(corner.X+cell*0.7, corner.Y+cell*0.78)))
		}
		items = append(items, scene.Text(strconv.Itoa(d.Day()), geom.Pt(corner.X+cell/2, corner.Y+cell/2), ink))
	}
	return items
}

// patch is a day practised: the day above, the minutes below.
func patch(corner geom.Point, cell float64, d progress.Day, pal look.Palette) []scene.Item {
	const in = 3.0
	x, y, s := corner.X+in, corner.Y+in, cell-2*in
	border := []geom.Point{
		geom.Pt(x, y), geom.Pt(x+s, y), geom.Pt(x+s, y+s), geom.Pt(x, y+s), geom.Pt(x, y),
	}
	items := []scene.Item{scene.Rect(x, y, s, s, scene.Mix(pal.Cloth, pal.Thread, 0.16)), scene.Line(1.6, pal.Thread, border...)}
	day := scene.Text(strconv.Itoa(d.Day), geom.Pt(corner.X+cell/2, corner.Y+cell*0.34), pal.Ink)
	minutes := scene.Text(strconv.Itoa(max(1, int(math.Round(d.Minutes)))), geom.Pt(corner.X+cell/2, corner.Y+cell*0.68), pal.Thread)
	return append(items, day, minutes)
}
