package lesson

import (
	"slices"

	"unthreaded/game/keep"
	"unthreaded/scoring/practice"
	"unthreaded/scoring/progress"
)

// recent is how many kept traces, the newest first, weak spots are looked for in.
const recent = 120

// WeakSpots returns where the kept traces, the newest first, go worst.
func WeakSpots(kept []keep.Summary) []practice.WeakSpot {
	var traces []progress.Trace
	for _, s := range kept[:min(len(kept), recent)] {
		if d, err := s.ReadMeasured(); err == nil {
			traces = append(traces, progress.Trace{ID: s.ID, At: float64(s.Started) / 1000, Places: d.Places})
		}
	}
	return practice.WeakSpots(traces)
}

// Since returns a course that has just begun, at a time now in s since 1970, with the
// kept traces of the same session behind it: they have warmed the hand.
func (c Course) Since(kept []keep.Summary, now float64) (Course, error) {
	first := 0
	for from := now; first < len(kept); first++ {
		at := float64(kept[first].Started) / 1000
		if at > now || from-at > progress.Gap {
			break
		}
		from = at
	}
	for _, s := range slices.Backward(kept[:first]) {
		d, err := s.ReadMeasured()
		if err != nil {
			continue // from before it was noted how long a trace took
		}
		if c, err = c.Elsewhere(float64(s.Started)/1000, d.Seconds); err != nil {
			return c, err
		}
	}
	return c, nil
}

// marks are what is seen of the line under each guide.
var marks = map[progress.Guide]string{
	progress.Whole: keep.WholeLine, progress.Dots: keep.DotsOnly,
	progress.Ends: keep.EndsOnly, progress.None: keep.NoMarks,
}

// Guide returns what helps the hand in a step, of what she chose. The ideal needle goes
// away with the line, the ticks with the ends: a trace without guide has neither.
func Guide(step practice.Step, chosen keep.Guide) keep.Guide {
	g := chosen
	g.Marks, g.SpeedStrip = marks[step.Guide], step.Meter
	if step.Guide != progress.Whole {
		g.Lead = keep.NoLead
	}
	if step.Guide == progress.None {
		g.Ticks = false
	}
	return g
}
