package place

import "math"

// Third names which of the three speeds follows from the other two: stitch length
// in mm = 60 x hand speed in mm/s / needle speed in stitches per minute.
type Third string

// The three.
const (
	HandFollows   Third = "hand"
	NeedleFollows Third = "needle"
	StitchFollows Third = "stitch"
)

// HandSpeed returns the speed of the hand in mm/s that makes the planned stitches
// at the needle speed: length x spm / 60.
func (s Settings) HandSpeed() float64 { return s.StitchMM * s.SPM / 60 }

// WithSPM sets the needle speed. Where the stitch length follows, the hand speed
// stays, and the needle speed goes no farther than the stitches can follow.
func (s Settings) WithSPM(spm float64) Settings {
	spm = ClampOr(spm, MinSPM, MaxSPM, s.SPM)
	if s.Follows == StitchFollows {
		hand := s.HandSpeed()
		spm = ClampOr(spm, 60*hand/MaxStitch, 60*hand/MinStitch, s.SPM)
		s.StitchMM = Within(60*hand/spm, MinStitch, MaxStitch)
	}
	s.SPM = Within(spm, MinSPM, MaxSPM)
	return s
}

// WithStitch sets the stitch length in mm. Where the needle speed follows, the
// hand speed stays.
func (s Settings) WithStitch(mm float64) Settings {
	mm = ClampOr(mm, MinStitch, MaxStitch, s.StitchMM)
	if s.Follows == NeedleFollows {
		hand := s.HandSpeed()
		mm = ClampOr(mm, 60*hand/MaxSPM, 60*hand/MinSPM, s.StitchMM)
		s.SPM = Within(60*hand/mm, MinSPM, MaxSPM)
	}
	s.StitchMM = Within(mm, MinStitch, MaxStitch)
	return s
}

// WithHand sets the hand speed in mm/s: the needle follows where it should, else
// the stitch length.
func (s Settings) WithHand(mmPerS float64) Settings {
	if math.IsNaN(mmPerS) {
		return s
	}
	if s.Follows == NeedleFollows {
		s.SPM = Within(60*mmPerS/s.StitchMM, MinSPM, MaxSPM)
		return s
	}
	s.StitchMM = Within(60*mmPerS/s.SPM, MinStitch, MaxStitch)
	return s
}

// Within returns v within [lo, hi].
func Within(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }
