package page

import (
	"fmt"

	"unthreaded/game"
	"unthreaded/game/place/back"
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
	p.Backup.Stuck, p.Backup.HasStuck = stuck(m.Stuck), m.Stuck.N > 0
	j := &p.Jobs
	j.Film, j.Filming, j.CanFilm = m.Filming, m.Filming != "", m.Rehearsal().Open != nil && m.Filming == ""
	j.Table, j.CanTable = m.Tabling, m.Tabling == "" && len(m.Kept()) > 0
}

func backupOf(m game.Model) Backup {
	b := m.Backup
	p := Backup{
		Last: "No backup has been made in this browser yet.", Made: b.Care.Made,
		Said: b.Said, Idle: b.Busy == "" && b.Found == nil, Asks: b.Found != nil,
		Undo: m.Notice.Action == "backup-undo" && b.Back, Back: b.Back,
		Offer: m.OffersBackup() && overWeeks(m),
	}
	if b.Care.Made > 0 {
		p.Last = "Last backup:"
	}
	if b.Busy != "" {
		p.Said = b.Busy
	}
	if f := b.Found; f != nil {
		p.Found, p.Summary, p.Adds, p.Replaces = f.Made, f.Summary(), f.Adds(), f.Replaces()
	}
	if p.Offer {
		n, _ := m.Unsaved()
		p.Why = fmt.Sprintf("%d traces are not backed up here.", n)
	}
	return p
}

// stuck says what waits to be kept, and what can be done.
func stuck(s game.Stuck) string {
	switch s.N {
	case 0:
		return ""
	case 1:
		return "A trace of an earlier visit is not kept yet: " + s.Why + ". Save it as a file, or make room by giving up what you could still take back."
	}
	return fmt.Sprintf("%d traces of earlier visits are not kept yet: %s. Save them as a file, or make room by giving up what you could still take back.", s.N, s.Why)
}

// overWeeks tells whether her progress is looked back on.
func overWeeks(m game.Model) bool {
	r, there := m.Front().(back.Room)
	return there && r.View == back.OverWeeks
}
