package game

import (
	"time"

	"unthreaded/game/place"
	"unthreaded/game/words"
)

// MakeTable writes the measures of these kept traces, oldest first, as a table and
// hands it to the person.
type MakeTable struct {
	Name string
	IDs  []string
}

func (MakeTable) IsEffect() {}

// TableNews tells how far a table has come: so many traces of all, Damaged of which
// could not be read. Finished tells that it was handed out; Err tells why there is none.
type TableNews struct {
	Done, Of, Damaged int
	Finished          bool
	Err               place.Why
}

func (TableNews) IsMsg() {}

// tabulate begins a table of all kept traces.
func (m Model) tabulate() (Model, []Effect) {
	if !m.Tabling.None() || len(m.Records) == 0 {
		return m, nil
	}
	ids := make([]string, len(m.Records))
	for i, s := range m.Records {
		ids[len(ids)-1-i] = s.ID
	}
	m.Tabling = words.Of("page.table.reading")
	name := "unthreaded-measures-" + time.UnixMilli(m.NowMS()).UTC().Format("2006-01-02") + ".csv"
	return m, []Effect{MakeTable{Name: name, IDs: ids}}
}

// tableNews says how far the table has come and what came of it.
func (m Model) tableNews(n TableNews) Model {
	switch {
	case n.Err != "":
		m.Tabling = words.Msg{}
		m.Notice = place.Say("page.table.failed")
	case n.Finished:
		m.Tabling = words.Msg{}
		m.Notice = place.Say("page.table.done", n.Done-n.Damaged, n.Damaged)
	default:
		m.Tabling = words.Of("page.table.progress", n.Done, n.Of)
	}
	return m
}
