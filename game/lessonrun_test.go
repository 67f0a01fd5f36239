package game_test

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/place/rehearse"
)

// Whatever she does, the lesson's line lies on a free cloth, a warm-up's seconds are
// those that she was at it, its traces are flagged and no others, no line of the mix
// comes twice in a row unless she asks for it, a guess comes before the figures, and a
// reload changes nothing.
func TestAnyWayThroughLessons(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := &run{school: newSchool(t), rt: rt}
		r.press("repeats", "1")
		for range rapid.IntRange(4, 14).Draw(rt, "steps") {
			r.step()
			r.check()
		}
	})
}

// run is one way through lessons.
type run struct {
	*school
	rt *rapid.T
	// last is the line of the mix that was traced last, asked tells that she asked for
	// it again.
	last  string
	asked bool
}

func (r *run) step() {
	controls := []string{"freely", "learn", "learn-on", "warm-up 3", "warm-up 10", "warm-on", "skip", "same", "anew", "guess even", "guess "}
	what := rapid.IntRange(0, 7).Draw(r.rt, "what")
	if r.m.Place != game.Rehearse && (what == 5 || what == 7) {
		what = 6 // the controls of a place are seen in it only
	}
	switch what {
	case 0, 1:
		r.traceOne()
	case 2:
		r.wait(rapid.Float64Range(0.2, 90).Draw(r.rt, "pause"))
	case 3:
		r.press("again", "")
	case 4:
		r.reloaded()
	case 5:
		r.press("motif", rapid.SampledFrom([]string{"loops", "waves", "linked-swirls"}).Draw(r.rt, "motif"))
	case 6:
		r.press("place", rapid.SampledFrom([]string{"machine", "rehearse", "rehearse"}).Draw(r.rt, "place"))
	default:
		r.control(rapid.SampledFrom(controls).Draw(r.rt, "control"))
	}
}

func (r *run) control(text string) {
	name, value := text, ""
	for i, c := range text {
		if c == ' ' {
			name, value = text[:i], text[i+1:]
		}
	}
	r.asked = r.asked || name == "same" || name == "learn" || name == "skip" || name == "anew"
	r.press("rehearse."+name, value)
}

// traceOne traces the line on the cloth and checks what came of it.
func (r *run) traceOne() {
	if r.m.Place != game.Rehearse {
		return
	}
	mode, again := r.m.Rehearsal().Learning.Mode, r.m.Rehearsal().Open != nil
	share := rapid.SampledFrom([]float64{0.3, 0.9, 1}).Draw(r.rt, "share")
	r.trace(share, 0.2)
	rec := r.summaries()[len(r.summaries())-1]
	if rec.WarmUp != (mode == rehearse.InWarmUp) {
		r.rt.Fatalf("in %s a trace is flagged %v", mode, rec.WarmUp)
	}
	if mode != rehearse.InCourse {
		return
	}
	step := r.m.Rehearsal().Learning.Step
	if want := r.m.Rehearsal().Learning.Made && step.Guess; r.m.Rehearsal().Guessing() != want {
		r.rt.Fatalf("guess asked: %v, want %v (%+v)", r.m.Rehearsal().Guessing(), want, step)
	}
	if r.m.Rehearsal().Guessing() {
		r.checkVeil()
	}
	if step.Mix && r.m.Rehearsal().Learning.Made {
		if step.Motif == r.last && !again && !r.asked {
			r.rt.Fatalf("%s comes twice in a row", step.Motif)
		}
		r.last = step.Motif
	}
	r.asked = !r.m.Rehearsal().Learning.Made || !step.Mix
}

// wait lets time go by and checks the clock of a warm-up.
func (r *run) wait(seconds float64) {
	w := r.m.Rehearsal().Learning.WarmUp
	going := r.m.Rehearsal().Learning.Mode == rehearse.InWarmUp && r.m.Place == game.Rehearse
	var before float64
	if w != nil {
		before = w.Elapsed
	}
	r.after(seconds)
	after := r.m.Rehearsal().Learning.WarmUp
	switch {
	case w == nil:
	case after == nil && (!going || before+seconds < w.Length()-1e-6):
		r.rt.Fatalf("%v s after %v s of %v it is over", seconds, before, w.Length())
	case after == nil:
	case going && math.Abs(after.Elapsed-before-seconds) > 1e-6:
		r.rt.Fatalf("%v s later its clock is at %v, was at %v", seconds, after.Elapsed, before)
	case !going && after.Elapsed != before:
		r.rt.Fatalf("its clock goes on while she is not at it")
	}
}

