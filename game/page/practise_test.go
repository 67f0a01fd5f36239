package page_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/worktest"
)

// Before each trace of a course the sentence says what it is for and what comes next;
// the choices show what the course has chosen.
func TestWhatALessonSays(t *testing.T) {
	m := after("motif", "waves", "rehearse.learn", "")
	of := m.Rehearsal().NextStep().Of
	said := map[string]bool{}
	for range of {
		p := page.Of(m)
		step := m.Rehearsal().NextStep()
		for _, words := range []string{"with the whole line", "with its dots only", "with its two ends only", "from memory"} {
			if strings.Contains(strings.SplitN(p.Sentence, ". Then", 2)[0], words) {
				said[words] = true
			}
		}
		last := step.Number == of
		if !strings.HasPrefix(p.Sentence, "Trace ") || strings.Contains(p.Sentence, ". Then ") == last {
			t.Errorf("trace %d of %d: %q", step.Number, of, p.Sentence)
		}
		if r := in(m); r.Practise.Free || r.Practise.OwnHelp || !r.Practise.Learn || r.Mark != m.Rehearsal().Guide().Marks || r.Strip != step.Meter {
			t.Errorf("trace %d: the choices show %+v with %s", step.Number, r.Practise, r.Mark)
		}
		m, _ = worktest.Update(m, game.Control{Name: "rehearse.skip"})
	}
	if len(said) != 4 {
		t.Errorf("of the four guides these were said: %v", said)
	}
	if p := page.Of(m); strings.HasPrefix(p.Sentence, "Trace ") || !strings.Contains(p.Sentence, ", with the whole line. Then ") {
		t.Errorf("in the mix: %q", p.Sentence)
	}
}

// The warm-up says which minute it is, what it trains, how fast, and what comes next,
// the last time the line that she sews.
func TestWhatAWarmUpSays(t *testing.T) {
	m := after("motif", "waves", "rehearse.warm-up", "")
	if p := in(m).Practise; !p.Choosing || !p.Warm || p.Freely || len(p.Lengths) != 3 {
		t.Errorf("before it begins: %+v", p)
	}
	if note := in(m).Practise.Note; !strings.Contains(note, `The last is "Waves", which lies on the cloth.`) {
		t.Errorf("before it begins: %q", note)
	}
	m, _ = worktest.Update(m, game.Control{Name: "rehearse.warm-up", Value: "3"})
	for i, want := range []struct{ now, then string }{{"Minute 1 of 3: ", ". Then "}, {"Minute 2 of 3: ", ". Then Waves."}, {"Minute 3 of 3: Waves, which you sew next", ""}} {
		p := page.Of(m)
		if !strings.HasPrefix(p.Sentence, want.now) || !strings.Contains(p.Sentence, want.then) || !strings.Contains(p.Sentence, "in/s") {
			t.Errorf("%q, want %q and %q", p.Sentence, want.now, want.then)
		}
		if in(m).Practise.Of != "36" || in(m).Practise.Free {
			t.Errorf("the clock has %s stitches, want 12 a minute", in(m).Practise.Of)
		}
		m, _ = worktest.Update(m, game.Control{Name: "rehearse.skip"})
		m, _ = worktest.Update(m, game.Frame{Now: float64(i + 1)})
	}
	if p := page.Of(m); in(m).Practise.Leads || !strings.HasPrefix(p.Notice, "You are warm.") || in(m).Motif != "waves" {
		t.Errorf("afterwards: %q with %s", p.Notice, in(m).Motif)
	}
}
