package machine

import (
	"strings"
	"testing"
)

// Each method gets its own foot and feed, cautions first and always those that
// can hurt whatever she does; nothing twice, everything with a reason.
func TestChecklists(t *testing.T) {
	wants := map[Method][]string{
		WalkingFoot: {"foot-walking", "feed-up"},
		FreeMotion:  {"foot-free", "feed-down", "gloves"},
		RulerFoot:   {"foot-ruler", "feed-down", "gloves", "ruler-fit", "ruler-hold"},
	}
	always := []string{"power", "fingers", "eyes", "rest", "needle", "thread", "bobbin", "light", "space", "posture", "sandwich"}
	own := map[string]Method{}
	for m, ids := range wants {
		for _, id := range ids {
			own[id] += m
		}
	}
	for _, m := range Methods() {
		for bits := range 4 {
			p := Plan{Method: m, Ruler: bits&1 == 1, Template: bits&2 == 2}
			items := must[[]Item](t)(Checklist(p))
			has := map[string]bool{}
			for i, it := range items {
				if has[it.ID] {
					t.Errorf("%+v: item %q comes twice", p, it.ID)
				}
				if it.Caution != (it.Group == Safety) || (it.Caution && i > 0 && !items[i-1].Caution) {
					t.Errorf("%+v: caution %q is not among the first", p, it.ID)
				}
				has[it.ID] = true
			}
			for _, id := range append(always, wants[m]...) {
				if !has[id] {
					t.Errorf("%+v: %q is missing", p, id)
				}
			}
			for id, methods := range own {
				if has[id] && !strings.Contains(string(methods), string(m)) {
					t.Errorf("%+v: %q is for another method", p, id)
				}
			}
			if has["print-scale"] != p.Template || has["ruler-foot-only"] != (p.Ruler && m != RulerFoot) {
				t.Errorf("%+v: test square %v, caution on the foot %v", p, has["print-scale"], has["ruler-foot-only"])
			}
		}
	}
	if _, err := Checklist(Plan{Method: "magic"}); err == nil || !strings.Contains(err.Error(), `"walking"`) {
		t.Errorf("error %v, want one that names the methods", err)
	}
}
