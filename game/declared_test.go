package game_test

import (
	"encoding/json"
	"testing"

	"unthreaded/game"
	"unthreaded/game/control"
)

// What the page is told of the controls is JSON, and a name that several places have
// means the same kind of value with the same range in each.
func TestControlsAreToldToThePage(t *testing.T) {
	decls := game.New(game.DefaultSettings(), 0).Controls()
	if _, err := json.Marshal(decls); err != nil || len(decls) == 0 {
		t.Fatalf("%d controls: %v", len(decls), err)
	}
	seen := map[string]control.Decl{}
	for _, d := range decls {
		before, twice := seen[d.Name]
		if twice && (before.Kind != d.Kind || before.Min != d.Min || before.Max != d.Max) {
			t.Errorf("control %s is declared as %v and as %v", d.Name, before, d)
		}
		seen[d.Name] = d
	}
}
