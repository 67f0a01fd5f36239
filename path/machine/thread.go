package machine

import "math"

// Seam is a length of lockstitch (ISO 4915, stitch type 301) in a quilt sandwich.
type Seam struct {
	// Length is that of the line in mm, travelled parts included; Stitch the stitch
	// length and Thickness that of the layers under the foot, in mm.
	Length, Stitch, Thickness float64
	// Starts is the number of pieces, each with a start and an end.
	Starts int
	// Waste is the thread in mm left on each side for a start and its end, Reserve
	// the share added to all.
	Waste, Reserve float64
}

// UsualSeam returns a seam of that length with the usual stitch, thickness, waste
// and reserve, begun once.
func UsualSeam(length float64) Seam {
	return Seam{Length: length, Stitch: StitchLength.Usual, Thickness: Thickness.Usual,
		Starts: 1, Waste: Waste.Usual, Reserve: Reserve.Usual}
}

// Thread is what a seam takes, in mm of thread.
type Thread struct {
	Stitches int
	// Top and Bobbin are all that has to be at hand on either side; Waste and
	// Reserve are the parts of it, on each side, that do not go into stitches.
	Top, Bobbin, Waste, Reserve float64
}

// PerMM returns the thread in mm on each side for each mm of seam: each stitch
// takes its own length and, where the tension is balanced, the thickness of the
// layers once, since either thread goes half way through and back.
func (s Seam) PerMM() float64 { return 1 + s.Thickness/s.Stitch }

// Ratio returns the length of thread, both sides together, over that of the seam.
// Hand-books of the clothing trade give about 2.5 for thin cloth (from memory).
func (s Seam) Ratio() float64 { return 2 * s.PerMM() }

// Validate reports the first value out of its range.
func (s Seam) Validate() error {
	return checkAll(entry{s.Length, LineLength}, entry{s.Stitch, StitchLength}, entry{s.Thickness, Thickness},
		entry{float64(s.Starts), Count.Called("number-of-starts")}, entry{s.Waste, Waste}, entry{s.Reserve, Reserve})
}

// Thread returns the thread that the seam takes. Tension out of balance draws more
// from one side and as much less from the other.
func (s Seam) Thread() (Thread, error) {
	if err := s.Validate(); err != nil {
		return Thread{}, err
	}
	n := math.Ceil(s.Length/s.Stitch - 1e-9)
	waste := float64(s.Starts) * s.Waste
	used := n*(s.Stitch+s.Thickness) + waste
	reserve := used * s.Reserve
	return Thread{Stitches: int(n), Top: used + reserve, Bobbin: used + reserve, Waste: waste, Reserve: reserve}, nil
}
