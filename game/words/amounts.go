package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

const (
	mmPerInch = 25.4
	mmPerYard = 36 * mmPerInch
)

// Amounts are written in the language and the units of a book: as arguments of a
// message, or alone by Book.Amount.
type (
	// LengthMM is a length in mm: in inches to the nearest 1/8 with a proper fraction,
	// or in mm, whole from 10 mm on and to 0.1 mm below.
	LengthMM float64
	// ExactMM is a length in mm in decimals: to 0.01 in, or to 0.1 mm.
	ExactMM float64
	// SignedMM is ExactMM with its sign; "0" where it rounds to nothing.
	SignedMM float64
	// SmallMM is a small distance in mm, always in mm, to 0.1 mm: no ruler has such
	// inches.
	SmallMM float64
	// SpeedMM is a speed in mm/s; in inches a second to the nearest 1/8.
	SpeedMM float64
	// SpeedBothMM is a speed in mm/s in both units.
	SpeedBothMM float64
	// StitchMM is a stitch length in mm: to 0.1 mm, or as stitches per inch to the half
	// stitch, as quilters count.
	StitchMM float64
	// StitchToMM is a stitch length in mm as StitchMM has it, as it is said: "10 to the
	// inch", or "more than 60 to the inch" where the stitches pile up; StitchAloneMM is its
	// number alone, after one in full.
	StitchToMM    float64
	StitchAloneMM float64
	// StitchBothMM is a stitch length in mm as stitches per inch and in mm.
	StitchBothMM float64
	// StitchCountMM is a stitch length in mm as StitchMM, in inches with the mm behind the
	// count.
	StitchCountMM float64
	// ThreadMM is a length of thread in mm, in yards or metres, to the tenth below ten
	// of them.
	ThreadMM float64
	// AwayMM is a distance in mm from which something is seen: in feet to the half, or
	// in metres to the tenth.
	AwayMM float64
	// DurationS is a time in s for planning: whole minutes from 100 s on.
	DurationS float64
	// ClockS is a time in s to 0.1 s.
	ClockS float64
	// Share is a share of 1 in whole percent.
	Share float64
	// Date is a day, and Moment a day with its time, in the zone of the value; DayOf is a
	// day without its year, MonthOf a month.
	Date    time.Time
	Moment  time.Time
	DayOf   time.Time
	MonthOf time.Time
)

// Kinds returns a value of each type of amount but the days, as what takes arguments of messages
// elsewhere has to know them.
func Kinds() []any {
	return []any{
		LengthMM(0), ExactMM(0), SignedMM(0), SmallMM(0), SpeedMM(0), SpeedBothMM(0), StitchMM(0), StitchToMM(0), StitchAloneMM(0), StitchBothMM(0),
		StitchCountMM(0), ThreadMM(0), AwayMM(0), DurationS(0), ClockS(0), Share(0), Decimal{}, And{}, Or{}, List{}, Span{}, RoughThreadMM(0), RoughS(0), Rough(0),
	}
}

// Decimal is a number to some digits after the point; nothing has no sign.
type Decimal struct {
	Value  float64
	Digits int
}

// And lists arguments, the last two joined by "and"; Or by "or"; List by commas.
type (
	And  []any
	Or   []any
	List []any
)

// Upper returns a text with its first letter in upper case.
func Upper(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:]
}

// Amount returns an amount, a number or a message as text; see Say for what it takes.
func (b Book) Amount(arg any) string {
	text, err := b.argument(arg)
	if err != nil {
		return mistaken("amount", err)
	}
	return text
}

func (v LengthMM) in(b Book) string {
	switch {
	case b.Inches:
		return b.Say("unit.length-in", Mixed(float64(v)/mmPerInch, 8))
	case math.Abs(float64(v)) >= 9.95:
		return b.Say("unit.length-mm", Decimal{float64(v), 0})
	}
	return SmallMM(v).in(b)
}

func (v ExactMM) in(b Book) string {
	if b.Inches {
		return b.Say("unit.length-in", Decimal{float64(v) / mmPerInch, 2})
	}
	return SmallMM(v).in(b)
}

func (v SignedMM) in(b Book) string {
	text := ExactMM(v).in(b)
	switch {
	case text == ExactMM(0).in(b):
		return "0"
	case v > 0:
		return "+" + text
	}
	return text
}

func (v SmallMM) in(b Book) string { return b.Say("unit.length-mm", Decimal{float64(v), 1}) }

func (v SpeedMM) in(b Book) string {
	if b.Inches {
		return b.Say("unit.speed-in", Mixed(float64(v)/mmPerInch, 8))
	}
	return b.Say("unit.speed-mm", Decimal{float64(v), 0})
}

func (v SpeedBothMM) in(b Book) string {
	return b.Say("unit.speed-both", Decimal{float64(v) / mmPerInch, 2}, Decimal{float64(v), 1})
}

func (v StitchMM) in(b Book) string {
	if b.Inches {
		return b.Say("unit.stitch-in", perInch(float64(v)))
	}
	return SmallMM(v).in(b)
}

// LeastStitchMM is the length in mm below which stitches lie in one spot, thread on thread:
// some 60 to the inch. Then the count is none that anybody sews, and is said so.
const LeastStitchMM = 0.42