// reloaded loads the page anew and compares.
func (r *run) reloaded() {
	before := r.m.Rehearsal().Learning
	rehearsing := r.m.Place == game.Rehearse
	guide, motif, repeats := r.m.Rehearsal().Guide(), r.m.Rehearsal().Motif.ID, r.m.Rehearsal().Repeats
	onCloth, guessing := r.m.Rehearsal().Open, r.m.Rehearsal().Guessing()
	r.reload()
	if now := r.m.Rehearsal().Guessing(); rehearsing && now != guessing {
		r.rt.Fatalf("guess asked: %v, before the reload %v", now, guessing)
	}
	if guessing {
		r.checkVeil()
	}
	after := r.m.Rehearsal().Learning
	if after.Mode != before.Mode || !reflect.DeepEqual(after.Course, before.Course) {
		r.rt.Fatalf("mode %s, course %+v; was %s, %+v", after.Mode, after.Course, before.Mode, before.Course)
	}
	if (after.WarmUp == nil) != (before.WarmUp == nil) {
		r.rt.Fatalf("warm-up %+v, was %+v", after.WarmUp, before.WarmUp)
	}
	if w, b := after.WarmUp, before.WarmUp; w != nil && (w.Item != b.Item || math.Abs(w.Elapsed-b.Elapsed) > 0.2 || !reflect.DeepEqual(w.Items, b.Items)) {
		r.rt.Fatalf("minute %d at %v s, was %d at %v", w.Item, w.Elapsed, b.Item, b.Elapsed)
	}
	if before.Mode == rehearse.Freely || !rehearsing || onCloth != nil {
		return
	}
	if r.m.Rehearsal().Motif.ID != motif || r.m.Rehearsal().Repeats != repeats || r.m.Rehearsal().Guide() != guide {
		r.rt.Fatalf("%d of %s with %+v, was %d of %s with %+v", r.m.Rehearsal().Repeats, r.m.Rehearsal().Motif.ID, r.m.Rehearsal().Guide(), repeats, motif, guide)
	}
}

// check checks what always holds.
func (r *run) check() {
	l := r.m.Rehearsal().Learning
	if !r.m.Rehearsal().Leading() || r.m.Place != game.Rehearse || r.m.Rehearsal().Open != nil {
		return
	}
	want := ""
	if l.Mode == rehearse.InCourse {
		want = l.Course.Line().ID
	} else if m, ok := l.WarmUp.Motif(); ok {
		want = m.ID
	}
	if r.m.Rehearsal().Motif.ID != want {
		r.rt.Fatalf("in %s %s lies on the cloth, want %s", l.Mode, r.m.Rehearsal().Motif.ID, want)
	}
}

// Once the row is through, the lines take turns: never one twice in a row, and all of
// them come.
func TestLinesTakeTurns(t *testing.T) {
	s := newSchool(t)
	s.press("repeats", "1")
	s.press("rehearse.learn", "")
	for !s.m.Rehearsal().NextStep().Mix {
		s.press("rehearse.skip", "")
	}
	last, came := "", map[string]int{}
	for range 16 {
		id := s.m.Rehearsal().Motif.ID
		if id == last || id != s.m.Rehearsal().NextStep().Motif {
			t.Fatalf("%s comes after %s, the step is %+v", id, last, s.m.Rehearsal().NextStep())
		}
		s.trace(1, 0.1)
		last = id
		came[id]++
		s.press("again", "")
	}
	if len(came) != 4 {
		t.Errorf("of four lines these came: %v", came)
	}
	// Going over the same line once more, instead of on to the next, is a step again.
	s.trace(1, 0.1)
	before := s.m.Rehearsal().Learning.Course.Plan
	s.trace(1, 0.1)
	after := s.m.Rehearsal().Learning.Course.Plan
	if k := after.Before.Motif; after.Motifs[k].Name != s.m.Rehearsal().Motif.ID || after.Motifs[k].Traces != before.Motifs[k].Traces+1 {
		t.Errorf("traced %s once more, the course has %+v, had %+v", s.m.Rehearsal().Motif.ID, after, before)
	}
}
