package game

import (
	"bytes"

	"unthreaded/game/weeks"
)

// backTable hands what is looked at to the person as a table: its traces or its sessions.
func (m Model) backTable(name string) (Model, []Effect) {
	book := m.Back.Book.Done()
	m.Back.Book = book
	f := book.Found()
	motif := f.Motif
	if motif == "" {
		motif = "all-motifs"
	}
	var b bytes.Buffer
	var err error
	file := "traces-" + motif + ".csv"
	if name == "csv-sessions" {
		file = "sessions-" + motif + "-" + string(f.Measure) + ".csv"
		err = weeks.WriteScores(&b, f.Scores, f.Measure)
	} else {
		err = weeks.WriteTraces(&b, book.Sessions(), book.Shown)
	}
	if err != nil {
		m.Notice = Notice{Text: "The table could not be written: " + err.Error() + "."}
		return m, nil
	}
	return m, []Effect{Download{Name: file, Type: "text/csv", Data: b.Bytes()}}
}
