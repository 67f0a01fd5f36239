package trace

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// UnitError tells that a file gives no length to its places, and what unit would make a
// page of it.
type UnitError struct {
	// Width and Height are those of the ink in the file's own units.
	Width, Height float64
	// GuessMM is the size in mm that one such unit most likely has.
	GuessMM float64
}

func (e *UnitError) Error() string {
	return fmt.Sprintf("the places have no unit of length: the ink is %.4g x %.4g units large", e.Width, e.Height)
}

// usualUnits are units in mm in which programs count without saying so: of 0.01 mm, of
// 1/1440, 1/1000, 1/96 and 1/72 in, of 0.1 and of 1 mm (common practice).
var usualUnits = []float64{0.01, 25.4 / 1440, 0.0254, 0.1, 25.4 / 96, 25.4 / 72, 1}

// pageMM is the longer side in mm of ink that fills half a sheet of paper, which most
// pages of ink do (ours): A4 is 210 x 297 mm (ISO 216).
const pageMM = 148.5

// unitError guesses the unit that makes the ink nearest to half a sheet of paper.
func unitError(low, high geom.Point) *UnitError {
	e := &UnitError{Width: high.X - low.X, Height: high.Y - low.Y}
	long, nearest := max(e.Width, e.Height), math.Inf(1)
	for _, unit := range usualUnits {
		if d := math.Abs(math.Log(long * unit / pageMM)); d < nearest {
			nearest, e.GuessMM = d, unit
		}
	}
	if e.GuessMM == 0 { // a single point
		e.GuessMM = 25.4 / 96
	}
	return e
}
