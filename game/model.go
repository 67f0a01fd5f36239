// Package game is the program itself, without a screen: the model, what can
// happen to it, and what it wants done. Update is pure; it reads no clock, no
// storage and no pointer but through messages.
package game

import (
	"unthreaded/game/keep"
	"unthreaded/game/lesson"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Model is the whole state of the program.
type Model struct {
	place.Shared
	rooms rooms

	// Motif, Repeats and Line are what is rehearsed. LineRev grows with each
	// change of the line.
	Motif   motif.Rehearsal
	Repeats int
	Line    geom.Line
	LineRev int

	// Place is the part of the job on the screen; placeKnown tells that it is that of
	// this visit, which is kept for the next.
	Place      Place
	placeKnown bool

	// Quilting is where quilts are laid out.
	Quilting Quilting
	// Back is where traces are looked back on.
	Back Back

	// Card is the long side in CSS pixels of the outline that is being
	// fitted to a payment card, 0 while none is.
	Card float64
	View View

	// Learning is what leads from trace to trace, if anything does.
	Learning Learning

	Live *Live
	// Open is the trace on the cloth, Over one laid over it to compare.
	Open, Over *Sheet
	Replay     replay.Clock

	// Past lists the kept traces of this motif, newest first; Shown is how many of
	// them the page lists.
	Past  []keep.Summary
	Shown int
	// deleted holds what was deleted in this visit, for undo, the last one last.
	deleted []deletion
	// Stuck are traces that wait to be kept.
	Stuck Stuck
	// Backup is where the care for a copy of everything stands.
	Backup Backup
	// Filming says how far the film in the making has come; empty while there is none.
	Filming string
	// Tabling says the same of a table of all measures.
	Tabling string
}

// deletion is a trace that was deleted, and its sheet if it lay on the cloth.
type deletion struct {
	id    string
	sheet *Sheet
	// back is how many changes of the place Look back could be taken back then.
	back int
}

// pageful is how many past traces are listed at first, and with each wish for more.
const pageful = 50

// focusOn leads the keyboard to a named place on the page.
func (m Model) focusOn(name string) Model {
	m.Focus = Focus{To: name, N: m.Focus.N + 1}
	return m
}

// New returns the model of a visit that begins with the given kept settings;
// origin is the time in ms since 1970 at which the event clock was 0.
func New(settings Settings, origin float64) Model {
	m := Model{Shared: place.Shared{Settings: settings, Clock: place.Clock{Origin: origin}}, Quilting: newQuilting()}
	if !settings.Visited {
		m = m.withDemo()
	}
	found, ok := lesson.Ready(settings.Motif)
	if !ok {
		found, _ = lesson.Ready(motif.ToRehearse()[0].ID)
	}
	m.Settings.Motif = found.ID
	m.Motif = found
	m.Replay.Rate = 1
	m.Shown = pageful
	m.Place = Rehearse
	m.rooms = table()
	m.Learning = Learning{Mode: Freely, courseID: CourseThing, warmUpID: WarmUpThing}
	m.Back = NewBack()
	return m.relaid()
}

// Tracing tells whether a pointer is drawing.
func (m Model) Tracing() bool { return m.Live != nil && !m.Live.Rests() }

// withLine puts a row of n repeats of the motif on the cloth.
func (m Model) withLine(n int) Model {
	l, err := m.Motif.Line(n)
	if err != nil {
		// n was kept within the motif's range by the callers.
		panic(err)
	}
	m.Line, m.Repeats = l, n
	m.LineRev++
	return m
}

// relaid fits line and view to the screen, unless a trace is on the cloth whose
// line has to stay.
func (m Model) relaid() Model {
	if m.Live != nil {
		return m
	}
	if r := m.room(m.Place); r != nil {
		m, _ = m.after(m.Place, r.Fit(), nil)
		return m
	}
	switch m.Place {
	case QuiltPlan:
		return m.quiltLaid()
	case LookBack:
		return m.backLaid()
	}
	if m.Open == nil {
		n := m.repeatsAsked()
		if n == 0 {
			w, h := m.Screen.RoomMM()
			n = m.Motif.Fit(w, h)
		}
		n = max(1, min(m.Motif.Max, n))
		if n != m.Repeats || m.Line.Length() == 0 {
			m = m.withLine(n)
		}
	}
	lo, hi := m.Line.Path().Bounds()
	m.View = screen.Fit(lo, hi, m.Screen)
	return m
}
