package weeks

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s is %v, want %v within %v", what, got, want, within)
	}
}

// The thirteen trials of the BCG vaccine (Colditz and others, JAMA 271, 1994), as log
// relative risks with their variances, are the worked example of many text books; the
// results are those of the R package metafor (Viechtbauer, Journal of Statistical Software
// 36, 2010; all from memory): by DerSimonian and Laird -0.7141, standard error 0.1787, variance
// between 0.3088.
func TestCombinedAsPublished(t *testing.T) {
	y := []float64{-0.8893, -1.5854, -1.3481, -1.4416, -0.2175, -0.7861, -1.6209, 0.0120, -0.4694, -1.3713, -0.3394, 0.4459, -0.0173}
	v := []float64{0.3256, 0.1946, 0.4154, 0.0200, 0.0512, 0.0069, 0.2230, 0.0040, 0.0564, 0.0730, 0.0124, 0.5325, 0.0714}
	mean, se, between := dersimonianLaird(y, v)
	near(t, "the mean", mean, -0.7141, 5e-4)
	near(t, "its standard error", se, 0.1787, 5e-4)
	near(t, "the variance between", between, 0.3088, 5e-4)
}

// Quantiles of Student's t from the tables of any text book.
func TestStudent(t *testing.T) {
	for _, c := range []struct{ n, want float64 }{{1, 12.706}, {2, 4.303}, {4, 2.776}, {10, 2.228}, {30, 2.042}} {
		near(t, "t", student(0.975, c.n), c.want, 6e-4)
	}
}

func piece(stitches int, lengthMM, spm float64) Sewn {
	return Sewn{Schema: 1, ID: "a", Day: "2026-03-01", Stitches: stitches, LengthMM: lengthMM, SPM: spm, RehearsedMM: 2.54, RehearsedSPM: 600}
}

// 8 stitches to the inch where 10 were rehearsed at the same needle speed: the hands went
// 10/8 times as fast. One stitch more or less in 32 is 3 %; to be sure in 95 of 100 cases of
// an error that is anywhere in +-1 with equal chance: 1.96/sqrt(3)/32 = 3.5 %.
func TestOnePiece(t *testing.T) {
	f, ok := FactorOf([]Sewn{piece(32, 4*25.4, 600)})
	if !ok || !f.Clear() {
		t.Fatalf("no clear factor: %+v", f)
	}
	near(t, "the factor", f.Ratio, 1.25, 1e-9)
	near(t, "its upper end", f.High/f.Ratio, math.Exp(1.959964/math.Sqrt(3)/32), 1e-6)
	// Keeping the hands as they are needs a faster needle, keeping the needle slower hands.
	off, _ := OffPlan([]Sewn{piece(32, 4*25.4, 600)}, 2.54, 600)
	near(t, "the needle speed", 600*off.Ratio, 750, 1e-6)
	near(t, "the hand speed", f.HandFor(2.54, 600), 25.4/1.25, 1e-9)
	if _, ok := FactorOf(nil); ok {
		t.Error("a factor out of nothing")
	}
}

// However the pieces are: their order does not matter, all of them counted twice as long
// say the same of the ratio, with faster rehearsals it falls in proportion, it lies among
// the pieces' own, inside its interval, and sewing at the speed proposed makes the stitches
// wished.
func TestFactorInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(rt, "n")
		pieces, back, quick := make([]Sewn, n), make([]Sewn, n), make([]Sewn, n)
		least, most := math.Inf(1), math.Inf(-1)
		for i := range pieces {
			s := piece(rapid.IntRange(5, 200).Draw(rt, "stitches"), rapid.Float64Range(20, 400).Draw(rt, "mm"), rapid.Float64Range(200, 1000).Draw(rt, "spm"))
			pieces[i], back[n-1-i], quick[i] = s, s, s
			quick[i].RehearsedSPM *= 2
			r := s.HandMMS() / s.RehearsedMMS()
			least, most = math.Min(least, r), math.Max(most, r)
		}
		f, _ := FactorOf(pieces)
		b, _ := FactorOf(back)
		q, _ := FactorOf(quick)
		tiny := 1e-9 * f.Ratio
		switch {
		case math.Abs(b.Ratio-f.Ratio) > tiny || math.Abs(b.High-f.High) > 1e-6*f.High:
			rt.Errorf("in another order %+v, was %+v", b, f)
		case math.Abs(2*q.Ratio-f.Ratio) > tiny:
			rt.Errorf("against rehearsals twice as fast %v, was %v", q.Ratio, f.Ratio)
		case f.Ratio < least-tiny || f.Ratio > most+tiny || f.Low > f.Ratio || f.High < f.Ratio:
			rt.Errorf("%+v lies outside of the pieces %v to %v, or of itself", f, least, most)
		case math.Abs(60*f.HandFor(2.5, 500)*f.Ratio/500-2.5) > 1e-9:
			rt.Errorf("hands at %v mm/s do not make stitches of 2.5 mm", f.HandFor(2.5, 500))
		}
	})
}

