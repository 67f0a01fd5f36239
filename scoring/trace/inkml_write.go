package trace

import (
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
)

type inkDocument struct {
	XMLName  xml.Name     `xml:"http://www.w3.org/2003/InkML ink"`
	Contexts []inkContext `xml:"definitions>context"`
	Groups   []inkGroup   `xml:"traceGroup"`
}

type inkGroup struct {
	ContextRef string          `xml:"contextRef,attr"`
	Notes      []inkAnnotation `xml:"annotation"`
	Traces     []inkTrace      `xml:"trace"`
}

// WriteInk writes the traces as InkML (W3C Recommendation, 2011) with the
// channels X and Y in mm, T in seconds and F, the pressure, from 0 to 1. The
// device stands in the description of the ink source, the size of a pixel and the
// step of the clock as quantization of X and T, the moment of the first sample as
// timestamp, to which T is relative, the ending and the notes as annotations, each hold
// of a trace as a continuation of the one before, at its true time, so that ReadInk
// gives the same traces back. It fails on a trace that is not valid.
func WriteInk(w io.Writer, traces []Ink) error {
	doc := inkDocument{}
	for i, tr := range traces {
		if err := tr.Validate(); err != nil {
			return fmt.Errorf("trace %d: %w", i, err)
		}
		id := fmt.Sprintf("hand%d", i)
		doc.Contexts = append(doc.Contexts, contextOf(tr, id))
		notes := []inkAnnotation{{Type: endingNote, Text: string(tr.Ending)}}
		for _, n := range tr.Notes {
			notes = append(notes, inkAnnotation(n))
		}
		doc.Groups = append(doc.Groups, inkGroup{
			ContextRef: "#" + id, Notes: notes,
			Traces: piecesOf(tr.Trace, id),
		})
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return fmt.Errorf("writing InkML: %w", err)
	}
	enc := xml.NewEncoder(w)
	enc.Indent("", " ")
	if err := enc.Encode(doc); err != nil {
		return fmt.Errorf("writing InkML: %w", err)
	}
	return nil
}

func contextOf(tr Ink, id string) inkContext {
	src := &inkSource{
		ID: "pointer-" + id, Description: string(tr.Device),
		Format: &inkFormat{ID: "format-" + id, Channels: []inkChannel{
			{Name: "X", Type: "decimal", Units: "mm"},
			{Name: "Y", Type: "decimal", Units: "mm"},
			{Name: "T", Type: "decimal", Units: "s"},
			{Name: "F", Type: "decimal", Min: "0", Max: "1", Units: "dev"},
		}},
	}
	for _, p := range []struct {
		channel, unit string
		value         float64
	}{{"X", "mm", tr.PixelMM}, {"Y", "mm", tr.PixelMM}, {"T", "s", tr.ClockStep}} {
		if p.value > 0 {
			src.Properties = append(src.Properties, inkProperty{
				Channel: p.channel, Name: "quantization", Value: plain(p.value), Units: p.unit,
			})
		}
	}
	c := inkContext{ID: id, Source: src}
	if tr.Started != 0 {
		c.Time = &inkTime{ID: "began-" + id, Time: plain(tr.Started)}
		src.Format.Channels[2].RespectTo = "#" + c.Time.ID
	}
	return c
}

func writePoints(samples []Sample) string {
	var b strings.Builder
	for i, s := range samples {
		if i > 0 {
			b.WriteString(", ")
		}
		for k, v := range [...]float64{s.P.X, s.P.Y, s.T, s.Pressure} {
			if k > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(plain(v))
		}
	}
	return b.String()
}

// plain writes a number without an exponent and without loss.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