func (v StitchToMM) in(b Book) string {
	switch {
	case v < LeastStitchMM && b.Inches:
		return b.Say("unit.stitch-pile-in", math.Floor(mmPerInch/LeastStitchMM/10)*10)
	case v < LeastStitchMM:
		return b.Say("unit.stitch-pile-mm", SmallMM(LeastStitchMM))
	case b.Inches:
		return b.Say("unit.stitch-to-in", perInch(float64(v)))
	}
	return SmallMM(v).in(b)
}

func (v StitchAloneMM) in(b Book) string {
	if b.Inches {
		return b.Amount(perInch(float64(v)))
	}
	return b.Amount(Decimal{float64(v), 1})
}

// perInch returns the stitches per inch of a length in mm, to the half stitch.
func perInch(mm float64) float64 { return math.Round(2*mmPerInch/mm) / 2 }

func (v StitchBothMM) in(b Book) string {
	return b.Say("unit.stitch-both", math.Round(10*mmPerInch/float64(v))/10, Decimal{float64(v), 2})
}

func (v StitchCountMM) in(b Book) string {
	if b.Inches {
		return b.Say("unit.stitch-count", StitchMM(v), SmallMM(v))
	}
	return StitchMM(v).in(b)
}

func (v ThreadMM) in(b Book) string {
	if b.Inches {
		return b.Say("unit.thread-yd", tenths(float64(v)/mmPerYard))
	}
	return b.Say("unit.thread-m", tenths(float64(v)/1000))
}

// tenths is a number to the tenth below ten, and whole from there on.
func tenths(n float64) Decimal {
	if n < 9.95 {
		return Decimal{n, 1}
	}
	return Decimal{n, 0}
}

func (v AwayMM) in(b Book) string {
	if b.Inches {
		return b.Say("unit.away-ft", Mixed(float64(v)/(12*mmPerInch), 2))
	}
	return b.Say("unit.away-m", math.Round(float64(v)/100)/10)
}

func (v DurationS) in(b Book) string {
	minutes := int(v/60 + 0.5)
	switch {
	case v < 99.5:
		return b.Say("unit.seconds", Decimal{float64(v), 0})
	case minutes < 100:
		return b.Say("unit.minutes", minutes)
	}
	return b.Say("unit.hours", minutes/60, fmt.Sprintf("%02d", minutes%60))
}

func (v ClockS) in(b Book) string { return b.Say("unit.seconds", Decimal{float64(v), 1}) }

func (v Share) in(b Book) string { return b.Say("unit.percent", Decimal{100 * float64(v), 0}) }

func (v Date) in(b Book) string {
	t := time.Time(v)
	return b.Say("unit.day", t.Day(), b.Say("unit.month."+strconv.Itoa(int(t.Month()))), strconv.Itoa(t.Year()))
}

func (v DayOf) in(b Book) string {
	t := time.Time(v)
	return b.Say("unit.day-month", t.Day(), b.Say("unit.month."+strconv.Itoa(int(t.Month()))))
}

func (v MonthOf) in(b Book) string {
	t := time.Time(v)
	return b.Say("unit.month-year", b.Say("unit.month."+strconv.Itoa(int(t.Month()))), strconv.Itoa(t.Year()))
}

func (v Moment) in(b Book) string {
	return b.Say("unit.moment", Date(v), time.Time(v).Format("15:04"))
}

func (v And) in(b Book) string  { return b.list(v, "and") }
func (v Or) in(b Book) string   { return b.list(v, "or") }
func (v List) in(b Book) string { return b.list(v, "comma") }

// list joins texts by commas, the last two by a word.
func (b Book) list(items []any, word string) string {
	if len(items) == 0 {
		return ""
	}
	text := b.Amount(items[0])
	for i, item := range items[1:] {
		joint := word
		if i < len(items)-2 {
			joint = "comma"
		}
		text = b.Say("unit.list."+joint, text, item)
	}
	return text
}

// plainNumber writes a number with "." before its parts.
func plainNumber(arg any) (string, error) {
	switch v := arg.(type) {
	case int:
		return strconv.Itoa(v), nil
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64), nil
	case Decimal:
		text := strconv.FormatFloat(v.Value, 'f', v.Digits, 64)
		if strings.Trim(text, "-0.") == "" {
			text = strings.TrimPrefix(text, "-")
		}
		return text, nil
	}
	return "", fmt.Errorf("argument %v of type %T is no number", arg, arg)
}

// Pointed returns a number that is written with a point as a person writes it who reads
// the language: with the comma where that is its sign.
func (b Book) Pointed(number string) string { return b.pointed(number) }

// pointed puts the sign of the language between whole and parts.
func (b Book) pointed(number string) string {
	return strings.Replace(number, ".", b.Lang.of().point, 1)
}

// vulgar are the signs of Unicode (Number Forms and Latin-1) for the fractions that an inch
// is read in.
var vulgar = map[string]string{"1/8": "⅛", "1/4": "¼", "3/8": "⅜", "1/2": "½", "5/8": "⅝", "3/4": "¾", "7/8": "⅞"}

// Mixed returns v as Fraction does, with one sign for the fraction where there is one: "1⅜".
func Mixed(v float64, den int) string {
	text := Fraction(v, den)
	// The fraction is what follows the whole number, or the minus sign.
	at := strings.LastIndexAny(text, " -") + 1
	if sign, ok := vulgar[text[at:]]; ok {
		return strings.TrimSuffix(text[:at], " ") + sign
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
