package scoring

// The gravity of a fault of the route lies above that of uneven stitches: they
// can be seen from across the room.
const (
	missedDotGravity = 10.0
	earlyDotGravity  = 8.0
	// routeGravityMM is the length in mm of line missed or sewn twice that adds 1.
	routeGravityMM = 10.0
)

// routeFaults finds dots and lines missed, sewn twice, early or backwards.
func (r *run) routeFaults(rep Report) []Fault {
	var out []Fault
	for k, d := range rep.Dots {
		f := Fault{From: d.At, To: d.At, At: d.At, Number: k + 1}
		switch {
		case !d.Reached:
			f.Kind, f.Size, f.Gravity = MissedDot, d.Distance.Value, missedDotGravity
		case d.Early:
			f.Kind, f.Size, f.Gravity = EarlyDot, float64(k+1), earlyDotGravity
		default:
			continue
		}
		out = append(out, f)
	}
	for _, s := range rep.Cover.Missed {
		if r.worthMissing(s) && !swapped(rep.Dots, s) {
			f := lineFault(MissedLine, s)
			if s.To > r.line.Length()-coverStep {
				f.At = s.From // where the hand stopped
			}
			out = append(out, f)
		}
	}
	if rep.Order.Way == Backward {
		s := Span{0, rep.LineMM}
		f := lineFault(Backwards, s)
		f.Size, f.At = rep.Cover.BackMM, 0 // where it should have begun
		return append(out, f)
	}
	for _, s := range rep.Cover.Doubled {
		if s.Length() >= 2*r.set.ToleranceMM {
			out = append(out, lineFault(SewnTwice, s))
		}
	}
	return out
}

func lineFault(kind FaultKind, s Span) Fault {
	return Fault{
		Kind: kind, From: s.From, To: s.To, At: (s.From + s.To) / 2,
		Size: s.Length(), Gravity: 2 + s.Length()/routeGravityMM,
	}
}

// worthMissing tells whether a missed part is a fault of its own: it is no mere end, and
// no missed dot tells it already.
func (r *run) worthMissing(s Span) bool {
	if s.Length() < 2*r.set.ToleranceMM {
		return false
	}
	return s.From < coverStep || s.To > r.line.Length()-coverStep || !r.holdsDot(s)
}

// swapped tells whether the span lies among dots that were taken in another
// order: from before the first dot left for later to after the one taken early.
func swapped(dots []Dot, s Span) bool {
	for k, d := range dots {
		if !d.Early {
			continue
		}
		first := k
		for first > 0 && dots[first-1].Reached && dots[first-1].T.Value > d.T.Value {
			first--
		}
		if s.From >= dots[max(0, first-1)].At && s.To <= dots[min(len(dots)-1, k+1)].At {
			return true
		}
	}
	return false
}
