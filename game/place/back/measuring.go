package back

import (
	"slices"

	"unthreaded/game/keep"
	"unthreaded/game/place"
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
func (r Room) Measuring() (done, left int) {
	if left = r.left(); left == 0 {
		return 0, 0
	}
	return r.measuring.done, left
}

// left counts those still to measure.
func (r Room) left() int {
	w, n := r.measuring, 0
	if w.asked != "" {
		n++
	}
	older := r.Weeks.Older()
	for _, id := range older[min(w.next, len(older)):] {
		if !w.failed[id] {
			n++
		}
	}
	return n
}

// Unreadable returns how many kept traces cannot be measured.
func (r Room) Unreadable() int { return len(r.measuring.failed) }

// measureNext asks for the next trace to measure, one at a time, once what is known is
// worked out.
func (r Room) measureNext() (Room, []place.Effect) {
	if r.Weeks.Busy() {
		return r, nil
	}
	w := &r.measuring
	older := r.Weeks.Older()
	for w.asked == "" && w.next < len(older) {
		id := older[w.next]
		w.next++
		if !w.failed[id] {
			w.asked = id
			return r, []place.Effect{place.Fetch{ID: id, For: place.ToMeasure}}
		}
	}
	return r, nil
}

// rebooked has the book take in the kept traces anew.
func (r Room) rebooked() Room {
	r.Weeks, r.booked = r.Weeks.With(r.looked()), r.looked()
	r.measuring.next, r.measuring.fresh = 0, 0
	return r
}

// measured takes a kept trace that was fetched for it, and has its summary kept. What
// cannot be read or measured is left as it is.
func (r Room) measured(f place.Fetched) (Room, []place.Effect) {
	w := &r.measuring
	if w.asked != f.ID {
		return r, nil
	}
	w.asked = ""
	var effects []place.Effect
	if sum, doc, err := remeasured(f); err != nil {
		failed := map[string]bool{f.ID: true}
		for id := range w.failed {
			failed[id] = true
		}
		w.failed = failed
	} else {
		w.done++
		w.fresh++
		r = r.resummed(sum)
		effects = []place.Effect{PutSummary{ID: f.ID, Doc: doc}}
	}
	if w := r.measuring; w.fresh >= freshMost || (w.fresh > 0 && r.left() == 0) {
		r = r.rebooked()
	}
	return r, effects
}

// remeasured returns the new summary of a fetched trace, also as a document.
func remeasured(f place.Fetched) (keep.Summary, []byte, error) {
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

// resummed puts a new summary in the place of the one of the same trace. The book hears of
// it with others.
func (r Room) resummed(sum keep.Summary) Room {
	known := same(r.Records, r.booked)
	r.Records = slices.Clone(r.Records)
	for i := range r.Records {
		if r.Records[i].ID == sum.ID {
			r.Records[i] = sum
		}
	}
	if known {
		r.booked = r.Records
	}
	return r
}
