package game_test

import (
	"testing"

	"unthreaded/game"
	"unthreaded/game/words"
)

// Damaged traces that come to light one after the other are said as one sum, not as two.
func TestDamagedTracesAreSummedUp(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Listed{Damaged: 1})
	tb.send(game.Recovered{Traces: 1})
	tb.send(game.Listed{Damaged: 1}, game.Listed{Damaged: 2})
	said := tb.m.Notice.Said
	if said.Key != "page.and-then" {
		t.Fatalf("said %v", said)
	}
	first, ok := said.Args[0].(words.Msg)
	if !ok || first.Key != "page.unread-traces" || first.Args[0] != 4 {
		t.Errorf("said first: %v, want 4 in all", first)
	}
	tb = newTable(t)
	tb.send(game.Listed{Damaged: 1}, game.Listed{Damaged: 1})
	if got := tb.m.Notice.In(words.Book{}); got[:len("2 kept traces")] != "2 kept traces" {
		t.Error(got)
	}
}
