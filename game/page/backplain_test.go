package page_test

import (
	"math"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/page"
	"unthreaded/game/worktest"
	"unthreaded/scoring/progress"
)

// Traces made at sessions of so many each, a day apart, say what is missing for a verdict.
func TestWhatIsMissingForAVerdict(t *testing.T) {
	for name, c := range map[string]struct {
		traces []int
		want   string
	}{
		"three in the first":    {[]int{3}, "Your first session has 3 traces so far. Make 5 in one sitting; after six such sessions"},
		"one, only warm":        {[]int{1}, "Your first session has 1 trace so far."},
		"five in the first":     {[]int{5}, "Too early to say: 1 session of 6 can be judged so far, 5 sessions to go."},
		"six of three":          {[]int{3, 3, 3, 3, 3, 3}, "Your sessions are too short to judge: make 5 traces in one sitting (the newest has 3). After six such sessions"},
		"six of two":            {[]int{2, 2, 2, 2, 2, 2}, "too short to judge: make 5 traces in one sitting (the newest has 2)"},
		"enough, then short":    {[]int{5, 5, 3}, "2 sessions of 6 can be judged so far, 4 sessions to go. Make 5 traces in one sitting; the newest session has 3."},
		"short, then enough":    {[]int{3, 5, 6}, "2 sessions of 6 can be judged so far, 4 sessions to go."},
		"six of five, the same": {[]int{5, 5, 5, 5, 5, 5}, "It cannot be told yet"},
	} {
		m := sessionsOf(c.traces, keep.NoMarks, 0)
		if got := page.Of(looked(m)).Sentence; !strings.Contains(got, c.want) {
			t.Errorf("%s: %q, want %q in it", name, got, c.want)
		}
	}
}

// A steady change of two points a day is 14 a week, said so; the exact figures stand where
// she asks how sure it is.
func TestATrendInPlainWords(t *testing.T) {
	for name, c := range map[string]struct {
		cv          func(k int) float64
		value, note string
	}{
		"better":   {func(k int) float64 { return 0.6 - 0.02*float64(k) }, "14 points less uneven", "About 14 points"},
		"worse":    {func(k int) float64 { return 0.1 + 0.002*float64(k) }, "1.4 points more uneven", "About 1.4 points"},
		"the same": {func(k int) float64 { return 0.3 }, "no change", "Your sessions stand level."},
		"no trend": {func(k int) float64 { return 0.3 + 0.03*math.Sin(float64(5*k)) }, "", "Somewhere between "},
	} {
		b := shown(lookedBack(16, evenness(c.cv)))
		if f := b.Figures[2]; c.value != "" && f.Value != c.value || !strings.HasPrefix(f.Note, c.note) {
			t.Errorf("%s: %q, %q", name, f.Value, f.Note)
		}
	}
}

// Where others can be judged and those asked for cannot, the others are named and one
// press away; her choice is there again after another motif and in the next visit.
func TestHerFilterStays(t *testing.T) {
	m := sessionsOf([]int{5, 5, 5, 5, 5, 5, 5}, keep.WholeLine, 0)
	short := sessionsOf([]int{3, 3}, keep.NoMarks, 8)
	m, _ = worktest.Update(m, game.Listed{Past: short.Kept()})
	m = looked(m)
	if b := shown(m); !strings.Contains(b.Like, "35 traces") || b.HasBetter {
		t.Fatalf("it opens on %q, better are %q", b.Like, b.Better)
	}
	m, effects := worktest.Update(m, game.Control{Name: "back.filter", Item: "help", Value: string(progress.None)})
	if len(effects) != 1 {
		t.Fatalf("a filter gives %v", effects)
	}
	m = looked(m)
	if b := shown(m); !strings.Contains(b.Like, "6 traces") || b.Better != "35 other traces (whole line shown) can be judged." {
		t.Errorf("asked for those by heart: %q, better are %q", b.Like, b.Better)
	}
	for _, motif := range []string{"all", "linked-swirls"} {
		m, _ = worktest.Update(m, game.Control{Name: "back.motif", Value: motif})
		m = looked(m)
	}
	if b := shown(m); !strings.Contains(b.Like, "by heart") {
		t.Errorf("after another motif it shows %q", b.Like)
	}
	again, _ := worktest.Update(game.New(game.DecodeSettings(effects[0].(game.SaveSettings).Doc), 1.8e12), laptop)
	again, _ = worktest.Update(again, game.Listed{Past: m.Kept()})
	if b := shown(looked(again)); !strings.Contains(b.Like, "by heart") {
		t.Errorf("in the next visit it shows %q", b.Like)
	}
	m, _ = worktest.Update(m, game.Control{Name: "back.better"})
	if b := shown(looked(m)); !strings.Contains(b.Like, "35 traces") {
		t.Errorf("the better ones are %q", b.Like)
	}
}
