package scoring

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

const (
	// bendRange is the least factor between the 5th and the 95th percentile of
	// the curvature for which an exponent can be fitted.
	bendRange = 3.0
	// leastBend in seconds is the least time in curves.
	leastBend = 0.5
)

// Slowing tells how the hand slowed in curves: v = K * curvature^-Exponent
// (Lacquaniti, Terzuolo and Viviani, Acta Psychologica 54, 1983), 0 for an even
// hand. The curvature is that of the ideal line at the matched place; that of
// the movement itself would feign the law from mere noise (Maoz et al., NIPS 18,
// 2005).
type Slowing struct {
	Exponent Figure `json:"exponent"`
	// Fit is the share of the variance of log speed that the law explains (r2).
	Fit Figure `json:"fit"`
	// Untrained is the exponent of a hand that has not practised even speed, for
	// this line.
	Untrained Figure `json:"untrained"`

	scale float64 // K in mm/s
}

func (r *run) slowing() Slowing {
	s := Slowing{Untrained: r.untrained()}
	var x, y []float64
	for i, ok := range r.cruise {
		k := r.bends.at(r.m.Place[i])
		if ok && r.matched(i) && !r.round[i] && curved(k) && r.p.Speed[i] > stopShare*r.speed {
			x, y = append(x, math.Log(math.Abs(k))), append(y, math.Log(r.p.Speed[i]))
		}
	}
	if why := tooAlike(x, int(leastBend*r.p.Rate)); why != "" {
		s.Exponent = undefined(why)
		s.Fit = s.Exponent
		return s
	}
	a, b := stat.LinearRegression(x, y, nil, false)
	s.Exponent, s.Fit, s.scale = figure(-b), figure(stat.RSquared(x, y, nil, a, b)), math.Exp(a)
	return s
}

// tooAlike tells why no exponent can be fitted over these logarithms of
// curvature, "" if it can.
func tooAlike(x []float64, least int) Reason {
	if len(x) < least || len(x) == 0 {
		return FewCurves
	}
	sorted := slices.Clone(x)
	slices.Sort(sorted)
	lo, hi := stat.Quantile(0.05, stat.Empirical, sorted, nil), stat.Quantile(0.95, stat.Empirical, sorted, nil)
	if hi-lo < math.Log(bendRange) {
		return AlikeCurves
	}
	return ""
}

// law returns the speed in mm/s that the law gives at s mm along the line, 0
// where there is none: no exponent, or no curve.
func (r *run) law(s Slowing, at float64) float64 {
	k := r.bends.at(at)
	if !s.Exponent.Defined || !curved(k) {
		return 0
	}
	return s.scale * math.Pow(math.Abs(k), -s.Exponent.Value)
}
