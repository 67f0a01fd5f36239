package place

import (
	"testing"

	"unthreaded/path/motif"
)

// Every motif is shown once, in a kind that has a name, and kinds follow each other whole.
func TestEveryMotifHasItsKind(t *testing.T) {
	all := ByKind(motif.Ready())
	if len(all) != len(motif.Ready()) {
		t.Fatalf("%d motifs of %d", len(all), len(motif.Ready()))
	}
	seen, last := map[string]bool{}, ""
	for _, m := range all {
		kind := MotifKind(m)
		if kind != last && seen[kind] {
			t.Errorf("%s stands apart from its kind %s", m.ID, kind)
		}
		seen[kind], last = true, kind
	}
	if len(seen) != len(MotifKinds) {
		t.Errorf("kinds in use: %v, of %v", seen, MotifKinds)
	}
	for kind, ids := range kinds {
		for _, id := range ids {
			if _, found := motif.Find(id); !found {
				t.Errorf("%s lists %s, which there is not", kind, id)
			}
		}
	}
}
