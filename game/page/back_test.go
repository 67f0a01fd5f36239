package page_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/page"
	"unthreaded/game/place/back"
	"unthreaded/game/worktest"
	"unthreaded/scoring"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

// lookedBack returns the place after n sessions of five traces without the line, whose
// figures are those of the session.
func lookedBack(n int, figures func(k int) map[progress.Measure]float64, controls ...game.Control) game.Model {
	traces := make([]int, n)
	for k := range traces {
		traces[k] = 5
	}
	return looked(sessions(traces, keep.NoMarks, 0, figures), controls...)
}

// sessionsOf are sessions of so many traces each, all alike.
func sessionsOf(traces []int, marks string, from int) game.Model {
	return sessions(traces, marks, from, evenness(func(int) float64 { return 0.3 }))
}

// sessions are a day apart, the first from days after the beginning.
func sessions(traces []int, marks string, from int, figures func(k int) map[progress.Measure]float64) game.Model {
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 1.8e12), laptop)
	var past []keep.Summary
	for k, n := range traces {
		for i := range n {
			f := figures(k)
			doc, err := json.Marshal(keep.Measured{Version: scoring.Version, Seconds: 30, SPM: 600, StitchMM: 2.5, Figures: f,
				Places: map[progress.Movement]map[progress.Measure]float64{progress.Loop: {progress.Uneven: f[progress.Spacing], progress.Beside: 1}}})
			if err != nil {
				panic(err)
			}
			past = append(past, keep.Summary{
				ID: fmt.Sprintf("%s-%d-%d", marks, k, i), Started: 1.8e12 - int64(16-k-from)*86400000 + int64(i)*60000, Motif: "linked-swirls", Name: "Linked swirls",
				Repeats: 3, Device: trace.Pen, Way: keep.Pencil, Zoom: 0.8, Guide: &keep.Guide{Marks: marks}, Measured: doc, Print: "a",
			})
		}
	}
	m, _ = worktest.Update(m, game.Listed{Past: past})
	return m
}

// looked opens the place, uses its controls, and lets all be worked out.
func looked(m game.Model, controls ...game.Control) game.Model {
	for _, c := range append([]game.Control{{Name: "place", Value: "back"}}, controls...) {
		m, _ = worktest.Update(m, c)
	}
	for i := 0; i == 0 || atBack(m).Weeks.Busy(); i++ {
		m, _ = worktest.Update(m, game.Frame{Now: 1 + float64(i)})
	}
	return m
}

func evenness(cv func(k int) float64) func(int) map[progress.Measure]float64 {
	return func(k int) map[progress.Measure]float64 {
		return map[progress.Measure]float64{progress.Spacing: cv(k), progress.Beside: 2, progress.Flow: -5 + 0.1*float64(k)}
	}
}

// The verdict in words, with the figures it stands on, and how many sessions are missing.
func TestVerdictsInWords(t *testing.T) {
	// By hand: the first three are 0.550, 0.441 and 0.363, the last five 0.168, 0.157, 0.159,
	// 0.162 and 0.153.
	better := evenness(func(k int) float64 { return 0.15 + 0.4*math.Exp(-float64(k)/3) + 0.004*float64(k%3) })
	for name, c := range map[string]struct {
		m    game.Model
		want []string
	}{
		"nothing kept": {lookedBack(0, nil), []string{"first trace"}},
		"too early":    {lookedBack(4, better), []string{"Too early to say: 4 sessions of 6 can be judged so far, 2 sessions to go."}},
		"better":       {lookedBack(16, better), []string{"Better: your stitches varied by 44 % at first and vary by 16 % now."}},
		"no change":    {lookedBack(16, evenness(func(k int) float64 { return 0.3 + 0.03*float64(k*7%5) })), []string{"It cannot be told yet:"}},
		"worse":        {lookedBack(16, evenness(func(k int) float64 { return 0.1 + 0.02*float64(k) + 0.004*float64(k%3) })), []string{"Less even than before:", "Shorter sessions"}},
		"flow": {lookedBack(16, better, game.Control{Name: "back.measure", Value: "flow"}),
			[]string{"Better: your smoothness was -4.90 at first and is -3.70 now (nearer"}},
		"corners":    {lookedBack(16, better, game.Control{Name: "back.measure", Value: "corners"}), []string{"lines with corners"}},
		"everything": {lookedBack(16, better, game.Control{Name: "back.motif", Value: "all"}), []string{"Better:", "of usual"}},
	} {
		p := page.Of(c.m)
		for _, want := range c.want {
			if !strings.Contains(p.Sentence, want) {
				t.Errorf("%s: %q, want %q in it", name, p.Sentence, want)
			}
		}
		doc, err := json.Marshal(p.Room)
		if err != nil || strings.Contains(string(doc), "NaN") || strings.Contains(string(doc), "Inf") || strings.Contains(string(doc), "%!") {
			t.Errorf("%s: the page is %s (%v)", name, doc, err)
		}
	}
}

