package scoring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
)

// mostAdvice is how many places are spoken of at once: more is not taken in.
const mostAdvice = 3

// Advice is a word on one of the worst places.
type Advice struct {
	Fault Fault `json:"fault"`
	// Text says what happened there and what to try.
	Text string `json:"text"`
}

// Units writes a length in mm, one that a hand went, a length of stitches in mm ("10 per inch", "2.5 mm
// long") and a speed in mm/s in the words of the person.
type Units struct {
	Length, Way, Stitches, Speed func(float64) string
}

// Millimetres are units that everybody can convert.
var Millimetres = Units{
	Length:   func(mm float64) string { return fmt.Sprintf("%.1f mm", mm) },
	Way:      func(mm float64) string { return fmt.Sprintf("%.0f mm", mm) },
	Stitches: func(mm float64) string { return fmt.Sprintf("%.1f mm long", mm) },
	Speed:    func(mmPerS float64) string { return fmt.Sprintf("%.0f mm a second", mmPerS) },
}

func advise(rep Report) []Advice { return Advise(rep, Millimetres) }

// Advise puts the two or three gravest faults of the report into words, in the
// units. There is none for faults at a place that
// was spoken of already, of a kind named already, or below what noise can do.
func Advise(rep Report, units Units) []Advice {
	out := []Advice{}
	w := words{rep, units}
	for _, f := range rep.Faults {
		if len(out) == mostAdvice {
			break
		}
		if f.Gravity < 1 || spokenOf(out, f) {
			continue
		}
		out = append(out, Advice{Fault: f, Text: w.say(f)})
	}
	return out
}

// spokenOf tells whether there is a word already on this kind of fault, or on
// this very place.
func spokenOf(said []Advice, f Fault) bool {
	for _, a := range said {
		same := a.Fault.From <= f.To+cornerMM && f.From <= a.Fault.To+cornerMM && a.Fault.To-a.Fault.From < 100
		if a.Fault.Kind == f.Kind || same {
			return true
		}
	}
	return false
}

// words writes advice on one report.
type words struct {
	rep   Report
	units Units
}

func (w words) say(f Fault) string {
	switch f.Kind {
	case MissedDot:
		return fmt.Sprintf("Dot %d was passed by. Say the dots in order under your breath and look at the next one before you move.", f.Number)
	case EarlyDot:
		return fmt.Sprintf("Dot %d was taken before its turn. Stop with the needle down on each dot and find the next one first.", f.Number)
	case MissedLine:
		if f.At == f.From {
			return fmt.Sprintf("You stopped %s before the end. Next time go on to the end, even if you leave the line on the way.", w.units.Length(f.Size))
		}
		if f.From < coverStep {
			return fmt.Sprintf("You began %s along the line. Begin on the start dot, so that nothing is left open.", w.units.Length(f.Size))
		}
		return fmt.Sprintf("%s, %s of the line was left out. Go over the route once with a finger before you sew it.", w.where(f), w.units.Length(f.Size))
	case SewnTwice:
		return fmt.Sprintf("%s, %s of the line was sewn twice. Where you lose the way, stop with the needle down and look, then go on.", w.where(f), w.units.Length(f.Size))
	case Backwards:
		return "The line was sewn from its end to its start. The first dot shows where it begins."
	case Overshot:
		return fmt.Sprintf("At corner %d your hand went %s past the point. Slow down in the last %s before it, stop with the needle down, then turn.",
			f.Number, w.units.Length(f.Size), w.units.Length(2*cornerMM))
	case CutCorner:
		return fmt.Sprintf("Corner %d was cut short by %s. Go right to the point, stop with the needle down, then turn.", f.Number, w.units.Length(f.Size))
	case Aside:
		return fmt.Sprintf("%s the stitches lie up to %s to the %s of the line. Look ahead along the line, not at the needle.", w.where(f), w.units.Length(f.Size), w.side(f))
	case PastEnd:
		return fmt.Sprintf("You ran %s past the end. Slow down before the end dot and stop on it with the needle down.", w.units.Way(f.Size))
	}
	return w.sayOfSpeed(f)
}

