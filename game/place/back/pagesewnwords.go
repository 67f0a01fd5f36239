package back

import (
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
)

// proposed says what the pieces tell: first what came out, then what to do, then how sure
// that is.
func proposed(p *pageOf, m Room, b words.Book) {
	r := &p.in.Machine
	o, ok := m.Proposed()
	if r.Told = ok; !ok {
		return
	}
	needle, sewn := words.Decimal{Value: o.NeedleSPM}, words.Decimal{Value: o.MachineSPM}
	p.Sentence = b.Say("page.and-then", cameOut(o, m, b), whatNext(o))
	if o.Advised() {
		p.Sentence = b.Write(cameOut(o, m, b))
	}
	if o.Verdict == weeks.Early && o.Off.Pieces == 1 && o.NeedleSPM > 0 && !o.Off.Slight() {
		r.Next = b.Say("back.sewn.next", needle)
	}
	r.HasNext = r.Next != ""
	r.Sure = howSure(o, b, m.Settings.StitchMM)
	r.Advised = o.Advised()
	if !r.Advised {
		return
	}
	switch {
	case o.NeedleSPM == 0:
		r.Needle = b.Say("back.sewn.no-needle")
	case o.NeedleSPM == m.Settings.SPM:
		r.Needle = b.Say("back.sewn.needle-set", needle)
	default:
		r.Needle = b.Say("back.sewn.needle", needle, o.NeedleSPM > o.MachineSPM, words.StitchCountMM(m.Settings.StitchMM))
		r.UseNeedle, r.CanNeedle = b.Say("back.sewn.use-needle", needle), true
	}
	if r.HasHand = o.HandMMS > 0; r.HasHand {
		r.Hand = b.Say("back.sewn.hand", sewn, words.LengthMM(o.HandMMS))
		r.UseHand = b.Say("back.sewn.use-hand", words.LengthMM(o.HandMMS))
		r.CanHand = o.RehearseSPM != m.Settings.SPM
	}
}

// cameOut says what came out at the machine, against the plan.
func cameOut(o Proposed, m Room, b words.Book) words.Msg {
	got, plan := words.StitchMM(o.StitchMM), words.StitchMM(m.Settings.StitchMM)
	as := string(o.Verdict)
	switch {
	case o.Off.Pieces == 1:
		as = "one"
	case !o.Advised():
		as = "several"
	}
	return words.Of("back.sewn.came-out", as, b.Inches, got, words.Decimal{Value: o.MachineSPM}, b.Amount(got) == b.Amount(plan), plan)
}

// whatNext says what to do about it, where that is nothing yet.
func whatNext(o Proposed) words.Msg {
	switch o.Verdict {
	case weeks.AsPlanned:
		return words.Of("back.sewn.right")
	case weeks.Unsure:
		return words.Of("back.sewn.unsure")
	case weeks.Early:
		return words.Of("back.sewn.early", weeks.LeastPieces-o.Off.Pieces)
	}
	return words.Msg{}
}

// howSure says how well it is known, and how the hands went against rehearsal.
func howSure(o Proposed, b words.Book, planMM float64) []Row {
	early := o.Verdict == weeks.Early
	counting := b.Say("back.sewn.counting", early)
	from := Row{ID: b.Say("back.sewn.from", o.Off.Pieces), Note: counting}
	if early {
		return append([]Row{from}, leftOut(o, b)...)
	}
	two := func(v float64) words.Decimal { return words.Decimal{Value: v, Digits: 2} }
	from.Note = b.Say("back.sewn.interval", words.StitchMM(planMM*o.Off.Low), words.StitchMM(planMM*o.Off.High), two(o.Off.Low), two(o.Off.High), counting,
		o.Off.Spread > 0.02, words.Share(o.Off.Spread))
	h := o.Hands
	note := b.Say("back.sewn.hands", h.Clear(), two(h.Ratio), two(h.Low), two(h.High))
	return append([]Row{from, {ID: b.Say("back.sewn.against-rehearsal"), Note: note}}, leftOut(o, b)...)
}

// leftOut says which pieces do not count.
func leftOut(o Proposed, b words.Book) []Row {
	if o.Left == 0 {
		return nil
	}
	return []Row{{ID: b.Say("back.sewn.left-out"), Note: b.Say("back.sewn.left-out-note", o.Left)}}
}
