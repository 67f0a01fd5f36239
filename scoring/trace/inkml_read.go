package trace

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
)

const (
	// maxInkML bounds the size in bytes of a file that is read.
	maxInkML = 64 << 20
	// maxNesting bounds how deep groups of traces may nest.
	maxNesting = 32
)

// ReadInk reads the pen-down traces of an InkML file. Places come in any of
// InkML's units of length or in device units with a resolution, times from the
// channel T (in ms where the file does not say) or from a sample rate; F is scaled
// by its range to a pressure, 0.5 where absent. All notations of the
// Recommendation for points are read. An error names the trace, counted from 0,
// and the point. A file may have up to 64 MB and its traces MaxSamples points. A trace
// that continues another is joined to it (see joined). A trace
// has the annotations of its group and of those around it.
func ReadInk(r io.Reader) ([]Ink, error) {
	limited := &io.LimitedReader{R: r, N: maxInkML + 1}
	d := &inkReader{
		dec: xml.NewDecoder(limited), formats: map[string]*inkFormat{}, sources: map[string]*inkSource{},
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
	dec      *xml.Decoder
	formats  map[string]*inkFormat
	sources  map[string]*inkSource
	contexts map[string]inkState
	moments  map[string]float64
	traces   []Ink
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
	axes, err := newAxes(state)
	if err != nil {
		return fmt.Errorf("trace %d: %w", n, err)
	}
	tr := Ink{Trace: axes.empty, Started: state.began, Notes: state.notes}
	points := newPointReader(t.Points, axes.format)
	for i := 0; ; i++ {
		values, err := points.next()
		if err == nil && values == nil {
			break
		}
		var s Sample
		if err == nil {
			s, err = axes.sample(values, i)
		}
		if d.samples++; err == nil && d.samples > MaxSamples {
			err = fmt.Errorf("the file has more than %d points", MaxSamples)
		}
		if err != nil {
			return fmt.Errorf("trace %d, point %d: %w", n, i, err)
		}
		tr.Samples = append(tr.Samples, s)
	}
	if err := tr.Validate(); err != nil {
		return fmt.Errorf("trace %d: %w", n, err)
	}
	return d.add(t, tr)
}
