package back

import (
	"os"
	"testing"

	"unthreaded/game/control"
	"unthreaded/game/control/checkhtml"
)

// The page has an element for each control of the place, shows all that the place says,
// and names nothing else.
func TestThePageAndThePlaceAgree(t *testing.T) {
	r := New()
	spec := checkhtml.Spec{
		Controls: []control.Decl{
			{Name: "place", Kind: control.Choice, Choices: []string{"rehearse"}}, {Name: "open", Kind: control.Press, OfItem: true},
			{Name: "backup", Kind: control.Press}, {Name: "backup-later", Kind: control.Press},
		},
		Focus: []control.Focus{"back-sewn", "back-session", "back-sewn-day", "back-sewn-stitches", "back-sewn-length", "back-sewn-spm", "back-sewn-keep"},
		Shown: struct {
			At struct {
				Back bool `json:"back"`
			} `json:"at"`
			Backup struct {
				Offer bool   `json:"offer"`
				Why   string `json:"why"`
			} `json:"backup"`
			Back any `json:"back"`
		}{Back: r.Page().In},
	}
	// A row of a list has a value and a note, a trouble a field: some have no use for them.
	spec.Unbound = []string{"back.method.value", "back.machine.sure.value", "back.machine.bad.keep"}
	for _, d := range r.Controls() {
		switch d.Name {
		case "play", "scrub", "rate", "step-on", "step-back":
			continue // under the cloth, for every place
		}
		d.Name = "back." + d.Name
		spec.Controls = append(spec.Controls, d)
	}
	part, err := os.ReadFile("../../../wasm/site/parts/back.html")
	if err != nil {
		t.Fatal(err)
	}
	index, err := os.ReadFile("../../../wasm/site/index.html")
	if err != nil {
		t.Fatal(err)
	}
	about, err := checkhtml.About(string(index), "back")
	if err != nil {
		t.Fatal(err)
	}
	for _, wrong := range checkhtml.Check(string(part)+about, spec) {
		t.Error(wrong)
	}
}