// What is compared is said, the movements have their verdicts, the table holds each session.
func TestWhatStandsBehindTheVerdict(t *testing.T) {
	p := page.Of(lookedBack(16, evenness(func(k int) float64 { return 0.15 + 0.4*math.Exp(-float64(k)/3) + 0.004*float64(k%3) })))
	b := p.Room.(back.Shown)
	for _, want := range []string{"80 traces", "3 in the row", "pencil", "pen", "80 % of true size", "no line, by heart"} {
		if !strings.Contains(b.Like, want) {
			t.Errorf("what is compared: %q, want %q in it", b.Like, want)
		}
	}
	if len(b.Moves) != 1 || b.Moves[0].ID != "Loops" || b.Moves[0].Value != "better" {
		t.Errorf("the movements: %v", b.Moves)
	}
	if !strings.Contains(b.Curve, "levels off at about 15 %") || len(b.Table) != 16 || len(b.Figures) != 3 || len(b.Sessions) != 16 || len(b.Traces) != 5 {
		t.Errorf("curve %q, %d rows, %d figures, %d sessions, %d traces", b.Curve, len(b.Table), len(b.Figures), len(b.Sessions), len(b.Traces))
	}
	if !strings.Contains(b.Traces[0].Text, "warming up") || strings.Contains(b.Traces[2].Text, "warming up") {
		t.Errorf("the traces of a session: %v", b.Traces)
	}
	// Hopkins: odds of 12 to 1 at twice the typical error; here it is far more. They are for
	// those who ask how sure it is; the figures themselves are in plain words.
	if note := b.Method[0].Note; !strings.Contains(note, "to 1") || !strings.Contains(note, "in 95 of 100 cases") {
		t.Errorf("no odds in %q", note)
	}
	for _, f := range b.Figures {
		if text := f.Name + f.Value + f.Note; strings.Contains(text, "odds") || strings.Contains(text, "95 of 100") || strings.Contains(f.Value, "-") {
			t.Errorf("a figure reads %q", text)
		}
	}
}

// The calendar counts days and minutes, and nothing in a row.
func TestDaysInWords(t *testing.T) {
	p := page.Of(lookedBack(10, evenness(func(k int) float64 { return 0.3 }), game.Control{Name: "back.view", Value: "days"}))
	// Five traces a minute apart, the last of 30 s: 4.5 minutes on each of 10 days.
	if !strings.Contains(p.Sentence, "on 10 days, 45 minutes in all") || len(p.Room.(back.Shown).DayTable) != 10 || p.Room.(back.Shown).DayTable[0].ID != "8 Jan 2027" {
		t.Errorf("%q, %d rows", p.Sentence, len(p.Room.(back.Shown).DayTable))
	}
}

func atBack(m game.Model) back.Room { return m.Front().(back.Room) }

func shown(m game.Model) back.Shown { return atBack(m).Page().In.(back.Shown) }
