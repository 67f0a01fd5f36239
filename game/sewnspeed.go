package game

import (
	"fmt"
	"math"

	"unthreaded/game/weeks"
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
func (m Model) Proposed() (Proposed, bool) {
	var p Proposed
	var pieces []weeks.Sewn
	for _, s := range m.Back.Sewn.Pieces {
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
	stitch := m.Settings.StitchMM
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
func (m Model) useFactor(needle bool) (Model, []Effect) {
	p, ok := m.Proposed()
	spm := p.RehearseSPM
	if needle {
		spm = p.NeedleSPM
	}
	if !ok || !p.Advised() || spm == 0 || spm == m.Settings.SPM {
		return m, nil
	}
	before := m.Settings
	m.Settings.SPM = spm
	m.Back.past = append(m.Back.past, backChange{settings: &before})
	m.Notice = Notice{
		Text:   fmt.Sprintf("In Rehearse the needle now goes at %.0f stitches a minute; it was %.0f. The planned stitch stays as it is.", spm, before.SPM),
		Action: "undo",
	}
	return m.settled(before)
}

// backBack takes the last change of the place back.
func (m Model) backBack() (Model, []Effect) {
	n := len(m.Back.past)
	if n == 0 {
		return m, nil
	}
	last := m.Back.past[n-1]
	m.Back.past = m.Back.past[:n-1]
	m.Notice = Notice{Text: "Taken back."}
	switch {
	case last.settings != nil:
		before := m.Settings
		m.Settings.SPM = last.settings.SPM
		return m.settled(before)
	case last.kept != nil:
		return m.unnoted(last.kept.ID)
	}
	s := last.deleted
	if last.changed != nil {
		s = last.changed
		next, was := m.withoutSewn(s.ID)
		if m = next; was != nil {
			m.Back.again = append(m.Back.again, *was)
			m.Notice = Notice{Text: "The note is as it was before the change.", Action: "redo"}
		}
	}
	doc, err := weeks.EncodeSewn(*s)
	if err != nil {
		m.Notice = Notice{Text: "The note cannot be brought back: " + err.Error() + "."}
		return m, nil
	}
	return m.withSewn(*s).ledToPiece(s.ID), []Effect{Keep{Thing: Thing{Kind: SewnThing, ID: s.ID, Doc: doc}}}
}

// unnoted takes a note out that was just kept; it can be brought back.
func (m Model) unnoted(id string) (Model, []Effect) {
	m, s := m.withoutSewn(id)
	if s == nil {
		return m, nil
	}
	m.Back.again = append(m.Back.again, *s)
	m.Notice = Notice{Text: fmt.Sprintf("The note on the piece with %d stitches was taken out again.", s.Stitches), Action: "redo"}
	return m, []Effect{Discard{Kind: SewnThing, ID: id}}
}

// backAgain brings the note back that was taken out last, or its last change.
func (m Model) backAgain() (Model, []Effect) {
	n := len(m.Back.again)
	if n == 0 {
		return m, nil
	}
	s := m.Back.again[n-1]
	doc, err := weeks.EncodeSewn(s)
	if err != nil {
		m.Notice = Notice{Text: "The note cannot be brought back: " + err.Error() + "."}
		return m, nil
	}
	m.Back.again = m.Back.again[:n-1]
	change := backChange{kept: &s}
	m, before := m.withoutSewn(s.ID)
	if before != nil {
		change = backChange{changed: before}
	}
	m.Back.past = append(m.Back.past, change)
	m.Notice = Notice{Text: "The note is back.", Action: "undo"}
	return m.withSewn(s).ledToPiece(s.ID), []Effect{Keep{Thing: Thing{Kind: SewnThing, ID: s.ID, Doc: doc}}}
}
