package bench

import (
	"math"

	"unthreaded/path/machine"
)

// Kind tells how a field is typed and written.
type Kind int

// The kinds of fields.
const (
	// Length is in inches or mm.
	Length Kind = iota
	// Fine is a length that is always in mm, since no ruler has such inches.
	Fine
	// Thread is a length of thread, in yards or metres.
	Thread
	// Number has no unit of its own.
	Number
	// Whole is a count.
	Whole
	// Share is typed in per cent.
	Share
	// Hand is a hand speed, in inches or mm a second.
	Hand
	// Stitch is a stitch length, as stitches per inch or in mm.
	Stitch
	// Minutes is a time, typed in minutes.
	Minutes
)

// Field is a figure that she types.
type Field struct {
	ID string
	// unit is what it is counted in, where its kind has no unit.
	unit string
	Kind Kind
	// Optional fields may be empty, which stands for 0: not known.
	Optional bool
	// within is the range in the state that she is in; its numbers are in mm,
	// spm and shares.
	within func(State) machine.Range
	at     func(*State) *float64
	// part is the part of the trio that it is.
	part machine.Part
}

// The bounds that depend on another figure.
func slowest(fastest float64) machine.Range {
	r := machine.NeedleSpeed
	r.Max = fastest
	return r
}

func fastest(slowest float64) machine.Range {
	r := machine.NeedleSpeed
	r.Min = slowest
	return r
}

// handRoom leaves 20 mm at least for the roll, as machine.Throat asks.
func handRoom(throat float64) machine.Range {
	r := machine.HandRoom
	r.Max = math.Min(r.Max, throat-20)
	return r
}

func throatWidth(hand float64) machine.Range {
	r := machine.ThroatWidth
	r.Min = math.Max(r.Min, hand+20)
	return r
}

// fullness is the range of how full the first bobbin is.
var fullness = machine.Range{Name: "fullness", Min: 0, Max: 1, Usual: 1}

func ofTrio(p machine.Part) func(State) machine.Range {
	return func(s State) machine.Range { return s.Trio.Range(p) }
}

func fixed(r machine.Range) func(State) machine.Range { return func(State) machine.Range { return r } }

