package keep

import (
	"encoding/json"
	"errors"
	"fmt"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// TapMM is the least length in mm of a movement that is kept as a trace; what is shorter
// was a tap.
const TapMM = 4.0

// ErrTap is the error of pieces that make no more than a tap.
var ErrTap = errors.New("no more than a tap")

// Piece is a part of what is in hand, written down at once, so that a page that goes down
// loses no more than what came after: a part of a trace or, with Thing, a whole
// document.
type Piece struct {
	// Head is the record without samples; the first piece of a trace has it.
	Head *Record `json:"head,omitempty"`
	// Samples are those since the piece before, Holds all so far. PixelMM is what the
	// trace would have if it ended here.
	Samples Samples      `json:"samples"`
	Holds   []trace.Hold `json:"holds,omitempty"`
	PixelMM float64      `json:"pixel_mm,omitempty"`
	// Thing is a document as it would be kept if what is in hand ended here.
	Thing *ThingPiece `json:"thing,omitempty"`
}

// ThingPiece is a document of the shelf.
type ThingPiece struct {
	Kind string `json:"kind"`
	ID   string `json:"id"`
	Doc  string `json:"doc"`
}

// Cut returns the piece of a trace in hand from sample number from on.
func Cut(samples []trace.Sample, from int, holds []trace.Hold) Piece {
	var r Record
	r.SetTrace(trace.Trace{Samples: samples[from:], Holds: holds})
	return Piece{Samples: r.Samples, Holds: r.Holds}
}

// EncodePiece returns the piece as a document.
func EncodePiece(p Piece) ([]byte, error) {
	b, err := json.Marshal(p)
	if err != nil {
		return nil, fmt.Errorf("piece: %w", err)
	}
	return b, nil
}

// DecodePiece reads a piece.
func DecodePiece(doc []byte) (Piece, error) {
	var p Piece
	if err := json.Unmarshal(doc, &p); err != nil {
		return p, fmt.Errorf("not a piece: %w", err)
	}
	return p, nil
}

// Join makes a record, not measured yet, of the pieces of a trace in their order, up to the
// first that cannot be read: of a trace that broke off so much is known. It fails with
// ErrTap where that is no trace, and where there is no head.
func Join(docs [][]byte) (Record, error) {
	var r Record
	var last Piece
	for i, doc := range docs {
		p, err := DecodePiece(doc)
		if i == 0 && (err != nil || p.Head == nil) {
			return Record{}, fmt.Errorf("a trace without its head: %w", errors.Join(err, errors.New("piece 0")))
		}
		if i == 0 {
			r = *p.Head
		}
		n := len(p.Samples.T)
		if err != nil || len(p.Samples.X) != n || len(p.Samples.Y) != n || len(p.Samples.P) != n {
			break
		}
		r.Samples.T = append(r.Samples.T, p.Samples.T...)
		r.Samples.X = append(r.Samples.X, p.Samples.X...)
		r.Samples.Y = append(r.Samples.Y, p.Samples.Y...)
		r.Samples.P = append(r.Samples.P, p.Samples.P...)
		last = p
	}
	r.Schema, r.Ending, r.PixelMM, r.Holds, r.Measures = Schema, trace.Interrupted, last.PixelMM, last.Holds, Measures{}
	tr := r.Trace()
	r.ClockStep = trace.ClockStep(tr.Samples)
	path := make(geom.Polyline, len(tr.Samples))
	for i, s := range tr.Samples {
		path[i] = s.P
	}
	if path.Length() < TapMM {
		return Record{}, ErrTap
	}
	if p, err := trace.Prepare(tr); err == nil {
		r.Interval = p.Interval
	}
	if err := r.validate(); err != nil {
		return Record{}, fmt.Errorf("record %q: %w", r.ID, err)
	}
	return r, nil
}
