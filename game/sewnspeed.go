package game

import (
	"fmt"
	"math"

	"unthreaded/game/weeks"
)

// mostPieces is how many notes the factor stands on, the newest: hands change.
const mostPieces = 8

// Proposed are speeds that follow from what was sewn.
type Proposed struct {
	Factor weeks.Factor
	// NeedleSPM is the needle speed, in stitches a minute, that suits the hands as they go
	// at the machine; HandMMS how fast to rehearse, in mm/s, where the needle goes on at
	// MachineSPM, which is RehearseSPM for the planned stitches.
	NeedleSPM, HandMMS, MachineSPM, RehearseSPM float64
}

// Proposed returns the speeds that follow from what was sewn, false without a note. The
// machine's needle speed is that of the newest.
func (m Model) Proposed() (Proposed, bool) {
	pieces := m.Back.Sewn.Pieces
	pieces = pieces[:min(len(pieces), mostPieces)]
	f, ok := weeks.FactorOf(pieces)
	if !ok {
		return Proposed{}, false
	}
	newest, stitch := pieces[0], m.Settings.StitchMM
	p := Proposed{Factor: f, MachineSPM: newest.SPM}
	p.NeedleSPM = round10(f.NeedleFor(newest.RehearsedMMS(), stitch))
	p.HandMMS = f.HandFor(stitch, newest.SPM)
	p.RehearseSPM = round10(60 * p.HandMMS / stitch)
	return p, true
}

func round10(v float64) float64 { return 10 * math.Round(v/10) }

// CanUse tells that a needle speed is one that can be set.
func CanUse(spm float64) bool { return spm >= MinSPM && spm <= MaxSPM }

// useFactor sets the needle speed that was proposed, for hands as they go at the machine
// or for slower ones; the notice offers to take that back.
func (m Model) useFactor(needle bool) (Model, []Effect) {
	p, ok := m.Proposed()
	spm := p.RehearseSPM
	if needle {
		spm = p.NeedleSPM
	}
	if !ok || !CanUse(spm) || spm == m.Settings.SPM {
		return m, nil
	}
	before := m.Settings
	m.Settings.SPM = spm
	m.Back.past = append(m.Back.past, backChange{settings: &before})
	m.Notice = Notice{
		Text:   fmt.Sprintf("In Rehearse the needle now goes at %.0f stitches a minute; it was %.0f. The planned stitch stays as it is.", spm, before.SPM),
		Action: "undo",
	}
	return m.remeasured(before), []Effect{SaveSettings{Doc: m.Settings.Encode()}}
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
		return m.remeasured(before), []Effect{SaveSettings{Doc: m.Settings.Encode()}}
	case last.kept != nil:
		m, _ = m.withoutSewn(last.kept.ID)
		return m, []Effect{Discard{SewnThing, last.kept.ID}}
	}
	s := *last.deleted
	doc, err := weeks.EncodeSewn(s)
	if err != nil {
		m.Notice = Notice{Text: "The note cannot be brought back: " + err.Error() + "."}
		return m, nil
	}
	m.Back.Sewn.Pieces = sortedSewn(append(m.Back.Sewn.Pieces, s))
	return m, []Effect{Keep{Thing{SewnThing, s.ID, doc}}}
}
