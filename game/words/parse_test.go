package words

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text   string
		inches bool
		want   float64
	}{
		{"6 1/2", true, 165.1}, {"6.5", true, 165.1}, {"6-1/2", true, 165.1}, {"6½", true, 165.1}, {"⅞", true, 22.225}, {" 6,5 in ", false, 165.1}, {"1/4", true, 6.35},
		{`12"`, false, 304.8}, {"150", false, 150}, {"150 mm", true, 150}, {"15 cm", true, 150}, {"2 3/8 inches", false, 60.325},
	} {
		got, err := ParseLength(c.text, c.inches)
		if err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%q is %v mm (%v), want %v", c.text, got, err, c.want)
		}
	}
	for _, text := range []string{"", "six", "6 1", "1/0", "6 1/2 3/4", "6.5 1/2", "-3", "1e9", "inf", "mm", "1//2"} {
		if got, err := ParseLength(text, true); err == nil {
			t.Errorf("%q is taken for %v mm", text, got)
		}
	}
}

// What is shown in a field reads back as what it was, to half a hundredth of an inch.
func TestTypedReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm, inches := rapid.Float64Range(0, 3000).Draw(t, "mm"), rapid.Bool().Draw(t, "inches")
		got, err := ParseLength(Typed(mm, inches), inches)
		if err != nil || math.Abs(got-mm) > 0.02 {
			t.Fatalf("%v mm is written %q and read as %v (%v)", mm, Typed(mm, inches), got, err)
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"6 1/2", "1/4 in", "15 cm", "1//2", "9999999999999999999", `"`, "inin"} {
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, s string, inches bool) {
		if v, err := ParseLength(s, inches); err == nil && !(v >= 0) {
			t.Fatalf("%q is %v mm", s, v)
		}
	})
}
