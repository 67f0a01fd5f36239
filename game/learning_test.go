package game_test

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/page"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/synth"
	"unthreaded/path/motif"
	"unthreaded/scoring/practice"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

// A course from its first trace to the mix: the guide fades, the traces are kept with
// it, she is asked for her guess before anything is shown, and the trace without guide
// counts.
func TestACourseToItsEnd(t *testing.T) {
	s := newSchool(t)
	s.press("motif", "waves")
	s.press("repeats", "1")
	s.press("rehearse.ticks", "on")
	s.press("rehearse.lead", keep.LeadAhead)
	s.press("rehearse.learn", "")
	row := s.m.Rehearsal().NextStep().Of
	var marks []string
	for k := 1; k <= row; k++ {
		step := s.m.Rehearsal().NextStep()
		if step.Number != k || step.Mix {
			t.Fatalf("trace %d is %+v", k, step)
		}
		s.trace(1, 0.2)
		g := s.m.Rehearsal().Open.Rec.Guide
		marks = append(marks, g.Marks)
		if g.Marks != keep.WholeLine && g.Lead != keep.NoLead || g.Marks == keep.NoMarks && g.Ticks {
			t.Errorf("trace %d: helped by %+v", k, *g)
		}
		if asked := s.m.Rehearsal().Guessing(); asked != (g.Marks != keep.WholeLine) {
			t.Errorf("trace %d with %s: asked %v", k, g.Marks, asked)
		}
		if s.m.Rehearsal().Guessing() {
			s.checkVeil()
			s.press("rehearse.guess", string(practice.Bands[k%4]))
		}
		if p := s.page(); len(p.Figures) == 0 {
			t.Errorf("trace %d: no figures after the guess", k)
		}
		s.press("again", "")
	}
	if want := []string{keep.WholeLine, keep.DotsOnly, keep.EndsOnly, keep.NoMarks}; !reflect.DeepEqual(slices.Compact(slices.Clone(marks)), want) {
		t.Errorf("marked were %q, want %q in this order", marks, want)
	}
	if step := s.m.Rehearsal().NextStep(); !step.Mix || s.m.Rehearsal().Motif.ID != step.Motif {
		t.Errorf("after %d traces comes %+v with %s on the cloth", row, step, s.m.Rehearsal().Motif.ID)
	}
	if c := s.m.Rehearsal().Learning.Course; c.Guessed != row-slicesCount(marks, keep.WholeLine) {
		t.Errorf("%d guesses of %d asked for", c.Guessed, row-slicesCount(marks, keep.WholeLine))
	}
}

func slicesCount(list []string, what string) int {
	n := 0
	for _, v := range list {
		if v == what {
			n++
		}
	}
	return n
}

// A warm-up from its first second to its last: 3 minutes, each with another line, the
// last with the block; every trace is flagged.
func TestAWarmUpToItsEnd(t *testing.T) {
	s := newSchool(t)
	s.press("motif", "loops")
	s.press("repeats", "1")
	s.trace(1, 0.1)
	s.press("rehearse.warm-up", "")
	s.press("rehearse.warm-up", "3")
	start := s.now
	var lines []string
	for s.m.Rehearsal().Learning.Mode == rehearse.InWarmUp {
		if n := len(lines); n == 0 || lines[n-1] != s.m.Rehearsal().Motif.ID {
			lines = append(lines, s.m.Rehearsal().Motif.ID)
		}
		before := s.m.Rehearsal().Learning.WarmUp.Elapsed
		s.trace(0.7, 0.1)
		if all := s.summaries(); !all[len(all)-1].WarmUp {
			t.Errorf("a trace on %s is not flagged", all[len(all)-1].Motif)
		}
		if said := page.Of(s.m).Sentence; said == "" {
			t.Error("nothing is said of a trace")
		}
		if s.m.Rehearsal().Learning.Mode == rehearse.InWarmUp && s.m.Rehearsal().Learning.WarmUp.Elapsed <= before {
			t.Fatal("the clock stands still")
		}
		s.after(3)
	}
	if took := s.now - start; math.Abs(took-180) > 15 {
		t.Errorf("it took %v s, want 180 and the end of a trace", took)
	}
	if len(lines) != 3 || lines[2] != "loops" || s.m.Rehearsal().Motif.ID != "loops" {
		t.Errorf("the lines were %q, then %s; want two exercises and the loops", lines, s.m.Rehearsal().Motif.ID)
	}
	if len(s.things) != 0 {
		t.Errorf("it is over and yet kept: %v", s.things)
	}
	var traces []progress.Trace
	for _, sum := range s.summaries() {
		traces = append(traces, progress.Trace{ID: sum.ID, At: float64(sum.Started) / 1000, WarmUp: sum.WarmUp, Like: progress.Like{Guide: progress.None}})
	}
	sessions, err := progress.Sessions(traces)
	if err != nil || len(sessions) != 1 {
		t.Fatal(len(sessions), err)
	}
	for i, x := range sessions[0].Traces {
		if x.WarmUp != (i > 0) || sessions[0].Counts(i) {
			t.Errorf("trace %d: warm-up %v, counts %v", i, x.WarmUp, sessions[0].Counts(i))
		}
	}
}

