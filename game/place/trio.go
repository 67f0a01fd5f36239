package place

import (
	"math"

	"unthreaded/path/machine"
)

// Third names which of the three speeds follows from the other two.
type Third = machine.Part

// The three.
const (
	HandFollows   = machine.HandPart
	NeedleFollows = machine.NeedlePart
	StitchFollows = machine.StitchPart
)

// Triangle returns needle, hand and stitch as they are set.
func (s Settings) Triangle() machine.Triangle {
	return machine.Triangle{SPM: s.SPM, Stitch: s.StitchMM, Follows: s.Follows}
}

// WithTriangle takes needle speed and stitch length over, both as they are; which part
// follows stays as she chose.
func (s Settings) WithTriangle(t machine.Triangle) Settings {
	s.SPM, s.StitchMM = t.SPM, t.Stitch
	return s
}

// HandSpeed returns the speed of the hand in mm/s that makes the planned stitches
// at the needle speed.
func (s Settings) HandSpeed() float64 { return s.Triangle().Hand() }

// WithSPM sets the needle speed, as far as what follows can go; so do WithStitch the
// stitch length in mm and WithHand the hand speed in mm/s.
func (s Settings) WithSPM(spm float64) Settings { return s.with(machine.NeedlePart, spm) }

// WithStitch sets the stitch length.
func (s Settings) WithStitch(mm float64) Settings { return s.with(machine.StitchPart, mm) }

// WithHand sets the hand speed.
func (s Settings) WithHand(mmPerS float64) Settings { return s.with(machine.HandPart, mmPerS) }

func (s Settings) with(p machine.Part, v float64) Settings {
	return s.WithTriangle(s.Triangle().Nearest(p, v))
}

// Within returns v within [lo, hi].
func Within(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }
