package game

import (
	"fmt"
	"sort"

	"unthreaded/game/keep"
	"unthreaded/game/lesson"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/scoring/trace"
)

// arrived takes the list of kept traces, and says when some could not be read.
func (m Model) arrived(msg Listed) Model {
	if msg.Damaged > 0 {
		m.Notice = m.Notice.And(Notice{Text: count(msg.Damaged, "kept trace") + " could not be read and stay as they are. A backup that holds them can mend them: Settings, Open a backup."})
	}
	m = m.listed(append(m.Records, msg.Past...))
	if m.Place == LookBack {
		return m.backFirst() // it was opened before its traces came
	}
	return m
}

// listed takes the summaries of all kept traces, one for each ID, and picks out
// those of this motif, newest first.
func (m Model) listed(all []keep.Summary) Model {
	seen := map[string]bool{}
	m.Records, m.Past = nil, nil
	for _, s := range all {
		if seen[s.ID] {
			continue
		}
		seen[s.ID] = true
		m.Records = append(m.Records, s)
	}
	sort.SliceStable(m.Records, func(i, j int) bool { return m.Records[i].Started > m.Records[j].Started })
	for _, s := range m.Records {
		if s.Motif == m.Motif.ID {
			m.Past = append(m.Past, s)
		}
	}
	return m.rebooked()
}

// fetched lays a kept trace on the cloth, or over the one that lies there.
func (m Model) fetched(f Fetched) (Model, []Effect) {
	if f.Top {
		return m.threadFetched(f), nil
	}
	if f.For == ToMeasure {
		return m.measured(f)
	}
	if f.ID == m.Learning.wants && f.ID != "" && !f.Over && f.For == ToOpen {
		return m.lineCame(f)
	}
	if f.Err != "" {
		m.Notice = Notice{Text: "This trace could not be read: " + f.Err + ". It was left as it is."}
		return m, nil
	}
	rec, err := keep.Decode(f.Doc)
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
		m.Over = replay.Lay(rec, line, m.Settings.SPM, m.Settings.StitchMM)
		return m.timed(), nil
	}
	var kept []Effect
	if m.Live != nil {
		m, kept = m.finish(trace.Interrupted)
	}
	return m.reopen(rec), kept
}

// reopen puts a kept trace and its line on the cloth.
func (m Model) reopen(rec keep.Record) Model {
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
	m.Open = replay.Lay(rec, line, m.Settings.SPM, m.Settings.StitchMM)
	m.Replay = replay.Clock{Rate: m.Replay.Rate}
	m = m.timed()
	m.Notice = Notice{}
	m.Place = Rehearse
	return m.listed(m.Records).relaid()
}

// timed gives the replay the time of the longer of the two traces on the cloth; one
// that stands at its end stays there.
func (m Model) timed() Model {
	length := 0.0
	for _, sh := range []*Sheet{m.Open, m.Over} {
		if sh != nil {
			length = max(length, sh.Duration())
		}
	}
	atEnd := m.Replay.AtEnd()
	m.Replay.Length = length
	if atEnd && !m.Replay.Playing {
		m.Replay.T = length
	}
	m.Replay = m.Replay.At(m.Replay.T)
	return m
}

// Kept returns the summaries of all kept traces, newest first; do not change them.
func (m Model) Kept() []keep.Summary { return m.Records }

// motifOf returns the motif of a record: the ready one, or one of the record's own
// line, such as a route that was planned.
func motifOf(rec keep.Record, line geom.Line) motif.Rehearsal {
	if found, ok := lesson.Ready(rec.Motif); ok {
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
	var rest []keep.Summary
	found := false
	for _, s := range m.Records {
		if s.ID == id {
			found = true
			continue
		}
		rest = append(rest, s)
	}
	if !found {
		return m, nil
	}
	gone := deletion{id: id, back: len(m.Back.past)}
	if m.Open != nil && m.Open.Rec.ID == id {
		gone.sheet = m.Open
		m.Open, m.Replay = nil, replay.Clock{Rate: m.Replay.Rate}
	}
	if m.Over != nil && m.Over.Rec.ID == id {
		m.Over = nil
		m = m.timed()
	}
	m, _ = m.listed(rest).unpaired(id)
	m.deleted = append(m.deleted, gone)
	m.Notice = Notice{Text: "Trace deleted.", Action: "undo"}
	return m.relaid(), []Effect{Delete{ID: id}}
}

// undo takes the last change of the place back or, where traces are kept, brings
// the one deleted last back.
func (m Model) undo() (Model, []Effect) {
	if r := m.room(m.Place); r != nil {
		r, effects := r.Undo()
		return m.after(m.Place, r, effects)
	}
	switch m.Place {
	case QuiltPlan:
		return m.quiltBack()
	case LookBack:
		if n := len(m.deleted); len(m.Back.past) > 0 && (n == 0 || m.deleted[n-1].back < len(m.Back.past)) {
			return m.backBack()
		}
	}
	if len(m.Learning.past) > 0 && m.Leading() && (m.Notice.Action != "undo" || m.Notice.Is(begunAnew)) {
		return m.lessonBack()
	}
	if len(m.deleted) == 0 {
		return m, nil
	}
	last := m.deleted[len(m.deleted)-1]
	m.deleted = m.deleted[:len(m.deleted)-1]
	if last.sheet != nil && m.Place == Rehearse && m.Open == nil && m.Live == nil {
		m = m.reopen(last.sheet.Rec)
	}
	m.Notice = Notice{Text: "The trace is back."}
	if n := len(m.deleted); n > 0 {
		m.Notice = Notice{Text: fmt.Sprintf("The trace is back. Deleted in this visit before it: %d.", n), Action: "undo"}
	}
	return m, []Effect{Restore{ID: last.id}}
}

// Unrestored tells that a deleted trace was asked for and is there no more.
type Unrestored struct{ ID string }

// Stuck tells that so many traces of an earlier visit wait to be kept, and why they cannot
// be; none any more where N is 0.
type Stuck struct {
	N   int
	Why string
}

func (Unrestored) IsMsg() {}
func (Stuck) IsMsg()      {}

// SaveStuck hands them to the person as a file. MakeRoom gives up what could be taken
// back, and tries again to keep them.
type SaveStuck struct{ Name string }

// MakeRoom gives up what could be taken back.
type MakeRoom struct{}

func (SaveStuck) IsEffect() {}
func (MakeRoom) IsEffect()  {}

// redo does again what was taken back last.
func (m Model) redo() (Model, []Effect) {
	if r := m.room(m.Place); r != nil {
		r, effects := r.Redo()
		return m.after(m.Place, r, effects)
	}
	switch m.Place {
	case QuiltPlan:
		return m.quiltAgain()
	case LookBack:
		return m.backAgain()
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
