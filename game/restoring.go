package game

import (
	"fmt"
	"strings"

	"unthreaded/game/keep"
)

// jobNews takes what is told about a backup, a table or a film in the making.
func (m Model) jobNews(msg Msg) (Model, []Effect) {
	switch msg := msg.(type) {
	case TableNews:
		return m.tableNews(msg), nil
	case FilmNews:
		return m.filmNews(msg), nil
	case BackupProgress:
		if m.Backup.Busy != "" {
			m.Backup.Busy = progressText(msg)
		}
	case BackupMade:
		return m.backupMade(msg)
	case BackupChecked:
		m.Backup.Busy = ""
		m.Backup.Found, m.Backup.Said = &msg.Found, ""
		if msg.Err != "" {
			m.Backup.Found, m.Backup.Said = nil, whyNot(msg)
		}
	case Restored:
		return m.restored(msg)
	}
	return m, nil
}

func progressText(p BackupProgress) string {
	if p.Of > 0 {
		return fmt.Sprintf("%d of %d records are done.", p.Done, p.Of)
	}
	return fmt.Sprintf("%d records are done.", p.Done)
}

func (m Model) backupMade(msg BackupMade) (Model, []Effect) {
	m.Backup.Busy = ""
	if msg.Err != "" {
		m.Backup.Said = "The backup could not be written: " + msg.Err + ". Nothing was changed; save the traces that matter as files."
		m.Notice = Notice{Text: m.Backup.Said}
		return m, nil
	}
	m.Backup.Care.Made = msg.Made
	m.Backup.Said = fmt.Sprintf("Saved as a file: %s. Keep it somewhere else than on this device.", holds(msg.Traces, msg.Things, msg.Photos))
	m.Notice = Notice{Text: "The backup is among your downloads. Keep it somewhere else than on this device."}
	return m, []Effect{m.Backup.Care.keep()}
}

// holds names what a backup has in it.
func holds(traces, things, photos int) string {
	return holdsOr(traces, things, photos, "nothing but settings")
}

// holdsOr names what there is, or says none.
func holdsOr(traces, things, photos int, none string) string {
	var parts []string
	for _, p := range []struct {
		n    int
		what string
	}{{traces, "trace"}, {things, "other thing"}, {photos, "photo"}} {
		if p.n > 0 {
			parts = append(parts, count(p.n, p.what))
		}
	}
	if parts == nil {
		return none
	}
	return strings.Join(parts, ", ")
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// whyNot says why a file cannot be taken, and what to do.
func whyNot(c BackupChecked) string {
	if c.Fault == nil {
		return "The backup could not be read: " + c.Err + ". Nothing was changed."
	}
	at := ""
	if c.Fault.Part != "" {
		at = fmt.Sprintf(" (%s)", c.Fault.Part)
	}
	if c.Fault.Record > 0 {
		at = fmt.Sprintf(" (%s, record %d)", c.Fault.Part, c.Fault.Record)
	}
	switch c.Fault.Kind {
	case keep.NewerBackup:
		return "This backup was written by a newer version of this page. Load the page again while you are online to get that version, then open the backup. Nothing was changed."
	case keep.DamagedBackup:
		return "This backup is not as it was written" + at + ". Try another copy of it, or an older backup. Nothing was changed."
	case keep.ShortBackup:
		return "This backup ends too early" + at + ": it was not copied to its end. Copy it again from where it was saved. Nothing was changed."
	}
	return "This file is no backup of this page. A backup is called unthreaded-backup, with a date, and ends in .json. Nothing was changed."
}

// restored says what came of taking a backup in, after what has been said already at
// the beginning of the visit.
func (m Model) restored(r Restored) (Model, []Effect) {
	m.Backup.Busy = ""
	if r.Err != "" {
		m.Backup.Said = "The backup could not be taken in: " + r.Err + ". Nothing was changed. Free some room on this device, or use another browser, and try again."
		m.Notice = Notice{Text: m.Backup.Said}
		return m, nil
	}
	m.Backup.Back = !r.Undone && !r.Same || r.More
	outcome := Notice{Text: "What was missing here has been taken from the backup.", Action: "backup-undo"}
	switch {
	case r.Undone:
		outcome = Notice{Text: "All is as it was before the backup was taken in. What you made since is kept too."}
		if r.More {
			outcome.Text += " A backup taken in before that is still in place."
			outcome.Action = "backup-undo"
		}
	case r.Same:
		outcome = Notice{Text: "All that the backup holds was here already. Nothing was changed."}
	case r.Replaced:
		outcome.Text = "The backup has taken the place of what was here."
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
func (f BackupFound) Summary() string {
	text := "It holds " + holds(f.Traces, f.Things, f.Photos) + "."
	if f.Traces > 0 {
		text += fmt.Sprintf(" Of its traces %d are here already.", f.Kept.Same+f.Kept.Other)
	}
	if f.Kept.Mend > 0 {
		text += fmt.Sprintf(" %d are damaged here and would be mended.", f.Kept.Mend)
	}
	if f.Kept.Other > 0 {
		text += fmt.Sprintf(" %d are different here; adding leaves those as they are here.", f.Kept.Other)
	}
	return text
}

// Adds says what adding would do, Replaces what replacing would.
func (f BackupFound) Adds() string {
	return fmt.Sprintf("Add what is missing here (%s)", holdsOr(f.Kept.New+f.Kept.Mend, f.Missing.Things, f.Missing.Photos, "nothing"))
}

// Replaces says what would have to give way.
func (f BackupFound) Replaces() string {
	return fmt.Sprintf("Replace everything here (%s)", count(f.Here, "trace"))
}
