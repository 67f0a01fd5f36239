package machine

import (
	"math"
	"testing"
)

// The width right of the needle is all that a fit depends on: a row fits as FitRight does with
// what lies right of it, and the roll is that of RollDiameter (the area of its end is that of
// the core and of the sheet).
func TestFitRightIsThatOfARow(t *testing.T) {
	top := Top{Along: 1500, Across: 1800, Thickness: Thickness.Usual, Core: Core.Usual, Packing: Packing.Usual, Density: ArealDensity.Usual}
	for r := range 6 {
		top.Rows = append(top.Rows, Band{300 * float64(r), 300 * float64(r+1)})
	}
	th := Throat{Width: 200, Height: 120, Hand: 50}
	for r := range top.Rows {
		for _, turned := range []bool{false, true} {
			row := top.fit(th, r, turned)
			f, err := FitRight(top, th, row.Right)
			if err != nil {
				t.Fatal(err)
			}
			if f.Row != -1 || f.Roll != row.Roll || f.Bunch != row.Bunch || f.Rolls != row.Rolls || f.Bunches != row.Bunches {
				t.Errorf("row %d: %+v, but FitRight tells %+v", r, row, f)
			}
			if want := RollDiameter(row.Right, top.rolled(), top.Core); math.Abs(f.Roll-want) > 1e-9 {
				t.Errorf("row %d: a roll of %v mm, want %v", r, f.Roll, want)
			}
		}
	}
	if _, err := FitRight(top, th, -1); err == nil {
		t.Error("less than nothing lies right of the needle")
	}
}
