package game_test

import (
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/scene"
)

// Every place of the list has its room: opened, it draws something of its own, says what
// it is for, and declares its controls.
func TestEveryPlaceHasItsRoom(t *testing.T) {
	for _, n := range game.Places {
		tb := newTable(t)
		tb.send(game.Control{Name: "place", Value: string(n)}, game.Frame{Now: 1})
		if tb.m.Place != n || tb.m.Front() == nil {
			t.Errorf("%s does not open", n)
			continue
		}
		var layers scene.Layers
		ground := scene.Layers{}
		ground.Begin(tb.m.Screen, 0, tb.m.Theme())
		drawn := tb.m.Scene(&layers)
		if empty := ground.List(tb.m.Screen, drawn.Shift); drawn.Items() <= empty.Items() {
			t.Errorf("%s draws nothing", n)
		}
		p := page.Of(tb.m)
		if p.Sentence == "" || p.ClothLabel == "" || p.Room == nil || !p.At[n] {
			t.Errorf("%s says %q and %q of itself, and shows %v", n, p.Sentence, p.ClothLabel, p.Room)
		}
		if len(tb.m.Front().Controls()) == 0 {
			t.Errorf("%s has no controls", n)
		}
	}
}
