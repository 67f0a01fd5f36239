package page_test

import (
	"math"
	"strings"
	"testing"

	"unthreaded/game/handtest"
	"unthreaded/game/page"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// bend returns the curvature of a line in 1/mm at s, from three places 2 mm apart (the
// circle through them).
func bend(l geom.Line, s float64) float64 {
	a, b, c := l.At(s-2), l.At(s), l.At(s+2)
	area := (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
	return 2 * math.Abs(area) / (geom.Dist(a, b) * geom.Dist(b, c) * geom.Dist(a, c))
}

// A hand that slows with the cube root of the curvature, as untrained hands do
// (Lacquaniti, Terzuolo & Viviani, Acta Psychol 54, 1983), leaves its long stitches
// where the line runs straighter; one that tires leaves its short ones in the second
// half; waves that come and go with neither are said of no place.
func TestTheSentenceSaysWhere(t *testing.T) {
	mo, ok := motif.Find("linked-swirls")
	if !ok {
		t.Fatal("the motif is gone")
	}
	line := traced(mo.ID, handtest.Hand{Hz: 60, Speed: handtest.Steady(25.4)}).Line
	for name, c := range map[string]struct {
		speed func(s float64) float64
		want  string
	}{
		"slow in curves": {func(s float64) float64 {
			return 29 * math.Min(1.8, math.Max(0.4, math.Cbrt(0.07/math.Max(1e-3, bend(line, s)))))
		}, "The long ones are where the line runs straighter, the short ones in the tighter curves."},
		"tiring": {func(s float64) float64 {
			return 25.4 * (1.4 - 0.8*s/line.Length())
		}, "The long ones are in the first half, the short ones in the second half."},
		"wavering": {func(s float64) float64 { return 25.4 * (1 + 0.4*math.Sin(2*math.Pi*s/37)) }, "even stitches, as most hands make at first."},
	} {
		got := page.Of(traced(mo.ID, handtest.Hand{Hz: 240, Speed: c.speed})).Sentence
		if !strings.Contains(got, c.want) || name == "wavering" && strings.Contains(got, "ones are") {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
