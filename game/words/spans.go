package words

import (
	"math"
	"strings"
)

// Amounts that are known roughly: written no finer than they are known.
type (
	// Span lies between two amounts, "12 to 15 m"; where both read alike it is one.
	Span struct{ Low, High any }
	// RoughThreadMM is a length of thread in mm, in yards or metres to two digits.
	RoughThreadMM float64
	// RoughS is a time in s: to 5 s below 100 s, to the minute below an hour, then to
	// 5 minutes, from five hours on to a quarter.
	RoughS float64
	// Rough is a number to two digits.
	Rough float64
)

func (v Span) in(b Book) string {
	low, high := b.Amount(v.Low), b.Amount(v.High)
	if low == high {
		return low
	}
	// A unit that both share is said once: what of two texts of as many words is the same
	// at their ends, and no number.
	a, c := strings.Fields(low), strings.Fields(high)
	for n := len(a); len(a) == len(c) && n > 1 && a[n-1] == c[n-1] && !strings.ContainsAny(a[n-1], "0123456789"); n-- {
		low = strings.Join(a[:n-1], " ")
	}
	return b.Say("unit.span", low, high)
}

func (v RoughThreadMM) in(b Book) string {
	if b.Inches {
		return b.Say("unit.thread-yd", tenths(twoDigits(float64(v)/mmPerYard)))
	}
	return b.Say("unit.thread-m", tenths(twoDigits(float64(v)/1000)))
}

func (v RoughS) in(b Book) string {
	step := 5.0
	switch {
	case v >= 5*3600:
		step = 900
	case v >= 3600:
		step = 300
	case v >= 99.5:
		step = 60
	}
	return DurationS(step * math.Round(float64(v)/step)).in(b)
}

func (v Rough) in(b Book) string { return b.Amount(Decimal{Value: twoDigits(float64(v))}) }

// twoDigits rounds a number to its first two digits, to tenths below one.
func twoDigits(v float64) float64 {
	unit := math.Pow(10, math.Floor(math.Log10(math.Max(1, math.Abs(v))))-1)
	return unit * math.Round(v/unit)
}
