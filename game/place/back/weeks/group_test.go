package weeks

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// A hundred weeks of three sessions each are drawn by the week where there is room for a
// hundred marks, by the month where there is not; the middle of a week is that of its
// sessions that can be judged (quartiles by hand).
func TestManySessionsShareMarks(t *testing.T) {
	monday := float64(time.Date(2024, 1, 1, 18, 0, 0, 0, time.UTC).Unix()) // a Monday (ISO 8601)
	var scores []progress.Score
	for k := range 300 {
		s := progress.Score{Session: k, At: monday + (float64(k/3)*7+float64(k%3)*2)*86400, Median: 0.1 + 0.1*float64(k%3), Counted: []float64{1, 1, 1}}
		if k%3 == 2 && k > 2 {
			s.Counted = s.Counted[:2]
		}
		scores = append(scores, s)
	}
	groups, span := grouped(scores, nil, 950)
	if span != EachWeek || len(groups) != 100 {
		t.Fatalf("on 950 px each %s: %d marks, want 100 weeks", span, len(groups))
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-12 }
	if g := groups[0]; g.Sessions != 3 || !near(g.Median, 0.2) || !near(g.Q1, 0.15) || !near(g.Q3, 0.25) {
		t.Errorf("the first week is %+v", g)
	}
	if g := groups[1]; g.Sessions != 2 || !near(g.Median, 0.15) || !g.Sure {
		t.Errorf("the second week, of two that can be judged, is %+v", g)
	}
	if groups, span = grouped(scores, nil, 310); span != EachMonth || len(groups) != 23 {
		t.Errorf("on 310 px each %s: %d marks, want the 23 months to November 2025", span, len(groups))
	}
	if groups, span = grouped(scores[:30], nil, 310); span != EachSession || len(groups) != 30 || groups[3].Median != scores[3].Median {
		t.Errorf("thirty on 310 px: %d marks, each a %s", len(groups), span)
	}
	c := ChartOf(Found{Scores: scores, Marks: []Mark{{At: scores[0].At}, {At: scores[299].At}}}, nil, nil, 390, 400, words.Book{})
	if slices.ContainsFunc(c.Key, func(e KeyEntry) bool { return e.Mark == MarkTrace || e.Mark == MarkWarmUp }) || !strings.HasPrefix(c.Key[0].Text, "a month") {
		t.Errorf("the key of months is %v", c.Key)
	}
}

// Marks are few enough, in the order of time, and leave no session out that can be
// judged; where each day is to be seen a date stands under a session; the key lies under
// the chart, nothing over another.
func TestChartsHaveRoom(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var f Found
		at := 1.7e9
		for k := range rapid.IntRange(1, 200).Draw(rt, "n") {
			at += rapid.Float64Range(1800, 9*86400).Draw(rt, "gap")
			n := rapid.IntRange(1, 4).Draw(rt, "traces")
			f.Scores = append(f.Scores, progress.Score{Session: k, At: at, Median: 1, Counted: make([]float64, n)})
			f.Marks = append(f.Marks, Mark{At: at, Value: 1, Counts: true}, Mark{At: at + 60, Value: 1})
		}
		w := rapid.Float64Range(300, 2000).Draw(rt, "w")
		f.Judged.Verdict = rapid.SampledFrom([]progress.Verdict{progress.TooEarly, progress.Unchanged}).Draw(rt, "verdict")
		c := ChartOf(f, nil, nil, w, 600, words.Book{})
		if c.Span != EachYear && float64(len(c.Groups))*leastApart > c.Right-c.Left {
			rt.Errorf("%d marks on %v px", len(c.Groups), c.Right-c.Left)
		}
		for i := range c.Groups[1:] {
			if c.Groups[i+1].At <= c.Groups[i].At {
				rt.Errorf("mark %d stands before the one before it", i+1)
			}
		}
		if ticks := c.Dates(f, nil, 84, words.Book{}); (c.To-c.From)/86400*84/(c.Right-c.Left) <= 14 {
			for _, d := range ticks {
				if !slices.ContainsFunc(f.Scores, func(s progress.Score) bool { return s.At == d.At }) {
					rt.Errorf("no session over %s", d.Text)
				}
			}
		}
		for i, e := range c.Key {
			if e.X < 0 || e.TextX+wide(e.Text) > w || e.Y < c.Bottom+30 || e.Y > 600-keyLine/2+1e-6 {
				rt.Errorf("%q stands at %v, %v of %v", e.Text, e.X, e.Y, w)
			}
			if i > 0 && e.Y == c.Key[i-1].Y && e.X < c.Key[i-1].TextX+wide(c.Key[i-1].Text) {
				rt.Errorf("%q runs into what is before it", e.Text)
			}
		}
	})
}
