package words

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// 1 in = 25.4 mm exactly (international yard and pound agreement, 1959);
// 10 stitches per inch are 2.54 mm apart.
func TestWords(t *testing.T) {
	inch, mm := Book{Inches: true}.Amount, Book{}.Amount
	for _, c := range []struct{ got, want string }{
		{inch(LengthMM(25.4)), "1 in"},
		{inch(LengthMM(34.925)), "1⅜ in"},
		{inch(LengthMM(12.7)), "½ in"},
		{inch(LengthMM(25.2)), "1 in"},
		{inch(LengthMM(0.4)), "0 in"},
		{inch(LengthMM(-31.75)), "-1¼ in"},
		{mm(LengthMM(9.96)), "10 mm"},
		{mm(LengthMM(9.94)), "9.9 mm"},
		{inch(SpeedMM(25.4)), "1 in/s"},
		{inch(SpeedMM(38.1)), "1½ in/s"},
		{mm(SpeedMM(25.4)), "25 mm/s"},
		{inch(StitchMM(2.54)), "10 per inch"},
		{inch(StitchMM(2.42)), "10.5 per inch"},
		{mm(StitchMM(2.54)), "2.5 mm"},
		{mm(SmallMM(0.249)), "0.2 mm"},
		{mm(SmallMM(-0.04)), "0.0 mm"},
		{mm(LengthMM(-0.04)), "0.0 mm"},
		{inch(ExactMM(-0.1)), "0.00 in"},
		{inch(ExactMM(12.7)), "0.50 in"},
		{mm(ExactMM(34.925)), "34.9 mm"},
		{inch(SignedMM(0.6)), "+0.02 in"},
		{mm(SignedMM(-0.6)), "-0.6 mm"},
		{mm(SignedMM(-0.04)), "0"},
		{inch(SignedMM(0.1)), "0"},
		{mm(Share(0.846)), "85 %"},
		{mm(ClockS(12.34)), "12.3 s"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// Whatever the fraction reads, it is within half a part of the value.
func TestFractionIsNearest(t *testing.T) {
	for k := -400; k <= 400; k++ {
		v := float64(k) / 37
		text := Fraction(v, 8)
		if got := readBack(t, text); math.Abs(got-v) > 1.0/16+1e-9 {
			t.Errorf("%v reads %q, which is %v", v, text, got)
		}
	}
}

func readBack(t *testing.T, s string) float64 {
	t.Helper()
	sign, sum := 1.0, 0.0
	for _, word := range strings.Fields(s) {
		if strings.HasPrefix(word, "-") {
			sign, word = -1, word[1:]
		}
		var a, b int
		if n, _ := fmt.Sscanf(word, "%d/%d", &a, &b); n == 2 {
			sum += float64(a) / float64(b)
		} else {
			sum += float64(a)
		}
	}
	return sign * sum
}

// No hand sews 611 stitches to the inch: where they pile up that is said, in both units; a
// count that can be is given as it is.
func TestStitchesThatPileUp(t *testing.T) {
	for _, c := range []struct {
		mm            float64
		inches, plain string
	}{
		{25.4 / 611, "more than 60 to the inch", "less than 0.4 mm"},
		{0.01, "more than 60 to the inch", "less than 0.4 mm"},
		{25.4 / 50, "50 to the inch", "0.5 mm"},
		{2.54, "10 to the inch", "2.5 mm"},
	} {
		in, mm := Book{Inches: true}.Amount(StitchToMM(c.mm)), Book{}.Amount(StitchToMM(c.mm))
		if in != c.inches || mm != c.plain {
			t.Errorf("%v mm is %q and %q, want %q and %q", c.mm, in, mm, c.inches, c.plain)
		}
	}
}
