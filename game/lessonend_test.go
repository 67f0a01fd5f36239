package game_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"unthreaded/scoring/practice"
)

// says checks that the sentence holds a text.
func (s *school) says(when, text string) {
	s.t.Helper()
	if p := s.page(); !strings.Contains(p.Sentence+" "+p.Next, text) {
		s.t.Errorf("%s: %q, want %q in it", when, p.Sentence+" "+p.Next, text)
	}
}

// A course has an end: after the last trace of the row she is told that she sewed the
// line from memory; the turns are counted; after a round of them it is enough, and
// going on begins the next round. The list shows how many were laid.
func TestACourseHasAnEnd(t *testing.T) {
	s := newSchool(t)
	s.press("motif", "waves")
	s.press("repeats", "1")
	s.trace(1, 0.1)
	s.press("again", "")
	s.trace(1, 0.1) // two traces warm the hand: the next one from memory counts
	s.press("rehearse.learn", "")
	for step := s.m.Rehearsal().NextStep(); step.Number < step.Of; step = s.m.Rehearsal().NextStep() {
		s.press("rehearse.skip", "")
	}
	s.trace(1, 0.1)
	s.press("rehearse.guess", "")
	s.says("after the row", "You sewed it from memory. Other lines now take turns with it, or you leave.")
	s.press("again", "")
	for round := range 2 {
		for k := 1; k <= practice.MixRound; k++ {
			s.says("before a turn", fmt.Sprintf("Turn %d of %d: ", k, practice.MixRound))
			if p := in(s.m); p.RepeatCount != strconv.Itoa(s.m.Rehearsal().Repeats) {
				t.Errorf("%d of %s lie on the cloth, the list says %s", s.m.Rehearsal().Repeats, s.m.Rehearsal().Motif.ID, p.RepeatCount)
			}
			s.trace(1, 0.1)
			s.press("rehearse.guess", "")
			if end := strings.Contains(s.page().Next, "That is a good practice for today. Rest, or go on."); end != (k == practice.MixRound) {
				t.Errorf("round %d, turn %d: %q", round, k, s.page().Next)
			}
			s.press("again", "")
		}
	}
	s.trace(1, 0.1)
	s.after(2 * 3600)
	s.reload()
	s.press("again", "")
	s.says("hours later", "Turn 1 of ")
}

// What was too fast to be measured is no step of a course, whatever of the line it
// followed.
func TestATraceThatWasTooFastIsNoStep(t *testing.T) {
	s := newSchool(t)
	s.press("motif", "waves")
	s.press("repeats", "1")
	s.press("rehearse.learn", "")
	s.traceAt(900, 1, 0)
	if s.m.Rehearsal().Open.Report.Evenness.SpacingCV.Defined {
		t.Fatal("this trace can be measured")
	}
	if n := s.m.Rehearsal().NextStep().Number; n != 1 || s.m.Rehearsal().Learning.Made || s.m.Rehearsal().Guessing() {
		t.Errorf("after it comes trace %d, made %v, asked %v", n, s.m.Rehearsal().Learning.Made, s.m.Rehearsal().Guessing())
	}
	s.says("too fast", "That was too fast to measure. Once more?")
	s.press("again", "")
	s.trace(1, 0.1)
	if n := s.m.Rehearsal().NextStep().Number; n != 2 {
		t.Errorf("after a good one comes trace %d", n)
	}
}