// What the lesson chooses cannot be chosen by hand; a route or a kept trace of another
// line puts it aside, and she comes back to where she was.
func TestALessonIsLeftAndTakenUp(t *testing.T) {
	s := newSchool(t)
	s.trace(1, 0)
	first := s.m.Rehearsal().Open.Rec.ID
	s.press("motif", "waves")
	s.press("rehearse.learn", "")
	s.press("motif", "loops")
	s.press("rehearse.marks", keep.NoMarks)
	s.press("rehearse.strip", "off")
	if g := s.m.Rehearsal().Guide(); s.m.Rehearsal().Motif.ID != "waves" || g.Marks != keep.WholeLine || !g.SpeedStrip {
		t.Errorf("on the cloth %s with %+v", s.m.Rehearsal().Motif.ID, g)
	}
	s.press("rehearse.skip", "")
	before := s.m.Rehearsal().Learning.Course.Plan
	s.send(game.Control{Name: "open", Item: first})
	s.after(0.1)
	if s.m.Rehearsal().Leading() || s.m.Rehearsal().Motif.ID != "linked-swirls" || s.m.Rehearsal().Open == nil {
		t.Fatalf("with an older trace on the cloth: leading %v, %s", s.m.Rehearsal().Leading(), s.m.Rehearsal().Motif.ID)
	}
	s.press("rehearse.learn-on", "")
	if s.m.Rehearsal().Motif.ID != "waves" || s.m.Rehearsal().Open != nil || !reflect.DeepEqual(s.m.Rehearsal().Learning.Course.Plan, before) {
		t.Errorf("back at %s with %+v, want %+v", s.m.Rehearsal().Motif.ID, s.m.Rehearsal().Learning.Course.Plan, before)
	}
	for _, way := range []string{"skip", "anew"} {
		s.press("rehearse."+way, "")
		if n := s.m.Rehearsal().NextStep().Number; n == 2 {
			t.Errorf("%s leaves trace %d as the next", way, n)
		}
		s.press("undo", "")
		if n := s.m.Rehearsal().NextStep().Number; n != 2 || s.m.Notice.In(s.m.Book()) != "" {
			t.Errorf("after taking %s back comes trace %d, want 2 (%q)", way, n, s.m.Notice.In(s.m.Book()))
		}
	}
}

// A line of her own whose trace is gone does not stop the course.
func TestALostLineIsPassedOver(t *testing.T) {
	for _, refused := range []bool{false, true} {
		s := newSchool(t)
		s.refused = refused
		own, err := motif.TurningLeft.Rehearsal(30)
		if err != nil {
			t.Fatal(err)
		}
		l, _ := own.Line(1)
		rec := keep.Record{ID: "x-pen", Started: origin - 86400000, Motif: "block-a-1", Name: "My block", Repeats: 1, SPM: 600, StitchMM: 2.5, Zoom: 1, PxPerMM: 3.8}
		rec.SetLine(l)
		rec.SetTrace(trace.Trace{Device: trace.Pen, Ending: trace.Lifted, Samples: synth.Hand{Hz: 60, Speed: synth.Steady(30)}.Samples(l)})
		doc, err := keep.Encode(rec)
		if err != nil {
			t.Fatal(err)
		}
		sum := keep.Summarise(rec)
		sumDoc, err := keep.EncodeSummary(sum)
		if err != nil {
			t.Fatal(err)
		}
		s.effects = append(s.effects, game.Save{ID: rec.ID, Doc: doc, Summary: sumDoc})
		s.send(game.Listed{Past: []keep.Summary{sum}})
		s.press("rehearse.learn", "")
		came := map[string]bool{}
		for range 60 {
			s.press("rehearse.skip", "")
			came[s.m.Rehearsal().Motif.ID] = true
			if !s.m.Rehearsal().Leading() || s.m.Rehearsal().Motif.ID != s.m.Rehearsal().Learning.Course.Line().ID {
				t.Fatalf("leading %v, %s on the cloth", s.m.Rehearsal().Leading(), s.m.Rehearsal().Motif.ID)
			}
		}
		if came["block-a-1"] == refused || !came["linked-swirls"] || len(came) < 3 {
			t.Errorf("lost %v: the lines that came are %v", refused, came)
		}
	}
}

// A damaged course or warm-up is reported and left as it is; a new one is kept beside
// it and found again.
func TestDamagedLessonsAreLeft(t *testing.T) {
	s := newSchool(t)
	damaged := []game.Thing{{Kind: game.CourseThing, ID: game.CourseThing, Doc: []byte(`{"schema":1}`)}, {Kind: game.WarmUpThing, ID: game.WarmUpThing, Doc: []byte(`?`)}}
	for _, d := range damaged {
		s.things[d.Kind+d.ID] = d
		s.send(game.Shelf{Things: []game.Thing{d}})
		if !strings.Contains(s.m.Notice.In(s.m.Book()), "is damaged and was left as it is") {
			t.Errorf("%s: told %q", d.Kind, s.m.Notice.In(s.m.Book()))
		}
	}
	s.press("rehearse.learn", "")
	s.press("rehearse.warm-up", "5")
	for _, d := range damaged {
		if got := s.things[d.Kind+d.ID]; string(got.Doc) != string(d.Doc) {
			t.Errorf("%s was overwritten by %s", d.Kind, got.Doc)
		}
	}
	plan := s.m.Rehearsal().Learning.Course.Plan
	s.reload()
	if l := s.m.Rehearsal().Learning; l.Mode != rehearse.InWarmUp || l.Course == nil || !reflect.DeepEqual(l.Course.Plan, plan) {
		t.Errorf("loaded anew: %s with %+v", l.Mode, l.Course)
	}
}
