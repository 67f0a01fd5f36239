package back

import (
	"image/color"
	"math"

	"unthreaded/game/look"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
	"unthreaded/scoring/progress"
)

type colour = color.NRGBA

// trend is the line of Theil and Sen through the sessions that can be judged, and, dotted,
// the steepest and the flattest that the sessions allow, all through the middle.
func trend(f weeks.Found, c weeks.Chart, pal look.Palette) []scene.Item {
	j := f.Judged
	if j.Verdict == progress.TooEarly || j.Verdict == "" {
		return nil
	}
	days, values := judgedScores(f)
	first, last := days[0]*86400, days[len(days)-1]*86400
	_, intercept, err := progress.TheilSen(days, values)
	if err != nil {
		return nil
	}
	middle := (first + last) / 2
	centre := intercept + j.Slope*middle/86400
	at := func(slope float64) []geom.Point {
		var pts []geom.Point
		for k := range 33 {
			t := first + (last-first)*float64(k)/32
			if v := centre + slope*(t-middle)/86400; !c.Beyond(v) {
				pts = append(pts, geom.Pt(c.X(t), c.Y(v)))
			}
		}
		return pts
	}
	var items []scene.Item
	for _, slope := range []float64{j.SlopeInterval.Low, j.SlopeInterval.High} {
		if pts := at(slope); len(pts) > 1 {
			items = append(items, limits(pts, pal)...)
		}
	}
	if pts := at(j.Slope); len(pts) > 1 {
		items = append(items, scene.Dashes(pts, scene.ChalkDash, scene.ChalkSpace, scene.ChalkWidth, pal.Chalk)...)
	}
	return items
}

// judgedScores returns the days since 1970 and the scores of the sessions that can be
// judged.
func judgedScores(f weeks.Found) (days, values []float64) {
	for _, s := range f.Scores {
		if s.Sure() {
			days, values = append(days, s.At/86400), append(values, s.Median)
		}
	}
	return days, values
}

// learning is the learning curve and, at the right, the range in which it levels off.
func learning(f weeks.Found, c weeks.Chart, pal look.Palette) []scene.Item {
	if f.Curve == (progress.Curve{}) {
		return nil
	}
	days, _ := judgedScores(f)
	var pts []geom.Point
	const fine = 8 // points from session to session
	for i := range fine*(len(days)-1) + 1 {
		k, part := i/fine, float64(i%fine)/fine
		t := days[k]
		if part > 0 {
			t += part * (days[k+1] - t)
		}
		pts = append(pts, geom.Pt(c.X(t*86400), c.Y(f.Curve.At(float64(k+1)+part))))
	}
	top, at, bottom := c.Y(f.Curve.Interval.High), c.Y(f.Curve.Plateau), c.Y(f.Curve.Interval.Low)
	return append([]scene.Item{scene.Line(curveWidth, pal.Over, pts...)}, level(c.Right+10, top, at, bottom, pal)...)
}

// curveWidth is the width in CSS pixels of the learning curve.
const curveWidth = 2.4

// level is the range from top to bottom in which the curve levels off.
func level(x, top, at, bottom float64, pal look.Palette) []scene.Item {
	return []scene.Item{
		scene.Line(curveWidth, pal.Over, geom.Pt(x-5, top), geom.Pt(x+5, top)),
		scene.Line(curveWidth, pal.Over, geom.Pt(x, top), geom.Pt(x, bottom)),
		scene.Line(curveWidth, pal.Over, geom.Pt(x-5, bottom), geom.Pt(x+5, bottom)),
		scene.Line(7, pal.Over, geom.Pt(x, at)),
	}
}

// limits is the steepest or the flattest trend.
func limits(pts []geom.Point, pal look.Palette) []scene.Item {
	return scene.Dashes(pts, 1, 7, 2, pal.Chalk)
}

// pickedSession marks the session whose traces are listed, with its date and score.
func (r Room) pickedSession(c weeks.Chart, pal look.Palette) []scene.Item {
	s, ok := r.Picked()
	if !ok {
		return nil
	}
	x, y := c.X(s.At), c.Y(s.Median)
	text := r.PickedText()
	half := 0.27 * scene.LabelSize * float64(len(text))
	it := scene.Text(text, geom.Pt(math.Max(half+4, math.Min(r.Screen.W-half-4, x)), c.Top-10), pal.Ink)
	items := []scene.Item{scene.Line(1.2, pal.Ink, geom.Pt(x, c.Top+2), geom.Pt(x, math.Max(c.Top+2, y-14)))}
	if c.Span != weeks.EachSession {
		// It shares its mark with others.
		items = append(items, scene.Line(11, pal.Cloth, geom.Pt(x, y)))
		items = append(items, across(geom.Pt(x, y), 5, s.Sure(), pal)...)
	}
	return append(items, scene.Ring(geom.Pt(x, y), 13, 2, pal.Ink), it)
}
