// Package machine is the place where the sewing machine is set up for a planned route:
// foot, speed, thread, room for the quilt, marks, the list to go through, and the card
// to print and pin beside it.
package machine

import (
	"unthreaded/game/place"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/plan"
	"unthreaded/game/screen"
	"unthreaded/game/work"
	"unthreaded/path/machine"
)

// Thing is the kind of the kept figures of a machine, and of the list of each plan.
const Thing = "machine"

// Room is the place. The plan that the machine is set up for is a document, the Desk of
// the library.
type Room struct {
	place.Shared

	bench bench.Bench
	view  screen.View
	proof proof
	// onTable is the state of the table that the bench knows, stage the stage of its order
	// that is looked at.
	onTable tableKey
	stage   int
	steps   steps
}

// New returns the place before it is entered.
func New() Room { return Room{bench: bench.New()} }

// With is as place.Room has it, and so are the methods below that have no comment.
func (r Room) With(s place.Shared) place.Room {
	r.Shared = s
	return r
}

// Common tells the other places what the figures of a job rest on here.
func (r Room) Common() place.Shared {
	s := r.Shared
	s.Assumed = r.bench.Assumptions(s.Settings.HandSpeed(), s.Settings.StitchMM)
	return s
}

// Bench returns what is set up, Sight how the cloth lies on the screen.
func (r Room) Bench() bench.Bench { return r.bench }

// Sight returns how the cloth lies on the screen.
func (r Room) Sight() screen.View { return r.view }

func (r Room) Enter() (place.Room, []place.Effect) { return r.opened(), nil }

// opened takes the plan on the desk to the machine; where none was opened yet, the first
// ready drawing.
func (r Room) opened() Room {
	if r.Desk.Drawing.ID == "" {
		r.Desk = plan.Open(plan.Drawings()[0])
	}
	p, err := bench.PlanOf(r.Desk)
	r = r.table()
	if p.ID != r.bench.Plan.ID {
		r.steps.done, r.steps.undone = nil, nil
	}
	r.bench = r.bench.Sew(p, err, r.Settings.Triangle())
	return r
}

func (r Room) Leave() (place.Room, []place.Effect) { return r.proofLeft() }

func (r Room) Point(place.Pointer) (place.Room, []place.Effect) { return r, nil }

func (r Room) Keys() []string { return nil }

func (r Room) Key(place.Key) (place.Room, []place.Effect) { return r, nil }

// Frame looks at the table, which may have been planned meanwhile, and asks for the proof
// that is to be seen.
func (r Room) Frame(float64) (place.Room, []place.Effect) { return r.table().proofAsked() }

func (r Room) Hear(m place.Msg) (place.Room, []place.Effect) {
	switch m := m.(type) {
	case place.Shelf:
		return r.read(m), nil
	case place.Worked:
		return r.worked(m)
	}
	return r, nil
}

// worked takes what a job came to.
func (r Room) worked(w place.Worked) (place.Room, []place.Effect) {
	switch out := w.Out.(type) {
	case work.CardOut:
		return r.carded(out)
	case work.ProofOut:
		return r.proofed(w.Of, out), nil
	}
	if r.Place == place.Machine && w.Kind == work.Route {
		return r.opened(), nil // the route that it is set up for has come
	}
	return r.table(), nil // the order of the quilt may have come
}

// read takes what is kept. Where the place is open already, her quilts and blocks are
// there only now.
func (r Room) read(s place.Shelf) Room {
	if r.Letter {
		r.bench.Mine.Paper = bench.Letter // until her own is read
	}
	for _, t := range s.Things {
		if t.Kind != Thing {
			continue
		}
		b, err := r.bench.Load(t.ID, t.Doc)
		r.bench = b
		if err != nil {
			r.Notice = r.Notice.And(place.Say("machine.unread"))
		}
	}
	if r.bench.Plan.ID != "" || r.bench.Trouble != nil {
		r = r.opened()
	}
	r.bench.Known = true
	return r
}

// kept puts the bench after a change in force and has it kept.
//
// Before the kept things have come nothing can be changed, or it would be kept over
// them.
func (r Room) kept(b bench.Bench, c bench.Change) (Room, []place.Effect) {
	if c != (bench.Change{}) && !b.Known && r.StorageWhy == "" {
		r.Notice = place.Say("machine.still-reading")
		return r, nil
	}
	if c != (bench.Change{}) {
		r.steps.done, r.steps.undone = r.steps.done.with(ofBench), nil
	}
	return r.docs(b, c)
}

// docs puts the bench in force and has what has changed of it kept.
func (r Room) docs(b bench.Bench, c bench.Change) (Room, []place.Effect) {
	b, docs := b.Docs(c)
	r.bench = b
	var out []place.Effect
	for _, d := range docs {
		out = append(out, place.Keep{Thing: place.Thing{Kind: Thing, ID: d.ID, Doc: d.Body}})
	}
	return r, out
}

func (r Room) Fit() place.Room {
	lo, hi := plan.Bounds(r.Desk.Graph)
	r.view = screen.Fit(lo, hi, r.Screen)
	return r
}

func (r Room) Playing() bool { return false }

// pace returns her own hand speed from her traces.
func (r Room) pace() bench.OwnPace {
	traces := make([]bench.Trace, len(r.Records))
	for i, s := range r.Records {
		traces[i] = bench.Trace{Line: s.Motif}
		if s.CruiseMM != nil {
			traces[i].Cruise = *s.CruiseMM
		}
	}
	return r.bench.Plan.Pace(traces)
}

// pedal returns the needle speed that fits her own hand speed.
func (r Room) pedal() (machine.Pedal, error) {
	return machine.PedalFor(r.pace().Hand, r.Settings.StitchMM, r.bench.Mine.Needle())
}
