package trace

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"

	"unthreaded/path/geom"
)

const (
	// maxInkML bounds the size in bytes of a file that is read.
	maxInkML = 64 << 20
	// maxNesting bounds how deep groups of traces may nest.
	maxNesting = 32
)

// ReadInk reads the pen-down traces of an InkML file. Places come in any of
// InkML's units of length or in device units with a resolution. Where the file gives
// them no length at all, unit is the size of one of its units in mm; with a unit of 0 the
// answer is a UnitError with a guess. Times come from the channel T (in ms where the file
// does not say) or from a sample rate; ink that has neither is Timeless. F is scaled
// by its range to a pressure, 0.5 where absent; what the tip does off the paper (S) is
// left out, and parts a trace in two. All notations of the
// Recommendation for points are read. An error names the trace, counted from 0,
// and the point. A file may have up to 64 MB and its traces MaxSamples points. A trace
// that continues another is joined to it (see joined). A trace
// has the annotations of its group and of those around it.
func ReadInk(r io.Reader, unit float64) ([]Ink, error) {
	limited := &io.LimitedReader{R: r, N: maxInkML + 1}
	d := &inkReader{
		unit: unit, dec: xml.NewDecoder(limited), formats: map[string]*inkFormat{}, sources: map[string]*inkSource{},
		contexts: map[string]inkState{}, moments: map[string]float64{}, known: map[string]int{},
	}
	err := d.document()
	if limited.N <= 0 {
		return nil, fmt.Errorf("the file is larger than %d MB", maxInkML>>20)
	}
	if err != nil {
		line, column := d.dec.InputPos()
		return nil, fmt.Errorf("line %d, column %d: %w", line, column, err)
	}
	if d.unsized && unit == 0 {
		return nil, unitError(d.low, d.high)
	}
	return d.traces, nil
}

// inkState is what holds for a trace: its format and source, how it ended, when it
// began, and what else is said of it.
type inkState struct {
	format *inkFormat
	source *inkSource
	ending Ending
	began  float64
	notes  []Note
}

type inkReader struct {
	unit float64 // in mm, of places without one; 0 if it is not known
	// unsized tells whether there are such places; low and high are their corners.
	unsized   bool
	low, high geom.Point
	dec       *xml.Decoder
	formats   map[string]*inkFormat
	sources   map[string]*inkSource
	contexts  map[string]inkState
	moments   map[string]float64
	traces    []Ink
	// known are the indices of traces by the ids of their pieces.
	known   map[string]int
	samples int
}

func (d *inkReader) document() error {
	for {
		tok, err := d.dec.Token()
		if errors.Is(err, io.EOF) {
			return errors.New("there is no element ink")
		}
		if err != nil {
			return err
		}
		if e, ok := tok.(xml.StartElement); ok {
			if e.Name.Local != "ink" || (e.Name.Space != "" && e.Name.Space != inkNamespace) {
				return fmt.Errorf("the file is no InkML: it begins with %q", short(e.Name.Local))
			}
			state := inkState{}
			return d.children(&state, 0)
		}
	}
}

// children reads up to the end of the element that was begun.
func (d *inkReader) children(state *inkState, depth int) error {
	if depth > maxNesting {
		return fmt.Errorf("groups nest deeper than %d", maxNesting)
	}
	for {
		tok, err := d.dec.Token()
		if err != nil {
			return err
		}
		switch e := tok.(type) {
		case xml.EndElement:
			return nil
		case xml.StartElement:
			if err := d.element(e, state, depth); err != nil {
				return err
			}
		}
	}
}

