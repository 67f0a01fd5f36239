// Package game is the program itself, without a screen: the model, what can
// happen to it, and what it wants done. Update is pure; it reads no clock, no
// storage and no pointer but through messages.
package game

import (
	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/game/record"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
	"unthreaded/scoring/trace"
)

// TrueSize is how many CSS pixels the page takes for a millimetre: CSS defines
// 96 px as one inch. On a real screen this is a guess.
const TrueSize = 96 / MMPerInch

// Model is the whole state of the program.
type Model struct {
	// Origin is the time in ms since 1970 at which the event clock was 0.
	Origin float64

	Settings Settings
	dark     bool

	// Motif, Repeats and Line are what is rehearsed. LineRev grows with each
	// change of the line.
	Motif   motif.Motif
	Repeats int
	Line    geom.Line
	LineRev int

	// Place is the part of the job on the screen.
	Place Place
	// Desk is where a route is planned.
	Desk        plan.Desk
	deskPointer *int
	// deskPast holds the desk before each change, for undo, the last one last.
	deskPast []plan.Desk

	// Designs are the blocks, newest first, Drawing the place where they are drawn;
	// binned holds the blocks deleted in this visit, for undo.
	Designs []quilt.Design
	Drawing Drawing
	binned  []quilt.Design
	// Back is where traces are looked back on.
	Back Back

	Screen Resized
	View   View

	Live *Live
	// Open is the trace on the cloth, Over one laid over it to compare.
	Open, Over *Sheet
	Replay     replay.Clock
	lastFrame  float64

	// Past lists the kept traces of this motif, newest first.
	Past []record.Summary
	// all holds the summaries of every motif.
	all []record.Summary

	Notice Notice
	// deleted holds the IDs deleted in this visit, for undo, the last one last.
	deleted []string
	// StorageWhy says why nothing is kept; empty while storage works.
	StorageWhy string
	Persisted  bool
}

// Notice is one message to the person.
type Notice struct {
	Text string
	// Action names the control that the notice offers, "" for none.
	Action string
}

// New returns the model of a visit that begins with the given kept settings;
// origin is the time in ms since 1970 at which the event clock was 0.
func New(settings Settings, origin float64) Model {
	m := Model{Settings: settings, Origin: origin, Drawing: newDrawing()}
	found, ok := motif.Find(settings.Motif)
	if !ok {
		found = motif.Ready()[0]
		m.Settings.Motif = found.ID
	}
	m.Motif = found
	m.Replay.Rate = 1
	m.Place = Rehearse
	m.Back = NewBack()
	return m.relaid()
}

// Theme returns the theme that is in force.
func (m Model) Theme() look.Theme {
	if m.Settings.Theme == "dark" || (m.Settings.Theme != "light" && m.dark) {
		return look.Dark
	}
	return look.Light
}

// Tracing tells whether a pointer is drawing.
func (m Model) Tracing() bool { return m.Live != nil }

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
	switch m.Place {
	case QuiltPlan:
		return m.quiltLaid()
	case Draw:
		return m.drawLaid()
	case RoutePlan:
		lo, hi := plan.Bounds(m.Desk.Graph)
		m.View = fit(lo, hi, m.Screen)
		return m
	case LookBack:
		return m.backLaid()
	case Machine:
		return m.machineLaid()
	}
	if m.Open == nil {
		n := m.Settings.Repeats
		if n == 0 {
			w, h := m.Screen.roomMM()
			n = m.Motif.Fit(w, h)
		}
		n = max(1, min(m.Motif.Max, n))
		if n != m.Repeats || m.Line.Length() == 0 {
			m = m.withLine(n)
		}
	}
	lo, hi := m.Line.Path().Bounds()
	m.View = fit(lo, hi, m.Screen)
	return m
}

// Live is a trace while it is being drawn.
type Live struct {
	pointer int
	device  trace.Device
	// t0 is the event time of the first sample in s.
	t0 float64
	// Samples are those so far; whole counts the places that are whole pixels.
	Samples []trace.Sample
	whole   int
}
