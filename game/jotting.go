package game

import "unthreaded/game/place"

// Recovered tells that so many traces were found in the journal of a visit that ended
// early, and are kept now.
type Recovered struct{ Traces, Things int }

func (Recovered) IsMsg() {}

// recovered tells what was found of a visit that ended early.
func (m Model) recovered(r Recovered) Model {
	if r.Traces > 0 {
		m.Notice = m.Notice.And(place.Say("page.recovered.traces", r.Traces))
	}
	if r.Things > 0 {
		m.Notice = m.Notice.And(place.Say("page.recovered.drawing"))
	}
	return m
}
