package route_test

import (
	"os"
	"testing"

	"unthreaded/game"
	"unthreaded/game/control/checkhtml"
	"unthreaded/game/place/route"
)

// The page has an element for each control of the place, shows all that the place says, and
// names nothing else.
func TestThePageAndThePlaceAgree(t *testing.T) {
	m, _ := game.Update(game.New(game.DefaultSettings(), 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	m, _ = game.Update(m, game.Control{Name: "place", Value: "route"})
	r := m.Front().(route.Room)
	spec := checkhtml.Spec{
		Shown: struct {
			At struct {
				Route bool `json:"route"`
			} `json:"at"`
			Route any `json:"route"`
		}{Route: r.Page().In},
	}
	// The replay's controls stand once on the page, for all places.
	common := map[string]bool{"play": true, "scrub": true, "rate": true}
	for _, d := range r.Controls() {
		if common[d.Name] {
			continue
		}
		spec.Controls = append(spec.Controls, d)
	}
	part, err := os.ReadFile("../../../wasm/site/parts/route.html")
	if err != nil {
		t.Fatal(err)
	}
	index, err := os.ReadFile("../../../wasm/site/index.html")
	if err != nil {
		t.Fatal(err)
	}
	about, err := checkhtml.About(string(index), "route")
	if err != nil {
		t.Fatal(err)
	}
	for _, wrong := range checkhtml.Check(string(part)+about, spec) {
		t.Error(wrong)
	}
}
