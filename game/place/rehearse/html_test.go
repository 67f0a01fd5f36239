package rehearse_test

import (
	"os"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/control"
	"unthreaded/game/control/checkhtml"
	"unthreaded/game/page"
	"unthreaded/game/place"
)

// The page has an element for each control of the place, shows all that the place says,
// and names nothing else. What stands beside it belongs to the whole page.
func TestThePageAndThePlaceAgree(t *testing.T) {
	r := game.New(game.DefaultSettings(), 0).Rehearsal()
	html := ""
	for _, part := range []string{"rehearse", "lesson", "glance", "measures"} {
		doc, err := os.ReadFile("../../../wasm/site/parts/" + part + ".html")
		if err != nil {
			t.Fatal(err)
		}
		html += string(doc)
	}
	index, err := os.ReadFile("../../../wasm/site/index.html")
	if err != nil {
		t.Fatal(err)
	}
	about, err := checkhtml.About(string(index), "rehearse")
	if err != nil {
		t.Fatal(err)
	}
	html += about
	spec := checkhtml.Spec{
		Controls: []control.Decl{{Name: "film", Kind: control.Press}, {Name: "film-stop", Kind: control.Press}, {Name: "table-all", Kind: control.Press}},
		Shown: struct {
			At struct {
				Rehearse bool `json:"rehearse"`
			} `json:"at"`
			Figures  any `json:"figures"`
			Jobs     any `json:"jobs"`
			Rehearse any `json:"rehearse"`
		}{Figures: []place.Figure{}, Jobs: page.Jobs{}, Rehearse: r.Page().In},
		// The mode is for the style of the page; none of the other traces can be open.
		Unbound: []string{"rehearse.practise.mode", "rehearse.pastOther.open"},
		// These stand beside the cloth of every place that has something to play.
		Scripted: []string{"play", "rate"},
		Focus:    []control.Focus{},
	}
	for _, d := range r.Controls() {
		if strings.Contains(html, `data-send="rehearse.`+d.Name+`"`) {
			d.Name = "rehearse." + d.Name
		}
		spec.Controls = append(spec.Controls, d)
	}
	for _, wrong := range checkhtml.Check(html, spec) {
		t.Error(wrong)
	}
}
