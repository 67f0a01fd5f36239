package machine_test

import (
	"os"
	"testing"

	"unthreaded/game/control"
	"unthreaded/game/control/checkhtml"
)

// The page has an element for each control of the place, shows all that the place says,
// and names nothing else.
func TestThePageAndThePlaceAgree(t *testing.T) {
	m := atMachine("diamonds")
	spec := checkhtml.Spec{
		Controls: []control.Decl{{Name: "place", Kind: control.Choice, Choices: []string{"route", "quilt"}}},
		Shown: struct {
			At struct {
				Machine bool `json:"machine"`
			} `json:"at"`
			Machine any `json:"machine"`
		}{Machine: shown(m)},
	}
	// A row of a list has a value and a note: some have no use for the note.
	spec.Unbound = []string{"machine.cautions.note", "machine.against.note", "machine.changes.note", "machine.due.note", "machine.rows.note"}
	for _, d := range front(m).Controls() {
		d.Name = "machine." + d.Name
		spec.Controls = append(spec.Controls, d)
	}
	part, err := os.ReadFile("../../../wasm/site/parts/machine.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, wrong := range checkhtml.Check(string(part), spec) {
		t.Error(wrong)
	}
}
