package scoring

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The inch found is the one that trying every inch finds.
func TestInchesAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		length := rapid.SliceOfN(rapid.Float64Range(0.05, 9), 1, 60).Draw(rt, "stitches")
		var counted []int
		for k := range length {
			if rapid.IntRange(0, 9).Draw(rt, "counts") > 0 {
				counted = append(counted, k)
			}
		}
		found := map[[2]int]float64{}
		eachInch(counted, func(k int) float64 { return length[k] }, 2.5, func(a, b int, off float64) { found[[2]int{a, b}] = off })
		want := map[[2]int]float64{}
		for b := range counted {
			// The shortest row of neighbours that ends here and reaches an inch.
			for a := b; a >= 0 && counted[b]-counted[a] == b-a; a-- {
				var mm, sum float64
				for _, k := range counted[a : b+1] {
					mm += length[k]
					v := math.Log(length[k] / 2.5)
					sum += v * v
				}
				if mm >= InchMM {
					want[[2]int{a, b}] = math.Sqrt(sum / float64(b-a+1))
					break
				}
			}
		}
		if len(found) != len(want) {
			rt.Fatalf("%d inches, by trying %d", len(found), len(want))
		}
		for at, off := range want {
			if got, ok := found[at]; !ok || math.Abs(got-off) > 1e-6 {
				rt.Errorf("stitches %v: %v off (%v), want %v", at, got, ok, off)
			}
		}
	})
}

// A hand that slows to half for 40 mm has its worst inch there, of twice as many stitches,
// and its best one elsewhere.
func TestWorstInchIsWhereTheHandSlows(t *testing.T) {
	l := loops(t)
	rep := score(t, l, sew(l, 240, func(_, s float64) float64 {
		if s > 200 && s < 240 {
			return cruise / 2
		}
		return cruise
	}, nil), plan())
	w, b := rep.Inches.Worst, rep.Inches.Best
	if w.From < 198 || w.To > 242 || len(w.Stitches) < 19 || len(w.Stitches) > 22 {
		t.Errorf("the worst inch is %.1f to %.1f mm of %d stitches, want 20 or 21 within 200 to 240", w.From, w.To, len(w.Stitches))
	}
	if n := len(b.Stitches); b.To > 198 && b.From < 242 || n < 10 || n > 11 {
		t.Errorf("the best inch is %.1f to %.1f mm of %d stitches", b.From, b.To, n)
	}
	if short := score(t, mustLine(t, l.Section(0, 45)), sew(mustLine(t, l.Section(0, 45)), 240, steadily(cruise), nil), plan()); len(short.Inches.Best.Stitches) > 0 {
		t.Errorf("a trace of 45 mm has an inch: %+v", short.Inches)
	}
}
