package game_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/page"
)

const day = 24 * 60 * 60 * 1000

// A backup is offered when at least ten traces of at least a week are in this browser
// only, and not again for a week once she has said no.
func TestWhenABackupIsOffered(t *testing.T) {
	base := func(n int, oldest int64) *table {
		tb := newTable(t)
		tb.send(game.Control{Name: "place", Value: "back"})
		past := summaries(n, origin)
		past[n-1].Started = origin - oldest
		tb.send(game.Shelf{}, game.Listed{Past: past})
		return tb
	}
	for name, c := range map[string]struct {
		tb   *table
		want bool
	}{
		"ten over a week":  {base(10, 7*day), true},
		"nine over a week": {base(9, 7*day), false},
		"ten over a day":   {base(10, day), false},
		"many over months": {base(500, 90*day), true},
		"promised to keep": {func() *table { tb := base(10, 7*day); tb.send(game.Persistence{Granted: true}); return tb }(), false},
		"storage off":      {func() *table { tb := base(10, 7*day); tb.send(game.StorageOff{Why: "x"}); return tb }(), false},
		"just saved":       {func() *table { tb := base(30, 30*day); tb.send(game.BackupMade{Made: origin}); return tb }(), false},
		"saved weeks ago":  {func() *table { tb := base(30, 30*day); tb.send(game.BackupMade{Made: origin - 20*day}); return tb }(), false},
		"saved long ago":   {func() *table { tb := base(30, 30*day); tb.send(game.BackupMade{Made: origin - 40*day}); return tb }(), true},
		"shelf not there":  {func() *table { tb := newTable(t); tb.send(game.Listed{Past: summaries(20000, origin)}); return tb }(), false},
		"in another view": {func() *table {
			tb := base(10, 7*day)
			tb.send(game.Control{Name: "back.view", Value: "days"})
			return tb
		}(), false},
		"restored":         {func() *table { tb := base(30, 30*day); tb.send(game.Restored{Made: origin, Whole: true}); return tb }(), false},
		"restored in part": {func() *table { tb := base(30, 30*day); tb.send(game.Restored{Made: origin}); return tb }(), true},
		"taken back": {func() *table {
			tb := base(30, 30*day)
			tb.send(game.Restored{Made: origin, Whole: true}, game.Restored{Undone: true})
			return tb
		}(), true},
	} {
		p := page.Of(c.tb.m).Backup
		if p.Offer != c.want || (p.Why != "") != c.want {
			t.Errorf("%s: offered is %v (%s), want %v", name, p.Offer, p.Why, c.want)
		}
	}

	tb := base(12, 21*day)
	if why := page.Of(tb.m).Backup.Why; !strings.Contains(why, "12 traces are not backed up") {
		t.Errorf("the offer reads %q", why)
	}
	tb.send(game.Control{Name: "backup-later"})
	kept := tb.effects[len(tb.effects)-1].(game.Keep).Thing
	for days, want := range map[float64]bool{0: false, 6.9: false, 7.1: true} {
		next := base(12, 21*day)
		next.send(game.Shelf{Things: []game.Thing{kept}}, game.Frame{Now: days * 24 * 60 * 60})
		if got := next.m.OffersBackup(); got != want {
			t.Errorf("%v days after declining it is offered: %v", days, got)
		}
	}
}

// A backup and a restore, as the page goes through them.
func TestABackupIsAskedFor(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Shelf{}, game.Control{Name: "backup"})
	if e, ok := tb.effects[len(tb.effects)-1].(game.MakeBackup); !ok || e.Name != "unthreaded-backup-2026-11-25.json" {
		t.Fatalf("the effect is %+v", tb.effects)
	}
	n := len(tb.effects)
	tb.send(game.Control{Name: "backup"}, game.Control{Name: "backup-add"})
	if len(tb.effects) != n {
		t.Error("a second backup began while the first was written")
	}
	tb.send(game.BackupProgress{Done: 20, Of: 300})
	if said := page.Of(tb.m).Backup.Said; said != "20 of 300 records are done." {
		t.Errorf("the page says %q", said)
	}
	tb.send(game.BackupMade{Made: origin, Traces: 1, Things: 2})
	if p := page.Of(tb.m).Backup; p.Made != origin || !p.Idle || !strings.Contains(p.Said, "1 trace, 2 other things.") {
		t.Errorf("the page says %q at %d", p.Said, p.Made)
	}
	var found game.BackupFound
	found.Traces, found.Here = 312, 25
	found.Kept.New, found.Kept.Same = 292, 20
	tb.send(game.Control{Name: "backup-check"}, game.BackupChecked{Found: found})
	p := page.Of(tb.m).Backup
	if !p.Asks || !strings.Contains(p.Summary, "312 traces") || !strings.Contains(p.Summary, "20 are here already") ||
		!strings.Contains(p.Adds, "292 traces") || !strings.Contains(p.Replaces, "25 traces") {
		t.Errorf("the page asks %+v", p)
	}
	tb.send(game.Control{Name: "backup-replace"})
	if e := tb.effects[len(tb.effects)-1]; e != (game.TakeBackup{Replace: true}) {
		t.Errorf("the effect is %+v", e)
	}
	tb.send(game.Restored{Err: "full"})
	if p := page.Of(tb.m); p.Backup.Back || !strings.Contains(p.Notice, "the storage of this browser is full. Nothing was changed") {
		t.Errorf("after a fault the page says %q", p.Notice)
	}
	tb.send(game.Restored{Replaced: true})
	if p := page.Of(tb.m).Backup; !p.Back || !p.Undo {
		t.Error("a restore cannot be taken back")
	}
	tb.send(game.Control{Name: "backup-undo"})
	if e := tb.effects[len(tb.effects)-1]; e != (game.UndoBackup{}) {
		t.Errorf("the effect is %+v", e)
	}
	tb.send(game.Restored{Same: true})
	if p := page.Of(tb.m); p.Backup.Back || p.Backup.Undo || !strings.Contains(p.Notice, "Nothing was changed") {
		t.Errorf("after a backup that held nothing new the page says %q", p.Notice)
	}
	for want, why := range map[string]game.BackupChecked{
		"The backup could not be read: the file could not be read.": {Err: "unreadable"},
		"This backup was written by a newer version":                {Fault: &keep.BackupFault{Kind: keep.NewerBackup}},
	} {
		tb.send(game.Control{Name: "backup-check"}, why)
		if p := page.Of(tb.m).Backup; p.Asks || !p.Idle || !strings.Contains(p.Said, want) {
			t.Errorf("of a file that cannot be taken the page says %q, want %q", p.Said, want)
		}
	}
	for _, more := range []bool{true, false} {
		tb.send(game.Restored{Undone: true, More: more})
		if p := page.Of(tb.m).Backup; p.Back != more || p.Undo != more {
			t.Errorf("another restore before: %v; it can be taken back: %v, %v", more, p.Back, p.Undo)
		}
	}
}
