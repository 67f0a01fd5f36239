//go:build js

package dom

import (
	"encoding/binary"
	"math"
	"syscall/js"
)

// Sample is one report of a pointer, as the script wrote it.
type Sample struct {
	// Kind is 0 for a move, 1 down, 2 up, 3 cancelled.
	Kind uint8
	ID   int
	// Device is 0 for a mouse, 1 for a pen, 2 for a finger.
	Device uint8
	// T is the event's own time in s; X, Y the place in CSS pixels from the upper
	// left corner of the cloth's place.
	T, X, Y, Pressure float64
}

// Samples empties the script's buffer. One is enough for a page.
type Samples struct {
	capture js.Value
	stride  int
	bytes   []byte
	out     []Sample
}

// NewSamples returns the reader of the page's samples.
func NewSamples() *Samples {
	c := page.Get("capture")
	return &Samples{capture: c, stride: c.Get("stride").Int()}
}

// Take returns all samples since the last call, oldest first; they are valid until
// the next call. It copies the buffer at one stroke: a value read singly from
// JavaScript takes several times as long.
func (s *Samples) Take() []Sample {
	n := s.capture.Call("filled").Int()
	if n == 0 {
		return nil
	}
	if len(s.bytes) < 8*n {
		s.bytes = make([]byte, 16*n)
	}
	js.CopyBytesToGo(s.bytes[:8*n], s.capture.Call("take"))
	s.out = s.out[:0]
	for i := 0; i+s.stride <= n; i += s.stride {
		s.out = append(s.out, Sample{
			Kind: uint8(s.value(i)), ID: int(s.value(i + 1)), Device: uint8(s.value(i + 2)),
			T: s.value(i + 3), X: s.value(i + 4), Y: s.value(i + 5), Pressure: s.value(i + 6),
		})
	}
	return s.out
}

// value returns number i of the copied buffer; WebAssembly is little-endian, and
// so is every machine with a browser.
func (s *Samples) value(i int) float64 {
	return math.Float64frombits(binary.LittleEndian.Uint64(s.bytes[8*i:]))
}
