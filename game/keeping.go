package game

import (
	"fmt"
	"sort"

	"unthreaded/game/record"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/scoring/trace"
)

// listed takes the summaries of all kept traces, one for each ID, and picks out
// those of this motif, newest first.
func (m Model) listed(all []record.Summary) Model {
	seen := map[string]bool{}
	m.all, m.Past = nil, nil
	for _, s := range all {
		if seen[s.ID] {
			continue
		}
		seen[s.ID] = true
		m.all = append(m.all, s)
	}
	sort.SliceStable(m.all, func(i, j int) bool { return m.all[i].Started > m.all[j].Started })
	for _, s := range m.all {
		if s.Motif == m.Motif.ID {
			m.Past = append(m.Past, s)
		}
	}
	return m.rebooked()
}

// fetched lays a kept trace on the cloth, or over the one that lies there.
func (m Model) fetched(f Fetched) (Model, []Effect) {
	if f.For == ToMeasure {
		return m.measured(f)
	}
	if f.Err != "" {
		m.Notice = Notice{Text: "This trace could not be read: " + f.Err + ". It was left as it is."}
		return m, nil
	}
	rec, err := record.Decode(f.Doc)
	if err != nil {
		m.Notice = Notice{Text: "This trace is damaged and was left as it is: " + err.Error()}
		return m, nil
	}
	if f.For == ToCompare {
		return m.compared(rec), nil
	}
	line, err := rec.GeomLine()
	if err != nil {
		m.Notice = Notice{Text: "This trace is damaged and was left as it is: " + err.Error()}
		return m, nil
	}
	if f.Over {
		m.Over = lay(rec, line, m.Settings.SPM, m.Settings.StitchMM)
		return m, nil
	}
	var kept []Effect
	if m.Live != nil {
		m, kept = m.finish(trace.Interrupted)
	}
	return m.reopen(rec), kept
}

// reopen puts a kept trace and its line on the cloth.
func (m Model) reopen(rec record.Record) Model {
	line, err := rec.GeomLine()
	if err != nil {
		return m
	}
	m.Motif = motifOf(rec, line)
	m.Line, m.Repeats = line, rec.Repeats
	m.LineRev++
	if m.Over != nil && m.Over.Rec.ID == rec.ID {
		m.Over = nil
	}
	m.Open = lay(rec, line, m.Settings.SPM, m.Settings.StitchMM)
	d := m.Open.Duration()
	m.Replay = replay.Clock{T: d, Length: d, Rate: m.Replay.Rate}
	m.Notice = Notice{}
	m.Place = Rehearse
	return m.listed(m.all).relaid()
}

// Kept returns the summaries of all kept traces, newest first; do not change them.
func (m Model) Kept() []record.Summary { return m.all }

// motifOf returns the motif of a record: the ready one, or one of the record's own
// line, such as a route that was planned.
func motifOf(rec record.Record, line geom.Line) motif.Motif {
	if found, ok := motif.Find(rec.Motif); ok {
		return found
	}
	name := rec.Name
	if name == "" {
		name = rec.Motif
	}
	return motif.Of(rec.Motif, name, "A line that you rehearsed before.", line)
}

// remove deletes a kept trace; the notice offers to take that back.
func (m Model) remove(id string) (Model, []Effect) {
	var rest []record.Summary
	found := false
	for _, s := range m.all {
		if s.ID == id {
			found = true
			continue
		}
		rest = append(rest, s)
	}
	if !found {
		return m, nil
	}
	if m.Open != nil && m.Open.Rec.ID == id {
		m.Open, m.Replay = nil, replay.Clock{Rate: m.Replay.Rate}
	}
	if m.Over != nil && m.Over.Rec.ID == id {
		m.Over = nil
	}
	m = m.listed(rest)
	m.deleted = append(m.deleted, id)
	m.Notice = Notice{Text: "Trace deleted.", Action: "undo"}
	return m.relaid(), []Effect{Delete{ID: id}}
}

// undo takes the last change of the place back or, where traces are kept, brings
// the one deleted last back.
func (m Model) undo() (Model, []Effect) {
	switch m.Place {
	case QuiltPlan:
		return m.quiltBack()
	case Draw:
		return m.drawBack()
	case RoutePlan:
		return m.deskBack(), nil
	case LookBack:
		if len(m.Back.past) > 0 {
			return m.backBack()
		}
	case Machine:
		return m.machineBack()
	}
	if len(m.deleted) == 0 {
		return m, nil
	}
	id := m.deleted[len(m.deleted)-1]
	m.deleted = m.deleted[:len(m.deleted)-1]
	m.Notice = Notice{Text: "The trace is back."}
	if n := len(m.deleted); n > 0 {
		m.Notice = Notice{Text: fmt.Sprintf("The trace is back. Deleted in this visit before it: %d.", n), Action: "undo"}
	}
	return m, []Effect{Restore{ID: id}}
}

// redo does again what was taken back last.
func (m Model) redo() (Model, []Effect) {
	switch m.Place {
	case QuiltPlan:
		return m.quiltAgain()
	case Draw:
		return m.drawAgain()
	case Machine:
		return m.machineAgain()
	}
	return m, nil
}

// saved tells the person when a trace could not be kept.
func (m Model) saved(s Saved) Model {
	if s.Err == "" {
		return m
	}
	m.Notice = Notice{
		Text:   fmt.Sprintf("This trace could not be kept: %s. It stays on the cloth; save it as a file to keep it.", s.Err),
		Action: "download",
	}
	return m
}
