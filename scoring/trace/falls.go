package trace

import "unthreaded/path/geom"

// MaxSPM is the highest needle rate, in stitches per minute, that is computed:
// several times that of any sewing machine.
const MaxSPM = 10000

// Fall is one place at which the needle goes down.
type Fall struct {
	// T is the time in seconds, P the place in mm.
	T float64
	P geom.Point
	// Length is the arc length in mm since the previous fall; 0 for the first.
	Length float64
	// Gap tells that the movement since the previous fall was not wholly
	// recorded, so that Length is a lower bound and no measure should use it.
	Gap bool
}

// Falls returns the places at which the needle goes down at spm stitches per
// minute, the first at the start of the trace. There are none unless
// 0 < spm <= MaxSPM. Cost O(falls).
func (p Prepared) Falls(spm float64) []Fall {
	if !(spm > 0 && spm <= MaxSPM) {
		return nil
	}
	step := 60 / spm
	n := int(p.Duration()/step+1e-9) + 1
	out := make([]Fall, n)
	gap := 0
	var arc float64
	for k := range out {
		t := p.T0 + float64(k)*step
		a := p.ArcAt(t)
		out[k] = Fall{T: t, P: p.At(t), Length: a - arc}
		for gap < len(p.Gaps) && p.Gaps[gap].To <= t-step {
			gap++
		}
		out[k].Gap = k > 0 && gap < len(p.Gaps) && p.Gaps[gap].From < t
		arc = a
	}
	return out
}
