package game_test

import (
	"testing"

	"unthreaded/game"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/synth"
	"unthreaded/scoring/trace"
)

// On a phone whose size is a guess she is asked for it with a card before her first trace
// there: not on a desk, not where it is known, not again after "not now" or a trace.
func TestTrueSizeIsAskedForOnPhones(t *testing.T) {
	on := func(w float64, touch bool) *table {
		tb := newTable(t)
		tb.send(game.Resized{W: w, H: 520, Strip: 92, DPR: 3, ScreenW: w, ScreenH: 844, Touch: touch})
		return tb
	}
	asked := func(tb *table) bool { return tb.m.Rehearsal().Page().In.(rehearse.Page).Card.Asked }
	if !asked(on(390, true)) || asked(on(1026, false)) || asked(on(820, true)) {
		t.Error("asked elsewhere than on a phone, or not there")
	}
	later := on(390, true)
	later.send(set("size-later", ""))
	if asked(later) {
		t.Error("asked again after not now")
	}
	known := on(390, true)
	known.send(set("screen", ""))
	known.send(set("card", "513.6"))
	known.send(set("card-keep", ""))
	if asked(known) {
		t.Error("asked though it was measured")
	}
	done := on(390, true)
	done.draw(synth.Hand{Hz: 120, Speed: synth.Steady(25.4)}, trace.Touch, 3)
	done.send(game.Control{Name: "again"})
	if asked(done) {
		t.Error("asked after the first trace")
	}
}
