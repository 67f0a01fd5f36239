package page

import (
	"fmt"
	"math"

	"unthreaded/game"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/scoring"
)

// Bands of the variation of stitch length to begin with. They are ours, not from
// the literature: relaxed hand-drawn curves vary by 24 to 57 %.
const (
	veryEven = 0.15
	even     = 0.25
	usual    = 0.40
)

// sentence is the one that matters most now.
func sentence(m game.Model) string {
	if text, leads := lessonSentence(m); leads {
		return text
	}
	switch {
	case m.Live != nil:
		return liveSentence(m)
	case m.Open == nil:
		return startSentence(m)
	}
	return traceSentence(m)
}

// traceSentence says how the trace on the cloth went.
func traceSentence(m game.Model) string {
	if m.Open.Unmeasured != "" {
		return "Too short to measure. Follow the line to its end, even if you leave it on the way."
	}
	rep := m.Open.Report
	text := evenSentence(rep.Evenness)
	if cv := rep.Evenness.SpacingCV; cv.Defined && cv.Value > veryEven {
		if where := whereSentence(rep, m.Settings.StitchMM); where != "" {
			text += " " + where
		}
	}
	if s := paceSentence(m, rep); s != "" {
		text += " " + s
	}
	if c := rep.Coverage; c.Defined && c.Value < 0.9 {
		text += fmt.Sprintf(" You sewed %s of the line.", words.Percent(c.Value))
		if beganLate(m.Open) {
			text += " It began part of the way along: begin on the start dot."
		}
	}
	return text
}

// beganLate tells whether a trace that went forwards began where a tenth of the line or
// more was behind it, as happens when the pointer was lifted and put down anew.
func beganLate(sh *game.Sheet) bool {
	first, last := sh.Place[0], sh.Place[len(sh.Place)-1]
	return first > 0.1*sh.Line.Length() && last > first
}

func evenSentence(e scoring.Evenness) string {
	if !e.SpacingCV.Defined && e.Stitches >= 3 {
		return "Traced. How even the stitches are cannot be told: " + e.SpacingCV.Why + "."
	}
	if !e.SpacingCV.Defined {
		return "Traced. There were too few stitches to say how even they are."
	}
	switch cv := e.SpacingCV.Value; {
	case cv <= veryEven:
		return "Very even stitches."
	case cv <= even:
		return "Even stitches."
	case cv <= usual:
		return "Somewhat uneven stitches, as most hands make at first."
	}
	return "Uneven stitches."
}

// paceSentence tells a hand that was clearly faster or slower than planned.
func paceSentence(m game.Model, rep scoring.Report) string {
	e := rep.Evenness
	if !e.StitchMM.Defined {
		return ""
	}
	inches := m.Settings.Units == game.Inches
	planned := m.Settings.StitchMM
	ratio := e.StitchMM.Value / planned
	if ratio > 1-scoring.NearShare && ratio < 1+scoring.NearShare {
		return ""
	}
	how := "faster"
	if ratio < 1 {
		how = "slower"
	}
	text := fmt.Sprintf("Your hand was %s than planned: %s instead of %s.", how,
		stitchWords(e.StitchMM.Value, inches), stitchWords(planned, inches))
	if !e.SpacingCV.Defined || e.SpacingCV.Value > even {
		return text // no one needle speed suits stitches of all sizes
	}
	if spm := 10 * math.Round(m.Settings.SPM*ratio/10); machine.NeedleSpeed.Check(spm) == nil {
		text += fmt.Sprintf(" At about %.0f stitches a minute this pace would be right.", spm)
	}
	return text
}

// stitchWords gives a stitch length in mm, in inches with the count that quilters
// use before it.
func stitchWords(mm float64, inches bool) string {
	if inches {
		return words.Stitch(mm, true) + " (" + words.Stitch(mm, false) + ")"
	}
	return words.Stitch(mm, false)
}

// figures are the four measures in the order of their worth, and the others.
func figures(m game.Model) (top []Figure, more []Row) {
	if m.Open == nil || m.Live != nil || m.Open.Unmeasured != "" {
		return nil, nil
	}
	rep, inches := m.Open.Report, m.Settings.Units == game.Inches
	top = []Figure{
		evennessFigure(rep, m.Settings),
		lateralFigure(rep),
		cornerFigure(rep),
		flowFigure(rep),
	}
	return top, details(rep, inches)
}

// orWhy fills a figure that is not defined with the reason.
func orWhy(f Figure, v scoring.Figure) Figure {
	if !v.Defined {
		f.Value, f.Note = "-", "Not measured: "+v.Why+"."
	}
	return f
}

func evennessFigure(rep scoring.Report, s game.Settings) Figure {
	e := rep.Evenness
	f := Figure{ID: "evenness", Name: "Stitch length varies by", Value: words.Percent(e.SpacingCV.Value)}
	f.Note = "Up to 15 % is very even, 25 % even."
	if e.NearTarget.Defined {
		f.Note = fmt.Sprintf("%s of the stitches are within 20 %% of %s. %s", words.Percent(e.NearTarget.Value),
			words.Stitch(s.StitchMM, s.Units == game.Inches), f.Note)
	}
	return orWhy(f, e.SpacingCV)
}

func lateralFigure(rep scoring.Report) Figure {
	l := rep.Lateral
	f := Figure{ID: "line", Name: "Beside the line", Value: words.Small(l.MeanError.Value)}
	f.Note = fmt.Sprintf("On average. 95 %% of the way is within %s.", words.Small(l.P95.Value))
	if c := rep.Coverage; c.Defined && c.Value < 0.9 {
		f.Note += " What was left out does not count here."
	}
	return orWhy(f, l.MeanError)
}

func cornerFigure(rep scoring.Report) Figure {
	t := rep.Turns
	if len(t.Corners) == 0 {
		f := Figure{ID: "corners", Name: "Line followed", Value: words.Percent(rep.Coverage.Value)}
		f.Note = "The share of the line that has a stitch near it. There are no corners to overshoot."
		return orWhy(f, rep.Coverage)
	}
	f := Figure{ID: "corners", Name: "Past the corners", Value: words.Small(t.MeanOvershoot.Value)}
	f.Note = fmt.Sprintf("On average. The worst went %s too far.", words.Small(t.WorstOvershoot.Value))
	return orWhy(f, t.MeanOvershoot)
}

func flowFigure(rep scoring.Report) Figure {
	f := Figure{ID: "flow", Name: "Slowed and sped up again", Value: words.Count(hesitations(rep), "time", "times")}
	f.Note = "Away from corners and dots. The fewer, the calmer the hand."
	return orWhy(f, rep.SPARC)
}