// fields are all that can be typed, those of the machine and those of the plan.
var fields = []Field{
	{ID: "slowest", unit: "spm", Kind: Number,
		within: func(s State) machine.Range { return slowest(s.Mine.MaxSPM) }, at: func(s *State) *float64 { return &s.Mine.MinSPM }},
	{ID: "fastest", unit: "spm", Kind: Number,
		within: func(s State) machine.Range { return fastest(s.Mine.MinSPM) }, at: func(s *State) *float64 { return &s.Mine.MaxSPM }},
	{ID: "throat-width", Kind: Length,
		within: func(s State) machine.Range { return throatWidth(s.Mine.Hand) }, at: func(s *State) *float64 { return &s.Mine.ThroatW }},
	{ID: "throat-height", Kind: Length,
		within: fixed(machine.ThroatHeight), at: func(s *State) *float64 { return &s.Mine.ThroatH }},
	{ID: "hand-room", Kind: Length,
		within: func(s State) machine.Range { return handRoom(s.Mine.ThroatW) }, at: func(s *State) *float64 { return &s.Mine.Hand }},
	{ID: "full", Kind: Thread, Optional: true,
		within: fixed(machine.BobbinLength), at: func(s *State) *float64 { return &s.Mine.FullMM }},
	{ID: "weight", unit: "wt", Kind: Number,
		within: fixed(machine.ThreadWeight), at: func(s *State) *float64 { return &s.Mine.Weight }},
	{ID: "first", unit: "percent", Kind: Share,
		within: fixed(fullness), at: func(s *State) *float64 { return &s.Job.First }},
	{ID: "thickness", Kind: Fine,
		within: fixed(machine.Thickness), at: func(s *State) *float64 { return &s.Job.Thickness }},
	{ID: "along", Kind: Length,
		within: fixed(machine.QuiltSide), at: func(s *State) *float64 { return &s.Job.Along }},
	{ID: "across", Kind: Length,
		within: fixed(machine.QuiltSide), at: func(s *State) *float64 { return &s.Job.Across }},
	{ID: "rows", Kind: Whole, within: fixed(machine.RowCount)},
	{ID: "left", Kind: Length,
		within: fixed(machine.TableSide), at: func(s *State) *float64 { return &s.Mine.Left }},
	{ID: "behind", Kind: Length,
		within: fixed(machine.TableSide), at: func(s *State) *float64 { return &s.Mine.Behind }},
	{ID: "front", Kind: Length,
		within: fixed(machine.TableSide), at: func(s *State) *float64 { return &s.Mine.Front }},
	{ID: "ruler", Kind: Fine, Optional: true,
		within: fixed(machine.RulerThickness), at: func(s *State) *float64 { return &s.Mine.Ruler }},
	{ID: "offset", Kind: Length,
		within: fixed(machine.RulerOffset), at: func(s *State) *float64 { return &s.Mine.Offset }},
	{ID: "spacing", Kind: Length,
		within: fixed(machine.DotSpacing), at: func(s *State) *float64 { return &s.Job.Spacing }},
	{ID: "stop", unit: "s", Kind: Number,
		within: fixed(inner(machine.StopTime)), at: func(s *State) *float64 { return &s.Mine.Assumed.Stop }},
	{ID: "halt", unit: "s", Kind: Number,
		within: fixed(inner(machine.HaltTime)), at: func(s *State) *float64 { return &s.Mine.Assumed.Halt }},
	{ID: "bobbin-time", unit: "s", Kind: Number,
		within: fixed(inner(machine.BobbinTime)), at: func(s *State) *float64 { return &s.Mine.Assumed.Bobbin }},
	{ID: "turn-time", unit: "s", Kind: Number,
		within: fixed(inner(machine.TurnTime)), at: func(s *State) *float64 { return &s.Mine.Assumed.Turn }},
	{ID: "mark-time", unit: "s", Kind: Number,
		within: fixed(inner(machine.MarkTime)), at: func(s *State) *float64 { return &s.Mine.Assumed.Mark }},
	{ID: "marked", unit: "percent", Kind: Share,
		within: fixed(machine.Share), at: func(s *State) *float64 { return &s.Mine.Assumed.Marked }},
	{ID: "reserve", unit: "percent", Kind: Share,
		within: fixed(machine.Reserve), at: func(s *State) *float64 { return &s.Mine.Assumed.Reserve }},
	{ID: "waste", Kind: Length,
		within: fixed(inner(machine.Waste)), at: func(s *State) *float64 { return &s.Mine.Assumed.Waste }},
	{ID: "evening", unit: "min", Kind: Minutes,
		within: fixed(inner(machine.EveningTime)), at: func(s *State) *float64 { return &s.Mine.Assumed.Evening }},
	{ID: "loose", unit: "fold", Kind: Number,
		within: fixed(machine.LooseRoll), at: func(s *State) *float64 { return &s.Mine.Assumed.Loose }},
	{ID: "needle", unit: "spm", Kind: Number,
		within: ofTrio(machine.NeedlePart), part: machine.NeedlePart},
	{ID: "hand", Kind: Hand,
		within: ofTrio(machine.HandPart), part: machine.HandPart},
	{ID: "stitch", Kind: Stitch,
		within: ofTrio(machine.StitchPart), part: machine.StitchPart},
}

// FindField returns the field with the given ID.
func FindField(id string) (Field, bool) {
	for _, f := range fields {
		if f.ID == id {
			return f, true
		}
	}
	return Field{}, false
}

// get and set read and write the field's value in mm, spm or shares.
func (f Field) get(s State) float64 {
	switch {
	case f.part != "":
		return s.Trio.Of(f.part)
	case f.at == nil:
		return float64(s.Job.Rows)
	}
	return *f.at(&s)
}

func (f Field) set(s *State, v float64) error {
	switch {
	case f.part != "":
		// To type the one that was worked out asks for another.
		s.Trio.Follows = s.Trio.Moved(f.part)
		var err error
		s.Trio, err = s.Trio.With(f.part, v)
		return err
	case f.at == nil:
		s.Job.Rows = int(v)
	default:
		*f.at(s) = v
	}
	return nil
}
