// Package control is the vocabulary between the page and the program: every control is
// declared once, with the kind of its value, its range and its choices. What the page
// sends is read by the declaration, the page takes its ranges from it, and checkhtml
// holds the HTML against it.
package control

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Kind is the kind of value that a control gives.
type Kind string

// The kinds of values.
const (
	// Press is a button without a value.
	Press Kind = "press"
	// Toggle is "on" or "off".
	Toggle Kind = "toggle"
	// Number is a decimal number, by a slider or a field.
	Number Kind = "number"
	// Choice is one of a closed set.
	Choice Kind = "choice"
	// Text is what is typed, or the id of something in a list that grows.
	Text Kind = "text"
	// File is the text of a chosen file.
	File Kind = "file"
	// Photo is a chosen picture, which comes as a message of its own.
	Photo Kind = "photo"
	// Key is a key pressed on the cloth, with or without shift.
	Key Kind = "key"
	// Wheel is a turn of the wheel over the cloth.
	Wheel Kind = "wheel"
)

// Decl declares a control.
type Decl struct {
	Name string `json:"name"`
	Kind Kind   `json:"kind"`
	// Min, Max and Step are the range of a Number, both ends in it, and the steps of its
	// slider, in Unit; a range from 0 to 0 is open, and so is one whose ends depend on
	// what is shown. Max of a Text is the most letters that it takes, 0 for any.
	Min  float64 `json:"min"`
	Max  float64 `json:"max"`
	Step float64 `json:"step"`
	// Unit is the unit of a Number: "mm", "mm/s", "spm", "deg"; "" for a count.
	Unit string `json:"unit"`
	// Choices are all values of a Choice.
	Choices []string `json:"choices"`
	// OfItem tells that it stands in a list and concerns the entry that it stands in.
	OfItem bool `json:"ofItem"`
}

// Open tells that a Number has no range of its own.
func (d Decl) Open() bool { return d.Min == 0 && d.Max == 0 }

// Sent is what the page sends: the name of a control, its value as text, and the id of
// the list entry in which it stands.
type Sent struct{ Name, Value, Item string }

// Event is what was done with a control. Which of the values counts is a matter of the
// kind.
type Event struct {
	Name, Item string
	// Text is the value of Choice, Text, File, Photo (its name) and Key (the name of the
	// key as in KeyboardEvent.key).
	Text   string
	Number float64
	On     bool
	// Shift tells that the key was pressed with shift.
	Shift bool
	Turn  Turn
}

// Turn is a turn of the wheel: how far in CSS px, where on the cloth, and whether it is
// to show the cloth larger or smaller (with ctrl, as two fingers on a touchpad do).
type Turn struct {
	DX, DY, X, Y float64
	Zoom         bool
}

// Reason tells what is wrong with what was sent.
type Reason string

// What can be wrong: a name that no control has, and values that no control of the page
// sends; the last three are slips of the person.
const (
	Unknown    Reason = "unknown"
	NotOnOff   Reason = "not-on-off"
	NotAChoice Reason = "not-a-choice"
	NoItem     Reason = "no-item"
	NotATurn   Reason = "not-a-turn"
	NotANumber Reason = "not-a-number"
	OutOfRange Reason = "out-of-range"
	TooLong    Reason = "too-long"
)

// Error is a value that a control does not take.
type Error struct {
	Decl   Decl // of the control; only its name for Unknown
	Value  string
	Reason Reason
}

func (e *Error) Error() string {
	return fmt.Sprintf("control %s: %q is refused: %s", e.Decl.Name, e.Value, e.Reason)
}

// Slip tells that a person can send this; anything else is a mistake of the page.
func (e *Error) Slip() bool {
	return e.Reason == NotANumber || e.Reason == OutOfRange || e.Reason == TooLong
}

// Read returns what was sent as an event of the control. The error is an *Error.
func (d Decl) Read(s Sent) (Event, error) {
	e := Event{Name: d.Name, Item: s.Item}
	wrong := func(r Reason) (Event, error) { return Event{}, &Error{d, s.Value, r} }
	if d.OfItem && s.Item == "" {
		return wrong(NoItem)
	}
	switch d.Kind {
	case Toggle:
		e.On = s.Value == "on"
		if !e.On && s.Value != "off" {
			return wrong(NotOnOff)
		}
	case Number:
		v, err := strconv.ParseFloat(s.Value, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return wrong(NotANumber)
		}
		if !d.Open() && !(v >= d.Min && v <= d.Max) {
			return wrong(OutOfRange)
		}
		e.Number = v
	case Choice:
		if !slices.Contains(d.Choices, s.Value) {
			return wrong(NotAChoice)
		}
		e.Text = s.Value
	case Text:
		if d.Max > 0 && float64(len([]rune(s.Value))) > d.Max {
			return wrong(TooLong)
		}
		e.Text = s.Value
	case File, Photo:
		e.Text = s.Value
	case Key:
		e.Text, e.Shift, e.Item = s.Value, s.Item == "shift", ""
	case Wheel:
		turn, ok := readTurn(s)
		if !ok {
			return wrong(NotATurn)
		}
		e.Turn, e.Item = turn, ""
	}
	return e, nil
}

// readTurn reads "dx dy" with the place "x y" or "x y zoom".
func readTurn(s Sent) (Turn, bool) {
	at, zoom := strings.CutSuffix(s.Item, " zoom")
	fields := strings.Fields(s.Value + " " + at)
	if len(fields) != 4 {
		return Turn{}, false
	}
	var v [4]float64
	for i, f := range fields {
		n, err := strconv.ParseFloat(f, 64)
		if err != nil || math.IsNaN(n) || math.IsInf(n, 0) {
			return Turn{}, false
		}
		v[i] = n
	}
	return Turn{v[0], v[1], v[2], v[3], zoom}, true
}
