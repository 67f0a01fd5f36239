package back

import (
	"slices"
	"time"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/work"
)

// example is weeks of practice of a made-up hand, to be looked at before there are traces of
// her own. Nothing of it is kept.
type example struct {
	// records are its traces, the newest first, docs their records by ID.
	records []keep.Summary
	docs    map[string][]byte
	// own is what was sewn by herself, while the example's piece is shown.
	own Sewing
}

func (e example) on() bool { return len(e.records) > 0 }

// inExample are the controls that only look.
var inExample = []string{
	"view", "motif", "measure", "session", "session-before", "session-next", "months-before", "months-next",
	"choose", "play", "scrub", "rate", "step-on", "step-back", "example-away",
}

// looked are the traces that are looked at: her own, or those of the example.
func (r Room) looked() []keep.Summary {
	if r.example.on() {
		return r.example.records
	}
	return r.Records
}

// askExample has the example made.
func (r Room) askExample() (Room, []place.Effect) {
	if len(r.Records) > 0 || r.example.on() {
		return r, nil
	}
	var effects []place.Effect
	r.Shared, effects = r.Asks(work.Example, "", work.ExampleIn{Now: r.NowMS(), Name: r.Book().Say("motif.name.linked-swirls")})
	return r, effects
}

// exampleCame shows the example, unless there are traces of her own by now.
func (r Room) exampleCame(out work.ExampleOut) Room {
	if len(out.Records) == 0 || len(r.Records) > 0 {
		return r
	}
	r.example = example{records: slices.Clone(out.Records), docs: map[string][]byte{}, own: r.Sewn}
	slices.Reverse(r.example.records)
	for i, s := range out.Records {
		r.example.docs[s.ID] = out.Docs[i]
	}
	r.Sewn = Sewing{Pieces: []weeks.Sewn{r.examplePiece()}, Rev: r.Sewn.Rev + 1, Draft: r.Sewn.Draft}
	r.View, r.seen, r.Session = OverWeeks, false, 0
	return r.rebooked().first()
}

// examplePiece is what the made-up hand sewed on the evening of its last practice: 63 stitches
// on 6 in, a little shorter than they were rehearsed.
func (r Room) examplePiece() weeks.Sewn {
	last := r.example.records[0]
	mm, spm, n := weeks.Rehearsed(r.example.records, last.Motif)
	return weeks.Sewn{
		Schema: weeks.SewnSchema, ID: "example-piece", Day: time.UnixMilli(last.Started).UTC().Format(time.DateOnly),
		Motif: last.Motif, Name: last.Name, Stitches: 63, LengthMM: 152.4, SPM: 600,
		RehearsedMM: mm, RehearsedSPM: spm, Traces: n,
	}
}

// exampleAway shows her own traces again, if there are any.
func (r Room) exampleAway() Room {
	if !r.example.on() {
		return r
	}
	rev := r.Sewn.Rev + 1
	r.Sewn, r.example = r.example.own, example{}
	r.Sewn.Rev = rev
	r.Pair = Pair{Clock: r.Pair.Clock, Rev: r.Pair.Rev + 1}
	r.Pair.Clock.Playing = false
	r.pictures, r.View, r.seen, r.Session = pictures{}, OverWeeks, false, 0
	return r.rebooked().first()
}

// fetch asks for a kept trace; one of the example is at hand.
func (r Room) fetch(id string, why place.FetchFor) (Room, []place.Effect) {
	doc, made := r.example.docs[id]
	if !made {
		return r, []place.Effect{place.Fetch{ID: id, For: why}}
	}
	f := place.Fetched{ID: id, Doc: doc, For: why}
	if why == place.ToPicture {
		return r.pictured(f), nil
	}
	return r.compared(f), nil
}
