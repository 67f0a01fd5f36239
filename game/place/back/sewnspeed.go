package back

import (
	"math"
	"slices"

	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// mostPieces is how many notes the factor stands on, the newest: hands change.
const mostPieces = 8

// Proposed is what the pieces tell and, where their stitches come out otherwise than
// planned beyond chance, the speeds that follow.
type Proposed struct {
	Verdict weeks.Verdict
	// StitchMM is how long in mm the stitches come out at the machine as it is set,
	// MachineSPM in stitches a minute: those of the newest piece. Off compares them with
	// the plan, Hands the speed of the hands with that rehearsed.
	StitchMM, MachineSPM float64
	Off, Hands           weeks.Factor
	// NeedleSPM is the needle speed that suits the hands as they go at the machine, 0 for
	// one that cannot be set. HandMMS is how fast to rehearse, in mm/s, where the needle
	// goes on at MachineSPM, RehearseSPM the needle speed of that for the planned stitches;
	// both 0 where the hands do not differ from rehearsal beyond chance.
	NeedleSPM, HandMMS, RehearseSPM float64
	// Left is how many of the newest pieces are left out, since they are not believed.
	Left int
}

// Advised tells that the speeds are to be changed.
func (p Proposed) Advised() bool { return p.Verdict == weeks.Longer || p.Verdict == weeks.Shorter }

// Proposed returns what the pieces tell, false without one that is believed.
func (r Room) Proposed() (Proposed, bool) {
	var p Proposed
	var pieces []weeks.Sewn
	for _, s := range r.Sewn.Pieces {
		switch {
		case len(pieces) == mostPieces:
		case s.Believed():
			pieces = append(pieces, s)
		default:
			p.Left++
		}
	}
	if len(pieces) == 0 {
		return p, false
	}
	stitch := r.Settings.StitchMM
	p.MachineSPM = pieces[0].SPM
	p.Hands, _ = weeks.FactorOf(pieces)
	p.Off, _ = weeks.OffPlan(pieces, stitch, p.MachineSPM)
	p.Verdict, p.StitchMM = p.Off.Verdict(), stitch*p.Off.Ratio
	p.NeedleSPM = settable(p.MachineSPM * p.Off.Ratio)
	if hand := p.Hands.HandFor(stitch, p.MachineSPM); p.Hands.Told() {
		if p.RehearseSPM = settable(60 * hand / stitch); p.RehearseSPM > 0 {
			p.HandMMS = hand
		}
	}
	return p, true
}

// settable rounds a needle speed as one sets it, 0 for one that cannot be set.
func settable(spm float64) float64 {
	if spm = round10(spm); machine.NeedleSpeed.Check(spm) == nil {
		return spm
	}
	return 0
}

func round10(v float64) float64 { return 10 * math.Round(v/10) }

// useFactor sets the needle speed that was proposed, for hands as they go at the machine
// or for slower ones; the notice offers to take that back.
func (r Room) useFactor(needle bool) (Room, []place.Effect) {
	p, ok := r.Proposed()
	spm := p.RehearseSPM
	if needle {
		spm = p.NeedleSPM
	}
	if !ok || !p.Advised() || spm == 0 || spm == r.Settings.SPM {
		return r, nil
	}
	before := r.Settings
	r.Settings.SPM = spm
	r = r.did(change{settings: &before})
	r.Notice = place.Say("back.needle-set", words.Decimal{Value: spm}, words.Decimal{Value: before.SPM}).Offer("undo")
	return r, []place.Effect{r.keepSettings()}
}

// Undo takes the last change of the place back.
func (r Room) Undo() (place.Room, []place.Effect) {
	n := len(r.past)
	if n == 0 {
		return r, nil
	}
	last := r.past[n-1]
	r.past = r.past[:n-1]
	r.Notice = place.Say("back.taken-back")
	switch {
	case last.trace != "":
		return r.traceBack(last.trace)
	case last.settings != nil:
		r.Settings.SPM = last.settings.SPM
		return r, []place.Effect{r.keepSettings()}
	case last.kept != nil:
		return r.unnoted(last.kept.ID)
	}
	s := last.deleted
	if last.changed != nil {
		s = last.changed
		next, was := r.withoutSewn(s.ID)
		if r = next; was != nil {
			r.again = append(slices.Clip(r.again), *was)
			r.Notice = place.Say("back.note.as-before").Offer("redo")
		}
	}
	return r.noted(*s)
}

// traceBack brings a trace back that was deleted.
func (r Room) traceBack(id string) (Room, []place.Effect) {
	more := 0
	for _, c := range r.past {
		if c.trace != "" {
			more++
		}
	}
	r.Notice = place.Say("back.trace-back", more)
	if more > 0 {
		r.Notice = r.Notice.Offer("undo")
	}
	return r, []place.Effect{place.Restore{ID: id}}
}

// noted puts a note on the list and has it kept.
func (r Room) noted(s weeks.Sewn) (Room, []place.Effect) {
	doc, err := weeks.EncodeSewn(s)
	if err != nil {
		r.Notice = place.Say("back.note.lost")
		return r, nil
	}
	return r.withSewn(s).ledToPiece(s.ID), []place.Effect{place.Keep{Thing: place.Thing{Kind: SewnThing, ID: s.ID, Doc: doc}}}
}

// unnoted takes a note out that was just kept; it can be brought back.
func (r Room) unnoted(id string) (Room, []place.Effect) {
	r, s := r.withoutSewn(id)
	if s == nil {
		return r, nil
	}
	r.again = append(slices.Clip(r.again), *s)
	r.Notice = place.Say("back.note.taken-out", s.Stitches).Offer("redo")
	return r, []place.Effect{place.Discard{Kind: SewnThing, ID: id}}
}

// Redo brings the note back that was taken out last, or its last change.
func (r Room) Redo() (place.Room, []place.Effect) {
	n := len(r.again)
	if n == 0 {
		return r, nil
	}
	s := r.again[n-1]
	r.again = r.again[:n-1]
	again := change{kept: &s}
	r, before := r.withoutSewn(s.ID)
	if before != nil {
		again = change{changed: before}
	}
	r = r.did(again)
	r.Notice = place.Say("back.note.back").Offer("undo")
	return r.noted(s)
}