func (w words) sayOfSpeed(f Fault) string {
	switch f.Kind {
	case KnotHere:
		return fmt.Sprintf("%s your hand stood still for %.1f s%s. %s", w.where(f), f.Size, w.pile(f.Size), w.stopWell())
	case Unsteady:
		return fmt.Sprintf("Your hand sped up and slowed down about %.1f times a second, by %.0f %% each way%s. Let the shoulders drop, move from the forearm and keep to %s throughout.",
			w.rep.Wobble.Hz.Value, 100*f.Size, w.stitches(1-f.Size, 1+f.Size), w.speed())
	case SlowCurves:
		tight, open := w.tightAndOpen()
		return fmt.Sprintf("In the tight curves your hand slowed to %.0f %%%s. Try %s throughout.", 100*tight/open, w.stitchesAt(tight, open), w.speed())
	case TooSlow:
		return fmt.Sprintf("%s your hand slowed to %.0f %%%s. Try %s throughout.", w.where(f), 100*f.Size, w.stitches(f.Size, 1), w.speed())
	case TooFast:
		return fmt.Sprintf("%s your hand ran at %.0f %% of its speed%s. Try %s throughout.", w.where(f), 100*f.Size, w.stitches(f.Size, 1), w.speed())
	case Hesitated:
		return fmt.Sprintf("%s your hand faltered, down to %.0f %% of its speed%s. Look ahead to where the line goes next.", w.where(f), 100*f.Size, w.stitches(f.Size, 1))
	}
	return w.pace(f)
}

// where names a part of the line as a quilter would point at it.
func (w words) where(f Fault) string {
	switch share := f.At / w.rep.LineMM; {
	case share < 0.1:
		return "Near the start"
	case share < 0.4:
		return "In the first half"
	case share < 0.6:
		return "Half way along"
	case share < 0.9:
		return "In the second half"
	}
	return "Near the end"
}

func (w words) side(f Fault) Side {
	p := w.rep.Profile
	if len(p.Offset) > 0 && p.Offset[min(len(p.Offset)-1, int(f.At/p.Step))] < 0 {
		return Left
	}
	return Right
}

// pile tells how many stitches a stop of so many seconds puts into one spot.
func (w words) pile(seconds float64) string {
	n := math.Round(seconds * w.rep.Settings.SPM / 60)
	if n < 2 {
		return ""
	}
	return fmt.Sprintf(": %.0f stitches in one spot", n)
}

func (w words) stopWell() string {
	if len(w.rep.Dots) > 0 {
		return "Stop on a dot, not between two."
	}
	return "If you have to think, stop the needle first."
}

// speed is the one to aim at: the planned one, or else the hand's own.
func (w words) speed() string {
	v := w.rep.Pace.Cruise
	if w.rep.Pace.Planned.Defined {
		v = w.rep.Pace.Planned
	}
	return w.units.Speed(v.Value)
}

// stitches sets the stitches at two shares of the cruising speed side by side.
func (w words) stitches(a, b float64) string {
	return w.stitchesAt(a*w.rep.Pace.Cruise.Value, b*w.rep.Pace.Cruise.Value)
}

func (w words) stitchesAt(a, b float64) string {
	spm := w.rep.Settings.SPM
	if !(spm > 0) {
		return ""
	}
	return fmt.Sprintf(": stitches %s beside %s", w.units.Stitches(60*a/spm), w.units.Stitches(60*b/spm))
}

// tightAndOpen returns the mean speeds in mm/s on the tightest quarter of the
// curved pieces of the line and on the rest of them.
func (w words) tightAndOpen() (tight, open float64) {
	p := w.rep.Profile
	var bend, speed []float64
	for k, known := range p.Known {
		if b := math.Abs(p.Bend[k]); known && curved(b) {
			bend, speed = append(bend, b), append(speed, p.Speed[k])
		}
	}
	stat.SortWeighted(bend, speed)
	q := len(speed) * 3 / 4
	return stat.Mean(speed[q:], nil), stat.Mean(speed[:q], nil)
}

func (w words) pace(f Fault) string {
	how := "slower"
	if f.Size > 1 {
		how = "faster"
	}
	planned := w.rep.Settings.TargetMM
	return fmt.Sprintf("Your hand moved %s than planned: stitches %s instead of %s. Aim at %s, or change the needle speed to match your hand.",
		how, w.units.Stitches(planned*f.Size), w.units.Stitches(planned), w.speed())
}
