package game

import (
	"slices"
	"unthreaded/game/keep"
)

// measuring is the work of measuring kept traces whose summaries are older than what is
// followed over the weeks.
type measuring struct {
	// asked is the ID of the trace that is on its way.
	asked string
	// next is the one of the book's list to ask for then; done is how many were measured in
	// this visit, fresh how many of them the book does not know yet.
	next, done, fresh int
	// failed are those that cannot be.
	failed map[string]bool
}

// PutSummary keeps a summary over the one of a kept trace.
type PutSummary struct {
	ID  string
	Doc []byte
}

func (PutSummary) IsEffect() {}

// freshMost is after how many traces the book takes in what was measured.
const freshMost = 50

// Measuring returns how many older traces have been measured and how many there are still
// to measure; both 0 when all is done.
func (b Back) Measuring() (done, left int) {
	if left = b.left(); left == 0 {
		return 0, 0
	}
	return b.measuring.done, left
}

// left counts those still to measure.
func (b Back) left() int {
	w, n := b.measuring, 0
	if w.asked != "" {
		n++
	}
	older := b.Book.Older()
	for _, id := range older[min(w.next, len(older)):] {
		if !w.failed[id] {
			n++
		}
	}
	return n
}

// Unreadable returns how many kept traces cannot be measured.
func (b Back) Unreadable() int { return len(b.measuring.failed) }

// measureNext asks for the next trace to measure, one at a time, once what is known is
// worked out.
func (m Model) measureNext() (Model, []Effect) {
	if m.Back.Book.Busy() {
		return m, nil
	}
	w := &m.Back.measuring
	older := m.Back.Book.Older()
	for w.asked == "" && w.next < len(older) {
		id := older[w.next]
		w.next++
		if !w.failed[id] {
			w.asked = id
			return m, []Effect{Fetch{ID: id, For: ToMeasure}}
		}
	}
	return m, nil
}

// rebooked has the book take in the kept traces anew.
func (m Model) rebooked() Model {
	m.Back.Book = m.Back.Book.With(m.Records)
	m.Back.measuring.next, m.Back.measuring.fresh = 0, 0
	return m
}

// measured takes a kept trace that was fetched for it, and has its summary kept. What
// cannot be read or measured is left as it is.
func (m Model) measured(f Fetched) (Model, []Effect) {
	w := &m.Back.measuring
	if w.asked != f.ID {
		return m, nil
	}
	w.asked = ""
	var effects []Effect
	if sum, doc, err := remeasured(f); err != nil {
		failed := map[string]bool{f.ID: true}
		for id := range w.failed {
			failed[id] = true
		}
		w.failed = failed
	} else {
		w.done++
		w.fresh++
		m = m.resummed(sum)
		effects = []Effect{PutSummary{ID: f.ID, Doc: doc}}
	}
	if w := m.Back.measuring; w.fresh >= freshMost || (w.fresh > 0 && m.Back.left() == 0) {
		m = m.rebooked()
	}
	return m, effects
}

// remeasured returns the new summary of a fetched trace, also as a document.
func remeasured(f Fetched) (keep.Summary, []byte, error) {
	rec, err := keep.Decode(f.Doc)
	if err != nil {
		return keep.Summary{}, nil, err
	}
	if err := rec.Measure(); err != nil {
		return keep.Summary{}, nil, err
	}
	sum := keep.Summarise(rec)
	doc, err := keep.EncodeSummary(sum)
	return sum, doc, err
}

// resummed puts a new summary in the place of the one of the same trace.
func (m Model) resummed(sum keep.Summary) Model {
	m.Records = slices.Clone(m.Records)
	for i := range m.Records {
		if m.Records[i].ID == sum.ID {
			m.Records[i] = sum
		}
	}
	return m
}
