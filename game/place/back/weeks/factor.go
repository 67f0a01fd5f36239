package weeks

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Factor is how much faster her hands go at the machine than they were to, as a ratio: than
// in rehearsal, or than the planned stitches ask for.
type Factor struct {
	Ratio float64
	// Low and High hold the true one in 95 of 100 cases.
	Low, High float64
	// Pieces is how many it stands on, Spread how far it strays from piece to piece beyond
	// what counting does, as the standard deviation of its logarithm.
	Pieces int
	Spread float64
}

// countError is the standard deviation of a count that may be one stitch off either way,
// any error between equally likely: 1/sqrt(3) (JCGM 100:2008, Guide to the expression of
// uncertainty in measurement, 4.3.7).
var countError = 1 / math.Sqrt(3)

// FactorOf combines what was noted of pieces that were sewn, against the speed of the hands
// in rehearsal; ok is false without any.
func FactorOf(pieces []Sewn) (f Factor, ok bool) { return handsAgainst(pieces, Sewn.RehearsedMMS) }

// OffPlan combines the pieces against a plan: how many times as long as stitchMM (mm) the
// stitches come out where the needle goes at spm (stitches a minute) and the hands as they
// went; ok is false without any.
func OffPlan(pieces []Sewn, stitchMM, spm float64) (f Factor, ok bool) {
	return handsAgainst(pieces, func(Sewn) float64 { return stitchMM * spm / 60 })
}

// handsAgainst combines the speeds of the hands against others (mm/s).
//
// Of each, y = ln(hand speed at the machine / the other), known to 1/(sqrt(3)
// n) for n stitches counted. Pieces stray by more than that; how much more is estimated
// from how they differ, and they are averaged with weights that allow for it (DerSimonian
// and Laird, Controlled Clinical Trials 7, 1986). From three pieces on the interval is that
// of Hartung and Knapp (Statistics in Medicine 20, 2001), no narrower than without; fewer
// cannot tell how far they stray, and theirs is that of counting and what shows between
// them. Cost O(n).
func handsAgainst(pieces []Sewn, other func(Sewn) float64) (f Factor, ok bool) {
	y, v := make([]float64, len(pieces)), make([]float64, len(pieces))
	for i, s := range pieces {
		y[i] = math.Log(s.HandMMS() / other(s))
		e := countError / float64(s.Stitches)
		v[i] = e * e
	}
	if len(y) == 0 {
		return Factor{}, false
	}
	mean, half, spread := combine(y, v)
	return Factor{
		Ratio: math.Exp(mean), Low: math.Exp(mean - half), High: math.Exp(mean + half),
		Pieces: len(y), Spread: spread,
	}, true
}

// combine returns the mean of estimates y with variances v that also differ among
// themselves, half the width of its interval, and the standard deviation of that
// difference.
func combine(y, v []float64) (mean, half, spread float64) {
	mean, _, spread2 := dersimonianLaird(y, v)
	k := float64(len(y))
	var w, around float64
	for i := range y {
		wi := 1 / (v[i] + spread2)
		w += wi
		around += wi * (y[i] - mean) * (y[i] - mean)
	}
	se, quantile := 1/math.Sqrt(w), mathext.NormalQuantile(0.975)
	if k >= 3 {
		se = math.Max(se, math.Sqrt(around/((k-1)*w)))
		quantile = student(0.975, k-1)
	}
	return mean, quantile * se, math.Sqrt(spread2)
}

// dersimonianLaird returns the mean of the model of random effects, its standard error,
// and the variance between the estimates.
func dersimonianLaird(y, v []float64) (mean, se, between float64) {
	var s1, s2, sy float64
	for i := range y {
		w := 1 / v[i]
		s1, s2, sy = s1+w, s2+w*w, sy+w*y[i]
	}
	var q float64
	for i := range y {
		d := y[i] - sy/s1
		q += d * d / v[i]
	}
	if c := s1 - s2/s1; len(y) > 1 && c > 0 {
		between = math.Max(0, (q-float64(len(y)-1))/c)
	}
	var w float64
	for i := range y {
		wi := 1 / (v[i] + between)
		w, mean = w+wi, mean+wi*y[i]
	}
	return mean / w, 1 / math.Sqrt(w), between
}

// student returns the p-quantile, p above 1/2, of Student's t with n degrees of freedom.
func student(p, n float64) float64 {
	x := mathext.InvRegIncBeta(n/2, 0.5, 2*(1-p))
	return math.Sqrt(n * (1 - x) / x)
}

// Clear tells that the factor is not 1 by chance: its interval leaves 1 out.
func (f Factor) Clear() bool { return f.Low > 1 || f.High < 1 }

// Told tells that the factor is not 1 by chance and is known well enough to act on.
func (f Factor) Told() bool {
	return f.Pieces >= LeastPieces && f.Clear() && f.High <= widest*f.Low
}

// HandFor returns the speed in mm/s to rehearse at so that hands that then go faster at the
// machine by the factor make stitches of the length wished (mm) at a needle speed.
func (f Factor) HandFor(stitchMM, spm float64) float64 { return stitchMM * spm / 60 / f.Ratio }

// Verdict is what pieces that were sewn tell.
type Verdict string

// The verdicts: too few pieces, right as it is, stitches longer or shorter than planned,
// and pieces that differ too much to tell.
const (
	Early     Verdict = "early"
	AsPlanned Verdict = "as-planned"
	Longer    Verdict = "longer"
	Shorter   Verdict = "shorter"
	Unsure    Verdict = "unsure"
)

// The limits of the verdicts, ours. Of ten stitches planned to the inch, leastOff is half a
// stitch, as closely as quilters count; mostOff a whole one. From an interval whose upper end
// is more than widest times its lower one no needle speed follows.
const (
	LeastPieces = 3
	leastOff    = 1.05
	mostOff     = 1.1
	widest      = 1.5
)

// Slight tells that a factor is too near to 1 to matter.
func (f Factor) Slight() bool { return math.Max(f.Ratio, 1/f.Ratio) < leastOff }

// Verdict judges a factor against a plan (OffPlan).
func (f Factor) Verdict() Verdict {
	within := f.High <= mostOff && f.Low >= 1/mostOff
	switch {
	case f.Pieces < LeastPieces:
		return Early
	case f.Slight() && (within || f.Clear()):
		return AsPlanned
	case !f.Told():
		return Unsure
	case f.Ratio > 1:
		return Longer
	}
	return Shorter
}
