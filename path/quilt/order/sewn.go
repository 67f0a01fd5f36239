package order

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"unthreaded/path/machine"
	"unthreaded/path/quilt"
)

// TickKind tells what a tick stands beside.
type TickKind string

// The ticks: a stage (a row, a border, a direction of the ditch) with all that is in
// it, one stay in one place, a change of the bobbin.
const (
	StageTick  TickKind = "stage"
	LegTick    TickKind = "leg"
	BobbinTick TickKind = "bobbin"
)

// Tick says that something is done, and on which day.
type Tick struct {
	Kind TickKind `json:"kind"`
	// Stage is the id of a stage, Cell that of a place in it ("" for a seam in the
	// ditch, which is known by Number), Pass that of the leg.
	Stage  string `json:"stage,omitempty"`
	Cell   string `json:"cell,omitempty"`
	Pass   int    `json:"pass,omitempty"`
	Number int    `json:"number,omitempty"`
	// Day is a calendar day, "2006-01-02".
	Day string `json:"day"`
}

// same tells that two ticks stand beside the same thing.
func (t Tick) same(u Tick) bool {
	t.Day, u.Day = "", ""
	return t == u
}

// Sewn is what is sewn so far, a document kept with its quilt: it names stages and
// places by their ids, so that it stays true when the order is changed.
type Sewn struct {
	Schema int    `json:"schema"`
	Quilt  string `json:"quilt,omitempty"`
	Ticks  []Tick `json:"ticks,omitempty"`
}

// maxTicks bounds the ticks of a document.
const maxTicks = 20000

// Validate reports the first tick at fault by its place.
func (s Sewn) Validate() error {
	if len(s.Ticks) > maxTicks {
		return fmt.Errorf("ticks: %d, at most %d", len(s.Ticks), maxTicks)
	}
	for i, t := range s.Ticks {
		switch {
		case t.Kind != StageTick && t.Kind != LegTick && t.Kind != BobbinTick:
			return fmt.Errorf("ticks[%d].kind: %q is none of %q, %q, %q", i, t.Kind, StageTick, LegTick, BobbinTick)
		case t.Pass < 0 || t.Pass > 1:
			return fmt.Errorf("ticks[%d].pass: %d is neither 0 nor 1", i, t.Pass)
		case t.Number < 0:
			return fmt.Errorf("ticks[%d].number: %d is below 0", i, t.Number)
		case !isDay(t.Day):
			return fmt.Errorf("ticks[%d].day: %q is no day", i, t.Day)
		}
	}
	return nil
}

// isDay tells whether a text is a calendar day; that its month has so many days is not
// looked at.
func isDay(s string) bool {
	var y, m, d int
	n, err := fmt.Sscanf(s, "%4d-%2d-%2d", &y, &m, &d)
	return err == nil && n == 3 && len(s) == 10 && m >= 1 && m <= 12 && d >= 1 && d <= 31
}

// Encode returns the document. It fails where Validate does.
func (s Sewn) Encode() ([]byte, error) {
	if err := s.Validate(); err != nil {
		return nil, fmt.Errorf("sewn so far: %w", err)
	}
	s.Schema = Schema
	return json.Marshal(s)
}

// DecodeSewn reads what Encode writes and checks it whole; a form that is not known
// yet is quilt.ErrNewer.
func DecodeSewn(doc []byte) (Sewn, error) {
	var s Sewn
	if err := decode(doc, &s); err != nil {
		return Sewn{}, fmt.Errorf("sewn so far: %w", err)
	}
	if err := s.Validate(); err != nil {
		return Sewn{}, fmt.Errorf("sewn so far: %w", err)
	}
	return s, nil
}

// decode reads a document of this package into v.
func decode(doc []byte, v any) error {
	var head struct {
		Schema int `json:"schema"`
	}
	if err := json.Unmarshal(doc, &head); err != nil {
		return fmt.Errorf("not a document: %w", err)
	}
	switch {
	case head.Schema > Schema:
		return fmt.Errorf("schema: %w", quilt.ErrNewer)
	case head.Schema < 1:
		return fmt.Errorf("schema: it names no form (%d)", head.Schema)
	}
	d := json.NewDecoder(bytes.NewReader(doc))
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		return err
	}
	if _, err := d.Token(); err != io.EOF {
		return errors.New("something follows the document")
	}
	return nil
}

// With returns the document with a tick, in place of one beside the same thing.
func (s Sewn) With(t Tick) Sewn {
	s = s.Without(t)
	s.Ticks = append(s.Ticks, t)
	return s
}

// Without returns the document without the tick beside the same thing. The document
// it is called on is left as it was.
func (s Sewn) Without(t Tick) Sewn {
	s.Ticks = slices.DeleteFunc(slices.Clone(s.Ticks), t.same)
	return s
}

// Ticked returns the day of the tick beside the same thing, "" for none.
func (s Sewn) Ticked(t Tick) string {
	for _, u := range s.Ticks {
		if u.same(t) {
			return u.Day
		}
	}
	return ""
}

// TickOf returns the tick of a leg of the order, its day left out.
func (o Order) TickOf(stage, leg int) Tick {
	s := o.Stages[stage]
	l := s.Legs[leg]
	t := Tick{Kind: LegTick, Stage: s.ID, Cell: l.Cell, Pass: l.Pass}
	if l.Cell == "" {
		t.Number = leg
	}
	return t
}

// Left is what is left of an order.
type Left struct {
	// Done and Of count legs.
	Done int `json:"done"`
	Of   int `json:"of"`
	// Next is the stage and the leg to be sewn next; Stage is -1 where all is done.
	Next struct {
		Stage   int `json:"stage"`
		Leg     int `json:"leg"`
		Program int `json:"program"` // the one to rehearse
	} `json:"next"`
	// Bobbins counts the bobbins ticked off as changed.
	Bobbins int `json:"bobbins"`
	// Job adds up what is left.
	Job machine.Job `json:"job"`
}

// Left returns what is left to be sewn. A stage that is ticked is sewn whole.
func (o Order) Left(s Sewn, a machine.Assumptions) (Left, error) {
	out := Left{}
	out.Next.Stage = -1
	loads := o.Loads()
	for i, st := range o.Stages {
		whole := s.Ticked(Tick{Kind: StageTick, Stage: st.ID}) != ""
		var legs []machine.LegLoad
		for k, l := range st.Legs {
			out.Of++
			if whole || s.Ticked(o.TickOf(i, k)) != "" {
				out.Done++
				continue
			}
			if out.Next.Stage < 0 {
				out.Next.Stage, out.Next.Leg, out.Next.Program = i, k, l.Program
			}
			legs = append(legs, loads[i].Legs[k])
		}
		if len(legs) < len(st.Legs) {
			loads[i].Turns = 0
		}
		loads[i].Legs = legs
	}
	for _, t := range s.Ticks {
		if t.Kind == BobbinTick {
			out.Bobbins++
		}
	}
	var err error
	out.Job, err = machine.AddUp(loads, a)
	return out, err
}
