package route

import (
	"strconv"

	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/route"
)

// reasons says why something is added, and what would save most.
func (r Room) reasons(b words.Book) Reasons {
	k, rt := r.Desk, r.Desk.Route()
	out := Reasons{Why: r.why, WhyText: b.Say("route.why", r.why)}
	switch {
	case len(rt.Steps) == 0:
	case k.Moved():
		longer := k.Choices[k.Pick].Longer
		out.Reason = b.Say("route.reason-stage", longer > 0.005, words.Share(longer))
	case k.Drawing.Row:
		out.Reason = rowReason(k, b)
	case rt.Added < 0.5:
		out.Reason = b.Say("route.reason-none")
	case len(k.Reasons.Odd) == 0:
		out.Reason = b.Say("route.reason-loose")
		r.proven(&out, b)
	default:
		out.Reason = b.Say("route.reason-odd", len(k.Reasons.Odd))
		r.proven(&out, b)
	}
	return out
}

// proven puts the proof and the changes that would save something into words.
func (r Room) proven(out *Reasons, b words.Book) {
	k := r.Desk
	rt, why := k.Route(), k.Reasons
	rest := words.Msg{}
	if why.LooseMM > 0.5 {
		rest = words.Of("route.proof-loose", words.LengthMM(why.LooseMM))
	} else if rt.Exact {
		rest = words.Of("route.proof-exact")
	}
	out.Proof = b.Say("route.proof", rt.SeamMM > 0, words.LengthMM(why.BandsMM), rest)
	out.CanWhy = len(why.Bands) > 0 || len(why.Changes) > 0
	for i, c := range why.Changes {
		out.Changes = append(out.Changes, ChangeRow{strconv.Itoa(i), r.change(i, c, b), k.CanTry(i)})
	}
	out.Better = r.why && len(out.Changes) > 0
}

// change says what a change is and what it saves.
func (r Room) change(i int, c route.Change, b words.Book) string {
	return b.Say("route.change."+string(c.Kind), plan.Letter(i), words.LengthMM(c.LengthMM), c.Stroke,
		words.Of("route.saves", words.LengthMM(c.Saves), route.Stitches(c.Saves, r.Settings.StitchMM)))
}

// rowReason compares the two ways through a row.
func rowReason(k plan.Desk, b words.Book) string {
	compared := words.Msg{}
	if len(k.Choices) > 1 {
		compared = words.Of("route.row-same")
		if d := k.Choices[1].Route.Added - k.Choices[0].Route.Added; d >= 0.5 {
			compared = words.Of("route.row-less", words.LengthMM(d))
		}
	}
	return b.Say("route.reason-row", compared)
}
