package game

import (
	"unthreaded/game/keep"
	"unthreaded/scoring/trace"
)

// Msg is something that happened outside: Update takes one at a time.
type Msg interface{ isMsg() }

// Resized tells the size of the cloth's place on the page, in CSS pixels, and how
// much of its lower edge the speed strip takes. Dark is the system's preference.
type Resized struct {
	W, H, Strip float64
	DPR         float64
	// ScreenW and ScreenH are the size of the whole screen in CSS pixels.
	ScreenW, ScreenH float64
	// Touch tells that the first pointer of the screen is a finger.
	Touch bool

	// PxPerMM is how many CSS pixels make a true millimetre, SizeKnown whether that
	// was measured; Update fills both in.
	PxPerMM   float64
	SizeKnown bool
}

// SystemDark tells whether the system prefers dark colours.
type SystemDark struct{ Dark bool }

// PointerKind tells what a pointer did.
type PointerKind uint8

// What a pointer does.
const (
	Move PointerKind = iota
	Down
	Up
	Cancel
)

// Pointer is one report of a pointer: its place in CSS pixels from the cloth's
// upper left corner, its time in seconds on the page's event clock.
type Pointer struct {
	Kind     PointerKind
	ID       int
	Device   trace.Device
	T        float64
	X, Y     float64
	Pressure float64
}

// Frame is the beginning of a frame at Now seconds on the page's event clock.
type Frame struct{ Now float64 }

// Control is something chosen on the page, by the name of the control; Item names
// the row of a list that it stands in.
type Control struct{ Name, Value, Item string }

// Interrupt ends a trace in mid-line because the page is going out of sight.
type Interrupt struct{}

// Listed brings the summaries of the kept traces, in any order, and the number of
// those that could not be read and were left as they are.
type Listed struct {
	Past    []keep.Summary
	Damaged int
}

// Fetched brings a kept trace that was asked for, as a Fetch named it.
type Fetched struct {
	ID   string
	Over bool
	Top  bool
	For  FetchFor
	Doc  []byte
	Err  string
}

// Saved tells how saving or deleting the record ID went; Err is empty for well.
type Saved struct{ ID, Err string }

// StorageOff tells that this browser keeps nothing, and why.
type StorageOff struct{ Why string }

// Persistence tells whether the browser promised to keep what is stored.
type Persistence struct{ Granted bool }

func (Resized) isMsg()     {}
func (SystemDark) isMsg()  {}
func (Pointer) isMsg()     {}
func (Frame) isMsg()       {}
func (Control) isMsg()     {}
func (Interrupt) isMsg()   {}
func (Listed) isMsg()      {}
func (Fetched) isMsg()     {}
func (Saved) isMsg()       {}
func (StorageOff) isMsg()  {}
func (Persistence) isMsg() {}

// Effect is something that the program wants done outside.
type Effect interface{ isEffect() }

// Save keeps a record and its summary; both are JSON documents.
type Save struct {
	ID           string
	Doc, Summary []byte
}

// Delete takes a kept record out of the list into a bin that is emptied at the
// next visit; Restore takes it out of the bin, after which the list comes again.
type Delete struct{ ID string }

// Restore takes a record out of the bin.
type Restore struct{ ID string }

// Fetch asks for a kept record, to be laid over the one on the cloth if Over, to be
// seen on the quilt top if Top.
type Fetch struct {
	ID   string
	Over bool
	Top  bool
	For  FetchFor
}

// SaveSettings keeps the settings.
type SaveSettings struct{ Doc []byte }

// Download hands the person a file.
type Download struct {
	Name, Type string
	Data       []byte
}

func (Save) isEffect()         {}
func (Delete) isEffect()       {}
func (Restore) isEffect()      {}
func (Fetch) isEffect()        {}
func (SaveSettings) isEffect() {}
func (Download) isEffect()     {}
