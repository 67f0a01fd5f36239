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
	for _, c := range []struct{ got, want string }{
		{Length(25.4, true), "1 in"},
		{Length(34.925, true), "1 3/8 in"},
		{Length(12.7, true), "1/2 in"},
		{Length(25.2, true), "1 in"},
		{Length(0.4, true), "0 in"},
		{Length(-31.75, true), "-1 1/4 in"},
		{Length(9.96, false), "10 mm"},
		{Length(9.94, false), "9.9 mm"},
		{Speed(25.4, true), "1 in/s"},
		{Speed(38.1, true), "1 1/2 in/s"},
		{Speed(25.4, false), "25 mm/s"},
		{Stitch(2.54, true), "10 per inch"},
		{Stitch(2.42, true), "10.5 per inch"},
		{Stitch(2.54, false), "2.5 mm"},
		{Small(0.249), "0.2 mm"},
		{Small(-0.04), "0.0 mm"},
		{Length(-0.04, false), "0.0 mm"},
		{Exact(-0.1, true), "0.00 in"},
		{Exact(12.7, true), "0.50 in"},
		{Exact(34.925, false), "34.9 mm"},
		{Signed(0.6, true), "+0.02 in"},
		{Signed(-0.6, false), "-0.6 mm"},
		{Signed(-0.04, false), "0"},
		{Signed(0.1, true), "0"},
		{Percent(0.846), "85 %"},
		{Clock(12.34), "12.3 s"},
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
