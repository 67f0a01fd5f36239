// Package words puts measures into the words and units of the person.
package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

const mmPerInch = 25.4

// Length returns a length in mm as text: in inches to the nearest 1/8 with a
// proper fraction, or in mm, whole from 10 mm on and to 0.1 mm below.
func Length(mm float64, inches bool) string {
	if inches {
		return Fraction(mm/mmPerInch, 8) + " in"
	}
	if math.Abs(mm) >= 9.95 {
		return fmt.Sprintf("%.0f mm", mm)
	}
	return fixed(mm, 1) + " mm"
}

// Exact returns a length in mm as text in decimals: to 0.01 in, or to
// 0.1 mm.
func Exact(mm float64, inches bool) string {
	if inches {
		return fixed(mm/mmPerInch, 2) + " in"
	}
	return fixed(mm, 1) + " mm"
}

// Signed returns a length as Exact does, with its sign; "0" where that rounds to
// nothing.
func Signed(mm float64, inches bool) string {
	text := Exact(mm, inches)
	switch {
	case text == Exact(0, inches):
		return "0"
	case mm > 0:
		return "+" + text
	}
	return text
}

// fixed returns a number to some digits; nothing has no sign.
func fixed(v float64, digits int) string {
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// Fraction returns v to the nearest 1/den, as a reduced mixed number: "1 3/8".
// den must be a power of two.
func Fraction(v float64, den int) string {
	n := int(math.Round(math.Abs(v) * float64(den)))
	sign := ""
	if v < 0 && n > 0 {
		sign = "-"
	}
	whole, part := n/den, n%den
	for part > 0 && part%2 == 0 {
		part, den = part/2, den/2
	}
	switch {
	case part == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, part, den)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, part, den)
}

// Speed returns a speed in mm/s as text; in inches a second to the nearest 1/8.
func Speed(mmPerS float64, inches bool) string {
	if inches {
		return Fraction(mmPerS/mmPerInch, 8) + " in/s"
	}
	return fmt.Sprintf("%.0f mm/s", mmPerS)
}

// Stitch returns a stitch length in mm as text: to 0.1 mm, and in inches as
// stitches per inch to the half stitch, as quilters count.
func Stitch(mm float64, inches bool) string {
	if inches {
		return trimZero(fmt.Sprintf("%.1f", math.Round(2*mmPerInch/mm)/2)) + " per inch"
	}
	return fmt.Sprintf("%.1f mm", mm)
}

// Small returns a small distance in mm as text, always in mm, to 0.1 mm: no ruler
// has such inches.
func Small(mm float64) string { return fixed(mm, 1) + " mm" }

// Percent returns a share as text, whole.
func Percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// Clock returns a time in s as text to 0.1 s.
func Clock(s float64) string { return fmt.Sprintf("%.1f s", s) }

func trimZero(s string) string { return strings.TrimSuffix(s, ".0") }

// Day and Moment are the forms of a date and of a date with its time (package time): the
// same on the whole page, and in no country another day.
const (
	Day    = "2 Jan 2006"
	Moment = "2 Jan 2006, 15:04"
)
