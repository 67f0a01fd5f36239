package words

import (
	"math"
	"strconv"
	"strings"
)

// ParseLength reads a length as a person types it and returns mm: a decimal or a
// mixed number ("6 1/2", "6.5", "6,5", "1/4"), in inches or mm as inches says, or in
// the unit that follows it: in, inch, inches, ", mm, cm. An error is
// Refused and says what is taken.
func ParseLength(text string, inches bool) (float64, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	unit := 1.0
	if inches {
		unit = mmPerInch
	}
	for _, u := range []struct {
		word string
		mm   float64
	}{{"inches", mmPerInch}, {"inch", mmPerInch}, {"in", mmPerInch}, {`"`, mmPerInch}, {"mm", 1}, {"cm", 10}} {
		if rest, ok := strings.CutSuffix(s, u.word); ok {
			s, unit = strings.TrimSpace(rest), u.mm
			break
		}
	}
	v, err := mixedNumber(printed.Replace(s))
	if err != nil {
		return 0, Refuse("page.no-length", strings.TrimSpace(text), 6.5, 16.5)
	}
	return v * unit, nil
}

// printed turns what patterns print into what is read: 8-1/2, 8½ and 6,5 as 8 1/2,
// 8 1/2 and 6.5. A sign is left alone, and refused.
var printed = newPrinted()

func newPrinted() *strings.Replacer {
	pairs := []string{",", "."}
	for d := '0'; d <= '9'; d++ {
		pairs = append(pairs, string(d)+"-", string(d)+" ")
	}
	for _, f := range []string{"¼ 1/4", "½ 1/2", "¾ 3/4", "⅛ 1/8", "⅜ 3/8", "⅝ 5/8", "⅞ 7/8"} {
		one, text, _ := strings.Cut(f, " ")
		pairs = append(pairs, one, " "+text)
	}
	return strings.NewReplacer(pairs...)
}

// mixedNumber reads "6", "6.5", "1/2" or "6 1/2".
func mixedNumber(s string) (float64, error) {
	words := strings.Fields(s)
	if len(words) == 0 || len(words) > 2 {
		return 0, strconv.ErrSyntax
	}
	sum := 0.0
	for i, w := range words {
		v, err := fraction(w)
		if err != nil {
			return 0, err
		}
		if i == 1 && (!strings.Contains(w, "/") || v < 0 || sum != math.Trunc(sum)) {
			return 0, strconv.ErrSyntax
		}
		sum += v
	}
	return sum, nil
}

func fraction(w string) (float64, error) {
	num, den, found := strings.Cut(w, "/")
	a, err := number(num)
	if err != nil || !found {
		return a, err
	}
	b, err := number(den)
	if err != nil || b == 0 {
		return 0, strconv.ErrSyntax
	}
	return a / b, nil
}

// number reads a plain decimal: no exponent, no word such as Inf.
func number(w string) (float64, error) {
	if w == "" || len(w) > 20 || strings.Trim(w, "0123456789.") != "" {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(w, 64)
}

// Typed returns a length in mm as a person would type it into a field: inches to
// the nearest 1/16 where that is exact to a hundredth of a mm, else as a decimal;
// mm to the tenth.
func Typed(mm float64, inches bool) string {
	if !inches {
		return strconv.FormatFloat(math.Round(mm*100)/100, 'f', -1, 64)
	}
	in := mm / mmPerInch
	if math.Abs(math.Round(in*16)/16-in) < 0.0005 {
		return Fraction(in, 16)
	}
	return strconv.FormatFloat(math.Round(in*1000)/1000, 'f', -1, 64)
}
