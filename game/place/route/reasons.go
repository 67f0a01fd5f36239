package route

import (
	"slices"
	"strconv"

	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/route/steps"
)

// reasons says why something is added, and what would save most.
func (r Room) reasons(b words.Book) Reasons {
	k, rt := r.Desk, r.Desk.Route()
	_, stage := r.stage()
	out := Reasons{Why: r.why, WhyText: b.Say("route.why", r.why), Stops: r.manyStops(b)}
	out.OtherWays = out.Stops != "" && stage
	switch {
	case len(k.Moves()) == 0:
	case k.Fixed || k.Choices[k.Pick].Times > 0:
		longer := k.Choices[k.Pick].Longer
		out.Reason = b.Say("route.reason-stage", longer > 0.005, words.Share(longer))
	case k.Drawing.Row:
		out.Reason = rowReason(k, b)
	case k.Choices[k.Pick].Whole:
		out.Reason = b.Say("route.reason-whole", rt.Added > rt.LowerBound+0.5, words.LengthMM(rt.Added-rt.LowerBound))
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
	advised := r.advised()
	out.CanWhy = len(why.Bands) > 0 || len(why.Changes) > 0
	for i, n := range advised {
		o := k.Offers[n]
		out.Changes = append(out.Changes, ChangeRow{strconv.Itoa(o.Change), r.change(i, o, b), k.CanTry(o.Change)})
	}
	out.Better = r.why && len(out.Changes) > 0
}

// workSeconds returns how long work takes at the machine, in s.
func (r Room) workSeconds(w plan.Work) float64 {
	p := r.Assumptions().Pace()
	return w.MM/p.Hand + float64(w.Stops)*p.StopS + float64(w.Halts)*p.HaltS
}

// worthSaying is the least time in s that a change saves to be advised.
const worthSaying = 1.0

// saves returns the time in s that a change saves after what it costs.
func (r Room) saves(o plan.Offer) float64 { return r.workSeconds(o.Now) - r.workSeconds(o.Then) }

// advised returns the offers that save time, by their index, the best first.
func (r Room) advised() []int {
	var out []int
	for i, o := range r.Desk.Offers {
		if r.saves(o) >= worthSaying {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		if r.saves(r.Desk.Offers[a]) > r.saves(r.Desk.Offers[b]) {
			return -1
		}
		return 1
	})
	return out
}

// change says what a change is and what it saves.
func (r Room) change(i int, o plan.Offer, b words.Book) string {
	c := r.Desk.Reasons.Changes[o.Change]
	more := max(0, o.Then.Stops-o.Now.Stops)
	saved := words.Of("route.saves", words.DurationS(r.saves(o)), more, words.DurationS(r.Assumptions().Pace().StopS))
	return b.Say("route.change."+string(c.Kind), plan.Letter(i), words.LengthMM(c.LengthMM), words.Piece(c.Stroke), saved)
}

// rowReason compares the two ways through a row, and counts how much is sewn coming home.
func rowReason(k plan.Desk, b words.Book) string {
	compared := words.Msg{}
	if len(k.Choices) > 1 {
		compared = words.Of("route.row-same")
		if d := k.Choices[1].Route.Added - k.Choices[0].Route.Added; d >= 0.5 {
			compared = words.Of("route.row-less", words.LengthMM(d))
		}
	}
	home := homeShare(k)
	return b.Say("route.reason-row", home >= 0, words.Share(1-home), words.Share(home), compared)
}

// homeShare returns the share of the lines that is sewn on the way home, -1 in one pass.
func homeShare(k plan.Desk) float64 {
	second := k.Choices[k.Pick].Second
	if second == 0 {
		return -1
	}
	out, home := 0.0, 0.0
	for i, m := range k.Moves() {
		switch sewn := m.Length - m.AgainMM(); {
		case m.Kind != steps.SewMove:
		case i < second:
			out += sewn
		default:
			home += sewn
		}
	}
	return home / max(out+home, 1)
}

// manyStops says that the route stops more often than it has blocks, what that takes, and
// which way on offer stops less; "" where it does not.
func (r Room) manyStops(b words.Book) string {
	k := r.Desk
	stops := k.Route().Jumps
	if stops <= k.Blocks() {
		return ""
	}
	less := words.Msg{}
	best := k.Choices[k.Pick]
	for _, c := range k.Choices {
		if c.Route.Jumps < best.Route.Jumps {
			best = c
		}
	}
	if best.Route.Jumps < stops {
		less = words.Of("route.stops-less", choiceName(best, b), best.Route.Jumps)
	}
	return b.Say("route.many-stops", stops, k.Blocks(), words.DurationS(float64(stops)*r.Assumptions().Pace().StopS), less)
}
