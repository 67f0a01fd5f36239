package rehearse

import (
	"strings"

	"unthreaded/game/words"
	"unthreaded/scoring"
	"unthreaded/scoring/progress"
)

// lessonSentence says what the next trace is for and what comes after it or, when it
// is made, how it went and what comes next.
func (r Room) lessonSentence() (text, next string, leads bool) {
	b := r.Book()
	switch {
	case !r.Leading() || r.Live != nil:
		return "", "", false
	case r.Guessing():
		return b.Say("rehearse.guess"), "", true
	case r.Hasty():
		return b.Say("rehearse.too-fast"), "", true
	case r.Learning.Mode == InWarmUp && r.Open == nil:
		return r.minuteSentence(), "", true
	case r.Open == nil:
		return strings.TrimSpace(r.step("alone") + " " + r.thenSentence()), "", true
	}
	text, next = r.traceSentence()
	if r.Open.Report.First.Word == scoring.SaidFine || r.endSentence() != "" {
		next = "" // what comes next is said below; two things at once would be too much
	}
	return r.guessSentence() + text, strings.TrimSpace(next + " " + r.afterTrace()), true
}

// afterTrace says what comes after the trace on the cloth in a lesson.
func (r Room) afterTrace() string {
	b := r.Book()
	if r.Learning.Mode == InWarmUp {
		return b.Say("rehearse.once-more")
	}
	if end := r.endSentence(); end != "" {
		return end
	}
	if !r.Learning.Made {
		return b.Say("rehearse.same-step")
	}
	return b.Say("rehearse.and-next", r.step("next"))
}

// endSentence tells, after a trace, that the row of its line is through, or a round of
// the mix; else it is empty.
func (r Room) endSentence() string {
	if r.Learning.Mode != InCourse || !r.Learning.Made {
		return ""
	}
	made, next := r.Learning.Step, r.NextStep()
	switch {
	case !made.Mix && made.Guide == progress.None && next.Mix:
		return r.Book().Say("rehearse.row-through")
	case made.Mix && next.Round:
		return r.Book().Say("rehearse.round-through")
	}
	return ""
}

// guessSentence tells what she said and what it was.
func (r Room) guessSentence() string {
	switch l := r.Learning; {
	case l.Said == "":
		return ""
	case l.Said == l.Was:
		return r.Book().Say("rehearse.as-said") + " "
	default:
		return r.Book().Say("rehearse.said."+keyOf(l.Said)) + " "
	}
}

// under tells how a line is traced under a guide.
func (r Room) under(g progress.Guide) string { return r.Book().Say("rehearse.under." + string(g)) }

// step tells which trace comes next; form "alone" as a sentence, "next" within one.
func (r Room) step(form string) string {
	s, b, l := r.NextStep(), r.Book(), r.Learning.Course.Line()
	if s.Mix {
		return b.Say("rehearse.turn."+form, s.Number, s.Of, r.under(s.Guide), s.Counts, r.nameOf(l.ID, l.Name))
	}
	return b.Say("rehearse.step."+form, s.Number, s.Of, r.under(s.Guide), s.Counts)
}

// thenSentence tells what comes after the next trace.
func (r Room) thenSentence() string {
	b, c := r.Book(), r.Learning.Course
	now, then := r.NextStep(), r.Learning.Course.After(r.Seconds())
	switch {
	case then.Mix && !now.Mix:
		return b.Say("rehearse.then.mix")
	case now.Mix && then.Round:
		return b.Say("rehearse.then.last")
	case then.Motif != now.Motif:
		for _, l := range c.Lines {
			if l.ID == then.Motif {
				return b.Say("rehearse.then.to", r.nameOf(l.ID, l.Name))
			}
		}
		return ""
	case then.Number == now.Number && !now.Mix:
		return b.Say("rehearse.then.warming")
	case then.Guide != now.Guide:
		return b.Say("rehearse.then.to", r.under(then.Guide))
	}
	return b.Say("rehearse.then.same")
}

// keyOf returns a code as it stands in the keys of messages.
func keyOf[T ~string](code T) string { return strings.ReplaceAll(string(code), " ", "-") }

// movement names what a minute of the warm-up trains; the last is the block.
func (r Room) movement(m progress.Movement) string {
	if block := r.Learning.WarmUp.Block; m == "" {
		return r.nameOf(block.ID, block.Name)
	}
	return r.Book().Say("rehearse.movement." + keyOf(m))
}

func (r Room) minuteSentence() string {
	b, w := r.Book(), r.Learning.WarmUp
	it := w.Now()
	how := "own"
	switch {
	case it.Tempo < 1:
		how = "slow"
	case it.Tempo > 1:
		how = "brisk"
	}
	text := b.Say("rehearse.warm-minute", w.Item+1, len(w.Items), it.Movement == "", r.movement(it.Movement), how, words.SpeedMM(r.HandSpeed()))
	if next, more := w.Next(); more {
		text += " " + b.Say("rehearse.then.to", r.movement(next.Movement))
	}
	return text
}
