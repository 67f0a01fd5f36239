package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"unthreaded/game"
	"unthreaded/game/words"
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
	{ID: string(route.Free), Name: "start and leave anywhere"},
	{ID: string(route.StartOnly), Name: "start here, leave anywhere"},
	{ID: string(route.Fixed), Name: "start here, leave there"},
	{ID: string(route.Closed), Name: "come back to the start"},
}

// onDesk fills in the page for the place Route.
func onDesk(p *Page, m game.Model) {
	k := m.Desk
	r, inches := &p.Route, m.Settings.Units == game.Inches
	for _, d := range m.Drawings() {
		r.Drawings = append(r.Drawings, Option{ID: d.ID, Name: d.Name})
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
		r.Parts = append(r.Parts, Option{ID: strconv.Itoa(i), Name: text})
	}
	reasons(r, m)
	inWords(r, k, inches)
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
