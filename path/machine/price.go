package machine

// DitchPrice is what a mm sewn in the ditch costs, in mm of a line that is sewn over once
// more: both take the same time, but the ditch hides it. A judgement of ours.
const DitchPrice = 0.2

// StopPrice returns what a stop costs, in mm of a line that is sewn over once more: what is
// sewn in the ditch in the time that a stop takes, at the usual hand speed, and the thread
// that is left at its ends. All places price a stop by StopTime, so that what is planned,
// reasoned and added up agree.
func StopPrice() float64 {
	return DitchPrice * (HandSpeed.Usual*StopTime.Usual + Waste.Usual)
}

// Pace returns the pace that is assumed: where nothing was changed the usual one, else the
// middle of what is assumed.
func (a Assumptions) Pace() Pace {
	usual := UsualAssumptions()
	of := func(s, was Between, r Range) float64 {
		if s == was {
			return r.Usual
		}
		return (s.Low + s.High) / 2
	}
	return Pace{Hand: of(a.Hand, usual.Hand, HandSpeed), StopS: of(a.Stop, usual.Stop, StopTime), HaltS: of(a.Halt, usual.Halt, HaltTime)}
}
