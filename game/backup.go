package game

import (
	"encoding/json"
	"fmt"
	"sort"
	"time"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/words"
)

// BackupThing is the kind of the one thing that tells when the last backup was made.
const BackupThing = keep.CareKind

// Backup is where the care for a copy of everything stands.
type Backup struct {
	// Busy says how far writing or reading has come; none while nothing runs.
	Busy words.Msg
	// Found is what a chosen file holds, until she decides; nil for none.
	Found *BackupFound
	// Said is what came of the last thing asked for.
	Said words.Msg
	// Back tells that a restore can be taken back in this visit.
	Back bool
	// Care is what is kept about it, known once the shelf has come.
	Care  Care
	known bool
}

// Care is when backups were made and when the page last asked for one, in ms since
// 1970; 0 for never. Restored is when the backup taken in last was made, 0 where it did
// not hold every trace there was here, or was taken back.
type Care struct {
	Made     int64 `json:"made"`
	Asked    int64 `json:"asked"`
	Restored int64 `json:"restored,omitempty"`
}

// BackupFound is what a checked backup holds and how it stands to what is kept here.
type BackupFound struct{ keep.Found }

// BackupProgress tells how many records are done, of how many if that is known.
type BackupProgress struct{ Done, Of int }

// BackupMade tells how writing a backup went: when it was made, in ms since 1970,
// and what it holds.
type BackupMade struct {
	Made                   int64
	Traces, Things, Photos int
	Err                    place.Why
}

// BackupChecked tells what a chosen file holds, or why it cannot be taken: Fault where the
// file is at fault, Err where the browser is.
type BackupChecked struct {
	Found BackupFound
	Fault *keep.BackupFault
	Err   place.Why
}

// Restored tells, at the beginning of a visit, that a backup was taken in just
// before, all of it the Same as was here, or that this was taken back; More that one
// before it can be taken back too. Whole tells that the backup, Made then in ms since
// 1970, held every trace there was. With Err it tells why it was not.
type Restored struct {
	Made     int64 `json:"made"`
	Whole    bool  `json:"whole"`
	Replaced bool  `json:"replaced"`
	Same     bool  `json:"same"`
	Undone   bool  `json:"undone"`
	More     bool  `json:"more"`
	Later    int   `json:"later"`
	Both     int   `json:"both"`
	Err      place.Why
}

func (BackupProgress) IsMsg() {}
func (BackupMade) IsMsg()     {}
func (BackupChecked) IsMsg()  {}
func (Restored) IsMsg()       {}

// MakeBackup hands the person a file with everything that is kept.
type MakeBackup struct{ Name string }

// TakeBackup takes the checked file in: what is missing here or, with Replace, all
// of it in place of what is here. The page is then loaded anew.
type TakeBackup struct{ Replace bool }

// UndoBackup takes that back, and loads the page anew.
type UndoBackup struct{}

func (MakeBackup) IsEffect() {}
func (TakeBackup) IsEffect() {}
func (UndoBackup) IsEffect() {}

// backupControl does what the controls about backups ask for.
func (m Model) backupControl(c Control) (Model, []Effect) {
	if !m.Backup.Busy.None() {
		return m, nil
	}
	var effects []Effect
	if m.Tracing() {
		m, effects = m.front(place.Room.Leave) // what is in hand belongs into it
	}
	b := m.Backup
	b.Said = words.Msg{}
	switch c.Name {
	case "backup":
		b.Busy, b.Found = words.Of("backup.writing"), nil
		effects = append(effects, MakeBackup{Name: "unthreaded-backup-" + time.UnixMilli(m.NowMS()).UTC().Format("2006-01-02") + ".json"})
	case "backup-check":
		b.Busy, b.Found = words.Of("backup.reading"), nil
	case "backup-later":
		b.Care.Asked = m.NowMS()
		effects = append(effects, b.Care.keep())
	case "backup-add", "backup-replace":
		if b.Found == nil {
			return m, nil
		}
		b.Busy, b.Found = words.Of("backup.taking-in"), nil
		effects = append(effects, TakeBackup{Replace: c.Name == "backup-replace"})
	case "backup-leave":
		b.Found, b.Said = nil, words.Of("backup.unchanged")
	case "backup-undo":
		if !b.Back {
			return m, nil
		}
		b.Busy = words.Of("backup.putting-back")
		effects = append(effects, UndoBackup{})
	}
	m.Backup = b
	return m, effects
}

func (c Care) keep() Effect {
	doc, err := json.Marshal(c)
	if err != nil {
		panic(fmt.Sprintf("care: %v", err)) // whole numbers always can be written
	}
	return Keep{Thing: Thing{Kind: BackupThing, ID: "last", Doc: doc}}
}

// careKept takes what is kept about backups; a damaged document counts as none.
func (m Model) careKept(t Thing) Model {
	var c Care
	if json.Unmarshal(t.Doc, &c) == nil {
		m.Backup.Care = c
	}
	return m
}

// When to offer a backup: browsers may clear what a page keeps after a week without
// a visit (WebKit does, seven days), and what a few minutes made is quickly made
// again.
const (
	atStake   = 10
	weekMilli = 7 * 24 * 60 * 60 * 1000
)

// Unsaved returns how many traces have been made since the last backup, made or taken in,
// and over how many whole days up to now. Cost O(log n).
func (m Model) Unsaved() (traces, days int) {
	saved := max(m.Backup.Care.Made, m.Backup.Care.Restored)
	n := sort.Search(len(m.Records), func(i int) bool { return m.Records[i].Started <= saved })
	if n == 0 {
		return 0, 0
	}
	return n, int(max(0, m.NowMS()-m.Records[n-1].Started) / (weekMilli / 7))
}

// OffersBackup tells whether it is time to offer a backup: traces of more than a
// week are in this browser alone, it has not promised to keep them, and the offer
// was not declined this week.
func (m Model) OffersBackup() bool {
	b := m.Backup
	if !b.known || !b.Busy.None() || m.Persisted || m.StorageWhy != "" || m.Rehearsal().Live != nil || m.NowMS()-b.Care.Asked < weekMilli {
		return false
	}
	n, days := m.Unsaved()
	return n >= atStake && days >= 7
}
