package page

import (
	"fmt"
	"strconv"

	"unthreaded/game"
	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// inWords fills in what the desk says in lists: her own order, the order of the
// route, and what was joined.
func inWords(r *Route, k plan.Desk, inches bool) {
	r.Own, r.OwnText = k.Own.Asked, k.OwnSummary(inches)
	if k.Own.Asked {
		for _, n := range k.NextLines() {
			r.Next = append(r.Next, Option{ID: strconv.Itoa(n.Edge), Name: n.Text})
		}
	}
	for i, text := range k.Order() {
		r.Order = append(r.Order, Row{ID: strconv.Itoa(i + 1), Value: text})
	}
	if n := len(k.Joined); n > 0 {
		r.Joined = fmt.Sprintf("%d spots where lines missed each other by less than %g mm were joined.", n, plane.DefaultSnap)
	}
}

// reasons says why something is added, and what would save most.
func reasons(r *Route, m game.Model) {
	k := m.Desk
	inches := m.Settings.Units == game.Inches
	r.Why, r.WhyText = k.Why, "Show me why"
	if k.Why {
		r.WhyText = "Hide the reasons"
	}
	rt, why := k.Route(), k.Reasons
	if k.Stops && len(rt.Steps) > 0 && rt.Jumps == 0 {
		r.StopNote = fmt.Sprintf("No stop pays here: one counts as %s of sewing.", words.Length(plan.StopPrice, inches))
	}
	switch {
	case len(rt.Steps) == 0:
		return
	case k.Drawing.Row:
		r.Reason = rowReason(k, inches)
		return
	case rt.Added < 0.5:
		r.Reason = "At every junction you come in and go out in twos, and the ends of the route take the rest: nothing has to be sewn twice."
		return
	}
	proven(r, m)
	r.Reason = fmt.Sprintf("An odd number of lines meets at %d junctions, ringed on the cloth. You come in and go out in twos, so at each of them one line is left over, and a way has to be added.", len(why.Odd))
	if len(why.Odd) == 0 {
		r.Reason = "The lines lie in loose pieces; the way from one to the next has to be added."
	}
}

// proven puts the proof and the changes that would save something into words.
func proven(r *Route, m game.Model) {
	k := m.Desk
	inches := m.Settings.Units == game.Inches
	rt, why := k.Route(), k.Reasons
	if rt.SeamMM > 0 {
		r.Proof = "A stretch along a seam counts a fifth of its length here, since it hardly shows. "
	}
	r.Proof += fmt.Sprintf("The proof: every route must cross each shaded collar once more than its lines allow. The collars' widths add up to %s, "+
		"which is what this route adds", words.Length(why.BandsMM, inches))
	if why.LooseMM > 0.5 {
		r.Proof += fmt.Sprintf(", but for %s to join up loose pieces", words.Length(why.LooseMM, inches))
	} else if rt.Exact {
		r.Proof += ": with these ends no route can add less"
	}
	r.Proof += "."
	r.CanWhy = len(why.Bands) > 0 || len(why.Changes) > 0
	for i, c := range why.Changes {
		r.Changes = append(r.Changes, ChangeRow{strconv.Itoa(i), changeText(i, c, m), k.CanTry(i)})
	}
	r.Better = k.Why && len(r.Changes) > 0
}

// rowReason compares the two ways through a row.
func rowReason(k plan.Desk, inches bool) string {
	text := "In one pass you start at the far left and leave at the far right. Out and back you return to where you began: half of each block is sewn on the way out, the rest on the way home."
	if len(k.Choices) < 2 {
		return text
	}
	d := k.Choices[1].Route.Added - k.Choices[0].Route.Added
	if d < 0.5 {
		return text + " Here both add the same."
	}
	return text + fmt.Sprintf(" Here the first choice adds %s less.", words.Length(d, inches))
}

func changeText(i int, c route.Change, m game.Model) string {
	inches := m.Settings.Units == game.Inches
	saves := fmt.Sprintf("saves %s (%d stitches)", words.Length(c.Saves, inches), route.Stitches(c.Saves, m.Settings.StitchMM))
	what := map[route.ChangeKind]string{
		route.StartElsewhere: "Start at " + plan.Letter(i),
		route.LeaveElsewhere: "Leave at " + plan.Letter(i),
		route.BothElsewhere:  "Start and leave at " + plan.Letter(i),
		route.AddLine:        fmt.Sprintf("Add line %s, %s long", plan.Letter(i), words.Length(c.LengthMM, inches)),
		route.DropLine:       fmt.Sprintf("Leave out line %s, %s long", plan.Letter(i), words.Length(c.LengthMM, inches)),
		route.AllowSeam:      "Travel along the " + c.Stroke,
		route.AllowStop:      "Stop once and start again at " + plan.Letter(i),
	}[c.Kind]
	return what + ": " + saves
}
