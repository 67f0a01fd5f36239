package weeks

import (
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// The first is the earliest of all, the best counts and none that counts is better; where
// only the first counts, or lines are mixed, there are no two pictures.
func TestFirstAndBest(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := Found{Motif: rapid.SampledFrom([]string{"", "linked-swirls"}).Draw(rt, "motif"), Measure: rapid.SampledFrom(Measures).Draw(rt, "measure")}
		others := 0
		for k := range rapid.IntRange(0, 12).Draw(rt, "n") {
			m := Mark{ID: string(rune('a' + k)), At: float64(k), Value: rapid.Float64Range(-3, 3).Draw(rt, "v"), Counts: rapid.Bool().Draw(rt, "counts")}
			if f.Marks = append(f.Marks, m); m.Counts {
				others += min(k, 1)
			}
		}
		first, best, ok := f.FirstAndBest()
		if f.Motif == "" || others == 0 {
			if ok {
				rt.Fatalf("%+v and %+v are pictured of %+v", first, best, f)
			}
			return
		}
		for _, m := range f.Marks {
			better := m.Value < best.Value
			if f.Measure == progress.Flow { // nearer to 0 from below, by the source of SPARC
				better = m.Value > best.Value
			}
			if m.At < first.At || m.Counts && better {
				rt.Errorf("%+v is earlier or better than %+v and %+v", m, first, best)
			}
		}
		if ok && !best.Counts {
			rt.Errorf("the best does not count: %+v", best)
		}
	})
}

// A practice sample stands on its day inside the chart, also before the first trace and after
// the last; those of another motif, and counts that no machine sews, do not.
func TestSamplesStandOnTheTimeLine(t *testing.T) {
	f := Found{Motif: "linked-swirls", Marks: []Mark{{At: 1.7e9, Value: 0.3}, {At: 1.7e9 + 5*86400, Value: 0.2}}}
	piece := func(day, motif string, stitches int) Sewn {
		return Sewn{Day: day, Motif: motif, Stitches: stitches, LengthMM: 101.6}
	}
	sewn := SewnOf(f, []Sewn{
		piece("2023-12-24", "linked-swirls", 40), piece("2023-11-16", "linked-swirls", 36), piece("2023-10-02", "linked-swirls", 28),
		piece("2023-11-16", "ruler-zigzag", 40), piece("2023-11-16", "linked-swirls", 400),
	})
	c := ChartOf(f, sewn, Zone{{Ahead: 7200}}, 900, 600, words.Book{})
	if len(c.Sewn) != 3 {
		t.Fatalf("%d samples on the chart, want 3", len(c.Sewn))
	}
	for i, s := range c.Sewn {
		if x := c.X(s.At); x < c.Left || x > c.Right || i > 0 && s.At < c.Sewn[i-1].At {
			t.Errorf("the sample of %s stands at %v", s.Piece.Day, x)
		}
		if got := (Zone{{Ahead: 7200}}).Date(s.At).Format("2006-01-02 15:04"); got != s.Piece.Day+" 12:00" {
			t.Errorf("the sample of %s stands on %s", s.Piece.Day, got)
		}
	}
	if !(c.X(c.Sewn[0].At) < c.X(f.Marks[0].At)) || !(c.X(c.Sewn[2].At) > c.X(f.Marks[1].At)) {
		t.Error("the samples before and after all traces do not stand there")
	}
}
