package game

import (
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/words"
)

// jobNews takes what is told about a backup, a table or a film in the making.
func (m Model) jobNews(msg Msg) (Model, []Effect) {
	switch msg := msg.(type) {
	case TableNews:
		return m.tableNews(msg), nil
	case Filmed:
		return m.filmed(msg)
	case BackupProgress:
		if !m.Backup.Busy.None() {
			m.Backup.Busy = words.Of("backup.progress", msg.Done, msg.Of > 0, msg.Of)
		}
	case BackupMade:
		return m.backupMade(msg)
	case BackupChecked:
		m.Backup.Busy = words.Msg{}
		m.Backup.Found, m.Backup.Said = &msg.Found, words.Msg{}
		if msg.Err != "" || msg.Fault != nil {
			m.Backup.Found, m.Backup.Said = nil, whyNot(msg)
		}
	case Restored:
		return m.restored(msg)
	}
	return m, nil
}

func (m Model) backupMade(msg BackupMade) (Model, []Effect) {
	m.Backup.Busy = words.Msg{}
	if msg.Err != "" {
		m.Backup.Said = words.Of("backup.unwritten", msg.Err.Said())
		m.Notice = Notice{Said: m.Backup.Said}
		return m, nil
	}
	m.Backup.Care.Made = msg.Made
	m.Backup.Said = words.Of("backup.saved", holds(msg.Traces, msg.Things, msg.Photos, words.Of("backup.only-settings")))
	m.Notice = place.Say("backup.downloaded")
	return m, []Effect{m.Backup.Care.keep()}
}

// holds names what a backup has in it, or says none.
func holds(traces, things, photos int, none words.Msg) any {
	var parts words.List
	if traces > 0 {
		parts = append(parts, words.Of("backup.traces", traces))
	}
	if things > 0 {
		parts = append(parts, words.Of("backup.things", things))
	}
	if photos > 0 {
		parts = append(parts, words.Of("backup.photos", photos))
	}
	if parts == nil {
		return none
	}
	return parts
}

// whyNot says why a file cannot be taken, and what to do.
func whyNot(c BackupChecked) words.Msg {
	if c.Fault == nil {
		return words.Of("backup.unread", c.Err.Said())
	}
	at := words.Of("backup.at", c.Fault.Part != "", c.Fault.Part, c.Fault.Record)
	switch c.Fault.Kind {
	case keep.NewerBackup:
		return words.Of("backup.newer")
	case keep.DamagedBackup:
		return words.Of("backup.damaged", at)
	case keep.ShortBackup:
		return words.Of("backup.short", at)
	}
	return words.Of("backup.none-of-ours")
}

// restored says what came of taking a backup in, after what has been said already at
// the beginning of the visit.
func (m Model) restored(r Restored) (Model, []Effect) {
	m.Backup.Busy = words.Msg{}
	if r.Err != "" {
		m.Backup.Said = words.Of("backup.not-taken-in", r.Err.Said())
		if r.Undone {
			m.Backup.Said = words.Of("backup.not-taken-back", r.Err.Said())
		}
		m.Notice = Notice{Said: m.Backup.Said}
		return m, nil
	}
	m.Backup.Back = !r.Undone && !r.Same || r.More
	outcome := place.Say("backup.added", r.Later, r.Both).Offer("backup-undo")
	switch {
	case r.Undone:
		outcome = place.Say("backup.undone", r.More)
		if r.More {
			outcome = outcome.Offer("backup-undo")
		}
	case r.Same:
		outcome = place.Say("backup.same")
	case r.Replaced:
		outcome = place.Say("backup.replaced").Offer("backup-undo")
	}
	m.Notice = m.Notice.And(outcome)
	before := m.Backup.Care
	if r.Undone {
		m.Backup.Care.Restored = 0
	} else if r.Whole {
		m.Backup.Care.Restored = r.Made
	}
	if m.Backup.Care == before {
		return m, nil
	}
	return m, []Effect{m.Backup.Care.keep()}
}

// Summary says what a checked backup holds and what of it is here.
func (f BackupFound) Summary() words.Msg {
	return words.Of("backup.holds", holds(f.Traces, f.Things, f.Photos, words.Of("backup.only-settings")),
		f.Traces > 0, f.Kept.Same+f.Kept.Other, f.Kept.Mend, f.Kept.Other, f.Later, f.Both)
}

// Adds says what adding would do, Replaces what replacing would.
func (f BackupFound) Adds() words.Msg {
	return words.Of("backup.adds", holds(f.Kept.New+f.Kept.Mend, f.Missing.Things, f.Missing.Photos, words.Of("backup.nothing")), f.Later+f.Both > 0)
}

// Replaces says what would have to give way.
func (f BackupFound) Replaces() words.Msg {
	return words.Of("backup.replaces", words.Of("backup.traces", f.Here))
}
