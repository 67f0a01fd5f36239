package words

import "fmt"

// These write amounts in English, for what does not read a Book yet.

// Length returns a length in mm as LengthMM is written.
func Length(mm float64, inches bool) string { return english(LengthMM(mm), inches) }

// Exact returns a length in mm as ExactMM is written.
func Exact(mm float64, inches bool) string { return english(ExactMM(mm), inches) }

// Signed returns a length in mm as SignedMM is written.
func Signed(mm float64, inches bool) string { return english(SignedMM(mm), inches) }

// Speed returns a speed in mm/s as SpeedMM is written.
func Speed(mmPerS float64, inches bool) string { return english(SpeedMM(mmPerS), inches) }

// Stitch returns a stitch length in mm as StitchMM is written.
func Stitch(mm float64, inches bool) string { return english(StitchMM(mm), inches) }

// Thread returns a length of thread in mm as ThreadMM is written.
func Thread(mm float64, inches bool) string { return english(ThreadMM(mm), inches) }

// Small returns a distance in mm as SmallMM is written.
func Small(mm float64) string { return english(SmallMM(mm), false) }

// Percent returns a share as Share is written.
func Percent(share float64) string { return english(Share(share), false) }

// Clock returns a time in s as ClockS is written.
func Clock(s float64) string { return english(ClockS(s), false) }

// Duration returns a time in s as DurationS is written.
func Duration(s float64) string { return english(DurationS(s), false) }

// InBoth returns a hand speed in mm/s as SpeedBothMM is written.
func InBoth(mmPerS float64) string { return english(SpeedBothMM(mmPerS), false) }

// StitchInBoth returns a stitch length in mm as StitchBothMM is written.
func StitchInBoth(mm float64) string { return english(StitchBothMM(mm), false) }

func english(v amount, inches bool) string { return v.in(Book{English, inches}) }

// Count returns "1 row" or "3 rows".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Day and DayAndTime are the forms of a date and of a date with its time (package
// time): the same on the whole page, and in no country another day.
const (
	Day        = "2 Jan 2006"
	DayAndTime = "2 Jan 2006, 15:04"
)

// StitchWithCount writes a stitch length in mm, in inches with the count that quilters use
// before it.
func StitchWithCount(mm float64, inches bool) string {
	if inches {
		return Stitch(mm, true) + " (" + Stitch(mm, false) + ")"
	}
	return Stitch(mm, false)
}
