package bench

import (
	"errors"
	"math"

	"unthreaded/path/machine"
)

// Due is a change of the bobbin.
type Due struct {
	// Time is which sewing of the plan it falls in, from 1; At the arc length in
	// mm on it, RunsOut that at which the bobbin is empty but for its reserve, on
	// the sewing counted as RunsTime.
	Time     int
	At       float64
	RunsTime int
	RunsOut  float64
	Kind     machine.PlaceKind
	// Left is the thread in mm still on the old bobbin.
	Left float64
}

// Bobbins says how the bobbins last.
type Bobbins struct {
	// Full is what one holds, PerTime what one sewing of the plan takes, in mm.
	Full, PerTime float64
	// Needed is how many the whole top takes.
	Needed int
	// Due are the first changes. Short tells that no further one can be given, since the
	// bobbin is too short for the way between two places to change it.
	Due   []Due
	Short bool
}

// maxPlaces bounds the places looked at for changes of the bobbin, and maxDue the
// changes that are told.
const (
	maxPlaces = 50000
	maxDue    = 3
)

// Bobbins works out where the bobbin is due, at a stitch length in mm. Cost
// O(places sewn until the last change told).
func (b Bench) Bobbins(stitch float64) (Bobbins, error) {
	one := b.seam(stitch, 1)
	thread, err := b.seam(stitch, b.Times()).Thread()
	if err != nil {
		return Bobbins{}, err
	}
	out := Bobbins{Full: b.Mine.Full()}
	out.PerTime = one.PerMM()*one.Length + float64(one.Starts)*one.Waste
	if out.Needed, err = machine.Bobbins(thread.Bobbin, out.Full, machine.Reserve.Usual); err != nil {
		return Bobbins{}, err
	}
	changes, err := b.over(b.reach(out), one).Changes()
	var short *machine.NoPlaceError
	switch {
	case errors.As(err, &short):
		out.Short = true
	case err != nil:
		return Bobbins{}, err
	}
	for i, c := range changes {
		if i == maxDue {
			break
		}
		d := Due{Kind: c.Kind, Left: c.Left}
		d.Time, d.At = b.split(c.At)
		d.RunsTime, d.RunsOut = b.split(c.RunsOut)
		out.Due = append(out.Due, d)
	}
	return out, nil
}

// reach returns how many sewings of the plan have to be looked at.
func (b Bench) reach(f Bobbins) int {
	n := int(math.Ceil(f.Full/f.PerTime))*(maxDue+1) + 1
	most := max(1, maxPlaces/(len(b.Plan.Places)+1))
	return min(n, most, b.Times())
}

// over is the bobbin's plan for n sewings one after the other.
func (b Bench) over(n int, one machine.Seam) machine.BobbinPlan {
	full := b.Mine.Full()
	p := machine.BobbinPlan{
		Length: one.Length * float64(n), PerMM: one.PerMM(), Waste: one.Waste,
		Full: full, First: full * b.Job.First, Reserve: machine.Reserve.Usual,
	}
	inner := b.Plan.Work.Starts()
	for k := range n {
		from := one.Length * float64(k)
		if k > 0 {
			p.Starts = append(p.Starts, from)
		}
		for _, s := range inner {
			p.Starts = append(p.Starts, from+s)
		}
		for _, place := range b.Plan.Places {
			p.Places = append(p.Places, machine.Place{At: math.Min(from+place.At, p.Length), Kind: place.Kind})
		}
	}
	return p
}

// split returns the sewing, from 1, and the place on it of an arc length over all.
func (b Bench) split(mm float64) (int, float64) {
	l := b.Plan.Work.Length()
	n := math.Floor(mm/l + 1e-9)
	at := math.Max(0, mm-n*l)
	// The end of one sewing is told as such, not as the start of the next.
	if n > 0 && at < 1e-6 {
		return int(n), l
	}
	return int(n) + 1, at
}
