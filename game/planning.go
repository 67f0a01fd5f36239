package game

// planning tells which state of the table is to be planned, and since when in s.
type planning struct {
	rev   int
	since float64
}

// planAfter is how long in s a changed quilt waits to be planned, so that what is typed
// in several fields is planned once.
const planAfter = 0.3

// planned plans the order of the quilt on the table once it has rested, but not while a hand
// traces a line.
func (m Model) planned() Model {
	t := m.Top
	switch {
	case t.Quilt.ID == "" || t.Plan.Current || m.Tracing():
	case t.Changes != m.planning.rev:
		m.planning = planning{t.Changes, m.LastFrame}
	case m.LastFrame-m.planning.since > planAfter || !t.CanUndo():
		m.Top = t.Planned()
	}
	return m
}
