// Package keep is the form in which a trace is kept: a versioned JSON document
// with the line it followed, the settings, every sample and the measures.
package keep

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// Schema is the version of the document that this program writes. A change of
// the form takes a new number and a step in lift.go.
const Schema = 2

// ErrNewer is the error of a document that a newer version of this program wrote.
var ErrNewer = errors.New("it was written by a newer version of this program")

// ID returns the ID of a trace that was started at a time in ms since 1970, to a tenth.
func ID(startedMS float64, d trace.Device) string { return fmt.Sprintf("%013.0f-%s", startedMS*10, d) }

// Record is one kept trace.
type Record struct {
	Schema int `json:"schema"`
	// ID is unique among all records of a browser; it starts with the time.
	ID string `json:"id"`
	// Started is when the pointer went down, in milliseconds since 1970 (UTC).
	Started int64 `json:"started"`
	// Motif and Repeats name the ready motif, or the planned route by a name made
	// from its path; Name is what a person calls it. Line is the line itself, so
	// that the record stays true when a motif changes in a later version.
	Motif   string  `json:"motif"`
	Name    string  `json:"name"`
	Repeats int     `json:"repeats"`
	Line    LineDoc `json:"line"`
	// Way is the way of moving, Pencil or Cloth. Guide is what helped the hand; nil
	// in records from before it was noted.
	Way   string `json:"way"`
	Guide *Guide `json:"guide,omitempty"`
	// WarmUp marks a trace of a warm-up, which is never scored.
	WarmUp bool `json:"warm_up,omitempty"`
	// SPM is the needle speed in stitches per minute, StitchMM the planned
	// stitch length in mm, Zoom the share of true size at which it was traced,
	// PxPerMM the CSS pixels per mm that were taken for true size; SizeKnown tells
	// that they were measured on the screen and no guess.
	SPM       float64 `json:"spm"`
	StitchMM  float64 `json:"stitch_mm"`
	Zoom      float64 `json:"zoom"`
	PxPerMM   float64 `json:"px_per_mm"`
	SizeKnown bool    `json:"size_known,omitempty"`

	Device trace.Device `json:"device"`
	Ending trace.Ending `json:"ending"`
	// PixelMM, ClockStep and Interval tell how finely the device reported: mm,
	// s, and the median of the times between samples in s.
	PixelMM   float64 `json:"pixel_mm"`
	ClockStep float64 `json:"clock_step_s"`
	Interval  float64 `json:"interval_s"`

	// Holds are where the hand took hold anew, if it did.
	Holds    []trace.Hold `json:"holds,omitempty"`
	Samples  Samples      `json:"samples"`
	Measures Measures     `json:"measures"`
}

// LineDoc is an ideal line: its points and the arc lengths of its dots, in mm.
type LineDoc struct {
	Points [][2]float64 `json:"points_mm"`
	Dots   []float64    `json:"dots_mm,omitempty"`
}

// Samples are the samples column by column: seconds, mm and pressure.
type Samples struct {
	T []float64 `json:"t_s"`
	X []float64 `json:"x_mm"`
	Y []float64 `json:"y_mm"`
	P []float64 `json:"pressure"`
}

// round rounds to a number of decimals, so that a number takes little room in the
// document and is the same when it comes back.
func round(v float64, decimals int) float64 {
	f := math.Pow10(decimals)
	return math.Round(v*f) / f
}

// Rounded returns the trace as a record keeps it: times to 10 microseconds,
// places to 0.1 micrometre, pressure to 0.001. Measure this one, and the measures
// are those of the kept trace.
func Rounded(tr trace.Trace) trace.Trace {
	out := tr
	out.Samples = make([]trace.Sample, len(tr.Samples))
	for i, s := range tr.Samples {
		out.Samples[i] = trace.Sample{
			T: round(s.T, 5), P: geom.Pt(round(s.P.X, 4), round(s.P.Y, 4)), Pressure: round(s.Pressure, 3),
		}
	}
	out.Holds = nil
	for _, h := range tr.Holds {
		out.Holds = append(out.Holds, trace.Hold{T: round(h.T, 5), Pause: round(h.Pause, 5)})
	}
	return out
}

