package sketch

import (
	"fmt"
	"math"
	"strconv"
)

const mmPerInch = 25.4

// Graduation is the finest mark of the ruler that dots are measured with.
type Graduation string

// The graduations.
const (
	EighthInch     Graduation = "1/8 in"
	SixteenthInch  Graduation = "1/16 in"
	Millimetre     Graduation = "1 mm"
	HalfMillimetre Graduation = "1/2 mm"
)

// parts returns the unit of the graduation in mm, its name, and into how many parts
// it is divided; 0 parts for a graduation that there is not.
func (g Graduation) parts() (unit float64, name string, parts int) {
	switch g {
	case EighthInch:
		return mmPerInch, "in", 8
	case SixteenthInch:
		return mmPerInch, "in", 16
	case Millimetre:
		return 1, "mm", 1
	case HalfMillimetre:
		return 1, "mm", 2
	}
	return 1, "", 0
}

// Mark is one length to be set off with a ruler.
type Mark struct {
	// Exact is the length wanted in mm, Marked the one on the ruler, and Error how
	// much too far that is (less than 0: too near).
	Exact, Marked, Error float64
	// Text is Marked in the ruler's unit: "1 3/8 in", "34 1/2 mm".
	Text string
}

// mark rounds a length to the graduation, a half upwards, also where arithmetic left
// it a hair below.
func (g Graduation) mark(exact float64) Mark {
	unit, _, parts := g.parts()
	const hair = 1e-9
	return g.set(exact, int(math.Floor(exact/unit*float64(parts)+0.5+hair)))
}

// set is the mark at n graduations for the exact length.
func (g Graduation) set(exact float64, n int) Mark {
	unit, name, parts := g.parts()
	marked := float64(n) * unit / float64(parts)
	return Mark{exact, marked, marked - exact, mixed(n, parts) + " " + name}
}

// mixed writes n/parts as a reduced mixed number, parts being a power of two.
func mixed(n, parts int) string {
	whole, part := n/parts, n%parts
	for part > 0 && part%2 == 0 {
		part, parts = part/2, parts/2
	}
	switch {
	case part == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d", part, parts)
	}
	return fmt.Sprintf("%d %d/%d", whole, part, parts)
}

// Marking tells how to set off evenly spaced dots with a ruler in two ways: one dot
// after another with one rounded space, whose errors add up, or each from the start
// of the line and rounded by itself, with an error of half a graduation at most.
type Marking struct {
	// First is the way from the start of the line to the first dot, Space that from
	// dot to dot; Space.Error is what each step adds to the error.
	First, Space Mark
	// Stepped are the dots set off with First and Space; their errors have added up.
	Stepped []Mark
	// Measured are the dots each measured from the start of the line.
	Measured []Mark
	// WorstStepped and WorstMeasured are the largest errors in mm, without sign.
	WorstStepped, WorstMeasured float64
	// OnEnd tells that the first dot lies on the end of the line.
	OnEnd bool
}

// MarkDots returns the marking of n evenly spaced dots on a line of the given length
// in mm. It fails, besides for what EvenDots fails for, on dots so close that their
// space is nothing on the ruler. Cost O(n).
func MarkDots(length float64, n int, spread Spread, g Graduation) (Marking, error) {
	at, err := EvenDots(length, n, spread)
	if err != nil {
		return Marking{}, err
	}
	unit, _, parts := g.parts()
	if parts == 0 {
		return Marking{}, fmt.Errorf("no graduation is called %q", g)
	}
	_, space, _ := spacing(length, n, spread)
	m := Marking{First: g.mark(at[0]), Space: g.mark(space)}
	if m.Space.Marked == 0 {
		return Marking{}, fmt.Errorf("dots %.2f mm apart are nothing on a ruler of %s", space, g)
	}
	graduation := unit / float64(parts)
	first, step := int(math.Round(m.First.Marked/graduation)), int(math.Round(m.Space.Marked/graduation))
	for k, exact := range at {
		stepped, measured := g.set(exact, first+k*step), g.mark(exact)
		m.Stepped, m.Measured = append(m.Stepped, stepped), append(m.Measured, measured)
		m.WorstStepped = math.Max(m.WorstStepped, math.Abs(stepped.Error))
		m.WorstMeasured = math.Max(m.WorstMeasured, math.Abs(measured.Error))
	}
	m.OnEnd = at[0] == 0
	return m, nil
}
