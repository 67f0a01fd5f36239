// Package machine works out what a quilter sets up at her sewing machine before
// she sews a planned route: the foot and the way of moving, the speed of needle
// and hand, the time, thread and bobbins, whether the quilt goes through the
// throat, what to mark, and the list to go through before the first stitch.
//
// Work with Figures and Advise leads to the foot; Pair and Pedal to the speed;
// Load with Pace to the time; Seam to the thread, BobbinPlan to the places where a
// bobbin is changed; Top with Orders and Support to the throat and
// the table; RulerLines and MarkRuler to the marking; Checklist to the list; AddUp to the
// job of a whole top.
//
// Lengths are mm, times s, needle speeds stitches per minute (spm), angles
// radians, masses g; y grows downwards. Input is refused with an error that says
// what is allowed (see Range); what is returned without an error is finite and
// not negative, signed angles aside. Nothing here knows a certain machine: the
// manual of the machine and the maker of a ruler have the last word.
package machine

// MMPerInch is exact (international yard and pound agreement, 1959).
const MMPerInch = 25.4

// StitchOf returns the stitch length in mm of a number of stitches per inch, and
// SPI the stitches per inch of a length in mm: 25.4 over the other. Both want a
// positive value.
func StitchOf(spi float64) float64 { return MMPerInch / spi }

// SPI returns the stitches per inch of a stitch length in mm.
func SPI(stitch float64) float64 { return MMPerInch / stitch }

// InchesPerSecond returns a hand speed in mm/s in inches per second.
func InchesPerSecond(hand float64) float64 { return hand / MMPerInch }
