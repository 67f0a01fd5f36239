package progress

import (
	"math"

	"unthreaded/scoring"
)

const (
	// placeMM is the least length in mm of a movement on which its figures stand.
	placeMM = 10.0
	// endSeconds are left out at both ends, where every hand speeds up and slows
	// down.
	endSeconds = 0.25
	// farOff bounds how much one piece may count: a quarter or four times the
	// usual speed.
	farOff = 4.0
)

// Places returns the measures Uneven and Beside for each movement that at least
// 10 mm of the line ask for, and for Anywhere:
//
//   - Uneven is the root mean square of ln(v/u), v the mean speed on a piece of the
//     profile and u the median of v over all pieces away from corners. It is near the
//     coefficient of variation of the stitch lengths but counts against the hand's
//     usual speed, so that a curve taken evenly, yet slowly, is uneven too. There is
//     none at corners, where the hand has to slow.
//   - Beside is the mean distance in mm beside the line.
//
// The first and the last quarter of a second are left out. Cost: that of Classify
// and a sort.
func Places(rep scoring.Report) map[Movement]map[Measure]float64 {
	p := rep.Profile
	at := Classify(p, cornersOf(rep))
	known := within(p)
	var cruise []float64
	for k, ok := range known {
		if ok && at[k] != Corner {
			cruise = append(cruise, p.Speed[k])
		}
	}
	out := map[Movement]map[Measure]float64{}
	if len(cruise) == 0 {
		return out
	}
	usual := median(cruise)
	for _, m := range append([]Movement{Anywhere}, Movements...) {
		if f := placeFigures(p, usual, func(k int) bool { return known[k] && (m == Anywhere || at[k] == m) }, at); f != nil {
			out[m] = f
		}
	}
	return out
}

func cornersOf(rep scoring.Report) []float64 {
	var at []float64
	for _, c := range rep.Turns.Corners {
		at = append(at, c.At)
	}
	return at
}

// placeFigures returns the figures over the pieces that are in, nil if they are
// shorter than placeMM.
func placeFigures(p scoring.Profile, usual float64, in func(k int) bool, at []Movement) map[Measure]float64 {
	var n, cruising, uneven, beside float64
	for k := range p.Speed {
		if !in(k) {
			continue
		}
		n++
		beside += math.Abs(p.Offset[k])
		if at[k] != Corner {
			cruising++
			l := math.Log(max(1/farOff, min(farOff, p.Speed[k]/usual)))
			uneven += l * l
		}
	}
	if n*p.Step < placeMM {
		return nil
	}
	f := map[Measure]float64{Beside: beside / n}
	if cruising*p.Step >= placeMM {
		f[Uneven] = math.Sqrt(uneven / cruising)
	}
	return f
}

// within marks the pieces of the profile where the hand was, without those of the
// first and the last endSeconds.
func within(p scoring.Profile) []bool {
	out := make([]bool, len(p.Known))
	copy(out, p.Known)
	for k := range out {
		out[k] = out[k] && p.Speed[k] > 0
	}
	var t float64
	for k := 0; k < len(out) && t < endSeconds; k++ {
		if out[k] {
			t += p.Step / p.Speed[k]
			out[k] = false
		}
	}
	t = 0
	for k := len(out) - 1; k >= 0 && t < endSeconds; k-- {
		if out[k] {
			t += p.Step / p.Speed[k]
			out[k] = false
		}
	}
	return out
}
