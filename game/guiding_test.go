package game_test

import (
	"math"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/synth"
	"unthreaded/scoring/trace"
)

// start puts the pointer down on the start of the line at t0.
func (tb *table) start(t0 float64) {
	tb.send(tb.pointer(game.Down, 1, trace.Pen, trace.Sample{P: tb.m.Rehearsal().Line.At(0)}, t0))
}

func (tb *table) sounds() (ticks []float64, beats []float64) {
	for _, e := range tb.effects {
		if s, ok := e.(rehearse.Sound); ok && s.Beats {
			beats = append(beats, s.At...)
		} else if ok {
			ticks = append(ticks, s.At...)
		}
	}
	return ticks, beats
}

// At an inch a second and 10 stitches an inch a steady hand hears a tick every
// tenth of a second, however it is sampled; without being asked for, none.
func TestATickForEveryStitch(t *testing.T) {
	for _, hz := range []float64{60, 125, 240} {
		tb := newTable(t)
		tb.send(game.Control{Name: "motif", Value: "ruler-zigzag"}, set("ticks", "on"))
		tb.draw(synth.Hand{Hz: hz, Speed: synth.Steady(25.4), Stop: 50}, trace.Pen, 3)
		ticks, _ := tb.sounds()
		if len(ticks) != 19 { // 19 x 2.54 = 48.26, 20 x 2.54 = 50.8
			t.Errorf("%v Hz: %d ticks on 50 mm, want %d", hz, len(ticks), 19)
		}
		for i, at := range ticks {
			if want := 3 + 0.1*float64(i+1); math.Abs(at-want) > 1e-3 {
				t.Errorf("%v Hz: tick %d at %.4f s, want %.4f", hz, i, at, want)
			}
		}
	}
	tb := newTable(t)
	tb.draw(even(), trace.Pen, 3)
	if ticks, _ := tb.sounds(); len(ticks) > 0 {
		t.Errorf("%d ticks that nobody asked for", len(ticks))
	}
}

// With a count the trace begins at the fourth beat, 2.4 s after the pointer went
// down; what the hand did before is not part of it.
func TestTheTraceBeginsAfterTheCount(t *testing.T) {
	tb := newTable(t)
	tb.send(set("countin", "on"), set("ticks", "on"), game.Frame{Now: 4.99})
	tb.start(5)
	for now := 5.0; now < 7.5; now += 1.0 / 60 {
		tb.send(game.Frame{Now: now})
	}
	if tb.m.Rehearsal().Live.Counting || math.Abs(tb.m.Rehearsal().Live.Began()-7.4) > 1e-9 || len(tb.m.Rehearsal().Live.Samples) != 1 {
		t.Fatalf("the trace began at %v with %d samples", tb.m.Rehearsal().Live.Began(), len(tb.m.Rehearsal().Live.Samples))
	}
	h := even()
	h.Stop = 80
	for _, s := range h.Samples(tb.m.Rehearsal().Line)[1:] {
		tb.send(tb.pointer(game.Move, 1, trace.Pen, s, 7.5))
	}
	tb.send(game.Interrupt{})
	if d := tb.m.Rehearsal().Open.Duration(); math.Abs(d-(80/25.4+0.1)) > 0.02 {
		t.Errorf("the trace lasts %.2f s, want %.2f", d, 80/25.4+0.1)
	}
	if _, beats := tb.sounds(); len(beats) != 3 {
		t.Errorf("%d beats, want 3", len(beats))
	}
	if g := tb.m.Rehearsal().Open.Rec.Guide; g == nil || !g.CountIn || !g.Ticks || g.Marks != keep.WholeLine {
		t.Errorf("the record's guide is %+v", g)
	}
}

// A hand that cannot wait starts when it goes off, and nothing is lost.
func TestGoingOffBeforeTheCountEnds(t *testing.T) {
	tb := newTable(t)
	tb.send(set("countin", "on"))
	tb.draw(synth.Hand{Hz: 120, Speed: synth.Steady(25.4), Stop: 50}, trace.Mouse, 3)
	if tb.m.Rehearsal().Open == nil {
		t.Fatalf("nothing on the cloth: %q", tb.m.Notice.In(tb.m.Book()))
	}
	if d := tb.m.Rehearsal().Open.Duration(); d < 46/25.4 || d > 50/25.4 {
		t.Errorf("%.2f s of a movement of %.2f s were kept", d, 50/25.4)
	}
}

// Two of stitch length, needle speed and hand speed are set and the third follows:
// length = 60 x speed / spm, also at the ends of the ranges.
func TestTheThirdFollows(t *testing.T) {
	tb := newTable(t)
	for _, c := range []struct {
		send                game.Control
		spm, stitch, mmPerS float64
	}{
		{game.Control{Name: "spm", Value: "800"}, 800, 2.54, 800 * 2.54 / 60},
		{game.Control{Name: "spm", Value: "600"}, 600, 2.54, 25.4},
		{set("follows", "stitch"), 600, 2.54, 25.4},
		{set("handspeed", "30"), 600, 3, 30},
		{game.Control{Name: "spm", Value: "900"}, 900, 2, 30},
		{game.Control{Name: "spm", Value: "100"}, 1800.0 / 7, 7, 30}, // no stitch is longer than 7 mm
		{game.Control{Name: "spm", Value: "600"}, 600, 3, 30},
		{set("follows", "needle"), 600, 3, 30},
		{game.Control{Name: "stitch", Value: "2"}, 900, 2, 30},
		{set("handspeed", "20"), 600, 2, 20},
		{game.Control{Name: "stitch", Value: "1"}, 1200, 1, 20},
		{set("handspeed", "99"), 2000, 1, 2000.0 / 60}, // no machine is faster than 2000
	} {
		tb.send(c.send)
		s := tb.m.Settings
		if math.Abs(s.SPM-c.spm) > 1e-9 || math.Abs(s.StitchMM-c.stitch) > 1e-9 || math.Abs(s.HandSpeed()-c.mmPerS) > 1e-9 {
			t.Errorf("%+v: %v spm, %v mm, %v mm/s; want %v, %v, %v", c.send, s.SPM, s.StitchMM, s.HandSpeed(), c.spm, c.stitch, c.mmPerS)
		}
	}
}

// A window that changes under the hand is explained afterwards; the bar of a browser
// that slides away is not worth a word.
func TestAChangedWindowIsExplained(t *testing.T) {
	for name, c := range map[string]struct {
		to   game.Resized
		says bool
	}{
		"turned": {game.Resized{W: 656, H: 1026, Strip: 112, DPR: 1}, true},
		"a bar":  {game.Resized{W: 1026, H: 600, Strip: 112, DPR: 1}, false},
	} {
		tb := newTable(t)
		samples := even().Samples(tb.m.Rehearsal().Line)
		tb.send(tb.pointer(game.Down, 1, trace.Pen, samples[0], 1))
		for i, s := range samples[1:400] {
			p := tb.pointer(game.Move, 1, trace.Pen, s, 1)
			if tb.send(p); i == 200 {
				tb.send(c.to)
			}
		}
		tb.send(game.Pointer{Kind: game.Up, ID: 1, Device: trace.Pen, T: 9, X: 300, Y: 300})
		if said := tb.m.Notice.In(tb.m.Book()) != ""; said != c.says {
			t.Errorf("%s: the notice is %q", name, tb.m.Notice.In(tb.m.Book()))
		}
	}
}
