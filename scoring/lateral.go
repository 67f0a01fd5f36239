package scoring

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// Lateral tells how far beside the line the movement ran, each piece of it
// counting by its length. Ways round a part that was left out do not count, nor
// does what ran on past the end.
type Lateral struct {
	// MeanError is the mean distance (movement error, ME), Offset the mean with
	// its sign (movement offset, MO), Spread the standard deviation of the latter
	// (movement variability, MV): MacKenzie, Kauppinen and Silfverberg, CHI 2001.
	// All are in mm; positive is to the right hand of the direction of the line.
	MeanError Figure `json:"mean_error_mm"`
	Offset    Figure `json:"offset_mm"`
	Spread    Figure `json:"spread_mm"`
	// P95 is the distance in mm that 95 % of the movement keeps within, Max the
	// largest, at MaxAt mm along the line.
	P95   Figure `json:"p95_mm"`
	Max   Figure `json:"max_mm"`
	MaxAt Figure `json:"max_at_mm"`
	// Side is the hand, seen in the direction of the line, to which the movement
	// runs beside it, empty if neither.
	Side Side `json:"side"`
}

// Side is one hand of the direction of travel.
type Side string

// The sides.
const (
	Left  Side = "left"
	Right Side = "right"
)

// sideMM is the mean offset in mm below which no side is named: the thickness of
// sewing thread, about.
const sideMM = 0.2

func (r *run) lateral() Lateral {
	var e, w []float64
	worst := -1
	for i, off := range r.m.Offset {
		weight := r.weight(i)
		if !r.matched(i) || r.round[i] || r.past[i] || weight == 0 {
			continue
		}
		e, w = append(e, off), append(w, weight)
		if worst < 0 || math.Abs(off) > math.Abs(r.m.Offset[worst]) {
			worst = i
		}
	}
	if len(e) == 0 {
		why := undefined(NeverNear)
		return Lateral{MeanError: why, Offset: why, Spread: why, P95: why, Max: why, MaxAt: why}
	}
	l := lateralOf(e, w)
	l.Max, l.MaxAt = figure(math.Abs(r.m.Offset[worst])), figure(r.m.Place[worst])
	return l
}

// lateralOf returns the figures of the signed distances e in mm that count by
// the weights w.
func lateralOf(e, w []float64) Lateral {
	mean, sd := stat.PopMeanStdDev(e, w)
	abs := make([]float64, len(e))
	for i, v := range e {
		abs[i] = math.Abs(v)
	}
	l := Lateral{MeanError: figure(stat.Mean(abs, w)), Offset: figure(mean), Spread: figure(sd)}
	l.P95 = figure(quantile(0.95, abs, w))
	switch {
	case mean > sideMM:
		l.Side = Right
	case mean < -sideMM:
		l.Side = Left
	}
	return l
}

// quantile sorts x, with its weights, and returns its weighted q-quantile.
func quantile(q float64, x, w []float64) float64 {
	stat.SortWeighted(x, w)
	return stat.Quantile(q, stat.Empirical, x, w)
}
