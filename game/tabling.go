package game

import (
	"fmt"
	"time"
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
	Err               string
}

func (TableNews) IsMsg() {}

// tabulate begins a table of all kept traces.
func (m Model) tabulate() (Model, []Effect) {
	if m.Tabling != "" || len(m.Records) == 0 {
		return m, nil
	}
	ids := make([]string, len(m.Records))
	for i, s := range m.Records {
		ids[len(ids)-1-i] = s.ID
	}
	m.Tabling = "Reading the traces."
	name := "unthreaded-measures-" + time.UnixMilli(m.NowMS()).UTC().Format("2006-01-02") + ".csv"
	return m, []Effect{MakeTable{Name: name, IDs: ids}}
}

// tableNews says how far the table has come and what came of it.
func (m Model) tableNews(n TableNews) Model {
	switch {
	case n.Err != "":
		m.Tabling = ""
		m.Notice = Notice{Text: "The table could not be made: " + n.Err + "."}
	case n.Finished:
		m.Tabling = ""
		m.Notice = Notice{Text: fmt.Sprintf("The measures of %s are among your downloads.", count(n.Done-n.Damaged, "trace"))}
		if n.Damaged > 0 {
			m.Notice.Text += fmt.Sprintf(" %d could not be read and were left as they are.", n.Damaged)
		}
	default:
		m.Tabling = fmt.Sprintf("%d of %d traces are read.", n.Done, n.Of)
	}
	return m
}
