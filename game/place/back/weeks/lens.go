package weeks

import (
	"math"
	"slices"

	"unthreaded/scoring/progress"
)

// over is what all lines are called where their figures are compared with their own
// usual ones.
const over = "*"

// lens returns the sessions as they look for what is asked: the traces that are
// compared are alike, and with the guide that was asked for as good as without, so that
// they count; the order in each session, and with it what is warming up, stays.
func (b Book) lens() ([]progress.Session, progress.Like) {
	help := progress.Guide(b.work.By[Help])
	usual := map[progress.Like]norms{}
	like := progress.Like{Line: over}
	if b.ask.Motif == "" {
		usual = usualOf(b.sessions, help)
	}
	out := make([]progress.Session, len(b.sessions))
	for k, s := range b.sessions {
		out[k] = s
		out[k].Traces = slices.Clone(s.Traces)
		for i := range out[k].Traces {
			t := &out[k].Traces[i]
			if b.ask.Motif == "" {
				*t = usual[t.Like].relative(*t)
			} else if e := b.known[t.ID]; b.alike(e) {
				like = t.Like
			}
			t.Like.Guide = seen(t.Like.Guide, help)
		}
	}
	like.Guide = progress.None
	return out, like
}

// alike tells whether an entry is one of those compared.
func (b Book) alike(e *entry) bool {
	if e == nil || e.motif != b.ask.Motif {
		return false
	}
	for _, f := range Filters {
		if e.by[f] != b.work.By[f] {
			return false
		}
	}
	return true
}

// seen returns the guide of a trace where those with the guide help are to count.
func seen(g, help progress.Guide) progress.Guide {
	switch {
	case g == help:
		return progress.None
	case g == progress.None:
		return progress.Whole
	}
	return g
}

// scored brings the sessions' scores and the marks of the traces.
func (b Book) scored() Book {
	sessions, like := b.seen, b.like
	b.work.Scores = progress.History(sessions, like, b.ask.Measure)
	b.work.Marks = nil
	for k, s := range sessions {
		for i, t := range s.Traces {
			l := t.Like
			l.Guide = like.Guide
			v, ok := t.Figures[b.ask.Measure]
			if !ok || l != like || t.Like.Guide != progress.None || math.IsNaN(v) || math.IsInf(v, 0) {
				continue
			}
			b.work.Marks = append(b.work.Marks, Mark{t.ID, t.At, v, k, s.Counts(i)})
		}
	}
	if b.ask.Motif == "" {
		b.work.Alike = len(b.work.Marks)
	}
	b.stage++
	return b
}

// norms are the usual figures of one line: the medians of all its traces that count.
type norms struct {
	figures map[progress.Measure]float64
	places  map[progress.Movement]map[progress.Measure]float64
}

// usualOf returns the usual figures for all that is alike and was traced with the
// guide help in at least two sessions: with one there is nothing to compare. Cost
// O(n log n).
func usualOf(sessions []progress.Session, help progress.Guide) map[progress.Like]norms {
	in := map[progress.Like]map[int]bool{}
	figures := map[progress.Like]map[progress.Measure][]float64{}
	places := map[progress.Like]map[progress.Movement]map[progress.Measure][]float64{}
	for k, s := range sessions {
		for i, t := range s.Traces {
			if t.Like.Guide != help || i < progress.WarmUpTraces || t.WarmUp {
				continue
			}
			if in[t.Like] == nil {
				in[t.Like] = map[int]bool{}
				figures[t.Like] = map[progress.Measure][]float64{}
				places[t.Like] = map[progress.Movement]map[progress.Measure][]float64{}
			}
			in[t.Like][k] = true
			gather(figures[t.Like], t.Figures)
			for mv, f := range t.Places {
				if places[t.Like][mv] == nil {
					places[t.Like][mv] = map[progress.Measure][]float64{}
				}
				gather(places[t.Like][mv], f)
			}
		}
	}
	out := map[progress.Like]norms{}
	for like, sessions := range in {
		if len(sessions) < 2 {
			continue
		}
		n := norms{figures: middles(figures[like]), places: map[progress.Movement]map[progress.Measure]float64{}}
		for mv, f := range places[like] {
			n.places[mv] = middles(f)
		}
		out[like] = n
	}
	return out
}

func gather(into map[progress.Measure][]float64, figures map[progress.Measure]float64) {
	for m, v := range figures {
		into[m] = append(into[m], v)
	}
}

func middles(lists map[progress.Measure][]float64) map[progress.Measure]float64 {
	out := map[progress.Measure]float64{}
	for m, l := range lists {
		slices.Sort(l)
		out[m] = (l[(len(l)-1)/2] + l[len(l)/2]) / 2
	}
	return out
}

// relative returns the trace with its figures against the usual ones of its line, as
// the like of all others; without any where the line has no usual ones.
func (n norms) relative(t progress.Trace) progress.Trace {
	guide := t.Like.Guide
	t.Like = progress.Like{Line: over, Guide: guide}
	t.Figures = against(t.Figures, n.figures)
	places := map[progress.Movement]map[progress.Measure]float64{}
	for mv, f := range t.Places {
		places[mv] = against(f, n.places[mv])
	}
	t.Places = places
	return t
}

// against returns figures as shares of the usual ones. Flow has no zero and gives the
// difference.
func against(figures, usual map[progress.Measure]float64) map[progress.Measure]float64 {
	out := map[progress.Measure]float64{}
	for m, v := range figures {
		u, ok := usual[m]
		switch {
		case !ok:
		case m == progress.Flow:
			out[m] = v - u
		case u > 0:
			out[m] = v / u
		}
	}
	return out
}
