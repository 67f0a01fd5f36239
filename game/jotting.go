package game

// Recovered tells that so many traces were found in the journal of a visit that ended
// early, and are kept now.
type Recovered struct{ Traces, Things int }

func (Recovered) IsMsg() {}

// recovered tells what was found of a visit that ended early.
func (m Model) recovered(r Recovered) Model {
	switch {
	case r.Traces == 1:
		m.Notice = m.Notice.And(Notice{Text: "The trace that was in hand when the last visit broke off is kept as far as it went."})
	case r.Traces > 1:
		m.Notice = m.Notice.And(Notice{Text: count(r.Traces, "trace") + " that were in hand when a visit broke off are kept as far as they went."})
	}
	if r.Things > 0 {
		m.Notice = m.Notice.And(Notice{Text: "What you were drawing when the last visit broke off is kept as far as it went."})
	}
	return m
}
