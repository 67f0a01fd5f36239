package page

import (
	"fmt"
	"strings"

	"unthreaded/game"
	"unthreaded/game/words"
	"unthreaded/scoring/practice"
	"unthreaded/scoring/progress"
)

// Practise holds what the page shows of how she practises.
type Practise struct {
	Freely bool `json:"freely"`
	Learn  bool `json:"learn"`
	Warm   bool `json:"warm"`
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

	Again string `json:"again"`
	Skip  string `json:"skip"`
	Same  string `json:"same"`
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
		Learn: l.Mode == game.InCourse, Warm: l.Mode == game.InWarmUp || l.Choosing,
		Free: !m.Leading(), OwnHelp: l.Mode != game.InCourse, Leads: m.Leading(),
		Choosing: l.Choosing, Asks: m.Guessing(), Acts: m.Leading() && !m.Guessing(), Again: "Trace again",
	}
	r.Freely = !r.Learn && !r.Warm
	for _, b := range practice.Bands {
		r.Bands = append(r.Bands, Option{string(b), bandNames[b]})
	}
	for _, n := range practice.Lengths {
		r.Lengths = append(r.Lengths, Option{fmt.Sprint(n), fmt.Sprintf("%d minutes", n)})
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
			r.Note = "Each minute another movement, drawn from where your stitches are least even; the last is the line that you are about to sew. These traces are kept and never count."
		}
	}
	p.Practise = r
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
	r.Skip, r.Same, r.Again = "Skip this one", "That one again", "Next trace"
	step := m.NextStep()
	switch {
	case step.Enough:
		r.Pause = "That is enough for today: short sessions over several days hold better than a long one. Go on if you like."
	case step.Rest:
		r.Pause = "Ten minutes of practice. Rest your hand for two minutes before the next trace, or go on if you like."
	}
	if c := m.Learning.Course; c.Guessed > 0 {
		r.Judged = fmt.Sprintf("You have judged %d of %d traces as they were.", c.Right, c.Guessed)
	}
}

func inWarmUp(r *Practise, m game.Model) {
	w := m.Learning.WarmUp
	r.Skip, r.Same = "Next minute", "This minute again"
	if _, more := w.Next(); !more {
		r.Skip = "End the warm-up"
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

// lessonSentence says what the next trace is for and what comes after it or, when it
// is made, how it went.
func lessonSentence(m game.Model) (string, bool) {
	switch {
	case !m.Leading() || m.Live != nil:
		return "", false
	case m.Guessing():
		return "How even was that? Say it before you look.", true
	case m.Learning.Mode == game.InWarmUp && m.Open != nil:
		return evenSentence(m.Open.Report.Evenness) + " Once more, until the minute is over.", true
	case m.Learning.Mode == game.InWarmUp:
		return minuteSentence(m), true
	case m.Open == nil:
		return stepSentence(m) + thenSentence(m), true
	}
	text := guessSentence(m) + traceSentence(m)
	if !m.Learning.Made {
		return text + " The same step again.", true
	}
	return text + " Next: " + lowerFirst(stepSentence(m)), true
}

// guessSentence tells what she said and what it was.
func guessSentence(m game.Model) string {
	switch l := m.Learning; {
	case l.Said == "":
		return ""
	case l.Said == l.Was:
		return "As you said. "
	default:
		return fmt.Sprintf("You said %s. ", strings.ToLower(bandNames[l.Said]))
	}
}

// guideNames say how a line is traced under each guide.
var guideNames = map[progress.Guide]string{
	progress.Whole: "with the whole line",
	progress.Dots:  "with its dots only",
	progress.Ends:  "with its two ends only",
	progress.None:  "from memory",
}

func stepSentence(m game.Model) string {
	s := m.NextStep()
	text := fmt.Sprintf("Trace %d of %d, %s", s.Number, s.Of, guideNames[s.Guide])
	if s.Mix {
		text = fmt.Sprintf("%s, %s", m.Learning.Course.Line().Name, guideNames[s.Guide])
	}
	if s.Counts {
		return text + ". This one counts."
	}
	return text + "."
}

// thenSentence tells what comes after the next trace.
func thenSentence(m game.Model) string {
	c := m.Learning.Course
	now, then := m.NextStep(), m.Learning.Course.After(m.Clock())
	switch {
	case then.Mix && !now.Mix:
		return " Then other lines take turns with it."
	case then.Motif != now.Motif:
		for _, l := range c.Lines {
			if l.ID == then.Motif {
				return " Then " + l.Name + "."
			}
		}
		return ""
	case then.Number == now.Number && !now.Mix:
		return " Two traces warm the hand first, so it comes once more."
	case then.Guide != now.Guide:
		return " Then " + guideNames[then.Guide] + "."
	}
	return " Then the same again."
}

var movementNames = map[progress.Movement]string{
	progress.Corner: "corners", progress.Loop: "loops", progress.Straight: "long straights",
	progress.TightLeft: "tight turns to the left", progress.TightRight: "tight turns to the right",
	progress.Left: "wide turns to the left", progress.Right: "wide turns to the right",
}

func minuteSentence(m game.Model) string {
	w := m.Learning.WarmUp
	it := w.Now()
	speed := words.Speed(m.HandSpeed(), m.Settings.Units == game.Inches)
	how := "at your needle's speed, " + speed
	switch {
	case it.Tempo < 1:
		how = "slowly, " + speed
	case it.Tempo > 1:
		how = "briskly, " + speed
	}
	what := movementNames[it.Movement]
	if it.Movement == "" {
		what = w.Block.Name + ", which you sew next"
	}
	text := fmt.Sprintf("Minute %d of %d: %s, %s.", w.Item+1, len(w.Items), what, how)
	if next, more := w.Next(); more && next.Movement == "" {
		text += " Then " + w.Block.Name + "."
	} else if more {
		text += " Then " + movementNames[next.Movement] + "."
	}
	return text
}

func lowerFirst(text string) string {
	if strings.HasPrefix(text, "Trace") {
		return "t" + text[1:]
	}
	return text
}
