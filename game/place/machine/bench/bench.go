// Package bench is the place where the sewing machine is set up for a planned
// route: her machine's figures, what she settled for this plan, and what follows
// from both. It knows nothing of screens. Lengths are mm, speeds mm/s and stitches
// per minute (spm).
package bench

import (
	"slices"

	"unthreaded/path/machine"
)

// Topic is one of the matters that are gone through, one at a time.
type Topic string

// The topics, in the order of the job.
const (
	FootTopic   Topic = "foot"
	SpeedTopic  Topic = "speed"
	ThreadTopic Topic = "thread"
	ThroatTopic Topic = "throat"
	MarksTopic  Topic = "marks"
	CheckTopic  Topic = "check"
	CardTopic   Topic = "card"
	JobTopic    Topic = "job"
)

// Topics returns all topics in order.
func Topics() []Topic {
	return []Topic{JobTopic, FootTopic, SpeedTopic, ThreadTopic, ThroatTopic, MarksTopic, CheckTopic, CardTopic}
}

// State is what she types and ticks.
type State struct {
	Mine Mine
	Job  Job
	// Trio is the needle speed, hand speed and stitch length that are weighed here.
	Trio machine.Triangle
}

// Refusal is what was typed into a field and could not be taken.
type Refusal struct {
	Field, Text string
	Why         Refused
}

// Refused tells why something typed could not be taken.
type Refused string

// Why it could not.
const (
	noNumber   Refused = "no-number"
	noWhole    Refused = "no-whole"
	outOfRange Refused = "out-of-range"
	// notTogether is a value that does not go with the others of the triangle.
	notTogether Refused = "not-together"
)

func (r Refused) Error() string { return string(r) }

// Bench is the state of the place. Make one with New; a method returns the bench
// after it.
type Bench struct {
	State
	Topic Topic
	// Plan is what is to be sewn; Trouble says why there is none.
	Plan    Plan
	Trouble error
	// Place is the place in the order of the rows that is looked at, Line the
	// ruler line.
	Place   int
	Line    int
	Refused Refusal
	// Known tells that what was kept has been read: what is changed before that
	// would be kept over it.
	Known bool
	// Rev grows with each change of what is drawn.
	Rev int

	laid  *Laid // the quilt on the table, never written into
	shelf shelf
	// past and next hold the state before and after each change, for undo.
	past, next []State
}

// New returns the bench before anything is known.
func New() Bench {
	return Bench{State: State{Mine: Usual()}, Topic: FootTopic}
}

// Change tells what a change asks to be kept.
type Change struct{ Mine, Job bool }

// Sew takes a plan to the bench, with the job that was kept for it; a new one takes
// its rows from the quilt on the table. set is the triangle in force.
func (b Bench) Sew(p Plan, err error, set machine.Triangle) Bench {
	b.Rev++
	b.Plan, b.Trouble, b.Refused = p, err, Refusal{}
	if err != nil {
		b.Plan = Plan{}
		return b
	}
	if b.Job.Plan != p.ID || !b.Known {
		b.past, b.next = nil, nil
		b.Place, b.Line = 0, 0
		b.Job = b.shelf.job(p, b.laid)
	}
	if b.Trio.Follows == "" {
		b.Trio = set
		b.Trio.Follows = machine.HandPart
	}
	return b.inRows()
}

// Show turns to a topic.
func (b Bench) Show(t Topic) Bench {
	if slices.Contains(Topics(), t) {
		b.Topic, b.Refused = t, Refusal{}
		b.Rev++
	}
	return b
}

// Type takes what she typed into a field. What cannot be taken changes nothing but
// Refused, which says what can.
func (b Bench) Type(id, text string, inches bool) (Bench, Change) {
	f, ok := FindField(id)
	if !ok || b.Trouble != nil {
		return b, Change{}
	}
	b.Refused = Refusal{}
	v, err := f.parse(text, inches)
	if r := f.within(b.State); err == nil && (v != 0 || !f.Optional) {
		if r.Check(v) != nil {
			err = outOfRange
		}
	}
	after := b.State
	after.Job.Ticks = slices.Clone(after.Job.Ticks)
	if err == nil && f.set(&after, v) != nil {
		err = notTogether
	}
	if err != nil {
		b.Refused = Refusal{Field: id, Text: text, Why: err.(Refused)}
		return b, Change{}
	}
	return b.changed(after)
}

// Find chooses which of the trio is worked out.
func (b Bench) Find(part machine.Part) Bench {
	if slices.Contains([]machine.Part{machine.NeedlePart, machine.HandPart, machine.StitchPart}, part) {
		b.Trio.Follows = part
		b.Rev++
	}
	return b
}

// Choose sets the method; the advised one is not kept as a choice.
func (b Bench) Choose(m machine.Method) (Bench, Change) {
	if b.Trouble != nil || !slices.Contains(machine.Methods(), m) {
		return b, Change{}
	}
	after := b.State
	after.Job.Method = m
	if m == b.Plan.Advice.Method {
		after.Job.Method = ""
	}
	return b.changed(after)
}

// Method returns the method in force: the one she chose, else the one advised.
func (b Bench) Method() machine.Method {
	if b.Job.Method != "" {
		return b.Job.Method
	}
	return b.Plan.Advice.Method
}

// Tick ticks an item or takes its tick away.
func (b Bench) Tick(id string, on bool) (Bench, Change) {
	known := slices.ContainsFunc(b.Items(), func(i machine.Item) bool { return i.ID == id })
	if !known || on == b.Job.Ticked(id) {
		return b, Change{}
	}
	after := b.State
	after.Job.Ticks = slices.DeleteFunc(slices.Clone(after.Job.Ticks), func(s string) bool { return s == id })
	if on {
		after.Job.Ticks = append(after.Job.Ticks, id)
		slices.Sort(after.Job.Ticks)
	}
	return b.changed(after)
}

// Pick sets a choice by name: "bobbin", "paper", "side" or "quilt".
func (b Bench) Pick(name, value string) (Bench, Change) {
	after := b.State
	switch name {
	case "bobbin":
		after.Mine.Bobbin = value
	case "paper":
		after.Mine.Paper = Paper(value)
	case "side":
		after.Job.OnLeft = value == "left"
	case "quilt":
		after.Job.Quilt = "" // typed, unless it is the quilt on the table
		if l, ok := b.Laid(); ok && l.Quilt.ID == value {
			after.Job.Quilt = value
		}
	}
	return b.changed(after)
}

// Made notes that a full-size template was made.
func (b Bench) Made() (Bench, Change) {
	after := b.State
	after.Job.Template = true
	return b.changed(after)
}

// changed takes a new state, and tells what of it is to be kept.
func (b Bench) changed(after State) (Bench, Change) {
	if after.Mine.Validate() != nil || (b.Trouble == nil && after.Job.Validate() != nil) {
		return b, Change{} // nothing that the page's own controls can send
	}
	c := difference(b.State, after)
	if c != (Change{}) {
		b.past = append(b.past[:len(b.past):len(b.past)], b.State)
		b.next = nil
	}
	b.State = after
	b.Rev++
	return b.inRows(), c
}

func difference(a, b State) Change {
	return Change{Mine: a.Mine != b.Mine, Job: string(encode(a.Job)) != string(encode(b.Job))}
}
