package back

import (
	"fmt"
	"strconv"
	"time"

	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/replay"
	"unthreaded/game/words"
	"unthreaded/scoring"
)

// ScoreRow is one session in the table.
type ScoreRow struct {
	ID    string `json:"id"`
	Day   string `json:"day"`
	Score string `json:"score"`
	Half  string `json:"half"`
	Count string `json:"count"`
}

// mostRows is how many sessions the table shows; the file holds all.
const mostRows = 60

// scoreTable is the chart as a table, the newest session first.
func scoreTable(r *Shown, m Room, f weeks.Found) {
	n := len(f.Scores)
	zone := m.Weeks.Zone()
	for i := range min(n, mostRows) {
		s := f.Scores[n-1-i]
		row := ScoreRow{
			ID: strconv.Itoa(n - i), Day: zone.Date(s.At).Format(words.Day), Score: ScoreText(s.Median, f),
			Half: ScoreText(s.Q1, f) + " to " + ScoreText(s.Q3, f), Count: strconv.Itoa(len(s.Counted)),
		}
		if !s.Sure() {
			row.Count += ", too few to judge by"
		}
		r.Table = append(r.Table, row)
	}
	if n > mostRows {
		r.TableNote = fmt.Sprintf("The newest %d of %d sessions. The file below holds them all.", mostRows, n)
	}
}

// onDays fills in the calendar.
func onDays(p *pageOf, m Room, f weeks.Found) {
	r, zone := &p.in, m.Weeks.Zone()
	today := zone.Date(m.nowS())
	four := today.AddDate(0, 0, -27).Format("2006-01-02")
	days, traces, minutes := 0, 0, 0.0
	for _, d := range f.Days {
		if fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) >= four {
			days, traces, minutes = days+1, traces+d.Traces, minutes+d.Minutes
		}
	}
	p.Sentence = fmt.Sprintf("In the last four weeks you practised on %s, %s in all.", counted(days, "day"), minuteText(minutes))
	switch {
	case len(f.Days) == 0:
		p.Sentence = "The days on which you practise will stand here."
	case days == 0:
		p.Sentence = "No practice in the last four weeks. A few traces are enough to begin again."
	}
	r.DaysText = "Days off belong to it: a few short sessions over several days hold better than a long one. Nothing here counts days in a row."
	r.Earlier = len(f.Days) > 0
	r.Later = m.Month > 0
	for i := len(f.Days) - 1; i >= 0 && len(r.DayTable) < mostRows; i-- {
		d := f.Days[i]
		r.DayTable = append(r.DayTable, Row{
			ID:    time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).Format(words.Day),
			Value: minuteText(d.Minutes),
			Note:  fmt.Sprintf("%s, the hand moving for %s", counted(d.Traces, "trace"), minuteText(d.Moving)),
		})
	}
	p.Cloth = "Calendar of the days on which you practised, with minutes. The table beside it holds the same."
}

// minuteText writes a time of practice.
func minuteText(minutes float64) string {
	switch {
	case minutes < 0.95:
		return "less than a minute"
	case minutes < 1.5:
		return "1 minute"
	}
	return fmt.Sprintf("%.0f minutes", minutes)
}

// PairRow is one measure of the two traces.
type PairRow struct {
	ID     string `json:"id"`
	First  string `json:"first"`
	Second string `json:"second"`
}

// onPair fills in the two traces laid over each other.
func onPair(p *pageOf, m Room) {
	r := &p.in
	first, second := m.Pair.First, m.Pair.Second
	if first == nil {
		p.Sentence = "Choose any two traces from the list: they are laid one over the other and played together."
		p.Cloth = "No trace is chosen yet."
		if _, listed := m.Picked(); !listed && !m.Weeks.Busy() {
			fewTraces(p, m)
		}
		return
	}
	r.HasPair = true
	p.Plays = true
	p.Replay = m.replay()
	p.Cloth = "Two traces as stitches, one over the other. Their measures are beside it as a table."
	if second == nil {
		p.Sentence = "One trace is down. Choose a second one to lay over it."
	} else {
		p.Sentence = pairSentence(m)
	}
	r.PairText = "The first is sewn in dashes, one for each stitch; the second is beads on a thin thread, one at each stitch. They start together and each goes at its own pace. Underneath is the speed of both hands: a line for the first, dots for the second."
	if second != nil && second.Rec.Motif != first.Rec.Motif {
		r.PairText += " The second follows another line than the one in chalk."
	}
	r.PairTable = pairTable(first, second)
}

