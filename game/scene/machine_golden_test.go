package scene_test

import (
	"testing"

	"unthreaded/game"
	"unthreaded/game/place/machine"
	"unthreaded/game/worktest"
)

// The topics of the place Machine, each as it opens for some drawing.
func init() {
	for name, controls := range map[string][]game.Control{
		"bench-foot":   {{Name: "drawing", Value: "orange-peel"}, {Name: "machine.topic", Value: "foot"}},
		"bench-speed":  {{Name: "drawing", Value: "orange-peel"}, {Name: "machine.topic", Value: "speed"}},
		"bench-thread": {{Name: "drawing", Value: "orange-peel"}, {Name: "machine.topic", Value: "thread"}, {Name: "machine.set", Item: "first", Value: "37"}},
		"bench-throat": {
			{Name: "drawing", Value: "orange-peel"}, {Name: "machine.topic", Value: "throat"},
			{Name: "machine.set", Item: "across", Value: "100"}, {Name: "machine.set", Item: "thickness", Value: "8"}, {Name: "machine.set", Item: "rows", Value: "9"},
		},
		"bench-marks": {{Name: "drawing", Value: "diamonds"}, {Name: "machine.topic", Value: "marks"}, {Name: "machine.line-on"}, {Name: "machine.line-on"}},
		"bench-check": {{Name: "drawing", Value: "diamonds"}, {Name: "machine.topic", Value: "check"}},
		"bench-card":  {{Name: "drawing", Value: "diamonds"}, {Name: "machine.topic", Value: "card"}},
	} {
		pictures[name] = func(t *testing.T) game.Model {
			// The place has no strip under the cloth.
			m := routing(controls[0], game.Control{Name: "place", Value: "machine"})
			screen := laptop
			screen.Strip = 0
			m, _ = worktest.Update(m, screen)
			m, _ = worktest.Update(m, game.Shelf{})
			for _, c := range controls[1:] {
				m, _ = worktest.Update(m, c)
			}
			if r, ok := m.Front().(machine.Room); !ok || r.Bench().Refused.Why != "" {
				t.Fatalf("place %q, refused", m.Place)
			}
			return m
		}
	}
}
