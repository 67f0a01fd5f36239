package words

import (
	"math"
	"strconv"
)

// Sizes of what is pieced add up, so they are written so that sums never contradict each
// other.
type (
	// SizeMM is a size in mm as it is: to the sixteenth or the hundredth of an inch, or to
	// the tenth of a mm, where it is that; else to the hundredth or tenth, with "about".
	SizeMM float64
	// CutMM is a size in mm to be cut, rounded up to the eighth of an inch or the whole mm,
	// as handbooks do, so that nothing comes out too small.
	CutMM float64
)

// trueMM is how far in mm a size may be from what is written without "about": a hundredth
// of what a cutter sees, so that a hundred of them still add up.
const trueMM = 0.001

func (v SizeMM) in(b Book) string {
	size := func(number string) string { return b.Say("unit.length-mm", number) }
	unit, step := 1.0, 10.0
	if b.Inches {
		unit, step = mmPerInch, 100
		size = func(number string) string { return b.Say("unit.length-in", number) }
		if n := float64(v) / unit * 16; math.Abs(n-math.Round(n))*unit/16 < trueMM {
			return size(Mixed(float64(v)/unit, 16))
		}
	}
	near := math.Round(float64(v)/unit*step) / step
	text := size(b.pointed(strconv.FormatFloat(near, 'f', -1, 64)))
	if math.Abs(near*unit-float64(v)) < trueMM {
		return text
	}
	return b.Say("unit.about", text)
}

func (v CutMM) in(b Book) string { return SizeMM(v.Rounded(b)).in(b) }

// Rounded is the size in mm that is cut.
func (v CutMM) Rounded(b Book) float64 {
	step := 1.0
	if b.Inches {
		step = mmPerInch / 8
	}
	return step * math.Ceil((float64(v)-trueMM)/step)
}
