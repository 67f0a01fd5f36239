package machine

import "math"

// Part names one of the three that belong together while sewing.
type Part string

// The parts of a Triangle.
const (
	NeedlePart Part = "needle"
	HandPart   Part = "hand"
	StitchPart Part = "stitch"
)

// Triangle holds a needle speed in spm and a stitch length in mm, and with them the
// hand speed in mm/s that makes such stitches: stitch x spm / 60. Where one of the
// three is set, another one follows and the third stays.
//
// Its limits are NeedleSpeed, HandSpeed and StitchLength. The hand speed of any needle
// speed and stitch length within theirs is within its own.
type Triangle struct {
	SPM, Stitch float64
	// Follows is the part that follows when one of the others is set.
	Follows Part
}

// Hand returns the hand speed in mm/s.
func (t Triangle) Hand() float64 { return t.Stitch * t.SPM / 60 }

// Of returns the value of a part.
func (t Triangle) Of(p Part) float64 {
	switch p {
	case NeedlePart:
		return t.SPM
	case StitchPart:
		return t.Stitch
	}
	return t.Hand()
}

// Valid tells whether all three are within their limits.
func (t Triangle) Valid() bool {
	return NeedleSpeed.Check(t.SPM) == nil && StitchLength.Check(t.Stitch) == nil && HandSpeed.Check(t.Hand()) == nil
}

// Moved returns the part that follows when p is set: Follows or, where that is p itself,
// the hand, and for the hand the needle.
func (t Triangle) Moved(p Part) Part {
	switch {
	case t.Follows != p:
		return t.Follows
	case p == HandPart:
		return NeedlePart
	}
	return HandPart
}

// Range returns what a part can be set to while what follows stays within its limits.
func (t Triangle) Range(p Part) Range {
	r, other := limits(p), limits(t.Moved(p))
	a, b := t.answer(p, other.Min), t.answer(p, other.Max)
	r.Min, r.Max = math.Max(r.Min, math.Min(a, b)), math.Min(r.Max, math.Max(a, b))
	return r
}

// answer returns the value of part p for which the part that follows it is v.
func (t Triangle) answer(p Part, v float64) float64 {
	switch moved := t.Moved(p); {
	case p == HandPart && moved == NeedlePart:
		return v * t.Stitch / 60
	case p == HandPart:
		return v * t.SPM / 60
	case moved == HandPart && p == NeedlePart:
		return 60 * v / t.Stitch
	case moved == HandPart:
		return 60 * v / t.SPM
	}
	return 60 * t.Hand() / v // needle and stitch follow each other
}

// With sets a part. The error says what it can be.
func (t Triangle) With(p Part, v float64) (Triangle, error) {
	if err := t.Range(p).Check(v); err != nil {
		return t, err
	}
	return t.Nearest(p, v), nil
}

// Nearest sets a part to what it can be next to v. What is no number changes nothing.
func (t Triangle) Nearest(p Part, v float64) Triangle {
	r := t.Range(p)
	if math.IsNaN(v) || !(r.Min <= r.Max) {
		return t
	}
	v = r.clamp(v)
	hand := t.Hand()
	switch moved := t.Moved(p); {
	case p == NeedlePart:
		t.SPM = v
		if moved == StitchPart {
			t.Stitch = 60 * hand / v
		}
	case p == StitchPart:
		t.Stitch = v
		if moved == NeedlePart {
			t.SPM = 60 * hand / v
		}
	case moved == NeedlePart:
		t.SPM = 60 * v / t.Stitch
	default:
		t.Stitch = 60 * v / t.SPM
	}
	// Rounding leads no part over its end.
	t.SPM, t.Stitch = NeedleSpeed.clamp(t.SPM), StitchLength.clamp(t.Stitch)
	return t
}

func limits(p Part) Range {
	switch p {
	case NeedlePart:
		return NeedleSpeed
	case StitchPart:
		return StitchLength
	}
	return HandSpeed
}

// clamp returns what of the range is next to v.
func (r Range) clamp(v float64) float64 { return math.Max(r.Min, math.Min(r.Max, v)) }
