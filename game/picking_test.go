package game_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
)

// A trace is deleted from the list of its session, the keyboard goes on at the one after
// it, and it comes back before what was changed earlier in the place.
func TestDeleteFromASession(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Listed{Past: practised(8, func(k int) float64 { return 0.3 })})
	tb.look()
	tb.send(game.Control{Name: "back.view", Value: "sewn"})
	tb.typed("day", "2026-11-20", "stitches", "40", "length", "4", "spm", "600")
	tb.send(game.Control{Name: "back.sewn-keep"}, game.Control{Name: "back.view", Value: "weeks"})
	noted := len(atBack(tb.m).Sewn.Pieces)
	for _, c := range [][2]string{{"07-1", "07-2"}, {"07-4", "07-3"}} {
		tb.effects = nil
		tb.send(game.Control{Name: "back.delete", Item: c[0]})
		if gone := taken[game.Delete](tb); len(gone) != 1 || gone[0].ID != c[0] || !strings.Contains(tb.m.Focus.To, c[1]) {
			t.Errorf("deleted %v, the keyboard is led to %s, want %s", gone, tb.m.Focus.To, c[1])
		}
		tb.frames()
	}
	if s, _ := atBack(tb.m).Picked(); len(tb.m.Kept()) != 38 || len(atBack(tb.m).Weeks.Found().InSession(s.Session)) != 3 {
		t.Errorf("%d traces are kept", len(tb.m.Kept()))
	}
	if p := page.Of(tb.m); !p.CanUndo || p.Notice != "Trace deleted." {
		t.Errorf("the notice is %q", p.Notice)
	}
	tb.send(game.Control{Name: "undo"}, game.Control{Name: "undo"})
	if back := taken[game.Restore](tb); len(back) != 2 || back[0].ID != "07-4" || back[1].ID != "07-1" || len(atBack(tb.m).Sewn.Pieces) != noted {
		t.Errorf("taken back: %v, %d of %d notes", back, len(atBack(tb.m).Sewn.Pieces), noted)
	}
	tb.send(game.Control{Name: "undo"})
	if len(atBack(tb.m).Sewn.Pieces) != noted-1 {
		t.Error("then the note is not taken back")
	}
}

// Whoever picks a session with the keyboard hears its day, its score, and how many traces
// count, and nothing before.
func TestWhatIsPickedIsTold(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Listed{Past: practised(8, func(k int) float64 { return 0.3 + 0.01*float64(k) })})
	tb.look()
	if told := shown(tb.m).Told; told != "" {
		t.Errorf("on entering is told %q", told)
	}
	tb.send(game.Control{Name: "key", Value: "ArrowLeft"})
	// The origin is 2026-11-25; the session before the newest is two days earlier, its
	// traces 36 % and 2, 4, 6, 8 hundredths of that more: the three that count are 37.4 to 38.9.
	if told := shown(tb.m).Told; told != "23 Nov 2026: 38 %, 3 traces count" {
		t.Errorf("told is %q", told)
	}
}
