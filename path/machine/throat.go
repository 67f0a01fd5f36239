package machine

import (
	"fmt"
	"math"
)

// Band is a row of a top: from its near to its far border, in mm from the first
// edge of the quilt. Anywhere in it the needle may have to go.
type Band struct{ From, To float64 }

// Top is a quilt that is sewn row by row.
type Top struct {
	// Along is the side of the quilt along the rows, Across that across them, in mm.
	Along, Across float64
	// Rows ascend from the first edge and do not overlap.
	Rows []Band
	// Thickness is that of the sandwich, Core the diameter that a roll begins with,
	// in mm; Packing the share of its outline that a bunched quilt fills; Density
	// the weight in g/m2.
	Thickness, Core, Packing, Density float64
	// Loose is how many times thicker than under the foot a layer is in the roll, the
	// air between its turns included; 0 stands for LooseRoll.Usual.
	Loose float64
}

// rolled returns the thickness in mm of a layer in the roll.
func (t Top) rolled() float64 {
	if t.Loose == 0 {
		return t.Thickness * LooseRoll.Usual
	}
	return t.Thickness * t.Loose
}

// Validate reports the first value that cannot be.
func (t Top) Validate() error {
	if err := checkAll(entry{t.Along, QuiltSide.Called("side-along-the-rows")}, entry{t.Across, QuiltSide.Called("side-across-the-rows")},
		entry{t.Thickness, Thickness}, entry{t.Core, Core}, entry{t.Packing, Packing}, entry{t.Density, ArealDensity},
		entry{float64(len(t.Rows)), RowCount}); err != nil {
		return err
	}
	if t.Loose != 0 {
		if err := LooseRoll.Check(t.Loose); err != nil {
			return err
		}
	}
	end := 0.0
	for i, r := range t.Rows {
		if !(r.From >= end-joinMM && r.To >= r.From && r.To <= t.Across+joinMM) {
			return fmt.Errorf("row %d: from %v to %v mm does not lie between %v and %v mm", i, r.From, r.To, end, t.Across)
		}
		end = r.To
	}
	return nil
}

// Throat is the room right of the needle, in mm: Width to the pillar, Height up to
// the arm. Hand is kept free between the needle and the roll.
type Throat struct{ Width, Height, Hand float64 }

// Validate reports the first value out of its range; 20 mm at least must remain
// beside the hand.
func (th Throat) Validate() error {
	hand := HandRoom
	hand.Max = min(hand.Max, th.Width-20)
	return checkAll(entry{th.Width, ThroatWidth}, entry{th.Height, ThroatHeight}, entry{th.Hand, hand})
}

// RollDiameter returns the diameter in mm of a roll of width w and thickness t
// round a core, all in mm: the area of its end is that of the core and of the
// sheet, so that it is sqrt(4wt/pi + core^2). In a roll by hand a layer is thicker than
// under the foot: see Top.Loose.
func RollDiameter(w, t, core float64) float64 {
	return math.Sqrt(4*w*t/math.Pi + core*core)
}

// room returns the largest roll in mm and the largest area in mm2 of a bunch.
func (th Throat) room() (roll, bunch float64) {
	return min(th.Width-th.Hand, th.Height), (th.Width - th.Hand) * th.Height
}

// Fit is a row under the needle.
type Fit struct {
	// Row indexes Top.Rows. Turned is true where the first edge lies on the left,
	// the quilt turned half way.
	Row    int
	Turned bool
	// Right is the width of the quilt right of the needle in mm, at worst in this
	// row; Roll its diameter when rolled, Bunch its area in mm2 when bunched.
	Right, Roll, Bunch float64
	// Rolls and Bunches tell whether it goes through that way.
	Rolls, Bunches bool
}

// fit measures a row; t and th are valid.
func (t Top) fit(th Throat, row int, turned bool) Fit {
	right := t.Rows[row].To
	if turned {
		right = t.Across - t.Rows[row].From
	}
	f := t.fitRight(th, min(max(right, 0), t.Across))
	f.Row, f.Turned = row, turned
	return f
}

// FitRight measures the quilt with so many mm of it right of the needle, in whatever
// direction it is sewn; Fit.Row is -1.
func FitRight(t Top, th Throat, right float64) (Fit, error) {
	if err := t.Validate(); err != nil {
		return Fit{}, err
	}
	if err := th.Validate(); err != nil {
		return Fit{}, fmt.Errorf("throat: %w", err)
	}
	if err := (Range{"width-right-of-the-needle", "mm", 0, QuiltSide.Max, 0}).Check(right); err != nil {
		return Fit{}, err
	}
	f := t.fitRight(th, right)
	f.Row = -1
	return f, nil
}

func (t Top) fitRight(th Throat, right float64) Fit {
	f := Fit{Right: right}
	f.Roll = RollDiameter(f.Right, t.rolled(), t.Core)
	f.Bunch = f.Right * t.Thickness / t.Packing
	roll, bunch := th.room()
	f.Rolls, f.Bunches = f.Roll <= roll, f.Bunch <= bunch
	return f
}
