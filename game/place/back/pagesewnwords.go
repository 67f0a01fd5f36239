package back

import (
	"fmt"

	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
)

// proposed says what the pieces tell: first what came out, then what to do, then how sure
// that is.
func proposed(p *pageOf, m Room, inches bool) {
	r := &p.in.Machine
	o, ok := m.Proposed()
	if r.Told = ok; !ok {
		return
	}
	p.Sentence = cameOut(o, m, inches) + whatNext(o)
	if o.Verdict == weeks.Early && o.Off.Pieces == 1 && o.NeedleSPM > 0 && !o.Off.Slight() {
		r.Next = fmt.Sprintf("Should the next pieces say the same, %.0f stitches a minute would suit your hands.", o.NeedleSPM)
	}
	r.HasNext = r.Next != ""
	r.Sure = howSure(o, inches, m.Settings.StitchMM)
	r.Advised = o.Advised()
	if !r.Advised {
		return
	}
	plan := words.StitchWithCount(m.Settings.StitchMM, inches)
	switch {
	case o.NeedleSPM == 0:
		r.Needle = "No needle speed that can be set here makes the planned stitches of these hands: it is the hands that have to change."
	case o.NeedleSPM == m.Settings.SPM:
		r.Needle = fmt.Sprintf("Rehearse already goes at %.0f stitches a minute, which suits these hands. Set the machine so too, and note the next piece.", o.NeedleSPM)
	default:
		fast := ""
		if o.NeedleSPM > o.MachineSPM {
			fast = ", if it goes so fast"
		}
		r.Needle = fmt.Sprintf("Leave your hands as they are, and set the machine to about %.0f stitches a minute%s: that makes %s.", o.NeedleSPM, fast, plan)
		r.UseNeedle, r.CanNeedle = fmt.Sprintf("Use this needle speed: %.0f", o.NeedleSPM), true
	}
	if r.HasHand = o.HandMMS > 0; r.HasHand {
		hand := words.Length(o.HandMMS, inches)
		r.Hand = fmt.Sprintf("Or leave the machine at %.0f and rehearse at %s a second, so that your hands end up right when they do the same again.", o.MachineSPM, hand)
		r.UseHand = fmt.Sprintf("Use this hand speed: %s a second", hand)
		r.CanHand = o.RehearseSPM != m.Settings.SPM
	}
}

// sewnWords names what was sewn by its stitches, about so long in mm where how says so.
func sewnWords(mm float64, inches bool, how string) string {
	if inches {
		return how + words.Stitch(mm, true)
	}
	return "stitches of " + how + words.Stitch(mm, false)
}

// cameOut says what came out at the machine, against the plan.
func cameOut(o Proposed, m Room, inches bool) string {
	got, plan := words.Stitch(o.StitchMM, inches), words.Stitch(m.Settings.StitchMM, inches)
	beside := fmt.Sprintf("; the plan is %s.", plan)
	if got == plan {
		beside = ", as planned."
	}
	if o.Off.Pieces == 1 {
		return "You sewed " + sewnWords(o.StitchMM, inches, "") + beside
	}
	at := fmt.Sprintf(" at %.0f a minute", o.MachineSPM)
	if o.Advised() {
		return fmt.Sprintf("Your stitches come out %s than planned: about %s%s%s", o.Verdict, got, at, beside)
	}
	return "You sew " + sewnWords(o.StitchMM, inches, "about ") + at + beside
}

// whatNext says what to do about it, where that is nothing yet.
func whatNext(o Proposed) string {
	switch o.Verdict {
	case weeks.AsPlanned:
		return " That is right: change nothing."
	case weeks.Unsure:
		return " Your pieces differ too much to tell more: change nothing yet, and note some more."
	case weeks.Early:
		return fmt.Sprintf(" It is early: change nothing yet, and note %s first.", counted(weeks.LeastPieces-o.Off.Pieces, "more piece"))
	}
	return ""
}

// howSure says how well it is known, and how the hands went against rehearsal.
func howSure(o Proposed, inches bool, planMM float64) []Row {
	counting := "A count may be one stitch off either way."
	if o.Verdict == weeks.Early {
		counting += " How much you differ from piece to piece is not known before three."
		return append([]Row{{ID: "From " + counted(o.Off.Pieces, "piece") + ".", Note: counting}}, leftOut(o)...)
	}
	rows := []Row{{
		ID: "From " + counted(o.Off.Pieces, "piece") + ".",
		Note: fmt.Sprintf("In 95 of 100 cases your stitches there are %s to %s, %.2f to %.2f times as long as planned. %s",
			words.Stitch(planMM*o.Off.Low, inches), words.Stitch(planMM*o.Off.High, inches), o.Off.Low, o.Off.High, counting),
	}}
	if o.Off.Spread > 0.02 {
		rows[0].Note += fmt.Sprintf(" From piece to piece your hands differ by about %.0f %%.", 100*o.Off.Spread)
	}
	h := o.Hands
	note := fmt.Sprintf("No difference that could not be chance: %.2f to %.2f times as fast at the machine.", h.Low, h.High)
	if h.Clear() {
		note = fmt.Sprintf("At the machine your hands go %.2f times as fast (%.2f to %.2f).", h.Ratio, h.Low, h.High)
	}
	return append(append(rows, Row{ID: "Against your rehearsal.", Note: note}), leftOut(o)...)
}

// leftOut says which pieces do not count.
func leftOut(o Proposed) []Row {
	if o.Left == 0 {
		return nil
	}
	return []Row{{ID: "Left out.", Note: counted(o.Left, "piece") + " with counts that machines do not sew."}}
}
