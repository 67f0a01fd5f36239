package words

import "fmt"

const mmPerYard = 36 * mmPerInch

// Thread returns a length of thread in mm as text, in yards or metres, to the tenth
// below ten of them.
func Thread(mm float64, inches bool) string {
	v, unit := mm/1000, "m"
	if inches {
		v, unit = mm/mmPerYard, "yd"
	}
	if v < 9.95 {
		return fmt.Sprintf("%.1f %s", v, unit)
	}
	return fmt.Sprintf("%.0f %s", v, unit)
}

// Duration returns a time in s as text for planning: whole minutes from 100 s on.
func Duration(s float64) string {
	minutes := int(s/60 + 0.5)
	switch {
	case s < 99.5:
		return fmt.Sprintf("%.0f s", s)
	case minutes < 100:
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
}

// Count returns "1 row" or "3 rows".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// InBoth returns a hand speed in mm/s in both units, and StitchInBoth a stitch
// length in mm.
func InBoth(mmPerS float64) string {
	return fmt.Sprintf("%.2f in/s (%.1f mm/s)", mmPerS/mmPerInch, mmPerS)
}

// StitchInBoth returns a stitch length in mm as stitches per inch and in mm.
func StitchInBoth(mm float64) string {
	return fmt.Sprintf("%s per inch (%.2f mm)", trimZero(fmt.Sprintf("%.1f", mmPerInch/mm)), mm)
}
