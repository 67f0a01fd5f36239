package machine

import "fmt"

// NeedleRange is the needle speed that a machine can keep, in spm.
type NeedleRange struct{ Min, Max float64 }

// Validate reports the limit that cannot be.
func (n NeedleRange) Validate() error {
	slowest, fastest := NeedleSpeed.Called("slowest-needle-speed"), NeedleSpeed.Called("fastest-needle-speed")
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
var SpeedStep = Range{"step-of-the-needle-speed", "spm", 10, 500, 100}

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
