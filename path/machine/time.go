package machine

import "fmt"

// Load is what takes time: a length in mm, stops (tie off, cut, begin elsewhere)
// and halts (needle down, turn or move the ruler). Loads of blocks add up to those
// of rows and tops.
type Load struct {
	Length       float64
	Stops, Halts int
}

// Load returns the load of a route. Its first start counts as a stop: a block
// that is begun by itself costs one.
func (w Work) Load() (Load, error) {
	f, err := w.Figures()
	if err != nil {
		return Load{}, err
	}
	return Load{Length: f.Length, Stops: f.Stops + 1, Halts: f.Halts}, nil
}

// Plus returns both loads together.
func (l Load) Plus(m Load) Load {
	return Load{l.Length + m.Length, l.Stops + m.Stops, l.Halts + m.Halts}
}

// Times returns the load n times over; n must not be negative.
func (l Load) Times(n int) Load {
	return Load{l.Length * float64(n), l.Stops * n, l.Halts * n}
}

// Joined returns the load without the start it shares with what it is sewn on
// from, for a block that the needle enters without a stop.
func (l Load) Joined() Load {
	l.Stops = max(0, l.Stops-1)
	return l
}

// Validate reports the first value out of its range.
func (l Load) Validate() error {
	return checkAll(entry{l.Length, LineLength}, entry{float64(l.Stops), Count.Called("number-of-stops")},
		entry{float64(l.Halts), Count.Called("number-of-halts")})
}

// Pace is how fast she works: the hand speed in mm/s and the seconds for each
// stop and halt.
type Pace struct{ Hand, StopS, HaltS float64 }

// UsualPace returns the pace at a hand speed with the usual times for a stop and
// a halt, which are ours and good for a first guess only.
func UsualPace(hand float64) Pace {
	return Pace{Hand: hand, StopS: StopTime.Usual, HaltS: HaltTime.Usual}
}

// Duration is a time in s and its parts.
type Duration struct{ Sewing, Stopping, Halting, Total float64 }

// Time returns how long a load takes: length over speed, and the seconds for stops
// and halts. It assumes an even speed; changing bobbins, resting, basting and
// thinking come on top.
func (l Load) Time(p Pace) (Duration, error) {
	if err := l.Validate(); err != nil {
		return Duration{}, err
	}
	if err := checkAll(entry{p.Hand, HandSpeed}, entry{p.StopS, StopTime}, entry{p.HaltS, HaltTime}); err != nil {
		return Duration{}, fmt.Errorf("pace: %w", err)
	}
	d := Duration{Sewing: l.Length / p.Hand, Stopping: float64(l.Stops) * p.StopS, Halting: float64(l.Halts) * p.HaltS}
	d.Total = d.Sewing + d.Stopping + d.Halting
	return d, nil
}
