package weeks

import (
	"slices"

	"unthreaded/scoring/progress"
)

// Span is the time whose sessions are drawn as one mark.
type Span string

// The spans, the shortest first.
const (
	EachSession Span = "session"
	EachWeek    Span = "week" // from Monday on (ISO 8601)
	EachMonth   Span = "month"
	EachYear    Span = "year"
)

var spans = []Span{EachSession, EachWeek, EachMonth, EachYear}

// leastApart is how far apart in CSS pixels marks stand on average so that they do not
// run into one another.
const leastApart = 9.0

// Group is one mark of the chart: a session, or those of a week or longer.
type Group struct {
	// At is the mean of their times in s since 1970.
	At float64
	// Median is the middle one of their scores, from Q1 to Q3 reaches the half of them in
	// the middle; of a single session those of its traces.
	Median, Q1, Q3 float64
	// Sessions is how many it stands for; Sure tells that they can be judged.
	Sessions int
	Sure     bool
}

// grouped returns the marks for scores on a chart that is width CSS pixels wide, by the
// shortest span whose marks have room. Of sessions that share a mark those that cannot be
// judged count only where none can. Cost O(n log n).
func grouped(scores []progress.Score, z Zone, width float64) ([]Group, Span) {
	var out []Group
	for _, span := range spans {
		out = nil
		for from := 0; from < len(scores); {
			to := from + 1
			for to < len(scores) && z.same(scores[from].At, scores[to].At, span) {
				to++
			}
			out = append(out, groupOf(scores[from:to]))
			from = to
		}
		if float64(len(out))*leastApart <= width {
			return out, span
		}
	}
	return out, EachYear
}

func groupOf(scores []progress.Score) Group {
	if len(scores) == 1 {
		s := scores[0]
		return Group{At: s.At, Median: s.Median, Q1: s.Q1, Q3: s.Q3, Sessions: 1, Sure: s.Sure()}
	}
	sure := slices.DeleteFunc(slices.Clone(scores), func(s progress.Score) bool { return !s.Sure() })
	if len(sure) > 0 {
		scores = sure
	}
	g := Group{Sessions: len(scores), Sure: len(sure) > 0}
	var values []float64
	for _, s := range scores {
		g.At += s.At / float64(len(scores))
		values = append(values, s.Median)
	}
	slices.Sort(values)
	g.Q1, g.Median, g.Q3 = progress.Quantile(values, 0.25), progress.Quantile(values, 0.5), progress.Quantile(values, 0.75)
	return g
}

// same tells whether two times share a mark.
func (z Zone) same(a, b float64, span Span) bool {
	x, y := z.Date(a), z.Date(b)
	switch span {
	case EachWeek:
		xy, xw := x.ISOWeek()
		yy, yw := y.ISOWeek()
		return xy == yy && xw == yw
	case EachMonth:
		return x.Year() == y.Year() && x.Month() == y.Month()
	case EachYear:
		return x.Year() == y.Year()
	}
	return false
}
