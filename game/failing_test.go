package game

import (
	"testing"

	"unthreaded/game/place"
)

// falls is a room at which the program falls over, whatever it is asked.
type falls struct{ place.Room }

func (f falls) With(place.Shared) place.Room { return f }

// handful is one that has something in hand besides.
type handful struct {
	falls
	shared place.Shared
}

func (h handful) With(s place.Shared) place.Room { return handful{shared: s} }
func (h handful) Common() place.Shared           { return h.shared }
func (h handful) Drop() (place.Room, []Effect)   { return h, []Effect{place.Jot{ID: "a"}} }

// A fault of the program is said, and costs what was asked for alone; what is in hand is
// written down and let go.
func TestAFaultIsSaidAndCostsItselfAlone(t *testing.T) {
	for _, c := range []struct {
		room    place.Room
		said    string
		effects int
	}{{falls{}, "page.fault", 0}, {handful{}, "page.fault-trace", 1}} {
		m := New(DefaultSettings(), 0)
		for i, n := range Places {
			if n == m.Place {
				m.rooms[i] = c.room
			}
		}
		next, effects := Update(m, Pointer{Kind: Down})
		if next.Notice.Said.Key != c.said || len(effects) != c.effects {
			t.Errorf("%T: it says %q and does %d things, want %q and %d", c.room, next.Notice.Said.Key, len(effects), c.said, c.effects)
		}
		if next.Place != m.Place || next.Settings != m.Settings {
			t.Errorf("%T: a fault changed something", c.room)
		}
	}
}
