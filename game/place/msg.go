package place

import (
	"unthreaded/game/keep"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/scoring/trace"
)

// Msg is something that happened outside: Update takes one at a time.
type Msg interface{ IsMsg() }

// Resized tells the new size of the cloth's place on the page.
type Resized = screen.Cloth

// Reads tells which languages the person reads, best first, as tags (BCP 47), and
// whether nothing was set yet, so that the units are those of the language.
type Reads struct {
	Tags  []string
	Unset bool
}

// SystemDark tells whether the system prefers dark colours.
type SystemDark struct{ Dark bool }

// SystemMotion tells whether what moves by itself is welcome: the system does not ask for
// less motion.
type SystemMotion struct{ Moves bool }

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

// FetchFor tells what a kept trace is asked for.
type FetchFor string

// What for: to lie on the cloth where it is rehearsed, to be one of two that are compared,
// to be measured, or to be pictured.
const (
	ToOpen    FetchFor = ""
	ToCompare FetchFor = "compare"
	ToMeasure FetchFor = "measure"
	ToPicture FetchFor = "picture"
)

// Why is a code for why the browser could not keep, read or make something, empty for well:
// the message site.store.CODE.
type Why string

const (
	// Gone: what was asked for is there no more.
	WhyGone Why = "gone"
	// Unkept: a photo is shown, but not kept.
	WhyUnkept Why = "unkept"
	// Unknown is all else; what the browser said stands on its console.
	WhyUnknown Why = "unknown"
)

// Said says it, as the end of a sentence after a colon.
func (w Why) Said() words.Msg { return words.Of("site.store." + string(w)) }

// Fetched brings a kept trace that was asked for, as a Fetch named it.
type Fetched struct {
	ID   string
	Over bool
	Top  bool
	For  FetchFor
	Doc  []byte
	Err  Why
}

// Saved tells how saving or deleting the record ID went; Err is empty for well.
type Saved struct {
	ID  string
	Err Why
}

// StorageOff tells that this browser keeps nothing, and why.
type StorageOff struct{ Why Why }

// Persistence tells whether the browser promised to keep what is stored.
type Persistence struct{ Granted bool }

func (Reads) IsMsg()        {}
func (SystemDark) IsMsg()   {}
func (SystemMotion) IsMsg() {}
func (Pointer) IsMsg()      {}
func (Frame) IsMsg()        {}
func (Control) IsMsg()      {}
func (Interrupt) IsMsg()    {}
func (Listed) IsMsg()       {}
func (Fetched) IsMsg()      {}
func (Saved) IsMsg()        {}
func (StorageOff) IsMsg()   {}
func (Persistence) IsMsg()  {}

// Effect is something that the program wants done outside.
type Effect interface{ IsEffect() }

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

func (Save) IsEffect()         {}
func (Delete) IsEffect()       {}
func (Restore) IsEffect()      {}
func (Fetch) IsEffect()        {}
func (SaveSettings) IsEffect() {}
func (Download) IsEffect()     {}
