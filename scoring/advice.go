package scoring

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// mostAdvice is how many places are spoken of at once: more is not taken in.
const mostAdvice = 3

// Word is what is said of a trace first.
type Word string

// The words, the gravest first. The last three are said of a trace without a fault worth a
// word, and of one that was too short, or too coarsely recorded, to tell.
const (
	SaidAnotherFigure Word = "another-figure"
	SaidBackwards     Word = "backwards"
	SaidMissed        Word = "missed"
	SaidOutOfOrder    Word = "out-of-order"
	SaidAnotherSize   Word = "another-size"
	SaidAside         Word = "aside"
	SaidStoodStill    Word = "stood-still"
	SaidUneven        Word = "uneven"
	SaidOvershot      Word = "overshot"
	SaidCut           Word = "cut"
	SaidPastEnd       Word = "past-end"
	SaidOffPace       Word = "off-pace"
	SaidFine          Word = "fine"
	SaidUntold        Word = "untold"
)

// wordOf tells which word each fault is.
var wordOf = map[FaultKind]Word{
	AnotherFigure: SaidAnotherFigure, Backwards: SaidBackwards, MissedLine: SaidMissed, MissedDot: SaidMissed,
	EarlyDot: SaidOutOfOrder, SewnTwice: SaidOutOfOrder, AnotherSize: SaidAnotherSize, AllAside: SaidAside, Aside: SaidAside,
	KnotHere: SaidStoodStill, Unsteady: SaidUneven, SlowCurves: SaidUneven, TooSlow: SaidUneven, TooFast: SaidUneven,
	Hesitated: SaidUneven, AllUneven: SaidUneven, Overshot: SaidOvershot, CutCorner: SaidCut, PastEnd: SaidPastEnd, OffPace: SaidOffPace,
}

// Advice is one thing to say of a trace, with the values that a sentence on it needs.
type Advice struct {
	Word Word `json:"word"`
	// Fault is what it is about; none (an empty kind) with SaidFine and SaidUntold.
	Fault Fault `json:"fault"`
	// Share is where on the line the fault is, 0 to 1, Side to which side of it.
	Share float64 `json:"share"`
	Side  Side    `json:"side,omitempty"`
	// ThereMM and UsualMM are the lengths of stitches in mm there and elsewhere, or the
	// shortest and the longest; 0 where the needle has no rate. Piled is how many stitches
	// lie in one spot, Hz how often a second the speed swings.
	ThereMM float64 `json:"there_mm,omitempty"`
	UsualMM float64 `json:"usual_mm,omitempty"`
	Piled   float64 `json:"piled,omitempty"`
	Hz      float64 `json:"hz,omitempty"`
	// AimMMS is the speed of the hand in mm/s to aim at: the planned one, or else its own.
	AimMMS float64 `json:"aim_mm_s,omitempty"`
	// Dotted tells that the line has dots to stop on. Why tells, with SaidUntold, why.
	Dotted bool   `json:"dotted,omitempty"`
	Why    Figure `json:"why,omitzero"`
}

// First returns what is said of a trace first: its gravest fault or, where none deserves a
// word, that it is fine or that this cannot be told. It is the first of the report's advice
// where there is any, and so contradicts neither it nor the figures. It depends on the
// report alone.
func First(rep Report) Advice {
	for _, f := range rep.Faults {
		if f.Gravity >= 1 {
			return rep.advice(f)
		}
	}
	a := Advice{Word: SaidFine}
	if cv := rep.Evenness.SpacingCV; !cv.Defined && cv.Why != HiddenByPixels {
		a.Word, a.Why = SaidUntold, cv
	}
	return a
}

// advise picks the two or three gravest faults of the report. There is no word for faults
// at a place that was spoken of already, of a kind named already, or below what noise can
// do.
func advise(rep Report) []Advice {
	out := []Advice{}
	for _, f := range rep.Faults {
		if len(out) == mostAdvice {
			break
		}
		if f.Gravity >= 1 && !spokenOf(out, f) {
			out = append(out, rep.advice(f))
		}
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

// advice fills in the values for a fault.
func (rep Report) advice(f Fault) Advice {
	a := Advice{Word: wordOf[f.Kind], Fault: f, Side: rep.sideAt(f), Dotted: len(rep.Dots) > 0, AimMMS: rep.Pace.Cruise.Value}
	if rep.LineMM > 0 {
		a.Share = f.At / rep.LineMM
	}
	if rep.Pace.Planned.Defined {
		a.AimMMS = rep.Pace.Planned.Value
	}
	cruise := rep.Pace.Cruise.Value
	there, usual := 0.0, 0.0 // mm/s
	switch f.Kind {
	case KnotHere:
		a.Piled = math.Round(f.Size * rep.Settings.SPM / 60)
	case Unsteady:
		a.Hz = rep.Wobble.Hz.Value
		there, usual = cruise*(1-f.Size), cruise*(1+f.Size)
	case SlowCurves:
		there, usual = rep.tightAndOpen()
	case TooSlow, TooFast, Hesitated:
		there, usual = cruise*f.Size, cruise
	case AllUneven:
		there, usual = rep.slowest(0.05), rep.slowest(0.95)
	case OffPace:
		there, usual = cruise, rep.Pace.Planned.Value
	}
	if spm := rep.Settings.SPM; spm > 0 {
		a.ThereMM, a.UsualMM = 60*there/spm, 60*usual/spm
	}
	return a
}

// sideAt returns the side of the line on which the movement lies at the fault.
func (rep Report) sideAt(f Fault) Side {
	switch p := rep.Profile; {
	case f.Kind == AllAside:
		return rep.Lateral.Side
	case f.Kind != Aside || len(p.Offset) == 0:
		return ""
	case p.Offset[min(len(p.Offset)-1, int(f.At/p.Step))] < 0:
		return Left
	}
	return Right
}

// tightAndOpen returns the mean speeds in mm/s on the tightest quarter of the
// curved pieces of the line and on the rest of them.
func (rep Report) tightAndOpen() (tight, open float64) {
	p := rep.Profile
	var bend, speed []float64
	for k, known := range p.Known {
		if b := math.Abs(p.Bend[k]); known && curved(b) {
			bend, speed = append(bend, b), append(speed, p.Speed[k])
		}
	}
	if len(speed) < 4 {
		return 0, 0
	}
	stat.SortWeighted(bend, speed)
	q := len(speed) * 3 / 4
	return stat.Mean(speed[q:], nil), stat.Mean(speed[:q], nil)
}

// slowest returns the quantile of the speeds in mm/s along the line.
func (rep Report) slowest(q float64) float64 {
	var v []float64
	for k, known := range rep.Profile.Known {
		if known {
			v = append(v, rep.Profile.Speed[k])
		}
	}
	if len(v) == 0 {
		return 0
	}
	return quantile(q, v, nil)
}
