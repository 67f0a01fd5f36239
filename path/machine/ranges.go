package machine

import (
	"fmt"
	"strconv"
)

// Range is what may be entered for one quantity.
type Range struct {
	// Name and Unit are words for messages; Unit is empty for a count or a share.
	Name, Unit string
	Min, Max   float64
	// Usual is where an entry begins.
	Usual float64
}

// The ranges of what can be entered. Their ends are ours, wide enough for
// domestic and mid-arm machines and for quilts from a pot holder to a bed; the
// usual values are common practice, or ours where it says so.
var (
	// NeedleSpeed: domestic machines sew up to about 1000 spm, mid-arm machines up to
	// about 2000.
	NeedleSpeed = Range{"needle-speed", "spm", 50, 2000, 600}
	// HandSpeed is that of the cloth under the needle: what the slowest needle with the
	// shortest stitch and the fastest with the longest need is within it.
	HandSpeed = Range{"hand-speed", "mm/s", 0.4, 250, MMPerInch}
	// StitchLength: 10 stitches per inch are usual.
	StitchLength = Range{"stitch-length", "mm", 0.5, 7, MMPerInch / 10}
	// LineLength is what is sewn, up to a bed-sized top filled closely.
	LineLength = Range{"length-of-the-line", "mm", 1, 1e7, 10000}
	// Thickness is that of the layers as the foot presses them.
	Thickness = Range{"thickness-of-the-sandwich", "mm", 0.3, 20, 2.5}
	// Waste is thread left and tied off, for one start and its end together and on
	// each side: two tails long enough to knot and bury.
	Waste = Range{"thread-for-a-start-and-its-end", "mm", 0, 1000, 200}
	// Reserve is the share of thread added on top, or left on a bobbin.
	Reserve = Range{"reserve", "", 0, 0.5, 0.1}
	// BobbinLength is the thread on a full bobbin.
	BobbinLength = Range{"thread-on-a-full-bobbin", "mm", 2000, 500000, 60000}
	// ThreadWeight is the number on the spool, in km of thread per kg.
	ThreadWeight = Range{"thread-weight", "wt", 12, 100, 50}
	// StopTime is to tie off, cut, go on to the next place, draw up the bobbin
	// thread and lock the first stitches; the usual value is ours.
	StopTime = Range{"time-for-a-stop", "s", 0, 600, 40}
	// HaltTime is to halt with the needle down and turn, or move the ruler on; the
	// usual value is ours.
	HaltTime = Range{"time-for-a-halt", "s", 0, 120, 3}
	// Count is a number of stops, pivots or starts.
	Count = Range{"number", "", 0, 1e6, 0}
	// QuiltSide is a side of the top, of a block too.
	QuiltSide = Range{"side", "mm", 10, 4000, 1500}
	// RowCount is the number of rows of a top.
	RowCount = Range{"number-of-rows", "", 1, 200, 6}
	// ThroatWidth is the room from the needle to the pillar, ThroatHeight that
	// from the bed to the arm.
	ThroatWidth  = Range{"throat-width", "mm", 80, 800, 200}
	ThroatHeight = Range{"throat-height", "mm", 50, 400, 120}
	// HandRoom is kept free between the needle and the roll; the usual value, half
	// a hand's width, is ours.
	HandRoom = Range{"room-for-the-hand", "mm", 0, 200, 50}
	// Core is the diameter that a roll begins with: 0 for a tight roll.
	Core = Range{"core-of-the-roll", "mm", 0, 150, 0}
	// LooseRoll is how many times thicker than under the foot a layer is in a roll by
	// hand, air included: batting springs back to about twice its pressed thickness,
	// and the turns do not lie on each other. Nobody has measured it for us: 2.5 is our
	// assumption, which makes 30 in of a usual quilt a roll of about 3 in.
	LooseRoll = Range{"looseness-of-the-roll", "", 1, 12, 2.5}
	// Packing is the share of its outline that a bunched quilt fills; nobody has
	// measured it for us: half is our assumption.
	Packing = Range{"packing", "", 0.1, 0.95, 0.5}
	// ArealDensity of a sandwich: two cottons of about 140 g/m2 and a batting of
	// about 120 (common practice, from memory).
	ArealDensity = Range{"weight-of-the-sandwich", "g/m2", 100, 2000, 400}
	// TableSide is the table's reach from the needle to the left, behind, in front.
	TableSide = Range{"reach-of-the-table", "mm", 0, 3000, 600}
	// RulerOffset is the distance from the needle to a ruler's edge: a quarter of
	// an inch, the usual radius of a ruler foot (common practice).
	RulerOffset = Range{"ruler-offset", "mm", 1, 25, MMPerInch / 4}
	// DotSpacing is the longest way between two dots.
	DotSpacing = Range{"spacing-of-the-dots", "mm", 3, 500, 2 * MMPerInch}
)

// Check returns nil where lo <= v <= hi, else an error that says the range.
func (r Range) Check(v float64) error {
	if v >= r.Min && v <= r.Max {
		return nil
	}
	unit := r.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Errorf("%s %s%s is not from %s to %s%s", r.Name, number(v), unit, number(r.Min), number(r.Max), unit)
}

// Called returns the range under another name.
func (r Range) Called(name string) Range {
	r.Name = name
	return r
}

// number writes v without a power of ten where it can.
func number(v float64) string {
	if v >= 1e-3 && v < 1e9 {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strconv.FormatFloat(v, 'g', 6, 64)
}

// entry is a value with the range that it must keep.
type entry struct {
	v float64
	r Range
}

// checkAll returns the first error of the entries.
func checkAll(entries ...entry) error {
	for _, e := range entries {
		if err := e.r.Check(e.v); err != nil {
			return err
		}
	}
	return nil
}
