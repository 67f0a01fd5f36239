package trace

import (
	"encoding/xml"
	"fmt"
	"strings"
)

// inkNamespace is that of the W3C Recommendation "Ink Markup Language (InkML)" of
// 20 September 2011, which WriteInk and ReadInk keep to.
const inkNamespace = "http://www.w3.org/2003/InkML"

// The elements of InkML that a trace needs, with their attributes.
type inkChannel struct {
	Name        string `xml:"name,attr"`
	Type        string `xml:"type,attr,omitempty"`
	Units       string `xml:"units,attr,omitempty"`
	Min         string `xml:"min,attr,omitempty"`
	Max         string `xml:"max,attr,omitempty"`
	Default     string `xml:"default,attr,omitempty"`
	Orientation string `xml:"orientation,attr,omitempty"`
	RespectTo   string `xml:"respectTo,attr,omitempty"`
}

// maxChannels bounds the channels of a format, and maxProperties what is said of
// them, so that a hostile file cannot fill the memory with them.
const (
	maxChannels   = 64
	maxProperties = 16 * maxChannels
)

type inkChannels []inkChannel

// UnmarshalXML appends one channel.
func (c *inkChannels) UnmarshalXML(d *xml.Decoder, e xml.StartElement) error {
	if len(*c) == maxChannels {
		return fmt.Errorf("a trace format has more than %d channels", maxChannels)
	}
	var one inkChannel
	if err := d.DecodeElement(&one, &e); err != nil {
		return err
	}
	*c = append(*c, one)
	return nil
}

type inkProperties []inkProperty

// UnmarshalXML appends one property.
func (p *inkProperties) UnmarshalXML(d *xml.Decoder, e xml.StartElement) error {
	if len(*p) == maxProperties {
		return fmt.Errorf("an ink source has more than %d channel properties", maxProperties)
	}
	var one inkProperty
	if err := d.DecodeElement(&one, &e); err != nil {
		return err
	}
	*p = append(*p, one)
	return nil
}

type inkFormat struct {
	ID           string      `xml:"http://www.w3.org/XML/1998/namespace id,attr,omitempty"`
	Channels     inkChannels `xml:"channel"`
	Intermittent inkChannels `xml:"intermittentChannels>channel,omitempty"`
}

type inkProperty struct {
	Channel string `xml:"channel,attr"`
	Name    string `xml:"name,attr"`
	Value   string `xml:"value,attr"`
	Units   string `xml:"units,attr,omitempty"`
}

type inkRate struct {
	Value   string `xml:"value,attr"`
	Uniform string `xml:"uniform,attr,omitempty"`
}

type inkSource struct {
	ID          string        `xml:"http://www.w3.org/XML/1998/namespace id,attr,omitempty"`
	Description string        `xml:"description,attr,omitempty"`
	Format      *inkFormat    `xml:"traceFormat"`
	Rate        *inkRate      `xml:"sampleRate"`
	Properties  inkProperties `xml:"channelProperties>channelProperty"`
}

type inkContext struct {
	ID         string     `xml:"http://www.w3.org/XML/1998/namespace id,attr,omitempty"`
	ContextRef string     `xml:"contextRef,attr,omitempty"`
	FormatRef  string     `xml:"traceFormatRef,attr,omitempty"`
	SourceRef  string     `xml:"inkSourceRef,attr,omitempty"`
	Source     *inkSource `xml:"inkSource"`
	Format     *inkFormat `xml:"traceFormat"`
	TimeRef    string     `xml:"timestampRef,attr,omitempty"`
	Time       *inkTime   `xml:"timestamp"`
}

// inkTime is a moment: in ms since 1970 or as xsd:dateTime, or another moment and an
// offset from it in ms.
type inkTime struct {
	ID     string `xml:"http://www.w3.org/XML/1998/namespace id,attr,omitempty"`
	Time   string `xml:"time,attr,omitempty"`
	Text   string `xml:"timeString,attr,omitempty"`
	Ref    string `xml:"timestampRef,attr,omitempty"`
	Offset string `xml:"timeOffset,attr,omitempty"`
}

// inkTrace may be the continuation of another: the middle or the end of what that one
// begins (section 3.2.1, from memory).
type inkTrace struct {
	ID           string `xml:"http://www.w3.org/XML/1998/namespace id,attr,omitempty"`
	ContextRef   string `xml:"contextRef,attr,omitempty"`
	Type         string `xml:"type,attr,omitempty"`
	Continuation string `xml:"continuation,attr,omitempty"`
	PriorRef     string `xml:"priorRef,attr,omitempty"`
	Points       string `xml:",chardata"`
}

type inkAnnotation struct {
	Type string `xml:"type,attr,omitempty"`
	Text string `xml:",chardata"`
}

// lengths and times are the units of InkML that are understood, in mm and s.
var (
	lengths = map[string]float64{"m": 1000, "cm": 10, "mm": 1, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "himetric": 0.01}
	times   = map[string]float64{"s": 1, "ms": 1e-3}
)

// millimetres returns the size in mm of one unit of a channel of places: what its
// resolution says (device units to the unit of length) where it counts them in whole
// numbers, else its own unit, else its resolution. It is 0 where neither is a length,
// and an error where they make no sense.
func millimetres(c inkChannel, properties inkProperties) (float64, error) {
	resolved, err := resolution(c, properties)
	if err != nil || resolved > 0 && c.Type == "integer" {
		return resolved, err
	}
	if f, ok := lengths[c.Units]; ok {
		return f, nil
	}
	switch c.Units {
	case "", "dev", "px", "em", "ex": // of no size that the file tells
		return resolved, nil
	}
	return 0, fmt.Errorf("channel %s: unit %q is no length", c.Name, c.Units)
}

// resolution returns the size in mm of a device unit by the channelProperty resolution
// (section 4.2.7): so many of them to the unit, written 1/cm, 1/in, 1/himetric or without
// the 1/. It is 0 where there is none, or one to device units (1/dev).
func resolution(c inkChannel, properties inkProperties) (float64, error) {
	for _, p := range properties {
		if p.Channel != c.Name || p.Name != "resolution" {
			continue
		}
		per := strings.TrimPrefix(strings.TrimSpace(p.Units), "1/")
		n, err := number(strings.TrimSpace(p.Value))
		unit, ok := lengths[per]
		switch {
		case err != nil || !(n > 0):
			return 0, fmt.Errorf("channel %s: resolution %q per %q is not understood", c.Name, short(p.Value), short(p.Units))
		case ok:
			return unit / n, nil
		}
		return 0, nil
	}
	return 0, nil
}

// seconds returns the length in seconds of one unit of the channel T, that is of
// a millisecond where none is named (section 3.1.5).
func seconds(c inkChannel, properties inkProperties) (float64, error) {
	if f, ok := times[c.Units]; ok {
		return f, nil
	}
	if c.Units != "" && c.Units != "dev" {
		return 0, fmt.Errorf("channel T: unit %q is no time that is understood", short(c.Units))
	}
	for _, p := range properties {
		if p.Channel != "T" || p.Name != "resolution" {
			continue
		}
		unit, ok := times[strings.TrimPrefix(strings.TrimSpace(p.Units), "1/")]
		if n, err := number(strings.TrimSpace(p.Value)); ok && err == nil && n > 0 {
			return unit / n, nil
		}
	}
	return times["ms"], nil
}
