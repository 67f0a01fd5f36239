package back

import (
	"fmt"
	"math"
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
	n, b := len(f.Scores), m.Book()
	zone := m.Weeks.Zone()
	for i := range min(n, mostRows) {
		s := f.Scores[n-1-i]
		row := ScoreRow{
			ID: strconv.Itoa(n - i), Day: b.Amount(words.Date(zone.Date(s.At))), Score: ScoreText(s.Median, f, b),
			Half: b.Say("back.from-to", score(s.Q1, f), score(s.Q3, f)), Count: b.Say("back.counted", len(s.Counted), s.Sure()),
		}
		r.Table = append(r.Table, row)
	}
	if n > mostRows {
		r.TableNote = b.Say("back.table-note", mostRows, n)
	}
}

// onDays fills in the calendar.
func onDays(p *pageOf, m Room, f weeks.Found) {
	r, zone, b := &p.in, m.Weeks.Zone(), m.Book()
	today := zone.Date(m.nowS())
	four := today.AddDate(0, 0, -27).Format("2006-01-02")
	days, traces, minutes := 0, 0, 0.0
	for _, d := range f.Days {
		if fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) >= four {
			days, traces, minutes = days+1, traces+d.Traces, minutes+d.Minutes
		}
	}
	p.Sentence = b.Say("back.days.practised", days, minuteText(minutes))
	switch {
	case len(f.Days) == 0:
		p.Sentence = b.Say("back.days.none")
	case days == 0:
		p.Sentence = b.Say("back.days.no-practice")
	}
	r.DaysText = b.Say("back.days.off")
	r.Earlier = len(f.Days) > 0
	r.Later = m.Month > 0
	for i := len(f.Days) - 1; i >= 0 && len(r.DayTable) < mostRows; i-- {
		d := f.Days[i]
		r.DayTable = append(r.DayTable, Row{
			ID:    b.Amount(words.Date(time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC))),
			Value: b.Write(minuteText(d.Minutes)),
			Note:  b.Say("back.days.note", d.Traces, minuteText(d.Moving)),
		})
	}
	p.Cloth = b.Say("back.cloth.days")
}

// minuteText is a time of practice.
func minuteText(minutes float64) words.Msg {
	if minutes < 0.95 {
		return words.Of("back.under-a-minute")
	}
	return words.Of("back.minutes", int(math.Round(minutes)))
}

// PairRow is one measure of the two traces.
type PairRow struct {
	ID     string `json:"id"`
	First  string `json:"first"`
	Second string `json:"second"`
}

// onPair fills in the two traces laid over each other.
func onPair(p *pageOf, m Room) {
	r, b := &p.in, m.Book()
	first, second := m.Pair.First, m.Pair.Second
	if first == nil {
		p.Sentence, p.Cloth = b.Say("back.pair.choose"), b.Say("back.cloth.no-pair")
		if _, listed := m.Picked(); !listed && !m.Weeks.Busy() {
			fewTraces(p, m)
		}
		return
	}
	r.HasPair = true
	p.Plays = true
	p.Replay = m.replay()
	p.Cloth = b.Say("back.cloth.pair")
	if second == nil {
		p.Sentence = b.Say("back.pair.choose-second")
	} else {
		p.Sentence = b.Write(pairSentence(m))
	}
	r.PairText = b.Say("back.pair.how", second != nil && second.Rec.Motif != first.Rec.Motif)
	r.PairTable = pairTable(first, second, b)
}

// fewTraces says what is lacking before two traces can be chosen.
func fewTraces(p *pageOf, m Room) {
	r, b := &p.in, m.Book()
	r.Few, r.FewAct = true, b.Say("back.pair.another")
	switch n := len(m.Records); {
	case n == 0:
		p.Sentence, r.FewAct = b.Say("back.pair.needs-first"), b.Say("site.back.make-the-first-trace")
	case n < 3:
		p.Sentence = b.Say("back.pair.needs-three", n)
	default:
		p.Sentence = b.Say("back.pair.no-sitting")
	}
}

// pairSentence says which of the two has the more even stitches.
func pairSentence(m Room) words.Msg {
	a, b := m.Pair.First.Report.Evenness.SpacingCV, m.Pair.Second.Report.Evenness.SpacingCV
	if !a.Defined || !b.Defined {
		return words.Of("back.pair.two")
	}
	first, second := words.Share(a.Value), words.Share(b.Value)
	than := "second"
	switch book := m.Book(); {
	case book.Amount(first) == book.Amount(second):
		than = "both"
	case a.Value < b.Value:
		than = "first"
	}
	return words.Of("back.pair.evener", than, first, second)
}

func pairTable(first, second *replay.Sheet, b words.Book) []PairRow {
	row := func(id string, of func(sh *replay.Sheet) any) PairRow {
		out := PairRow{ID: id}
		if first.Unmeasured == nil {
			out.First = b.Amount(of(first))
		}
		if second != nil && second.Unmeasured == nil {
			out.Second = b.Amount(of(second))
		}
		return out
	}
	return []PairRow{
		row(b.Say("back.chart.spacing"), func(sh *replay.Sheet) any { return figureOr(sh.Report.Evenness.SpacingCV, share) }),
		row(b.Say("back.pair.beside"), func(sh *replay.Sheet) any { return figureOr(sh.Report.Lateral.MeanError, small) }),
		row(b.Say("back.pair.slowed"), func(sh *replay.Sheet) any { return slowings(sh.Report) }),
		row(b.Say("back.pair.time"), func(sh *replay.Sheet) any { return words.ClockS(sh.Duration()) }),
	}
}

func share(v float64) any { return words.Share(v) }
func small(v float64) any { return words.SmallMM(v) }

// figureOr is a figure; one that is not defined is a stroke.
func figureOr(f scoring.Figure, shown func(float64) any) any {
	if !f.Defined {
		return "-"
	}
	return shown(f.Value)
}

// slowings counts how often the hand slowed away from corners and dots.
func slowings(rep scoring.Report) any {
	n := 0
	for _, h := range rep.Hesitations {
		if !h.AtBreak {
			n++
		}
	}
	return figureOr(rep.SPARC, func(float64) any { return words.Of("back.pair.times", n) })
}

// replay is the state of the replay's controls for two traces.
func (r Room) replay() *place.Replay {
	c, first, b := r.Pair.Clock, r.Pair.First, r.Book()
	at := first.PlaceAt(c.T)
	out := &place.Replay{
		Play: b.Say("back.pair.play"), Rate: strconv.FormatFloat(c.Rate, 'f', -1, 64), Enabled: len(first.Place) > 0,
		Max: fmt.Sprintf("%.1f", first.Line.Length()), Scrub: fmt.Sprintf("%.1f", at),
		Time:   b.Say("back.pair.time-of", words.ClockS(c.T), words.ClockS(c.Length)),
		Spoken: b.Say("back.pair.spoken", words.LengthMM(at), words.ClockS(c.T)),
	}
	if c.Playing {
		out.Play = b.Say("page.pause")
	}
	for _, rate := range replay.RateNames() {
		out.Rates = append(out.Rates, place.Option{ID: rate, Name: b.Say("page.rate", rate)})
	}
	return out
}
