package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"unthreaded/game"
	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Route holds what the page shows where a route is planned.
type Route struct {
	Drawings    []Option `json:"drawings"`
	Drawing     string   `json:"drawing"`
	DrawingNote string   `json:"drawingNote"`
	Rules       []Option `json:"rules"`
	Rule        string   `json:"rule"`
	// HasEnds tells that start and exit can be chosen: a row has its own.
	HasEnds  bool   `json:"hasEnds"`
	HasStart bool   `json:"hasStart"`
	HasExit  bool   `json:"hasExit"`
	HasSeams bool   `json:"hasSeams"`
	Seams    bool   `json:"seams"`
	Stops    bool   `json:"stops"`
	StopNote string `json:"stopNote"`

	Choices []ChoiceRow `json:"choices"`
	Parts   []Option    `json:"parts"`

	Why     bool        `json:"why"`
	CanWhy  bool        `json:"canWhy"`
	WhyText string      `json:"whyText"`
	Reason  string      `json:"reason"`
	Proof   string      `json:"proof"`
	Changes []ChangeRow `json:"changes"`
	Better  bool        `json:"better"`

	Own     bool   `json:"own"`
	OwnText string `json:"ownText"`
	// Next are the lines that can follow in her own order.
	Next []Option `json:"next"`
	// Order is the route shown, step by step.
	Order  []Row  `json:"order"`
	Joined string `json:"joined"`
}

// ChoiceRow is one route on offer.
type ChoiceRow struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Note   string `json:"note"`
	Picked bool   `json:"picked"`
}

// ChangeRow is one change that would save something.
type ChangeRow struct {
	ID     string `json:"id"`
	Text   string `json:"text"`
	CanTry bool   `json:"canTry"`
}

var ruleNames = []Option{
	{string(route.Free), "start and leave anywhere"},
	{string(route.StartOnly), "start here, leave anywhere"},
	{string(route.Fixed), "start here, leave there"},
	{string(route.Closed), "come back to the start"},
}

// onDesk fills in the page for the place Route.
func onDesk(p *Page, m game.Model) {
	k := m.Desk
	r, inches := &p.Route, m.Settings.Units == game.Inches
	for _, d := range plan.Drawings() {
		r.Drawings = append(r.Drawings, Option{d.ID, d.Name})
	}
	r.Drawing, r.DrawingNote = k.Drawing.ID, k.Drawing.Note
	r.Rules, r.Rule = ruleNames, string(k.Rule)
	r.HasEnds = !k.Drawing.Row
	r.HasStart, r.HasExit = r.HasEnds, r.HasEnds && k.Rule == route.Fixed
	r.HasSeams, r.Seams, r.Stops = k.HasSeams(), k.Seams, k.Stops
	for i, c := range k.Choices {
		r.Choices = append(r.Choices, ChoiceRow{strconv.Itoa(i), c.Name, costs(c.Route, inches), i == k.Pick})
	}
	for i := range k.Pieces() {
		text := "Rehearse this route"
		if len(k.Pieces()) > 1 {
			text = fmt.Sprintf("Rehearse part %d", i+1)
		}
		r.Parts = append(r.Parts, Option{strconv.Itoa(i), text})
	}
	reasons(r, m)
	r.Own, r.OwnText = k.Own.Asked, k.OwnSummary(inches)
	if k.Own.Asked {
		for _, n := range k.NextLines() {
			r.Next = append(r.Next, Option{strconv.Itoa(n.Edge), n.Text})
		}
	}
	for i, text := range k.Order() {
		r.Order = append(r.Order, Row{ID: strconv.Itoa(i + 1), Value: text})
	}
	if n := len(k.Joined); n > 0 {
		r.Joined = fmt.Sprintf("%d spots where lines missed each other by less than %g mm were joined.", n, plane.DefaultSnap)
	}
	p.Sentence = k.Summary(inches)
	if k.Trouble != "" {
		p.Sentence = k.Trouble
	}
	if k.Own.Asked {
		p.Sentence = k.OwnSummary(inches)
	}
	p.Figures, p.More = routeFigures(m), nil
	p.Compared = ""
	p.HasTrace, p.HasMore, p.Advice, p.HasAdvice = false, false, nil, false
	p.Replay = deskReplay(m)
	p.ClothLabel = fmt.Sprintf("Line work to be sewn: %s, with the planned route in %d steps. It is described beside it as text.",
		k.Drawing.Name, len(k.Route().Steps))
	p.SizeNote = sizeNote(m)
}

