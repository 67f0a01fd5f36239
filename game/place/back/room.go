// Package back is the place where traces are looked back on: over the weeks, two of them
// laid one over the other, the days of practice, and what was sewn at the machine beside
// what was rehearsed.
package back

import (
	"slices"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/game/work"
)

// View is what is on the cloth.
type View string

// The views.
const (
	OverWeeks View = "weeks"
	TwoTraces View = "pair"
	Calendar  View = "days"
	AtMachine View = "sewn"
)

// Room is the place.
type Room struct {
	place.Shared

	Weeks weeks.Book
	// booked are the kept traces as Weeks has them, but for those measured since.
	booked []keep.Summary
	View   View
	sight  screen.View
	// Session is the session picked, by its place in the scores from the newest on: 0 is
	// the newest. Told tells that she picked it herself, and hears of it.
	Session int
	Told    bool
	// Month is how many months before this one the calendar ends.
	Month int
	Pair  Pair
	Sewn  Sewing

	measuring measuring
	pictures  pictures
	// past holds what can be taken back, the last one last; again notes that were taken
	// back, to bring them back after all.
	past  []change
	again []weeks.Sewn
	// example is what is looked at instead of traces of her own, while she has none.
	example example
	// seen tells that the place was entered in this visit and had traces to show.
	seen bool
}

// New returns the place before anything was looked at.
func New() Room {
	return Room{Weeks: weeks.New(), View: OverWeeks, Pair: Pair{Clock: replay.Clock{Rate: 1}}}
}

// Zone tells how far the person's clock is ahead of UTC.
type Zone struct{ Zone weeks.Zone }

func (Zone) IsMsg() {}

// With is as place.Room has it, and so are the methods below that have no comment.
func (r Room) With(s place.Shared) place.Room {
	r.Shared = s
	if len(r.Records) > 0 && r.example.on() {
		r = r.exampleAway()
	}
	if !same(r.looked(), r.booked) {
		return r.rebooked()
	}
	return r
}

// same tells whether two lists are one: a list is never written into, another is another
// array.
func same(a, b []keep.Summary) bool { return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0]) }

// nowS returns the time of the last frame in s since 1970.
func (r Room) nowS() float64 { return r.Origin/1000 + r.LastFrame }

// Sight returns how the cloth lies on the screen.
func (r Room) Sight() screen.View { return r.sight }

func (r Room) Enter() (place.Room, []place.Effect) {
	r = r.first()
	r.Pair = r.Pair.stitched(r.Settings)
	return r.sewingReady(), nil
}

// tracedHere tells whether there are kept traces of the line that is rehearsed.
func (r Room) tracedHere() bool {
	return slices.ContainsFunc(r.looked(), func(s keep.Summary) bool { return s.Motif == r.OnCloth })
}

// first has the place show the motif that was rehearsed last, with the filters that she
// left, once traces are known.
func (r Room) first() Room {
	if r.seen || len(r.looked()) == 0 {
		return r
	}
	r.seen = true
	ask := r.Weeks.Asked()
	ask.By = alikeBy(r.Settings.Alike)
	ask.Motif = r.looked()[0].Motif
	if r.tracedHere() {
		ask.Motif = r.OnCloth
	}
	r.Weeks = r.Weeks.Look(ask)
	return r
}

func (r Room) Leave() (place.Room, []place.Effect) {
	r.Pair.Clock.Playing = false
	return r, nil
}

// Point picks the session of the chart that is nearest to where it is touched.
func (r Room) Point(p place.Pointer) (place.Room, []place.Effect) {
	if p.Kind != place.Down || r.View != OverWeeks {
		return r, nil
	}
	scores := r.Weeks.Found().Scores
	if i := r.Chart().Nearest(scores, p.X, p.Y); i >= 0 {
		r = r.pickSession(len(scores) - 1 - i)
	}
	return r, nil
}

func (r Room) Keys() []string { return []string{"ArrowLeft", "ArrowRight"} }

func (r Room) Key(k place.Key) (place.Room, []place.Effect) {
	by := map[string]int{"ArrowLeft": 1, "ArrowRight": -1}[k.Name]
	switch {
	case k.Name == "Escape":
		r.Notice = place.Notice{}
	case by == 0:
	case r.View == OverWeeks:
		r = r.pickSession(r.Session + by)
	case r.View == Calendar:
		r.Month = max(0, r.Month+by)
	}
	return r, nil
}

// Frame works the next piece out and, once all summaries are read, has the older traces
// measured.
func (r Room) Frame(dt float64) (place.Room, []place.Effect) {
	r.Pair.Clock = r.Pair.Clock.Advance(dt)
	r.Weeks = r.Weeks.Step()
	r, effects := r.measureNext()
	r, more := r.pictureNext()
	return r, append(effects, more...)
}

func (r Room) Hear(m place.Msg) (place.Room, []place.Effect) {
	switch m := m.(type) {
	case place.Listed:
		if r.Place == place.LookBack {
			return r.first(), nil // it was opened before its traces came
		}
	case place.Fetched:
		switch m.For {
		case place.ToMeasure:
			return r.measured(m)
		case place.ToCompare:
			return r.compared(m), nil
		case place.ToPicture:
			return r.pictured(m), nil
		}
	case place.Shelf:
		for _, t := range m.Things {
			if place.IsPiece(t) {
				r = r.sewnKept(t)
			}
		}
	case place.Photo:
		if m.Name == "back.photo" && m.Err == "" {
			r.Sewn.Draft.Photo = m.ID
		}
	case place.Gone:
		if !m.Back {
			r, _ = r.unpaired(m.ID)
		}
	case place.Changed:
		if m.Before.SPM != r.Settings.SPM || m.Before.StitchMM != r.Settings.StitchMM {
			r.Pair = r.Pair.stitched(r.Settings)
		}
	case place.Worked:
		if out, ok := m.Out.(work.ExampleOut); ok {
			return r.exampleCame(out), nil
		}
	case Zone:
		r.Weeks = r.Weeks.In(m.Zone)
	}
	return r, nil
}

func (r Room) Fit() place.Room {
	if r.View == TwoTraces {
		return r.pairLaid()
	}
	return r
}

func (r Room) Playing() bool {
	return r.Pair.Clock.Playing || r.Weeks.Busy() || r.measuring.asked != "" || r.pictures.asked != ""
}
