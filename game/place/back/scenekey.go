package back

import (
	"unthreaded/game/look"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// chartKey names every mark of the chart, in the line under it.
func chartKey(c weeks.Chart, pal look.Palette) []scene.Item {
	var items []scene.Item
	for _, e := range c.Key {
		items = append(items, sample(e, pal)...)
		it := scene.Text(e.Text, geom.Pt(e.TextX, e.Y), pal.Ink)
		it.Align, it.Width = scene.Left, weeks.KeyLetters
		items = append(items, it)
	}
	return items
}

// sample is a mark as it is on the chart.
func sample(e weeks.KeyEntry, pal look.Palette) []scene.Item {
	p := geom.Pt(e.X+e.Sample/2, e.Y)
	from, to := geom.Pt(e.X, e.Y), geom.Pt(e.X+e.Sample, e.Y)
	switch e.Mark {
	case weeks.MarkSession, weeks.MarkFew:
		thread := scene.Line(1.6, pal.Thread, geom.Pt(p.X, p.Y-8), geom.Pt(p.X, p.Y+8))
		return append([]scene.Item{thread}, across(p, 7, e.Mark == weeks.MarkSession, pal)...)
	case weeks.MarkSewn:
		return sewnSample(p, pal)
	case weeks.MarkTrace:
		return traceMark(p, true, traceInk(pal))
	case weeks.MarkWarmUp:
		return traceMark(p, false, traceInk(pal))
	case weeks.MarkUsual:
		return []scene.Item{scene.Rect(e.X, e.Y-7, e.Sample, 14, usualInk(pal))}
	case weeks.MarkCurve:
		return []scene.Item{scene.Line(curveWidth, pal.Over, from, to)}
	case weeks.MarkLevel:
		return level(p.X, e.Y-7, e.Y, e.Y+7, pal)
	case weeks.MarkTrend:
		return scene.Dashes([]geom.Point{from, to}, scene.ChalkDash, scene.ChalkSpace, scene.ChalkWidth, pal.Chalk)
	}
	return limits([]geom.Point{from, to}, pal)
}