// SetTrace stores the samples and facts of a trace in the record.
func (r *Record) SetTrace(tr trace.Trace) {
	tr = Rounded(tr)
	r.Device, r.Ending, r.PixelMM, r.ClockStep = tr.Device, tr.Ending, tr.PixelMM, tr.ClockStep
	r.Holds, r.Samples = tr.Holds, Samples{}
	for _, s := range tr.Samples {
		r.Samples.T = append(r.Samples.T, s.T)
		r.Samples.X = append(r.Samples.X, s.P.X)
		r.Samples.Y = append(r.Samples.Y, s.P.Y)
		r.Samples.P = append(r.Samples.P, s.Pressure)
	}
}

// Trace returns the trace of the record.
func (r Record) Trace() trace.Trace {
	tr := trace.Trace{Holds: r.Holds, Device: r.Device, Ending: r.Ending, PixelMM: r.PixelMM, ClockStep: r.ClockStep}
	for i := range r.Samples.T {
		tr.Samples = append(tr.Samples, trace.Sample{
			T: r.Samples.T[i], P: geom.Pt(r.Samples.X[i], r.Samples.Y[i]), Pressure: r.Samples.P[i],
		})
	}
	return tr
}

// SetLine stores the line, rounded to 0.1 micrometre.
func (r *Record) SetLine(l geom.Line) {
	r.Line = LineDoc{}
	for _, p := range l.Path() {
		r.Line.Points = append(r.Line.Points, [2]float64{round(p.X, 4), round(p.Y, 4)})
	}
	for _, s := range l.Dots {
		r.Line.Dots = append(r.Line.Dots, round(s, 4))
	}
}

// GeomLine returns the line of the record.
func (r Record) GeomLine() (geom.Line, error) {
	pl := make(geom.Polyline, len(r.Line.Points))
	for i, p := range r.Line.Points {
		pl[i] = geom.Pt(p[0], p[1])
	}
	l, err := geom.NewLine(pl)
	if err != nil || r.Line.Dots == nil {
		return l, err
	}
	dots := slices.Clone(r.Line.Dots)
	for i, s := range dots {
		// Rounding may have put the last dot a hair beyond the end.
		if s > l.Length() && s < l.Length()+0.01 {
			dots[i] = l.Length()
		}
	}
	return l.WithDots(dots)
}

// Encode returns the record as a document.
func Encode(r Record) ([]byte, error) {
	r.Schema = Schema
	b, err := json.Marshal(r)
	if err != nil {
		return nil, fmt.Errorf("record %s: %w", r.ID, err)
	}
	return b, nil
}

// Decode reads a document, of this or of an older form, and checks it whole. An error
// names what is wrong with which record; the document itself is left to the caller to set
// aside.
func Decode(doc []byte) (Record, error) {
	doc, err := lifted(doc)
	if err != nil {
		return Record{}, fmt.Errorf("not a trace record: %w", err)
	}
	var r Record
	if err := json.Unmarshal(doc, &r); err != nil {
		return Record{}, fmt.Errorf("not a trace record: %w", err)
	}
	if err := r.validate(); err != nil {
		return Record{}, fmt.Errorf("record %q: %w", r.ID, err)
	}
	return r, nil
}

func (r Record) validate() error {
	switch {
	case r.Schema > Schema:
		return fmt.Errorf("%w (form %d, this one reads up to %d)", ErrNewer, r.Schema, Schema)
	case r.Schema < 1:
		return fmt.Errorf("it names no form (schema %d)", r.Schema)
	case r.ID == "":
		return fmt.Errorf("it has no id")
	case !(r.SPM > 0) || !(r.StitchMM > 0) || !(r.Zoom > 0) || !(r.PxPerMM > 0):
		return fmt.Errorf("needle speed %v spm, stitch %v mm, zoom %v and %v px per mm must all be above 0", r.SPM, r.StitchMM, r.Zoom, r.PxPerMM)
	}
	n := len(r.Samples.T)
	if len(r.Samples.X) != n || len(r.Samples.Y) != n || len(r.Samples.P) != n {
		return fmt.Errorf("%d times stand beside %d x, %d y and %d pressures", n, len(r.Samples.X), len(r.Samples.Y), len(r.Samples.P))
	}
	if err := r.Trace().Validate(); err != nil {
		return err
	}
	if _, err := r.GeomLine(); err != nil {
		return fmt.Errorf("its line: %w", err)
	}
	return nil
}
