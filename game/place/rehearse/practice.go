package rehearse

import (
	"fmt"

	"unthreaded/game/place"
	"unthreaded/scoring/practice"
)

// Practise holds what the page shows of how she practises.
type Practise struct {
	Mode   Practice `json:"mode"`
	Freely bool     `json:"freely"`
	Learn  bool     `json:"learn"`
	Warm   bool     `json:"warm"`
	// Free tells that she chooses the line, OwnHelp that she chooses the help beside it;
	// Leads that a lesson leads.
	Free    bool   `json:"free"`
	OwnHelp bool   `json:"ownHelp"`
	Leads   bool   `json:"leads"`
	Note    string `json:"note"`
	Judged  string `json:"judged"`
	Pause   string `json:"pause"`

	// Choosing asks how long the warm-up shall be; GoOn offers the one that was left.
	Choosing bool           `json:"choosing"`
	Lengths  []place.Option `json:"lengths"`
	GoOn     string         `json:"goOn"`
	// LearnOn offers the course that was left, where it goes on with another line than
	// the one on the cloth.
	LearnOn string `json:"learnOn"`

	// Asks how even the trace was, in Bands.
	Asks  bool           `json:"asks"`
	Acts  bool           `json:"acts"`
	Bands []place.Option `json:"bands"`

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

// practise tells how she practises.
func (r Room) practise() Practise {
	l := r.Learning
	p := Practise{
		Mode: l.Mode, Stitched: r.Unveiled() != nil,
		Learn: l.Mode == InCourse, Warm: l.Mode == InWarmUp || l.Choosing,
		Free: !r.Leading(), OwnHelp: l.Mode != InCourse, Leads: r.Leading(),
		Choosing: l.Choosing, Asks: r.Guessing(), Acts: r.Leading() && !r.Guessing(), Again: "Trace again", Leave: "Leave", CanAgain: r.Open != nil && !r.Guessing(),
	}
	p.Freely = !p.Learn && !p.Warm
	for _, b := range practice.Bands {
		p.Bands = append(p.Bands, place.Option{ID: string(b), Name: bandNames[b]})
	}
	for _, n := range practice.Lengths {
		p.Lengths = append(p.Lengths, place.Option{ID: fmt.Sprint(n), Name: fmt.Sprintf("%d minutes", n)})
	}
	if w := l.WarmUp; w != nil && l.Choosing && !w.Stale(r.Seconds()) {
		p.GoOn = fmt.Sprintf("Go on with minute %d of %d", w.Item+1, len(w.Items))
	}
	switch l.Mode {
	case InCourse:
		r.inCourse(&p)
	case InWarmUp:
		r.inWarmUp(&p)
	default:
		p.Note = "Any line, as often as you like."
		if c := l.Course; c != nil && !l.Choosing && c.Line().ID != r.Motif.ID {
			p.LearnOn = "Go on learning: " + c.Line().Name
		}
		if l.Choosing {
			p.Note = "Each minute another movement, drawn from where your stitches are least even. " + r.nextSentence() + " These traces are kept and never count."
		}
	}
	return p
}

// inCourse fills in what a course shows.
func (r Room) inCourse(p *Practise) {
	p.Note = "The help fades from trace to trace, then other lines are mixed in. Many hands keep more that way than with help at every trace, some do not. Skip, repeat or leave as you like: you come back to where you were."
	p.Skip, p.Same, p.Again = "Skip", "That one again", "Next trace"
	step, c := r.NextStep(), r.Learning.Course
	switch through := r.endSentence() != ""; {
	case through && r.Learning.Step.Mix:
		p.Again, p.Leave = "Another round", "Stop for today"
	case through:
		p.Again, p.Leave = "Mix in other lines", "Stop here"
	}
	p.CanSame, p.CanAnew = c.Plan.Before.Motif >= 0, step.Mix || step.Number > 1
	switch {
	case step.Enough:
		p.Pause = "That is enough for today: short sessions over several days hold better than a long one. Go on if you like."
	case step.Rest:
		p.Pause = "Ten minutes of practice. Rest your hand for two minutes before the next trace, or go on if you like."
	}
	if c.Guessed > 0 {
		p.Judged = fmt.Sprintf("You have judged %d of %d traces as they were.", c.Right, c.Guessed)
	}
}

// inWarmUp fills in what a warm-up shows.
func (r Room) inWarmUp(p *Practise) {
	w := r.Learning.WarmUp
	p.Skip, p.Same = "Next minute", "Again"
	p.CanSame = true
	if _, more := w.Next(); !more {
		p.Skip = "Finish"
	}
	p.Note = "These traces are kept and never count."
	if spot, weak := w.Drawn(); weak && spot.Uneven >= spot.Beside {
		p.Note = "Chosen because your stitches are less even there than elsewhere. " + p.Note
	} else if weak {
		p.Note = "Chosen because you stray more from the line there than elsewhere. " + p.Note
	}
	sewn, of := w.Stitches()
	p.Sewn, p.Of = fmt.Sprint(sewn), fmt.Sprint(of)
	p.Clock = fmt.Sprintf("Minute %d of %d", w.Item+1, len(w.Items))
}

// nextSentence says with which block a warm-up ends, and why with that one.
func (r Room) nextSentence() string {
	n := r.Learning.Next
	text := fmt.Sprintf("The last is %q, ", n.Name)
	switch n.From {
	case FromDesk:
		return text + "whose route you planned."
	case FromOrder:
		return text + fmt.Sprintf("the block that you have traced least in the first row of %q.", n.Quilt)
	case FromTop:
		return text + fmt.Sprintf("the block that you have traced least in %q.", n.Quilt)
	case FromBoard:
		return text + "the block that lies in Draw."
	case FromTrace:
		return text + "which you traced last."
	}
	return text + "which lies on the cloth."
}
