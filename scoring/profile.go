package scoring

import (
	"math"

	"unthreaded/scoring/trace"
)

// profileStep is the spacing in mm of the places of a profile, about a stitch.
const profileStep = 2.0

// Profile holds the measures as functions of the place on the line: entry k of
// each list stands for the piece from k*Step to (k+1)*Step mm.
type Profile struct {
	Step float64
	// Passes is how often the movement went over most of the piece within the
	// tolerance: 0 is missed, more than 1 doubled.
	Passes []int
	// Known tells that the hand was there, so that the next three are defined.
	Known []bool
	// Offset is the mean distance in mm beside the line, positive to the right;
	// Speed in mm/s and Stitch in mm are the means.
	Offset, Speed, Stitch []float64
	// Bend is the curvature of the line in 1/mm, positive clockwise to the eye.
	Bend []float64
}

func (r *run) profile() Profile {
	n := max(1, int(math.Ceil(r.line.Length()/profileStep)))
	p := Profile{
		Step: r.line.Length() / float64(n), Passes: make([]int, n), Known: make([]bool, n),
		Offset: make([]float64, n), Speed: make([]float64, n), Stitch: make([]float64, n), Bend: make([]float64, n),
	}
	time := make([]float64, n)
	for i, place := range r.m.Place {
		k := min(n-1, int(place/p.Step))
		if !r.matched(i) {
			continue
		}
		w := r.weight(i)
		time[k] += 1 / r.p.Rate
		p.Speed[k] += w
		p.Offset[k] += w * r.m.Offset[i]
	}
	for k := range time {
		mid := (float64(k) + 0.5) * p.Step
		p.Passes[k] = r.cover.counts[min(len(r.cover.counts)-1, int(mid/r.cover.step))]
		p.Bend[k] = r.bends.at(mid)
		if p.Known[k] = p.Speed[k] > 0; !p.Known[k] {
			continue
		}
		p.Offset[k] /= p.Speed[k]
		p.Speed[k] /= time[k]
		if r.set.SPM > 0 && r.set.SPM <= trace.MaxSPM {
			p.Stitch[k] = 60 * p.Speed[k] / r.set.SPM
		}
	}
	return p
}
