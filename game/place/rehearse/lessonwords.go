package rehearse

import (
	"fmt"
	"strings"

	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// lessonSentence says what the next trace is for and what comes after it or, when it
// is made, how it went.
func (r Room) lessonSentence() (string, bool) {
	switch {
	case !r.Leading() || r.Live != nil:
		return "", false
	case r.Guessing():
		return "How even was that? Say it before you look.", true
	case r.Hasty():
		return "That was too fast to measure. Once more?", true
	case r.Learning.Mode == InWarmUp && r.Open != nil:
		return r.firstSentence() + " Once more, until the minute is over.", true
	case r.Learning.Mode == InWarmUp:
		return r.minuteSentence(), true
	case r.Open == nil:
		return r.stepSentence() + r.thenSentence(), true
	}
	if end := r.endSentence(); end != "" {
		// How the pace was stands beside it; two things at once would be too much.
		return r.guessSentence() + r.firstSentence() + " " + end, true
	}
	text := r.guessSentence() + r.traceSentence()
	if !r.Learning.Made {
		return text + " The same step again.", true
	}
	return text + " Next: " + lowerFirst(r.stepSentence()), true
}

// endSentence tells, after a trace, that the row of its line is through, or a round of
// the mix; else it is empty.
func (r Room) endSentence() string {
	made, next := r.Learning.Step, r.NextStep()
	switch {
	case !r.Learning.Made:
		return ""
	case !made.Mix && made.Guide == progress.None && next.Mix:
		return "You sewed it from memory. Other lines now take turns with it, or stop here."
	case made.Mix && next.Round:
		return "That is a good practice for today. Rest, or go on."
	}
	return ""
}

// guessSentence tells what she said and what it was.
func (r Room) guessSentence() string {
	switch l := r.Learning; {
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

func (r Room) stepSentence() string {
	s := r.NextStep()
	text := fmt.Sprintf("Trace %d of %d, %s", s.Number, s.Of, guideNames[s.Guide])
	if s.Mix {
		text = fmt.Sprintf("Turn %d of %d: %s, %s", s.Number, s.Of, r.Learning.Course.Line().Name, guideNames[s.Guide])
	}
	if s.Counts {
		return text + ". This one counts."
	}
	return text + "."
}

// thenSentence tells what comes after the next trace.
func (r Room) thenSentence() string {
	c := r.Learning.Course
	now, then := r.NextStep(), r.Learning.Course.After(r.Seconds())
	switch {
	case then.Mix && !now.Mix:
		return " Then other lines take turns with it."
	case now.Mix && then.Round:
		return " It is the last of this practice, unless you go on."
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

func (r Room) minuteSentence() string {
	w := r.Learning.WarmUp
	it := w.Now()
	speed := words.Speed(r.HandSpeed(), r.Inches())
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
	if strings.HasPrefix(text, "T") { // a trace or a turn
		return "t" + text[1:]
	}
	return text
}
