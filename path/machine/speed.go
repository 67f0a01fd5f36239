package machine

import (
	"fmt"
)

// Pair holds what belongs together while sewing: a needle speed in spm, a hand
// speed in mm/s and the stitch length in mm that they make: 60 x hand / spm.
type Pair struct{ SPM, Hand, Stitch float64 }

// PairFrom completes a pair of which exactly one value is 0. It fails where two
// are not given, where a given one is out of its range, and where the third comes
// out of its own.
func PairFrom(p Pair) (Pair, error) {
	type field struct {
		at  *float64
		r   Range
		now func() float64
	}
	fields := []field{
		{&p.SPM, NeedleSpeed, func() float64 { return 60 * p.Hand / p.Stitch }},
		{&p.Hand, HandSpeed, func() float64 { return p.SPM * p.Stitch / 60 }},
		{&p.Stitch, StitchLength, func() float64 { return 60 * p.Hand / p.SPM }},
	}
	open := -1
	given := 0
	for i, f := range fields {
		if *f.at == 0 {
			open = i
			continue
		}
		given++
		if err := f.r.Check(*f.at); err != nil {
			return Pair{}, err
		}
	}
	if given != 2 {
		return Pair{}, fmt.Errorf("%d of needle speed, hand speed and stitch length are given: it takes 2, and 0 for the third", given)
	}
	*fields[open].at = fields[open].now()
	if err := fields[open].r.Check(*fields[open].at); err != nil {
		return Pair{}, fmt.Errorf("these do not go together: %w", err)
	}
	return p, nil
}

// NeedleRange is the needle speed that a machine can keep, in spm.
type NeedleRange struct{ Min, Max float64 }

// Validate reports the limit that cannot be.
func (n NeedleRange) Validate() error {
	slowest, fastest := NeedleSpeed.Called("slowest needle speed"), NeedleSpeed.Called("fastest needle speed")
	fastest.Min = n.Min
	return checkAll(entry{n.Min, slowest}, entry{n.Max, fastest})
}

// SpeedRow is a line of the table: the hand speeds in mm/s, one for each stitch
// length, at one needle speed.
type SpeedRow struct {
	SPM  float64
	Hand []float64
}

// SpeedStep is the range of the step between two rows of the table.
var SpeedStep = Range{"step of the needle speed", "spm", 10, 500, 100}

// SpeedTable returns rows from the slowest needle speed in steps of step spm up to
// the fastest, which has a row in any case, for stitch lengths in mm.
func SpeedTable(n NeedleRange, step float64, stitches []float64) ([]SpeedRow, error) {
	if err := n.Validate(); err != nil {
		return nil, err
	}
	if err := SpeedStep.Check(step); err != nil {
		return nil, err
	}
	for i, s := range stitches {
		if err := StitchLength.Check(s); err != nil {
			return nil, fmt.Errorf("stitch length %d: %w", i, err)
		}
	}
	var out []SpeedRow
	for k := 0; ; k++ {
		spm := min(n.Min+float64(k)*step, n.Max)
		row := SpeedRow{SPM: spm}
		for _, s := range stitches {
			row.Hand = append(row.Hand, spm*s/60)
		}
		out = append(out, row)
		if spm >= n.Max {
			return out, nil
		}
	}
}
