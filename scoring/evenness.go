package scoring

import "gonum.org/v1/gonum/stat"

// NearShare is the share by which a stitch may differ from the target and still
// count as near it: 2.0 to 3.0 mm for a target of 2.5 mm.
const NearShare = 0.20

// VeryEven is the coefficient of variation of the stitch lengths up to which they are very
// even. Ours: relaxed hand-drawn curves vary by 0.24 to 0.57.
const VeryEven = 0.15

// Evenness tells how alike the stitches are. Both ends of the movement and of
// each hold, the surroundings of corners and dots, and gaps are left out.
type Evenness struct {
	// SpeedCV is the coefficient of variation (standard deviation over mean) of
	// the hand's speed, without the part that rounding to pixels adds.
	SpeedCV Figure `json:"speed_cv"`
	// SpeedNoise is that part. Differences of SpeedCV below it say nothing.
	SpeedNoise Figure `json:"speed_noise_cv"`
	// SpacingCV is that of the stitch lengths, again without the noise.
	SpacingCV Figure `json:"spacing_cv"`
	// StitchMM is the mean stitch length in mm.
	StitchMM Figure `json:"stitch_mm"`
	// NearTarget is the share, 0 to 1, of stitches within NearShare of the
	// target.
	NearTarget Figure `json:"near_target"`
	// Stitches is the number of stitches these figures stand on.
	Stitches int `json:"stitches"`
}

func (r *run) evenness() Evenness {
	var e Evenness
	e.SpeedCV, e.SpeedNoise = r.speedCV()
	lengths := r.stitches()
	e.Stitches = len(lengths)
	if len(lengths) < 3 {
		why := undefined(FewStitches)
		e.SpacingCV, e.StitchMM, e.NearTarget = why, why, why
		return e
	}
	e.StitchMM = figure(stat.Mean(lengths, nil))
	e.SpacingCV = quiet(lengths, r.noise.stitch)
	e.NearTarget = undefined(NoPlan)
	if r.set.TargetMM > 0 {
		e.NearTarget = figure(shareWithin(lengths, r.set.TargetMM, NearShare))
	}
	return e
}

func (r *run) speedCV() (cv, floor Figure) {
	v := r.cruising()
	if len(v) < int(0.5*r.p.Rate) {
		why := undefined(TooShort)
		return why, why
	}
	cv = quiet(v, r.noise.speed)
	if mean := stat.Mean(v, nil); mean > 0 {
		return cv, figure(r.noise.speed / mean)
	}
	return cv, cv
}

// counted returns the indices of the falls that end a stitch which counts for
// evenness from end to end.
func (r *run) counted() []int {
	var out []int
	for k := 1; k < len(r.falls); k++ {
		a, b := r.falls[k-1].T, r.falls[k].T
		if !r.falls[k].Gap && !r.pausedIn(a, b) && r.cruise[r.index(a)] && r.cruise[r.index(b)] {
			out = append(out, k)
		}
	}
	return out
}

// stitches returns the lengths in mm of the stitches that count for evenness.
func (r *run) stitches() []float64 {
	var out []float64
	for _, k := range r.counted() {
		out = append(out, r.falls[k].Length)
	}
	return out
}
