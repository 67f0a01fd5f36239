package game_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/page"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/synth"
	"unthreaded/scoring/trace"
)

// school is a program with a clock and a browser's storage.
type school struct {
	table
	now    float64
	things map[string]game.Thing
	taken  int // effects that the storage has seen
	// refused has the storage lose every trace that is asked for.
	refused bool
}

func newSchool(t testing.TB) *school {
	s := &school{table: table{t: t, m: game.New(game.DefaultSettings(), origin)}, now: 1, things: map[string]game.Thing{}}
	s.send(laptop)
	return s
}

// after lets time go by, frame by frame, and the storage do its work.
func (s *school) after(seconds float64) {
	for seconds > 1e-9 {
		dt := math.Min(1, seconds)
		s.now += dt
		seconds -= dt
		s.send(game.Frame{Now: s.now})
	}
	s.store()
}

func (s *school) press(name, value string) {
	s.send(game.Control{Name: name, Value: value})
	s.after(0.1)
}

func (s *school) store() {
	for ; s.taken < len(s.effects); s.taken++ {
		switch e := s.effects[s.taken].(type) {
		case game.Keep:
			s.things[e.Thing.Kind+e.Thing.ID] = e.Thing
		case game.Discard:
			delete(s.things, e.Kind+e.ID)
		case game.Fetch:
			answer := game.Fetched{ID: e.ID, Over: e.Over, Err: place.WhyGone}
			for _, save := range s.saves() {
				if save.ID == e.ID && !s.refused {
					answer.Doc, answer.Err = save.Doc, ""
				}
			}
			s.send(answer)
		}
	}
}

// summaries are those of all traces that were kept.
func (s *school) summaries() []keep.Summary {
	var out []keep.Summary
	for _, save := range s.saves() {
		sum, err := keep.DecodeSummary(save.Summary)
		if err != nil {
			s.t.Fatal(err)
		}
		out = append(out, sum)
	}
	return out
}

// reload closes the page and opens it again after a few seconds.
func (s *school) reload() {
	s.send(game.Interrupt{})
	s.store()
	keep := s.m.Settings
	s.now += 3
	s.m = game.New(keep, origin+1000*s.now)
	s.m.Origin, s.now = origin+1000*s.now, 0.5
	s.send(laptop)
	var things []game.Thing
	for _, t := range s.things {
		things = append(things, t)
	}
	slices.SortFunc(things, func(a, b game.Thing) int { return strings.Compare(a.Kind+a.ID, b.Kind+b.ID) })
	s.send(game.Shelf{Things: things})
	s.store()
	if s.m.Opening() {
		s.t.Error("what was kept is there, and the page waits on")
	}
	opened := s.m.Rehearsal().Motif.ID
	s.send(game.Listed{Past: s.summaries()})
	s.after(0.1)
	if s.m.Rehearsal().Motif.ID != opened {
		s.t.Errorf("the page opened with %s, then came %s", opened, s.m.Rehearsal().Motif.ID)
	}
}

// trace traces the share of the line on the cloth at a speed that is even, or not.
func (s *school) trace(share, wobble float64) { s.traceAt(40, share, wobble) }

// traceAt does so at a speed in mm/s.
func (s *school) traceAt(speed, share, wobble float64) {
	l := s.m.Rehearsal().Line
	h := synth.Hand{Hz: 60, Stop: share * l.Length(), Speed: func(at float64) float64 { return speed * (1 + wobble*math.Sin(at/8)) }}
	samples := h.Samples(l)
	start := s.now
	for i, x := range samples {
		kind := game.Move
		switch i {
		case 0:
			kind = game.Down
		case len(samples) - 1:
			kind = game.Up
		}
		s.send(s.pointer(kind, 1, trace.Pen, x, start))
		if start+x.T > s.now+0.5 {
			s.now = start + x.T
			s.send(game.Frame{Now: s.now})
		}
	}
	s.now = start + samples[len(samples)-1].T
	s.after(0.1)
}

func (s *school) page() page.Page { return page.Of(s.m) }

// checkVeil checks that nothing on the page gives the trace's evenness away.
func (s *school) checkVeil() {
	s.t.Helper()
	p, here := s.page(), in(s.m)
	text := p.Sentence + p.Next
	for _, rows := range [][]rehearse.PastRow{here.Past, here.PastOther} {
		for _, r := range rows {
			if r.Open {
				text += r.Text
			}
		}
	}
	if len(p.Figures)+len(here.More)+len(here.Advice) > 0 || p.Replay.Enabled || here.Practise.Stitched || strings.Contains(text, "%") || !strings.Contains(text, "How even was that?") {
		s.t.Errorf("before the guess the page shows %+v, %q", p.Figures, text)
	}
}

// in returns what the page shows of the rehearsal.
func in(m game.Model) rehearse.Page { return m.Rehearsal().Page().In.(rehearse.Page) }
