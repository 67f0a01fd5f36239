package page

import (
	"unthreaded/game"
	"unthreaded/game/place/back"
	"unthreaded/game/words"
)

// Backup is the state of the care for a copy of everything.
type Backup struct {
	// Last says when the last backup was made, which Made tells in ms since 1970.
	Last string `json:"last"`
	Made int64  `json:"made"`
	Said string `json:"said"`
	// Idle tells that a backup can be asked for, Asks that a found one waits for her
	// choice.
	Idle     bool   `json:"idle"`
	Asks     bool   `json:"asks"`
	Found    int64  `json:"found"`
	Summary  string `json:"summary"`
	Adds     string `json:"adds"`
	Replaces string `json:"replaces"`
	// Undo belongs to the notice, Back to the settings: both take a restore back.
	Undo bool `json:"undo"`
	Back bool `json:"back"`
	// Offer tells that it is time for a backup, Why says so.
	Offer bool   `json:"offer"`
	Why   string `json:"why"`
	// Stuck says that traces of an earlier visit wait to be kept, HasStuck that some do.
	Stuck    string `json:"stuck"`
	HasStuck bool   `json:"hasStuck"`
}

// Jobs is what takes a while.
type Jobs struct {
	// Film says how far the film in the making has come.
	Film    string `json:"film"`
	Filming bool   `json:"filming"`
	CanFilm bool   `json:"canFilm"`
	// Table says the same of a table of all measures.
	Table    string `json:"table"`
	CanTable bool   `json:"canTable"`
}

// jobs says where backup, film and table stand.
func jobs(p *Page, m game.Model) {
	p.Backup = backupOf(m)
	p.Backup.Stuck, p.Backup.HasStuck = stuck(m.Stuck, m.Book()), m.Stuck.N > 0
	j := &p.Jobs
	j.Film, j.Filming, j.CanFilm = m.Book().Write(m.Filming), !m.Filming.None(), m.Rehearsal().Open != nil && m.Filming.None()
	j.Table, j.CanTable = m.Book().Write(m.Tabling), m.Tabling.None() && len(m.Kept()) > 0
}

func backupOf(m game.Model) Backup {
	b, book := m.Backup, m.Book()
	p := Backup{
		Last: book.Say("backup.last", b.Care.Made > 0), Made: b.Care.Made,
		Said: book.Write(b.Said), Idle: b.Busy.None() && b.Found == nil, Asks: b.Found != nil,
		Undo: m.Notice.Action == "backup-undo" && b.Back, Back: b.Back,
		Offer: m.OffersBackup() && overWeeks(m),
	}
	if !b.Busy.None() {
		p.Said = book.Write(b.Busy)
	}
	if f := b.Found; f != nil {
		p.Found, p.Summary, p.Adds, p.Replaces = f.Made, book.Write(f.Summary()), book.Write(f.Adds()), book.Write(f.Replaces())
	}
	if p.Offer {
		n, _ := m.Unsaved()
		p.Why = book.Say("backup.unsaved", n)
	}
	return p
}

// stuck says what waits to be kept, and what can be done.
func stuck(s game.Stuck, b words.Book) string {
	if s.N == 0 {
		return ""
	}
	return b.Say("backup.stuck", s.N, s.Why.Said())
}

// overWeeks tells whether her progress is looked back on.
func overWeeks(m game.Model) bool {
	r, there := m.Front().(back.Room)
	return there && r.View == back.OverWeeks
}
