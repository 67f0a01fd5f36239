package draw_test

import (
	"slices"
	"testing"

	"unthreaded/game"
	"unthreaded/game/control/checkhtml"
	"unthreaded/game/place"
	"unthreaded/game/place/draw"
)

// The keys that the place asks for do something, and no other does.
func TestKeysOfThePlace(t *testing.T) {
	m := drawing(game.Control{Name: "draw.tool", Value: "ruler"})
	for _, key := range []string{"ArrowRight", "Enter", "+", "a", "Tab", " "} {
		next, _ := in(m).Key(place.Key{Name: key})
		was, is := in(m), next.(draw.Room)
		moved := was.View != is.View || was.Board.At != is.Board.At || was.Board.Cross != is.Board.Cross
		if want := slices.Contains(was.Keys(), key); moved != want {
			t.Errorf("%q: something happens: %v, want %v", key, moved, want)
		}
	}
}

// Each entry of a list has an id of its own: the page keeps a row by it.
func TestNoRowIsThereTwice(t *testing.T) {
	m := drawing(game.Control{Name: "draw.pattern", Value: "crosshatch"}, game.Control{Name: "draw.loosen"}, game.Control{Name: "draw.copy"}, game.Control{Name: "draw.mark-count", Value: "9"})
	for _, twice := range checkhtml.Twice(in(m).Page().In) {
		t.Error(twice)
	}
}