// costs tells what a route costs, in one line.
func costs(r route.Route, inches bool) string {
	var parts []string
	if r.RetraceMM > 0.5 {
		parts = append(parts, words.Length(r.RetraceMM, inches)+" sewn twice")
	} else {
		parts = append(parts, "nothing sewn twice")
	}
	if r.SeamMM > 0 {
		parts = append(parts, words.Length(r.SeamMM, inches)+" in the ditch")
	}
	if r.Jumps > 0 {
		parts = append(parts, fmt.Sprintf("%d stop-and-start", r.Jumps))
	}
	parts = append(parts, fmt.Sprintf("%.1f full turns at the junctions", r.Turning/(2*math.Pi)))
	if !r.Exact && r.Added > r.LowerBound+0.5 {
		parts = append(parts, fmt.Sprintf("no route adds less than %s", words.Length(r.LowerBound, inches)))
	}
	return strings.Join(parts, ", ")
}

func deskReplay(m game.Model) Replay {
	c := m.Desk.Clock
	r := Replay{Play: "Play the route", Playing: c.Playing, Rate: number(c.Rate), Enabled: c.Length > 0}
	r.Rates = rates()
	if c.Playing {
		r.Play = "Pause"
	}
	r.Max = fmt.Sprintf("%.1f", max(1, c.Length*m.Desk.SpeedMM))
	r.Scrub = fmt.Sprintf("%.1f", c.T*m.Desk.SpeedMM)
	inches := m.Settings.Units == game.Inches
	done, all := words.Length(c.T*m.Desk.SpeedMM, inches), words.Length(c.Length*m.Desk.SpeedMM, inches)
	step, of := m.Desk.StepNow()
	r.Time = fmt.Sprintf("step %d of %d, %s of %s", step, of, done, all)
	r.Spoken = fmt.Sprintf("step %d, %s along the route", step, done)
	return r
}

func routeFigures(m game.Model) []Figure {
	r := m.Desk.Route()
	if len(r.Steps) == 0 || m.Desk.Own.Asked {
		return nil
	}
	inches := m.Settings.Units == game.Inches
	stitches := func(mm float64) string {
		return fmt.Sprintf("%d stitches at %s.", route.Stitches(mm, m.Settings.StitchMM), words.Stitch(m.Settings.StitchMM, inches))
	}
	out := []Figure{
		{ID: "sewn", Name: "To be sewn", Value: words.Length(r.SewnMM, inches), Note: stitches(r.SewnMM)},
	}
	if all := r.SewnMM + r.RetraceMM + r.SeamMM; all > r.SewnMM {
		out[0].Name = "The lines"
		out = append(out, Figure{ID: "all", Name: "To be sewn in all", Value: words.Length(all, inches), Note: stitches(all)})
	}
	if r.RetraceMM > 0 {
		out = append(out, Figure{ID: "twice", Name: "Sewn twice", Value: words.Length(r.RetraceMM, inches), Note: stitches(r.RetraceMM)})
	}
	if r.SeamMM > 0 {
		out = append(out, Figure{ID: "ditch", Name: "Travelled in the ditch", Value: words.Length(r.SeamMM, inches), Note: "Hidden along the seams."})
	}
	if r.Jumps > 0 {
		out = append(out, Figure{ID: "stops", Name: "Stop and start", Value: fmt.Sprint(r.Jumps), Note: "Tie off, cut, and begin again elsewhere."})
	}
	return out
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
	r.Reason = fmt.Sprintf("An odd number of lines meets at %d junctions, ringed on the cloth. You come in and go out in twos, so at each of them one line is left over, and a way has to be added.", len(why.Odd))
	if len(why.Odd) == 0 {
		r.Reason = "The lines lie in loose pieces; the way from one to the next has to be added."
	}
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
