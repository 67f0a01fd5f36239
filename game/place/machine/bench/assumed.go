package bench

import (
	"math"

	"unthreaded/path/machine"
	"unthreaded/path/quilt/order"
)

// Assumed is what the figures of a job rest on beside the lines, the stitch and the
// hand: what she types, each the middle of a span. Times are s.
type Assumed struct {
	// Stop, Halt, Bobbin and Turn are the times for a stop, for a halt, to change a bobbin
	// and to turn the quilt; Mark that to mark 100 mm; Evening what is sewn at a stretch.
	Stop    float64 `json:"stop_s"`
	Halt    float64 `json:"halt_s"`
	Bobbin  float64 `json:"bobbin_s"`
	Turn    float64 `json:"turn_s"`
	Mark    float64 `json:"mark_s_per_100_mm"`
	Evening float64 `json:"evening_s"`
	// Marked is the share of the lines that is marked, Reserve that of thread added.
	Marked  float64 `json:"marked"`
	Reserve float64 `json:"reserve"`
	// Waste is the thread in mm for a start and its end, Loose how many times thicker than
	// under the foot a layer is in her roll.
	Waste float64 `json:"waste_mm"`
	Loose float64 `json:"loose"`
}

// UsualAssumed returns what is assumed before she says otherwise.
func UsualAssumed() Assumed {
	return Assumed{
		Stop: machine.StopTime.Usual, Halt: machine.HaltTime.Usual, Bobbin: machine.BobbinTime.Usual, Turn: machine.TurnTime.Usual,
		Mark: machine.MarkTime.Usual, Evening: machine.EveningTime.Usual, Marked: machine.Share.Usual, Reserve: machine.Reserve.Usual,
		Waste: machine.Waste.Usual, Loose: machine.LooseRoll.Usual,
	}
}

// named are the values with their ranges, narrower where the span about a value has to
// keep one too.
func (a Assumed) named() []named {
	return []named{
		{"assumed.stop_s", a.Stop, inner(machine.StopTime)}, {"assumed.halt_s", a.Halt, inner(machine.HaltTime)},
		{"assumed.bobbin_s", a.Bobbin, inner(machine.BobbinTime)}, {"assumed.turn_s", a.Turn, inner(machine.TurnTime)},
		{"assumed.mark_s_per_100_mm", a.Mark, inner(machine.MarkTime)}, {"assumed.evening_s", a.Evening, inner(machine.EveningTime)},
		{"assumed.marked", a.Marked, machine.Share}, {"assumed.reserve", a.Reserve, machine.Reserve},
		{"assumed.waste_mm", a.Waste, inner(machine.Waste)}, {"assumed.loose", a.Loose, machine.LooseRoll},
	}
}

// inner is the range of a value whose span, up to twice and down to half of it, keeps r.
func inner(r machine.Range) machine.Range {
	r.Min, r.Max = r.Min*2, r.Max/2
	return r
}

// about returns a span of shares of a value.
func about(v, low, high float64) machine.Between {
	return machine.Between{Low: v * low, High: v * high}
}

// clipped keeps a span within a range.
func clipped(s machine.Between, r machine.Range) machine.Between {
	return machine.Between{Low: math.Max(r.Min, math.Min(r.Max, s.Low)), High: math.Max(r.Min, math.Min(r.Max, s.High))}
}

// Assumptions returns what a job rests on, for a stitch length in mm and a hand speed in
// mm/s: spans of the usual breadth about what she set.
func (b Bench) Assumptions(hand, stitch float64) machine.Assumptions {
	a, full := b.Mine.Assumed, b.Mine.Full()
	marked := machine.Between{Low: a.Marked, High: a.Marked}
	if a.Marked == machine.Share.Usual { // not said: none of it, or all
		marked = machine.Between{Low: 0, High: 1}
	}
	filled := about(full, 0.8, 1.2)
	if b.Mine.FullMM > 0 { // measured
		filled = about(full, 0.95, 1.05)
	}
	return machine.Assumptions{
		Stitch: clipped(about(stitch, 0.9, 1.1), machine.StitchLength), Hand: clipped(about(hand, 0.7, 1.3), machine.HandSpeed),
		Thickness: clipped(about(b.Job.Thickness, 0.8, 1.2), machine.Thickness),
		Stop:      about(a.Stop, 0.75, 1.5), Halt: about(a.Halt, 0.5, 2), Bobbin: about(a.Bobbin, 0.5, 2), Turn: about(a.Turn, 0.5, 2),
		Mark: about(a.Mark, 0.5, 2), Marked: marked, Waste: about(a.Waste, 0.75, 1.25),
		Full: clipped(filled, machine.BobbinLength), Reserve: a.Reserve, First: b.Job.First, Evening: about(a.Evening, 2.0/3, 4.0/3),
	}
}

// Sum adds the job of the quilt on the table up, and what is left of it.
func (b Bench) Sum(a machine.Assumptions) (machine.Job, order.Left, error) {
	l, ok := b.Laid()
	if !ok {
		return machine.Job{}, order.Left{}, errNoRoute
	}
	job, err := l.Order.Job(a)
	if err != nil {
		return machine.Job{}, order.Left{}, err
	}
	left, err := l.Order.Left(l.Sewn, a)
	return job, left, err
}