// fewTraces says what is lacking before two traces can be chosen.
func fewTraces(p *pageOf, m Room) {
	r := &p.in
	r.Few, r.FewAct = true, "Make another trace"
	switch n := len(m.Records); {
	case n == 0:
		p.Sentence, r.FewAct = "Two traces will lie here one over the other, and play together. It needs your first.", "Make the first trace"
	case n < 3:
		p.Sentence = fmt.Sprintf("Two traces will lie here one over the other. A sitting is listed from its third trace on; so far there %s.", map[int]string{1: "is 1", 2: "are 2"}[n])
	default:
		p.Sentence = "There is no sitting to choose from yet: one is listed from its third trace on, and for other choices look in Over weeks."
	}
}

// pairSentence says which of the two has the more even stitches.
func pairSentence(m Room) string {
	a, b := m.Pair.First.Report.Evenness.SpacingCV, m.Pair.Second.Report.Evenness.SpacingCV
	if !a.Defined || !b.Defined {
		return "Two traces, one over the other."
	}
	than := "The second has the more even stitches"
	switch {
	case words.Percent(a.Value) == words.Percent(b.Value):
		than = "Both are as even"
	case a.Value < b.Value:
		than = "The first has the more even stitches"
	}
	return fmt.Sprintf("%s: they vary by %s and %s. Two traces show how, not whether you got better.", than, words.Percent(a.Value), words.Percent(b.Value))
}

func pairTable(first, second *replay.Sheet) []PairRow {
	row := func(id string, of func(sh *replay.Sheet) string) PairRow {
		out := PairRow{ID: id}
		if first.Unmeasured == "" {
			out.First = of(first)
		}
		if second != nil && second.Unmeasured == "" {
			out.Second = of(second)
		}
		return out
	}
	return []PairRow{
		row("Stitch length varies by", func(sh *replay.Sheet) string { return valueOr(sh.Report.Evenness.SpacingCV, words.Percent) }),
		row("Beside the line", func(sh *replay.Sheet) string { return valueOr(sh.Report.Lateral.MeanError, words.Small) }),
		row("Slowed and sped up again", func(sh *replay.Sheet) string { return slowings(sh.Report) }),
		row("Time", func(sh *replay.Sheet) string { return words.Clock(sh.Duration()) }),
	}
}

// valueOr writes a figure; one that is not defined is a stroke.
func valueOr(f scoring.Figure, show func(float64) string) string {
	if !f.Defined {
		return "-"
	}
	return show(f.Value)
}

// slowings counts how often the hand slowed away from corners and dots.
func slowings(rep scoring.Report) string {
	n := 0
	for _, h := range rep.Hesitations {
		if !h.AtBreak {
			n++
		}
	}
	return valueOr(rep.SPARC, func(float64) string { return words.Count(n, "time", "times") })
}

// replay is the state of the replay's controls for two traces.
func (r Room) replay() *place.Replay {
	c, first := r.Pair.Clock, r.Pair.First
	at := first.PlaceAt(c.T)
	out := &place.Replay{
		Play: "Watch them together", Playing: c.Playing, Rate: strconv.FormatFloat(c.Rate, 'f', -1, 64), Enabled: len(first.Place) > 0,
		Max: fmt.Sprintf("%.1f", first.Line.Length()), Scrub: fmt.Sprintf("%.1f", at),
		Time:   words.Clock(c.T) + " of " + words.Clock(c.Length),
		Spoken: fmt.Sprintf("%s along the line, %s", words.Length(at, r.Inches()), words.Clock(c.T)),
	}
	if c.Playing {
		out.Play = "Pause"
	}
	for _, rate := range replay.RateNames() {
		out.Rates = append(out.Rates, place.Option{ID: rate, Name: r.Book().Say("page.rate", rate)})
	}
	return out
}
