package progress

import (
	"math"
	"testing"
)

// The slope of 1, 2, 1.3, 1.9 and so on over the roots, worked by the formulas of ordinary
// least squares; t with 2 degrees of freedom is beyond x with the chance
// (1 - x/sqrt(2 + x^2))/2 to one side (closed form).
func TestDriftAgainstTheClosedForm(t *testing.T) {
	x := []float64{1, 2, 1.3, 2.4}
	var mr, mx float64
	for i, v := range x {
		mr, mx = mr+math.Sqrt(float64(i+1))/4, mx+v/4
	}
	var xy, xx, left float64
	for i, v := range x {
		d := math.Sqrt(float64(i+1)) - mr
		xy, xx = xy+d*(v-mx), xx+d*d
	}
	for i, v := range x {
		left += math.Pow(v-mx-xy/xx*(math.Sqrt(float64(i+1))-mr), 2)
	}
	tt := xy / xx / math.Sqrt(left/2/xx)
	tail := (1 - tt/math.Sqrt(2+tt*tt)) / 2
	near(t, "chance of the drift", math.Erfc(Drift(x)/math.Sqrt2)/2, tail, 1e-9)
	down := []float64{-1, -2, -1.3, -2.4}
	near(t, "drift upside down", Drift(down), -Drift(x), 1e-12)
	if Drift([]float64{1, 1, 1, 1, 1}) != 0 || Drift(x[:3]) != 0 || math.Abs(Drift([]float64{1, math.Sqrt(2), math.Sqrt(3), 2, math.Sqrt(5)})) < 7 {
		t.Error("scores all alike, too few, and on the curve itself")
	}
}
