package game_test

import (
	"math"
	"testing"

	"unthreaded/game"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/scene"
	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// played lets so many s go by, and calls look after each frame.
func (tb *table) played(seconds float64, look func()) {
	now := tb.m.Rehearsal().LastFrame
	for range int(seconds * 50) {
		now += 0.02
		tb.send(game.Frame{Now: now})
		look()
	}
}

// Before the first trace the ideal movement can be watched: at the planned speed of the hand
// from the start to the end.
func TestTheIdealMovementBeforeTheFirstTrace(t *testing.T) {
	tb := newTable(t)
	r := tb.m.Rehearsal()
	if p := r.Page(); !p.Replay.Enabled || p.Replay.Play != "Watch the ideal" {
		t.Fatalf("before the first trace: %+v", p.Replay)
	}
	tb.send(game.Frame{Now: 1})
	tb.send(game.Control{Name: "play"})
	tb.played(2, func() {})
	r = tb.m.Rehearsal()
	if want := 2 * r.HandSpeed(); math.Abs(r.PlaceNow()-want) > 2 || !r.Playing() {
		t.Errorf("after 2 s the needle is %.1f mm along, want %.1f", r.PlaceNow(), want)
	}
	tb.played(r.Line.Length()/r.HandSpeed(), func() {})
	if r = tb.m.Rehearsal(); r.Playing() || math.Abs(r.PlaceNow()-r.Line.Length()) > 0.1 {
		t.Errorf("it ends %.1f mm along a line of %.1f", r.PlaceNow(), r.Line.Length())
	}
	if p := r.Page().In.(rehearse.Page); p.Glance.Seen || p.HasTrace {
		t.Error("watching made a trace")
	}
}

// A stretch is gone round slowly and again and again, hers or the ideal one.
func TestAStretchGoesRound(t *testing.T) {
	tb := newTable(t)
	ends := tb.m.Rehearsal().Motif.Ends(tb.m.Rehearsal().Repeats)
	if len(ends) < 2 {
		t.Fatalf("the first line has repeats that end at %v", ends)
	}
	inside := func(whose string) {
		t.Helper()
		turns, last := 0, 0.0
		tb.send(game.Control{Name: "play"})
		tb.played(60, func() {
			at := tb.m.Rehearsal().PlaceNow()
			if at < ends[0]-1 || at > ends[1]+1 {
				t.Fatalf("%s: the needle is %.1f mm along, the second repeat goes from %.1f to %.1f", whose, at, ends[0], ends[1])
			}
			if at < last-10 {
				turns++
			}
			last = at
		})
		if turns < 2 {
			t.Errorf("%s: it began anew %d times in a minute", whose, turns)
		}
		tb.send(game.Control{Name: "play"})
	}
	tb.send(game.Frame{Now: 1})
	tb.send(set("stretch", "2"))
	if got := tb.m.Rehearsal().Replay.Rate; got != 0.5 {
		t.Errorf("a stretch is shown at %v times the speed", got)
	}
	inside("ideal")
	tb.draw(synth.Hand{Hz: 120, Speed: synth.Steady(25.4)}, trace.Pen, 100)
	inside("hers")
	tb.send(set("movement", "ideal"))
	inside("ideal, after a trace")
	tb.send(set("stretch", "line"))
	if r := tb.m.Rehearsal(); r.Stretch.To != 0 || r.Replay.Rate != 1 {
		t.Errorf("the whole line again: %+v at %v", r.Stretch, r.Replay.Rate)
	}
}

// Two places are set where the needle stands, in either order.
func TestAStretchBetweenTwoPlaces(t *testing.T) {
	tb := newTable(t)
	tb.send(set("stretch", "places"))
	tb.send(game.Control{Name: "scrub", Value: "120"})
	tb.send(set("end-here", ""))
	tb.send(game.Control{Name: "scrub", Value: "40"})
	tb.send(set("begin-here", ""))
	if s := tb.m.Rehearsal().Stretch; math.Abs(s.From-40) > 0.1 || math.Abs(s.To-120) > 0.1 {
		t.Errorf("the stretch goes from %.1f to %.1f, want 40 to 120", s.From, s.To)
	}
	tb.send(game.Control{Name: "scrub", Value: "200"})
	tb.send(set("begin-here", ""))
	if s := tb.m.Rehearsal().Stretch; s.To <= s.From || math.Abs(s.From-200) > 0.1 {
		t.Errorf("begun beyond its end the stretch goes from %.1f to %.1f", s.From, s.To)
	}
}

// In the cloth way the ideal movement is that of the cloth: what is under the needle goes
// along the line.
func TestTheIdealMovementOfTheCloth(t *testing.T) {
	tb := newTable(t)
	tb.send(set("way", "cloth"))
	tb.send(game.Frame{Now: 1})
	tb.send(game.Control{Name: "play"})
	tb.played(3, func() {
		r := tb.m.Rehearsal()
		shift := r.Shift()
		at := r.View.ToScreen(r.Line.At(r.PlaceNow()))
		if n := r.Needle(); geom.Dist(n, geom.Pt(at.X+shift.X, at.Y+shift.Y)) > 0.01 {
			t.Fatalf("at %.1f mm the needle is not on the line", r.PlaceNow())
		}
	})
}

// After the lift the stitches run along the line within a second, and lie there at once
// where less motion is asked for, or when she touches anything.
func TestStitchesRunAlongOnce(t *testing.T) {
	sewn := func(tb *table) int {
		layers := &scene.Layers{}
		tb.m.Rehearsal().Scene(layers)
		return len(layers.At(scene.ThreadLayer).Items)
	}
	h := synth.Hand{Hz: 120, Speed: synth.Steady(25.4)}
	still := newTable(t)
	still.draw(h, trace.Pen, 3)
	all := sewn(still)
	tb := newTable(t)
	tb.send(game.SystemMotion{Moves: true})
	tb.draw(h, trace.Pen, 3)
	tb.send(game.Frame{Now: 60})
	if n := sewn(tb); n > all/4 || !tb.m.Rehearsal().Playing() {
		t.Errorf("%d of %d stitches lie there at once", n, all)
	}
	last := 0
	tb.played(1.1, func() {
		n := sewn(tb)
		if n < last {
			t.Fatalf("%d stitches after %d", n, last)
		}
		last = n
	})
	if last != all || tb.m.Rehearsal().Playing() {
		t.Errorf("%d of %d stitches after a second", last, all)
	}
	again := newTable(t)
	again.send(game.SystemMotion{Moves: true})
	again.draw(h, trace.Pen, 3)
	again.send(set("more", ""))
	if n := sewn(again); n != all {
		t.Errorf("%d of %d stitches after a press", n, all)
	}
}
