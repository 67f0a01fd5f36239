package weeks

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// Whatever is shown: later is to the right and more is above, every session lies inside,
// the ticks ascend, keep their distance, and stand inside.
func TestChartsHoldWhatTheyShow(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var f Found
		at := 1.7e9
		for k := range rapid.IntRange(1, 30).Draw(rt, "n") {
			at += rapid.Float64Range(1800, 40*86400).Draw(rt, "gap")
			v := rapid.Float64Range(-5, 5).Draw(rt, "v")
			if f.Marks == nil {
				v = math.Abs(v)
			}
			f.Scores = append(f.Scores, progress.Score{Session: k, At: at, Median: v, Q1: v - 0.1, Q3: v + 0.1})
			f.Marks = append(f.Marks, Mark{At: at, Value: v})
		}
		w, h := rapid.Float64Range(300, 2000).Draw(rt, "w"), rapid.Float64Range(250, 1200).Draw(rt, "h")
		c := ChartOf(f, nil, nil, w, h, words.Book{})
		for i, s := range f.Scores {
			x, y := c.X(s.At), c.Y(s.Median)
			if x < c.Left || x > c.Right || c.Beyond(s.Median) || y < c.Top || y > c.Bottom {
				rt.Fatalf("session %d stands at %v, %v outside of %+v", i, x, y, c)
			}
			if c.Nearest(f.Scores, x, y) != i {
				rt.Errorf("nearest to session %d is %d", i, c.Nearest(f.Scores, x, y))
			}
		}
		dates := c.Dates(f, nil, 70, words.Book{})
		for i, d := range dates {
			x := c.X(d.At)
			if x < c.Left-1e-6 || x > c.Right+1e-6 || (i > 0 && x-c.X(dates[i-1].At) < 60) {
				rt.Errorf("the date %s stands at %v, the one before at %v", d.Text, x, c.X(dates[max(0, i-1)].At))
			}
		}
		values, _ := c.Values(40)
		for i, v := range values {
			if c.Beyond(v) || (i > 0 && c.Y(values[i-1])-c.Y(v) < 39.9) {
				rt.Errorf("values %v on %+v", values, c)
			}
		}
		if len(values) == 0 {
			rt.Errorf("no values on %+v", c)
		}
	})
}

// Values that are alike but for what nobody sees stand on a scale that can be read.
func TestChartOfEqualValuesCanBeRead(t *testing.T) {
	c := Chart{Top: 0, Bottom: 400}.scaled(Found{Marks: []Mark{{At: 1, Value: 5e-6}, {At: 2, Value: 6e-6}}})
	if ticks, decimals := c.Values(50); len(ticks) < 2 || decimals > 3 {
		t.Errorf("the marks are %v, told by %d decimals", ticks, decimals)
	}
}
