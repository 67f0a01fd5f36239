package words

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestSizes(t *testing.T) {
	in, mm, de := Book{Inches: true}, Book{}, Book{Inches: true, Lang: German}
	for _, c := range []struct {
		book Book
		what any
		want string
	}{
		{in, SizeMM(9 * 25.4), "9 in"},
		{in, SizeMM(10.8 * 25.4), "10.8 in"},
		{in, SizeMM(2.0625 * 25.4), "2 1/16 in"},
		{in, SizeMM(12 * math.Sqrt2 * 25.4), "about 16.97 in"},
		{de, SizeMM(12 * math.Sqrt2 * 25.4), "etwa 16,97 Zoll"},
		{mm, SizeMM(228.6), "228.6 mm"},
		{mm, SizeMM(300), "300 mm"},
		{mm, SizeMM(12 * math.Sqrt2 * 25.4), "about 431.1 mm"},
		{mm, SizeMM(3.175), "about 3.2 mm"},
		{in, CutMM((9*math.Sqrt2 + 1.25) * 25.4), "14 in"},
		{in, CutMM(9.75 * 25.4), "9¾ in"},
		{mm, CutMM(430.1), "431 mm"},
	} {
		if got := c.book.Amount(c.what); got != c.want {
			t.Errorf("%v: %q, want %q", c.what, got, c.want)
		}
	}
}

// What is written is the size itself, or says "about" and is off by half of its last digit
// at most; a size to cut is never smaller than what is needed.
func TestSizesAreTrue(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := Book{Inches: rapid.Bool().Draw(rt, "inches")}
		mm := rapid.OneOf(
			rapid.Float64Range(1, 3060),
			rapid.Map(rapid.IntRange(1, 1900), func(n int) float64 { return float64(n) * 25.4 / 16 }),
			rapid.Map(rapid.IntRange(1, 30000), func(n int) float64 { return float64(n) / 10 }),
			rapid.Map(rapid.IntRange(1, 12000), func(n int) float64 { return float64(n) * 0.254 }),
		).Draw(rt, "mm")
		unit, half := 1.0, 0.05
		if b.Inches {
			unit, half = mmPerInch, 0.005*mmPerInch
		}
		text := b.Amount(SizeMM(mm))
		number, about := strings.CutPrefix(text, "about ")
		off := math.Abs(measured(rt, number)*unit - mm)
		if !about && off > trueMM || about && (off <= trueMM || off > half+1e-9) {
			rt.Fatalf("%v mm is written %q, off by %v", mm, text, off)
		}
		if cut := CutMM(mm).Rounded(b); cut < mm-trueMM || cut > mm+mmPerInch/8 {
			rt.Fatalf("%v mm is cut as %v", mm, cut)
		}
	})
}

// measured reads "10⅜ in", "2 1/16 in", "10.8 in" or "300 mm".
func measured(rt *rapid.T, text string) float64 {
	text = strings.NewReplacer("⅛", " 0.125", "¼", " 0.25", "⅜", " 0.375", "½", " 0.5", "⅝", " 0.625", "¾", " 0.75", "⅞", " 0.875").Replace(text)
	words, sum := strings.Fields(text), 0.0
	for _, w := range words[:len(words)-1] {
		over, under, broken := strings.Cut(w, "/")
		v, err := strconv.ParseFloat(over, 64)
		if err != nil {
			rt.Fatalf("%q: %v", text, err)
		}
		if broken {
			d, err := strconv.ParseFloat(under, 64)
			if err != nil {
				rt.Fatalf("%q: %v", text, err)
			}
			v /= d
		}
		sum += v
	}
	return sum
}
