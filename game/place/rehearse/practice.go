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

// practise tells how she practises.
func (r Room) practise() Practise {
	b, l := r.Book(), r.Learning
	p := Practise{
		Mode: l.Mode, Stitched: r.Unveiled() != nil,
		Learn: l.Mode == InCourse, Warm: l.Mode == InWarmUp || l.Choosing,
		Free: !r.Leading(), OwnHelp: l.Mode != InCourse, Leads: r.Leading(),
		Choosing: l.Choosing, Asks: r.Guessing(), Acts: r.Leading() && !r.Guessing(), Again: b.Say("rehearse.act.again"), Leave: b.Say("rehearse.act.leave"), CanAgain: r.Open != nil && !r.Guessing(),
	}
	p.Freely = !p.Learn && !p.Warm
	for _, band := range practice.Bands {
		p.Bands = append(p.Bands, place.Option{ID: string(band), Name: b.Say("rehearse.band." + keyOf(band))})
	}
	for _, n := range practice.Lengths {
		p.Lengths = append(p.Lengths, place.Option{ID: fmt.Sprint(n), Name: b.Say("rehearse.minutes", n)})
	}
	if w := l.WarmUp; w != nil && l.Choosing && !w.Stale(r.Seconds()) {
		p.GoOn = b.Say("rehearse.warm-on", w.Item+1, len(w.Items))
	}
	switch l.Mode {
	case InCourse:
		r.inCourse(&p)
	case InWarmUp:
		r.inWarmUp(&p)
	default:
		p.Note = b.Say("rehearse.freely")
		if c := l.Course; c != nil && !l.Choosing && c.Line().ID != r.Motif.ID {
			p.LearnOn = b.Say("rehearse.learn-on", r.nameOf(c.Line().ID, c.Line().Name))
		}
		if l.Choosing {
			p.Note = b.Say("rehearse.warm-note", r.nextSentence())
		}
	}
	return p
}

// inCourse fills in what a course shows.
func (r Room) inCourse(p *Practise) {
	b := r.Book()
	p.Note = b.Say("rehearse.course-note")
	p.Skip, p.Same, p.Again = b.Say("rehearse.act.skip"), b.Say("rehearse.act.same"), b.Say("rehearse.act.next")
	step, c := r.NextStep(), r.Learning.Course
	switch through := r.endSentence() != ""; {
	case through && r.Learning.Step.Mix:
		p.Again, p.Leave = b.Say("rehearse.act.round"), b.Say("rehearse.act.today")
	case through:
		p.Again, p.Leave = b.Say("rehearse.act.mix"), b.Say("rehearse.act.leave")
	}
	p.CanSame, p.CanAnew = c.Plan.Before.Motif >= 0, step.Mix || step.Number > 1
	switch {
	case step.Enough:
		p.Pause = b.Say("rehearse.enough")
	case step.Rest:
		p.Pause = b.Say("rehearse.rest")
	}
	if c.Guessed > 0 {
		p.Judged = b.Say("rehearse.judged", c.Right, c.Guessed)
	}
}

// inWarmUp fills in what a warm-up shows.
func (r Room) inWarmUp(p *Practise) {
	b, w := r.Book(), r.Learning.WarmUp
	p.Skip, p.Same = b.Say("rehearse.act.next-minute"), b.Say("rehearse.act.minute-again")
	p.CanSame = true
	if _, more := w.Next(); !more {
		p.Skip = b.Say("rehearse.act.finish")
	}
	p.Note = b.Say("rehearse.never-count")
	if spot, weak := w.Drawn(); weak && spot.Uneven >= spot.Beside {
		p.Note = b.Say("rehearse.weak-even") + " " + p.Note
	} else if weak {
		p.Note = b.Say("rehearse.weak-beside") + " " + p.Note
	}
	sewn, of := w.Stitches()
	p.Sewn, p.Of = fmt.Sprint(sewn), fmt.Sprint(of)
	p.Clock = b.Say("rehearse.minute", w.Item+1, len(w.Items))
}

// nextSentence says with which block a warm-up ends, and why with that one.
func (r Room) nextSentence() string {
	n := r.Learning.Next
	return r.Book().Say("rehearse.next", r.nameOf(n.Line.ID, n.Name), string(n.From), n.Quilt)
}
