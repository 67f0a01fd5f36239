package scoring

import "math"

// InchMM is an inch in mm (international yard and pound agreement, 1959).
const InchMM = 25.4

// Inch is an inch of thread as the hand sewed it.
type Inch struct {
	// From and To are the places in mm along the line where it begins and ends.
	From float64 `json:"from_mm"`
	To   float64 `json:"to_mm"`
	// Stitches are the lengths in mm of the stitches that begin in it, in order; the last
	// may reach beyond it.
	Stitches []float64 `json:"stitches_mm"`
}

// Inches are the inch whose stitches are nearest to the planned length and the one whose
// stitches are farthest from it, by the root mean square of the logarithm of their ratio:
// half as long and twice as long are equally far. Both are empty where the trace has no two
// inches apart of stitches that count for evenness; without a planned length the mean one
// stands for it.
type Inches struct {
	Best  Inch `json:"best"`
	Worst Inch `json:"worst"`
}

// inches slides an inch along the stitches. Cost O(stitches).
func (r *run) inches() Inches {
	counted := r.counted()
	aim := r.set.TargetMM
	if !(aim > 0) {
		var sum float64
		for _, k := range counted {
			sum += r.falls[k].Length
		}
		aim = sum / math.Max(1, float64(len(counted)))
	}
	var out Inches
	best, worst := math.Inf(1), math.Inf(-1)
	var from, to [2]int // the first and the last of the stitches of the best and of the worst
	eachInch(counted, func(k int) float64 { return r.falls[k].Length }, aim, func(a, b int, off float64) {
		if off < best {
			best, from[0], to[0] = off, a, b
		}
		if off > worst {
			worst, from[1], to[1] = off, a, b
		}
	})
	if worst < 0 || from[0] <= to[1] && from[1] <= to[0] {
		return out
	}
	out.Best, out.Worst = r.inch(counted[from[0]:to[0]+1]), r.inch(counted[from[1]:to[1]+1])
	return out
}

// eachInch calls f with the first and the last index in counted of the stitches of each inch
// that nothing interrupts, and how far they are from the length aimed at.
func eachInch(counted []int, length func(k int) float64, aim float64, f func(a, b int, off float64)) {
	var mm, sum float64
	a := 0
	square := func(k int) float64 {
		v := math.Log(math.Max(length(k), aim/100) / aim)
		return v * v
	}
	for b, k := range counted {
		if b > 0 && counted[b-1] != k-1 {
			a, mm, sum = b, 0, 0
		}
		mm, sum = mm+length(k), sum+square(k)
		for a < b && mm-length(counted[a]) >= InchMM {
			mm, sum = mm-length(counted[a]), sum-square(counted[a])
			a++
		}
		if mm >= InchMM {
			f(a, b, math.Sqrt(math.Max(0, sum)/float64(b-a+1)))
		}
	}
}

func (r *run) inch(falls []int) Inch {
	first, last := r.falls[falls[0]-1], r.falls[falls[len(falls)-1]]
	in := Inch{From: r.m.Place[r.index(first.T)], To: r.m.Place[r.index(last.T)]}
	if in.To < in.From {
		in.From, in.To = in.To, in.From
	}
	for _, k := range falls {
		in.Stitches = append(in.Stitches, r.falls[k].Length)
	}
	return in
}
