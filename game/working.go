package game

import (
	"errors"

	"unthreaded/game/place"
	"unthreaded/game/work"
	orders "unthreaded/path/quilt/order"
)

// showAfter is how long in s a job is worked on before that is said: what is done at once
// needs no word.
const showAfter = 0.06

// planAfter is how long in s a changed quilt waits to be planned, so that what is typed
// in several fields is planned once.
const planAfter = 0.3

// planning tells which state of the table is to be planned, since when in s, and that this
// was seen to.
type planning struct {
	rev   int
	since float64
	seen  bool
}

// planned has the order of the quilt on the table worked out: on the table once it has rested,
// else at once.
func (m Model) planned() (Model, []Effect) {
	t := m.Top
	if t.Quilt.ID == "" || t.Plan.Current {
		return m, nil
	}
	if t.Rev != m.planning.rev {
		m.planning = planning{rev: t.Rev, since: m.LastFrame}
	}
	resting := m.Place == place.QuiltPlan && t.CanUndo() && m.LastFrame-m.planning.since <= planAfter
	if m.planning.seen || resting {
		return m, nil
	}
	m.planning.seen = true
	of := t.Print()
	switch {
	case of == t.Plan.Order.Fingerprint:
		m.Top = t.Ordered(t.Plan.Order, t.Plan.Trouble)
	case m.Working.Open(work.Order, of):
		var effects []Effect
		m.Shared, effects = m.Asks(work.Order, of, work.OrderIn{Quilt: t.Quilt, Designs: t.Sources(), Choices: t.Plan.Choices})
		return m, effects
	}
	return m, nil
}

// errOrder stands for the reason of an order that cannot be worked out.
var errOrder = errors.New("the order cannot be worked out")

// ordered takes the order of the top, unless it has changed since.
func (m Model) ordered(of string, out work.OrderOut) Model {
	if m.Top.Plan.Current || of != m.Top.Print() {
		return m
	}
	var trouble error
	switch {
	case out.Nothing:
		trouble = orders.ErrNothing
	case out.Failed:
		trouble = errOrder
	}
	m.Top = m.Top.Ordered(out.Order, trouble)
	return m
}

// workDone takes the answer to a job and tells all rooms. What nobody waits for any more is
// passed over; a lost job is said, and so is one that a fault has ended.
func (m Model) workDone(d work.Done) (Model, []Effect) {
	_, faulty := d.Out.(work.Broken)
	d.Lost = d.Lost || faulty
	var job work.Job
	var waited bool
	if m.Working, job, waited = m.Working.Done(d); !waited {
		return m, nil
	}
	news := place.Worked{Kind: job.Kind, Of: job.Of}
	switch {
	case faulty:
		m.Notice = place.Say("page.fault")
	case d.Other:
		m.Notice = place.Say("work.other")
	case d.Lost:
		m.Notice = place.Say("work.lost", string(job.Kind))
	default:
		news.Out = d.Out
	}
	var effects []Effect
	if out, ok := news.Out.(work.OrderOut); ok {
		m = m.ordered(job.Of, out)
	}
	if job.Kind == work.Film {
		m, effects = m.filmMade(job.Of, news.Out)
	}
	return m.heard(news, effects)
}

// workStopped gives up what is being worked out; workAgain has it worked out after all.
func (m Model) workStopped() (Model, []Effect) {
	l, stops := m.Working.Stop()
	m.Working = l
	var effects []Effect
	for _, s := range stops {
		effects = append(effects, s)
	}
	return m, effects
}

func (m Model) workAgain() (Model, []Effect) {
	l, asked := m.Working.Again(m.Now())
	m.Working, m.planning = l, planning{}
	var effects []Effect
	for _, a := range asked {
		effects = append(effects, a)
	}
	return m, effects
}

// Worked returns the job that is to be told of: one that takes longer than a moment.
func (m Model) Worked() (work.Job, bool) {
	j, any := m.Working.Any()
	return j, any && m.Now()-j.Since >= showAfter
}

// begins tells that a job is so new that the page does not tell of it yet.
func (m Model) begins() bool {
	_, told := m.Worked()
	_, any := m.Working.Any()
	return any && !told
}
