package page

import (
	"fmt"

	"unthreaded/game"
	"unthreaded/scoring/practice"
)

// Practise holds what the page shows of how she practises.
type Practise struct {
	Mode   game.Practice `json:"mode"`
	Freely bool          `json:"freely"`
	Learn  bool          `json:"learn"`
	Warm   bool          `json:"warm"`
	// Free tells that she chooses the line, OwnHelp that she chooses the help beside it;
	// Leads that a lesson leads.
	Free    bool   `json:"free"`
	OwnHelp bool   `json:"ownHelp"`
	Leads   bool   `json:"leads"`
	Note    string `json:"note"`
	Judged  string `json:"judged"`
	Pause   string `json:"pause"`

	// Choosing asks how long the warm-up shall be; GoOn offers the one that was left.
	Choosing bool     `json:"choosing"`
	Lengths  []Option `json:"lengths"`
	GoOn     string   `json:"goOn"`
	// LearnOn offers the course that was left, where it goes on with another line than
	// the one on the cloth.
	LearnOn string `json:"learnOn"`

	// Asks how even the trace was, in Bands.
	Asks  bool     `json:"asks"`
	Acts  bool     `json:"acts"`
	Bands []Option `json:"bands"`

	// Sewn of Of stitches of the warm-up's clock are over; Clock says it in words.
	Sewn  string `json:"sewn"`
	Of    string `json:"of"`
	Clock string `json:"clock"`

	// Stitched tells that the trace on the cloth is seen as stitches.
	Stitched bool   `json:"stitched"`
	Again    string `json:"again"`
	CanAgain bool   `json:"canAgain"`
	Leave    string `json:"leave"`
	Skip     string `json:"skip"`
	Same     string `json:"same"`
	CanSame  bool   `json:"canSame"`
	CanAnew  bool   `json:"canAnew"`
}

// bandNames name how even stitches are, as the sentence after a trace does.
var bandNames = map[practice.Band]string{
	practice.VeryEven: "Very even", practice.Even: "Even",
	practice.Usual: "Somewhat uneven", practice.Uneven: "Uneven",
}

// onPractice fills in how she practises.
func onPractice(p *Page, m game.Model) {
	l := m.Learning
	r := Practise{
		Mode: l.Mode, Stitched: m.Unveiled() != nil,
		Learn: l.Mode == game.InCourse, Warm: l.Mode == game.InWarmUp || l.Choosing,
		Free: !m.Leading(), OwnHelp: l.Mode != game.InCourse, Leads: m.Leading(),
		Choosing: l.Choosing, Asks: m.Guessing(), Acts: m.Leading() && !m.Guessing(), Again: "Trace again", Leave: "Leave", CanAgain: m.Open != nil && !m.Guessing(),
	}
	r.Freely = !r.Learn && !r.Warm
	for _, b := range practice.Bands {
		r.Bands = append(r.Bands, Option{ID: string(b), Name: bandNames[b]})
	}
	for _, n := range practice.Lengths {
		r.Lengths = append(r.Lengths, Option{ID: fmt.Sprint(n), Name: fmt.Sprintf("%d minutes", n)})
	}
	if w := l.WarmUp; w != nil && l.Choosing && !w.Stale(m.Clock()) {
		r.GoOn = fmt.Sprintf("Go on with minute %d of %d", w.Item+1, len(w.Items))
	}
	switch l.Mode {
	case game.InCourse:
		inCourse(&r, m)
	case game.InWarmUp:
		inWarmUp(&r, m)
	default:
		r.Note = "Any line, as often as you like."
		if c := l.Course; c != nil && !l.Choosing && c.Line().ID != m.Motif.ID {
			r.LearnOn = "Go on learning: " + c.Line().Name
		}
		if l.Choosing {
			r.Note = "Each minute another movement, drawn from where your stitches are least even. " + nextSentence(m) + " These traces are kept and never count."
		}
	}
	p.Rehearse.Practise = r
	if m.Guessing() {
		veil(p, m)
	}
}

// veil hides what would tell how even the trace was.
func veil(p *Page, m game.Model) {
	p.Figures, p.More, p.Advice, p.Compared = nil, nil, nil, ""
	p.HasMore, p.HasAdvice = false, false
	p.Replay = replayOf(m)
	p.Replay.Enabled = false
	for _, rows := range [][]PastRow{p.Past, p.PastOther} {
		for i := range rows {
			if rows[i].Open {
				rows[i].Text = "the trace on the cloth"
			}
		}
	}
}

func inCourse(r *Practise, m game.Model) {
	r.Note = "The help fades from trace to trace, then other lines are mixed in. Many hands keep more that way than with help at every trace, some do not. Skip, repeat or leave as you like: you come back to where you were."
	r.Skip, r.Same, r.Again = "Skip", "That one again", "Next trace"
	step, c := m.NextStep(), m.Learning.Course
	switch through := endSentence(m) != ""; {
	case through && m.Learning.Step.Mix:
		r.Again, r.Leave = "Another round", "Stop for today"
	case through:
		r.Again, r.Leave = "Mix in other lines", "Stop here"
	}
	r.CanSame, r.CanAnew = c.Plan.Before.Motif >= 0, step.Mix || step.Number > 1
	switch {
	case step.Enough:
		r.Pause = "That is enough for today: short sessions over several days hold better than a long one. Go on if you like."
	case step.Rest:
		r.Pause = "Ten minutes of practice. Rest your hand for two minutes before the next trace, or go on if you like."
	}
	if c.Guessed > 0 {
		r.Judged = fmt.Sprintf("You have judged %d of %d traces as they were.", c.Right, c.Guessed)
	}
}

func inWarmUp(r *Practise, m game.Model) {
	w := m.Learning.WarmUp
	r.Skip, r.Same = "Next minute", "Again"
	r.CanSame = true
	if _, more := w.Next(); !more {
		r.Skip = "Finish"
	}
	r.Note = "These traces are kept and never count."
	if spot, weak := w.Drawn(); weak && spot.Uneven >= spot.Beside {
		r.Note = "Chosen because your stitches are less even there than elsewhere. " + r.Note
	} else if weak {
		r.Note = "Chosen because you stray more from the line there than elsewhere. " + r.Note
	}
	sewn, of := w.Stitches()
	r.Sewn, r.Of = fmt.Sprint(sewn), fmt.Sprint(of)
	r.Clock = fmt.Sprintf("Minute %d of %d", w.Item+1, len(w.Items))
}

// nextSentence says with which block a warm-up ends, and why with that one.
func nextSentence(m game.Model) string {
	n := m.Learning.Next
	text := fmt.Sprintf("The last is %q, ", n.Name)
	switch n.From {
	case game.FromDesk:
		return text + "whose route you planned."
	case game.FromOrder:
		return text + fmt.Sprintf("the block that you have traced least in the first row of %q.", n.Quilt)
	case game.FromTop:
		return text + fmt.Sprintf("the block that you have traced least in %q.", n.Quilt)
	case game.FromBoard:
		return text + "the block that lies in Draw."
	case game.FromTrace:
		return text + "which you traced last."
	}
	return text + "which lies on the cloth."
}
