package draw_test

import (
	"os"
	"slices"
	"testing"

	"unthreaded/game"
	"unthreaded/game/control"
	"unthreaded/game/control/checkhtml"
	"unthreaded/game/place"
	"unthreaded/game/place/draw"
)

// The page has an element for each control of the place, shows all that the place says,
// and names nothing else.
func TestThePageAndThePlaceAgree(t *testing.T) {
	m := drawing()
	spec := checkhtml.Spec{
		Controls: []control.Decl{{Name: "undo", Kind: control.Press}, {Name: "redo", Kind: control.Press}},
		Scripted: []string{"draw.wheel"},
		Focus:    []control.Focus{draw.PickFocus},
		Shown: struct {
			At struct {
				Draw bool `json:"draw"`
			} `json:"at"`
			Draw any `json:"draw"`
		}{Draw: in(m).Page().In},
	}
	for _, d := range in(m).Controls() {
		d.Name = "draw." + d.Name
		spec.Controls = append(spec.Controls, d)
	}
	part, err := os.ReadFile("../../../wasm/site/parts/draw.html")
	if err != nil {
		t.Fatal(err)
	}
	index, err := os.ReadFile("../../../wasm/site/index.html")
	if err != nil {
		t.Fatal(err)
	}
	about, err := checkhtml.About(string(index), "draw")
	if err != nil {
		t.Fatal(err)
	}
	for _, wrong := range checkhtml.Check(string(part)+about, spec) {
		t.Error(wrong)
	}
}

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
