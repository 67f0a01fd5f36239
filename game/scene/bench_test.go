package scene_test

import (
	"testing"

	"unthreaded/game"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

// BenchmarkFrameWhileTracing is the display list of one frame in which four new
// samples have come, with 20,000 samples drawn before (83 s at 240 Hz).
func BenchmarkFrameWhileTracing(b *testing.B) {
	m := traced(b, laptop, synth.Hand{Hz: 240, Speed: synth.Steady(8), Stop: 660}, false)
	if n := len(m.Rehearsal().Live.Samples); n < 19000 {
		b.Fatalf("only %d samples", n)
	}
	var st stage
	st.Of(m)
	msg := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, X: 500, Y: 300}
	t := 100.0
	b.ReportAllocs()
	for b.Loop() {
		for range 4 {
			t += 1.0 / 240
			msg.T = t
			m, _ = worktest.Update(m, msg)
		}
		if st.Of(m).Items() == 0 {
			b.Fatal("nothing is drawn")
		}
	}
}

// BenchmarkFrameOfReplay is the display list of one frame of a replay.
func BenchmarkFrameOfReplay(b *testing.B) {
	m := traced(b, laptop, synth.Hand{Hz: 240, Speed: synth.Steady(25.4)}, true)
	m, _ = worktest.Update(m, game.Control{Name: "play"})
	var st stage
	now := 0.0
	b.ReportAllocs()
	for b.Loop() {
		now += 1.0 / 60
		m, _ = worktest.Update(m, game.Frame{Now: now})
		if !m.Rehearsal().Replay.Playing {
			m, _ = worktest.Update(m, game.Control{Name: "play"})
		}
		st.Of(m)
	}
}

// BenchmarkWholePicture is the display list of a finished trace from nothing.
func BenchmarkWholePicture(b *testing.B) {
	m := traced(b, laptop, synth.Hand{Hz: 240, Speed: synth.Steady(25.4)}, true)
	for b.Loop() {
		fresh(m)
	}
}
