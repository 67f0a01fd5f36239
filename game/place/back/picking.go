package back

import (
	"slices"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// pickSession picks the n-th session from the newest on.
func (r Room) pickSession(n int) Room {
	most := len(r.Weeks.Found().Scores) - 1
	r.Session = max(0, min(most, n))
	r.Told = true
	return r
}

// Picked returns the score of the session that is picked, false where there is none.
func (r Room) Picked() (progress.Score, bool) {
	s := r.Weeks.Found().Scores
	if len(s) == 0 {
		return progress.Score{}, false
	}
	return s[len(s)-1-min(r.Session, len(s)-1)], true
}

// Chart returns the chart of what is looked at.
func (r Room) Chart() weeks.Chart {
	f := r.Weeks.Found()
	return weeks.ChartOf(f, weeks.SewnOf(f, r.Sewn.Pieces), r.Weeks.Zone(), r.Screen.W, r.Screen.H-r.Screen.Strip-r.pictureHeight(), r.Book())
}

// PickedText says which session is picked, its score, and how many of its traces count;
// empty without any.
func (r Room) PickedText() string {
	s, ok := r.Picked()
	if !ok {
		return ""
	}
	f := r.Weeks.Found()
	return r.Book().Say("back.picked", words.Date(r.Weeks.Zone().Date(s.At)), score(s.Median, f), len(s.Counted))
}

// remove deletes a trace from the list of a session; the notice offers to take that back,
// and the keyboard goes on at the one after it, or the one before.
func (r Room) remove(id string) (Room, []place.Effect) {
	picked, _ := r.Picked()
	list := r.Weeks.Found().InSession(picked.Session)
	at := slices.IndexFunc(list, func(k weeks.Mark) bool { return k.ID == id })
	rest := slices.DeleteFunc(slices.Clone(r.Records), func(s keep.Summary) bool { return s.ID == id })
	if len(rest) == len(r.Records) {
		return r, nil
	}
	r.Records = rest
	r, _ = r.rebooked().unpaired(id)
	r = r.did(change{trace: id})
	r.Notice = place.Say("back.deleted").Offer("undo")
	switch {
	case at >= 0 && len(list) > 1:
		next := at + 1
		if next == len(list) {
			next = at - 1
		}
		r = r.led(traceFocus(list[next].ID))
	case at >= 0:
		r = r.led("back-session") // the list of sessions, where this one is empty now
	}
	return r, []place.Effect{place.Delete{ID: id}}
}

// score is a value of what is looked at with its unit, as an argument of a message.
func score(v float64, f weeks.Found) any {
	switch {
	case f.Motif == "" && f.Measure == progress.Flow:
		return words.Of("back.against-usual", v >= 0, words.Decimal{Value: v, Digits: 2})
	case f.Motif == "":
		return words.Of("back.of-usual", words.Share(v))
	case f.Measure == progress.Spacing:
		return words.Share(v)
	case f.Measure == progress.Flow:
		return words.Decimal{Value: v, Digits: 2}
	}
	return words.SmallMM(v)
}

// ScoreText writes a value of what is looked at, with its unit.
func ScoreText(v float64, f weeks.Found, b words.Book) string { return b.Amount(score(v, f)) }
