package game_test

import (
	"reflect"
	"testing"

	"unthreaded/game/place/rehearse"
	"unthreaded/scoring/trace"
)

// A course and a warm-up take a trace over several holds as one, however long the hand
// is away; a warm-up whose time runs out meanwhile waits for it.
func TestALessonTakesHoldsAsOneTrace(t *testing.T) {
	for _, lesson := range []string{"learn", "warm-up"} {
		var steps []any
		for _, parts := range []int{1, 3} {
			s := newSchool(t)
			s.press("rehearse.way", "cloth")
			s.press("rehearse."+lesson, map[string]string{"learn": "", "warm-up": "3"}[lesson])
			s.press("rehearse.marks", "whole")
			samples := moving().Samples(s.m.Rehearsal().Line)
			for k := range parts {
				if k > 0 && (!s.m.Rehearsal().Live.Rests() || len(s.saves()) > 0) {
					t.Fatalf("%s: hold %d of %d: rests %v, %d saves", lesson, k, parts, s.m.Rehearsal().Live.Rests(), len(s.saves()))
				}
				from, to := k*(len(samples)-1)/parts, (k+1)*(len(samples)-1)/parts
				part := append([]trace.Sample(nil), samples[from:to+1]...)
				for i := range part {
					part[i].T -= samples[from].T
				}
				s.pushed(part, trace.Touch, s.now, grip{s.m.Rehearsal().Hold(), 0, to - from})
				s.now += part[len(part)-1].T
				if k+1 < parts {
					s.after(200)
				}
			}
			s.store()
			sums := s.summaries()
			if len(sums) != 1 || sums[0].WarmUp != (lesson == "warm-up") || !s.m.Rehearsal().Learning.Made {
				t.Fatalf("%s: %d traces over %d holds, want one: %+v", lesson, len(sums), parts, sums)
			}
			steps = append(steps, s.m.Rehearsal().Learning.Step)
			if lesson == "warm-up" && parts > 1 {
				if s.after(2); s.m.Rehearsal().Learning.Mode != rehearse.Freely {
					t.Error("the warm-up goes on though its time was over")
				}
			}
		}
		if !reflect.DeepEqual(steps[0], steps[1]) {
			t.Errorf("%s: the step is %+v over one hold, %+v over three", lesson, steps[0], steps[1])
		}
	}
}
