package game_test

import (
	"math"
	"testing"

	"unthreaded/game"
	"unthreaded/game/synth"
	"unthreaded/scoring/trace"
)

// By keys alone: before there is a trace the ideal movement plays; then each arrow
// goes to the next stitch or back, so that there and back are the same places. At 600
// stitches a minute the needle goes down every tenth of a second.
func TestTheArrowsStepFromStitchToStitch(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Control{Name: "play"})
	if !tb.m.Rehearsal().Replay.Playing {
		t.Errorf("before there is a trace it plays nothing and says %q", tb.m.Notice.In(tb.m.Book()))
	}
	tb.draw(synth.Hand{Hz: 120, Speed: synth.Steady(25), Stop: 60}, trace.Pen, 1)
	arrow := func(name string) float64 {
		tb.send(game.Control{Name: "key", Value: name})
		return tb.m.Rehearsal().Replay.T
	}
	for tb.m.Rehearsal().Replay.T > 0 {
		if before := tb.m.Rehearsal().Replay.T; arrow("ArrowLeft") >= before {
			t.Fatalf("back from %v s to %v s", before, tb.m.Rehearsal().Replay.T)
		}
	}
	var times []float64
	for k := range 20 {
		times = append(times, arrow("ArrowRight"))
		if k > 0 && math.Abs(times[k]-times[k-1]-0.1) > 1e-6 {
			t.Fatalf("from %v s to %v s, want a tenth", times[k-1], times[k])
		}
	}
	for k := len(times) - 2; k >= 0; k-- {
		if at := arrow("ArrowLeft"); math.Abs(at-times[k]) > 1e-9 {
			t.Fatalf("back at %v s, was at %v s", at, times[k])
		}
	}
	for range 100 {
		arrow("ArrowRight")
	}
	if tb.m.Rehearsal().Replay.T != tb.m.Rehearsal().Replay.Length {
		t.Errorf("on and on it ends at %v s of %v s", tb.m.Rehearsal().Replay.T, tb.m.Rehearsal().Replay.Length)
	}
}

// Another way of moving clears the cloth, ready to trace that way; the trace stays
// listed. The same way again changes nothing.
func TestAnotherWayClearsTheCloth(t *testing.T) {
	tb := newTable(t)
	tb.draw(synth.Hand{Hz: 120, Speed: synth.Steady(25), Stop: 60}, trace.Pen, 1)
	tb.send(set("way", "pencil"))
	if tb.m.Rehearsal().Open == nil {
		t.Error("the way chosen already takes the trace away")
	}
	tb.send(set("way", "cloth"))
	if tb.m.Rehearsal().Open != nil || !tb.m.Rehearsal().UnderNeedle() || len(tb.m.Rehearsal().Past) != 1 {
		t.Errorf("trace on the cloth: %v, under the needle: %v, %d listed", tb.m.Rehearsal().Open != nil, tb.m.Rehearsal().UnderNeedle(), len(tb.m.Rehearsal().Past))
	}
}
