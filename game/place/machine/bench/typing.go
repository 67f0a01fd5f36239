package bench

import (
	"math"
	"strconv"
	"strings"

	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// Unit is the code of the unit that stands beside the field, "" for a count.
func (f Field) Unit(inches bool) string {
	pick := func(in, mm string) string {
		if inches {
			return in
		}
		return mm
	}
	switch f.Kind {
	case Fine:
		return "mm"
	case Length:
		return pick("in", "mm")
	case Thread:
		return pick("yd", "m")
	case Hand:
		return pick("in-s", "mm-s")
	case Stitch:
		return pick("spi", "mm")
	}
	return f.unit
}

// Value returns the field's value as she would type it.
func (f Field) Value(s State, inches bool) string {
	v := f.get(s)
	if f.Optional && v == 0 {
		return ""
	}
	return f.written(v, inches)
}

const mmPerYard = 36 * machine.MMPerInch

func (f Field) written(v float64, inches bool) string {
	plain := func(v, to float64) string { return strconv.FormatFloat(math.Round(v*to)/to, 'f', -1, 64) }
	switch {
	case f.Kind == Length || f.Kind == Fine:
		return words.Typed(v, inches && f.Kind == Length)
	case f.Kind == Thread && inches:
		return plain(v/mmPerYard, 10)
	case f.Kind == Thread:
		return plain(v/1000, 10)
	case f.Kind == Share:
		return plain(v*100, 10)
	case f.Kind == Minutes:
		return plain(v/60, 1)
	case f.Kind == Hand && inches:
		return plain(v/machine.MMPerInch, 1000)
	case f.Kind == Stitch && inches:
		return plain(machine.SPI(v), 100)
	case f.Kind == Hand || f.Kind == Stitch:
		return plain(v, 100)
	}
	return plain(v, 10)
}

// Range returns what may be typed, from the least to the most.
func (f Field) Range(s State, inches bool) (lo, hi string) {
	r := f.within(s)
	lo, hi = f.written(r.Min, inches), f.written(r.Max, inches)
	if f.Kind == Stitch && inches {
		lo, hi = hi, lo
	}
	return lo, hi
}

// parse reads what she typed.
func (f Field) parse(text string, inches bool) (float64, error) {
	text = strings.TrimSpace(text)
	if f.Optional && text == "" {
		return 0, nil
	}
	if f.Kind == Length || f.Kind == Fine {
		v, err := words.ParseLength(text, inches && f.Kind == Length)
		if err != nil {
			return 0, noNumber
		}
		return v, nil
	}
	v, err := f.number(text)
	if err != nil {
		return 0, err
	}
	switch {
	case f.Kind == Thread && inches:
		return v * mmPerYard, nil
	case f.Kind == Thread:
		return v * 1000, nil
	case f.Kind == Share:
		return v / 100, nil
	case f.Kind == Minutes:
		return v * 60, nil
	case f.Kind == Hand && inches:
		return v * machine.MMPerInch, nil
	case f.Kind == Stitch && inches && v > 0:
		return machine.StitchOf(v), nil
	}
	return v, nil
}

// number reads a plain or mixed number; the unit that stands beside the field may
// follow it.
func (f Field) number(text string) (float64, error) {
	for _, unit := range []string{"%", "wt", "yd", "min", "m", "spm", "spi", "s"} {
		text = strings.TrimSpace(strings.TrimSuffix(text, unit))
	}
	// Read as millimetres, a length is its plain number.
	v, err := words.ParseLength(text+" mm", false)
	if err != nil {
		return 0, noNumber
	}
	if f.Kind == Whole && v != math.Trunc(v) {
		return 0, noWhole
	}
	return v, nil
}