func (d *inkReader) element(e xml.StartElement, state *inkState, depth int) error {
	if e.Name.Space != "" && e.Name.Space != inkNamespace {
		return d.dec.Skip()
	}
	switch e.Name.Local {
	case "definitions":
		inside := *state // what is defined holds where it is referred to
		return d.children(&inside, depth+1)
	case "traceGroup":
		inside := *state
		if err := d.refer(&inside, attribute(e, "contextRef")); err != nil {
			return err
		}
		return d.children(&inside, depth+1)
	case "traceFormat":
		return decode(d, e, func(f *inkFormat) error {
			d.addFormat(f)
			state.format = f
			return nil
		})
	case "inkSource":
		return decode(d, e, func(s *inkSource) error {
			d.addSource(s)
			return nil
		})
	case "context":
		return decode(d, e, func(c *inkContext) error { return d.context(*c, state) })
	case "annotation":
		return decode(d, e, func(a *inkAnnotation) error { return state.annotate(*a) })
	case "timestamp":
		return decode(d, e, func(t *inkTime) error {
			_, err := d.timestamp(t)
			return err
		})
	case "trace":
		return decode(d, e, func(t *inkTrace) error { return d.trace(*t, *state) })
	}
	return d.dec.Skip()
}

// decode reads a whole element and hands it to use.
func decode[T any](d *inkReader, e xml.StartElement, use func(*T) error) error {
	var v T
	if err := d.dec.DecodeElement(&v, &e); err != nil {
		return err
	}
	return use(&v)
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

// trace reads the points of a trace; ink in the air is left out.
func (d *inkReader) trace(t inkTrace, state inkState) error {
	if t.Type == "penUp" {
		return nil
	}
	n := len(d.traces)
	if err := d.refer(&state, t.ContextRef); err != nil {
		return fmt.Errorf("trace %d: %w", n, err)
	}
	if state.format == nil && len(d.contexts) == 1 && t.ContextRef == "" {
		for _, only := range d.contexts { // programs leave the reference out where there is one alone
			only.ending, only.notes = state.ending, state.notes
			state = only
		}
	}
	unit := d.unit
	if unit == 0 {
		unit = 1 // for the size of the ink, of which the guess is made
	}
	axes, err := newAxes(state, unit)
	if err != nil {
		return fmt.Errorf("trace %d: %w", n, err)
	}
	runs, err := d.runs(t.Points, axes)
	if err != nil {
		return fmt.Errorf("trace %d, %w", n, err)
	}
	for k, samples := range runs {
		tr := axes.empty
		tr.Samples = samples
		axes.press(tr.Samples)
		if err := tr.Validate(); err != nil {
			return fmt.Errorf("trace %d: %w", n, err)
		}
		if axes.unsized {
			d.extend(samples)
		}
		if k > 0 {
			t.Continuation = "" // the tip was lifted
		}
		if err := d.add(t, tr); err != nil {
			return err
		}
	}
	return nil
}

// runs reads the points of a trace, parted where the tip is off the paper. A trace without
// a point is one empty run, one that is off the paper all along none.
func (d *inkReader) runs(text string, axes axes) ([][]Sample, error) {
	var out [][]Sample
	points, down := newPointReader(text, axes.format), false
	for i := 0; ; i++ {
		values, err := points.next()
		if err == nil && values == nil {
			if i == 0 {
				out = append(out, nil)
			}
			return out, nil
		}
		if d.samples++; err == nil && d.samples > MaxSamples {
			err = fmt.Errorf("the file has more than %d points", MaxSamples)
		}
		if err == nil && axes.lifted(values) {
			down = false
			continue
		}
		var s Sample
		if err == nil {
			s, err = axes.sample(values, i)
		}
		if err != nil {
			return nil, fmt.Errorf("point %d: %w", i, err)
		}
		if !down {
			out, down = append(out, nil), true
		}
		out[len(out)-1] = append(out[len(out)-1], s)
	}
}

// extend makes room for places without a length in the size of the ink.
func (d *inkReader) extend(samples []Sample) {
	for _, s := range samples {
		if !d.unsized {
			d.low, d.high, d.unsized = s.P, s.P, true
		}
		d.low = geom.Pt(min(d.low.X, s.P.X), min(d.low.Y, s.P.Y))
		d.high = geom.Pt(max(d.high.X, s.P.X), max(d.high.Y, s.P.Y))
	}
}

// bare returns what a reference names; programs leave the # out.
func bare(ref string) string { return strings.TrimPrefix(strings.TrimSpace(ref), "#") }
