package machine

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
)

// rulerMM is the breadth in mm at which a ruler is drawn.
const rulerMM = 18.0

// markItems show the dots of all ruler lines, and at the line that is looked at the
// ruler; without ruler lines the line work.
func (r Room) markItems(pal look.Palette) []scene.Item {
	marks, err := r.bench.Marks()
	if err != nil || len(marks) == 0 {
		return r.lineWork(1.8, pal.Chalk, pal)
	}
	now := marks[min(r.bench.Line, len(marks)-1)]
	items := r.ruler(now, pal)
	items = append(items, r.lineWork(1.8, pal.Chalk, pal)...)
	line1 := r.bench.Plan.Work.Pieces[now.Piece].Line
	items = append(items, scene.Line(3.4, pal.Thread, scene.OnScreen(line1.Section(now.From, now.To), r.view)...))
	for _, p := range bench.Dots(marks) {
		items = append(items, scene.Line(2*scene.DotRadius+1, pal.Ink, r.view.ToScreen(p)))
	}
	for i, k := range now.Marks {
		q := r.view.ToScreen(k.Dot)
		away := r2.Unit(r2.Sub(q, r.view.ToScreen(k.Edge)))
		items = append(items, scene.Line(1.4, pal.Over, q, r.view.ToScreen(k.Edge)), scene.Line(2*scene.DotRadius+5, pal.Thread, q))
		items = append(items, scene.Number(i+1, r2.Add(q, r2.Scale(18, away)), pal)...)
	}
	return items
}

// ruler draws a ruler with its edge along the marks of a line, a little longer than
// the line.
func (r Room) ruler(l machine.RulerMarks, pal look.Palette) []scene.Item {
	var edge, far []geom.Point
	for _, k := range l.Marks {
		out := r2.Unit(r2.Sub(k.Edge, k.Dot))
		edge = append(edge, k.Edge)
		far = append(far, r2.Add(k.Edge, r2.Scale(rulerMM, out)))
	}
	n := len(edge) - 1
	over := func(a, b geom.Point) geom.Point { return r2.Add(a, r2.Scale(12, r2.Unit(r2.Sub(a, b)))) }
	edge[0], far[0], edge[n], far[n] = over(edge[0], edge[1]), over(far[0], far[1]), over(edge[n], edge[n-1]), over(far[n], far[n-1])
	var items []scene.Item
	tint := scene.Mix(pal.Cloth, pal.Over, 0.25)
	for i := 1; i <= n; i++ {
		quad := scene.OnScreen(geom.Polyline{edge[i-1], edge[i], far[i], far[i-1]}, r.view)
		items = append(items, scene.Item{Shape: scene.Fill, Colour: tint, Points: quad})
	}
	items = append(items, scene.Line(2.6, pal.Over, scene.OnScreen(edge, r.view)...))
	mid := geom.Lerp(edge[n/2], far[n/2], 0.5)
	if n%2 == 1 {
		mid = geom.Lerp(geom.Lerp(edge[n/2], edge[n/2+1], 0.5), geom.Lerp(far[n/2], far[n/2+1], 0.5), 0.5)
	}
	return append(items, scene.Text(r.Book().Say("machine.seen.ruler", words.Decimal{Value: r.bench.Mine.Offset, Digits: 1}), r.view.ToScreen(mid), pal.Ink))
}
