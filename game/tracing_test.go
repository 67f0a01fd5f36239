package game_test

import (
	"math"
	"testing"

	"unthreaded/game"
	"unthreaded/scoring/trace"
)

// report sends a trace to the table, moved by so many CSS pixels at each sample, and
// returns where the pointer was at each.
func report(tb *table, off func(i int, p game.Pointer) game.Pointer) []game.Pointer {
	samples := even().Samples(tb.m.Rehearsal().Line)
	var sent []game.Pointer
	for i, s := range samples {
		kind := game.Move
		switch i {
		case 0:
			kind = game.Down
		case len(samples) - 1:
			kind = game.Up
		}
		sent = append(sent, off(i, tb.pointer(kind, 1, trace.Mouse, s, 3)))
	}
	for _, p := range sent {
		tb.send(p)
	}
	return sent
}

// Where the pointer is lifted belongs to the trace: it is its last sample.
func TestTheLiftIsTheLastSample(t *testing.T) {
	tb := newTable(t)
	sent := report(tb, func(i int, p game.Pointer) game.Pointer {
		if p.Kind == game.Up {
			p.X += 3
		}
		return p
	})
	samples := tb.m.Rehearsal().Open.Rec.Trace().Samples
	last := sent[len(sent)-1]
	if at := tb.m.Sight().ToScreen(samples[len(samples)-1].P); len(samples) != len(sent) || math.Hypot(at.X-last.X, at.Y-last.Y) > 0.01 {
		t.Errorf("%d samples of %d, the last at %v, lifted at (%v, %v)", len(samples), len(sent), at, last.X, last.Y)
	}
}

// A device that reports whole pixels but for one place in twenty is taken for one of whole
// pixels; one that meets a whole pixel in one place of three is not.
func TestWholePixelsAreTold(t *testing.T) {
	for every, whole := range map[int]bool{20: true, 3: false} {
		tb := newTable(t)
		report(tb, func(i int, p game.Pointer) game.Pointer {
			p.X, p.Y = math.Round(p.X), math.Round(p.Y)
			if whole == (i%every == 0) {
				p.X, p.Y = p.X+0.37, p.Y+0.41
			}
			return p
		})
		if got := tb.m.Rehearsal().Open.Rec.PixelMM; whole && math.Abs(got-1/tb.m.Sight().Scale) > 1e-9 || !whole && got != 0 {
			t.Errorf("one in %d: a pixel of %v mm", every, got)
		}
	}
}