// The verdict is on the stitches against the plan. The intervals of three equal counts are
// by hand: 4.303/sqrt(3)/(sqrt(3) n), n the count: 3.6 % of 40, 14 % of 10.
func TestVerdictOnPieces(t *testing.T) {
	const spm, in4 = 600, 101.6
	for _, c := range []struct {
		what   string
		counts []int
		want   Verdict
	}{
		{"one, far off", []int{32}, Early},
		{"two, as planned", []int{40, 40}, Early},
		{"ten to the inch, as planned", []int{40, 40, 40}, AsPlanned},
		{"a stitch off, whichever way", []int{40, 41, 39}, AsPlanned},
		{"surely, but less than half a stitch in ten", []int{39, 39, 39, 39, 39, 39, 39, 39}, AsPlanned},
		{"eight to the inch", []int{32, 32, 33}, Longer},
		{"twelve to the inch", []int{48, 49, 48}, Shorter},
		{"longer twice, once not", []int{34, 40, 35}, Unsure},
		{"anything", []int{20, 40, 80}, Unsure},
	} {
		var pieces []Sewn
		for _, n := range c.counts {
			pieces = append(pieces, piece(n, in4, spm))
		}
		if f, _ := OffPlan(pieces, 2.54, spm); f.Verdict() != c.want {
			t.Errorf("%s: %s of %+v, want %s", c.what, f.Verdict(), f, c.want)
		}
	}
	few := []Sewn{piece(10, 25.4, spm), piece(10, 25.4, spm), piece(10, 25.4, spm)}
	f, _ := OffPlan(few, 2.54, spm)
	near(t, "half the interval of three counts of 10", math.Log(f.High/f.Ratio), 4.303/math.Sqrt(3)/(math.Sqrt(3)*10), 1e-4)
	if f.Verdict() != Unsure {
		t.Errorf("three counts of 10 over an inch are %s", f.Verdict())
	}
	// All off together, but how far is open: 25, 14 and 8 to 4 in.
	if f, _ := OffPlan([]Sewn{piece(26, in4, spm), piece(18, in4, spm), piece(14, in4, spm)}, 2.54, spm); f.Verdict() != Unsure || f.Told() {
		t.Errorf("%s of %+v", f.Verdict(), f)
	}
}

// A needle set as advised makes the stitches planned, whatever was rehearsed and however the
// machine was set: 8 to the inch at 600 and 10 at 750 are the same hands.
func TestOffPlanFollowsTheHands(t *testing.T) {
	a, _ := OffPlan([]Sewn{piece(32, 101.6, 600), piece(32, 101.6, 600), piece(32, 101.6, 600)}, 2.54, 750)
	near(t, "at 750", a.Ratio, 1, 1e-9)
	b, _ := OffPlan([]Sewn{piece(40, 101.6, 750), piece(32, 101.6, 600)}, 2.54, 600)
	near(t, "both at 600", b.Ratio, 1.25, 1e-9)
	near(t, "their spread", b.Spread, 0, 1e-9)
}

// More agreeing pieces narrow the interval; pieces that differ by more than counting does
// widen it.
func TestPiecesThatDiffer(t *testing.T) {
	same := []Sewn{piece(40, 101.6, 600), piece(40, 101.6, 600), piece(40, 101.6, 600), piece(40, 101.6, 600), piece(40, 101.6, 600), piece(40, 101.6, 600)}
	f3, _ := FactorOf(same[:3])
	f6, _ := FactorOf(same)
	if f6.High-f6.Low >= f3.High-f3.Low || f6.Spread != 0 {
		t.Errorf("six agreeing pieces %+v are no surer than three %+v", f6, f3)
	}
	differ := []Sewn{piece(30, 101.6, 600), piece(40, 101.6, 600), piece(52, 101.6, 600)}
	if f, _ := FactorOf(differ); f.Clear() || f.Spread < 0.2 {
		t.Errorf("pieces with 30, 40 and 52 stitches: %+v, want a spread above 0.2 and no clear factor", f)
	}
}
