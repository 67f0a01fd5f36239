// Package scoring tells how even, how close, how smooth a movement was, and
// where it was not. It takes a line and a trace and knows nothing of how the
// line was planned.
//
// Score prepares the trace (package trace: faulty samples out, evenly resampled, a
// zero-phase Butterworth filter), matches it to the line in order (package align: Viterbi
// over places of the line, with hypotheses of a shift, a size and a turn), and takes the
// measures, one file each: the coefficient of variation of speed and of stitches, lateral
// errors (ME, MO, MV), overshoot at corners, the exponent of the power law of curves, the
// spectral arc length (SPARC), hesitations, the Frechet distance. What is wrong, and what
// is said of it first, are codes with values and places; the sentences are elsewhere.
package scoring

import (
	"fmt"

	"unthreaded/path/geom"
	"unthreaded/scoring/align"
	"unthreaded/scoring/trace"
)

// Settings are what the measures depend on beside line and trace.
type Settings struct {
	// SPM is the needle rate in stitches per minute.
	SPM float64 `json:"spm"`
	// TargetMM is the stitch length in mm that was planned.
	TargetMM float64 `json:"target_mm"`
	// ToleranceMM is the distance in mm up to which a place of the line counts
	// as followed; DefaultTolerance if it is not positive.
	ToleranceMM float64 `json:"tolerance_mm"`
}

// DefaultTolerance in mm: recorded hands stray by 0.5 to 3 mm, and lines of
// quilting lie 5 mm apart or more.
const DefaultTolerance = 3.0

// Report holds every measure of one trace along one line.
type Report struct {
	Settings Settings `json:"settings"`
	// Duration in seconds, from the first sample to the last.
	Duration float64 `json:"duration_s"`
	// LineMM and TraceMM are the lengths in mm of the line and of the movement.
	LineMM  float64 `json:"line_mm"`
	TraceMM float64 `json:"trace_mm"`
	// MeanSpeed in mm/s is that of the whole movement.
	MeanSpeed Figure   `json:"mean_speed_mm_s"`
	Pace      Pace     `json:"pace"`
	Evenness  Evenness `json:"evenness"`
	Inches    Inches   `json:"inches"`
	Lateral   Lateral  `json:"lateral"`
	Turns     Turns    `json:"turns"`
	Slowing   Slowing  `json:"slowing"`
	// SPARC is the spectral arc length of the speed, no unit, the mean of the
	// Strokes; nearer 0 is smoother. Compare it on the same line only;
	// differences under 0.05 say nothing.
	SPARC       Figure       `json:"sparc"`
	Strokes     []Stroke     `json:"strokes"`
	Hesitations []Hesitation `json:"hesitations"`
	Stops       []Stop       `json:"stops"`
	Wobble      Wobble       `json:"wobble"`
	// Sewn is the share of the line, 0 to 1, that the movement went along in its order,
	// however far beside it; Coverage the share that was close: passed within the
	// tolerance.
	Sewn       Figure     `json:"sewn"`
	Coverage   Figure     `json:"coverage"`
	Cover      Cover      `json:"cover"`
	Order      Order      `json:"order"`
	Dots       []Dot      `json:"dots"`
	Legs       []Leg      `json:"legs"`
	Difficulty Difficulty `json:"difficulty"`
	// Unrecorded is the time in seconds in gaps, Merged and Reordered count
	// samples whose clock was at fault, Faulty those left out since no hand is that fast
	// (see trace.Prepared).
	Unrecorded float64 `json:"unrecorded_s"`
	Merged     int     `json:"merged"`
	Reordered  int     `json:"reordered"`
	Faulty     int     `json:"faulty"`
	// Faults are what went wrong, the gravest first, First is what is said first, and
	// Advice are the two or three places worth a word: First and those after it.
	Faults []Fault  `json:"faults"`
	First  Advice   `json:"first"`
	Advice []Advice `json:"advice"`
	// Profile is left out of the JSON: the trace gives it again.
	Profile Profile `json:"-"`
}

// Score measures the trace against the line. It fails if there is no line or the
// trace cannot be prepared (see trace.Prepare). Cost: a little more than linear
// in the samples (n log n for the spectrum), linear in the length of the line.
func Score(line geom.Line, tr trace.Trace, set Settings) (Report, error) {
	p, err := trace.Prepare(tr)
	if err != nil {
		return Report{}, fmt.Errorf("preparing the trace: %w", err)
	}
	m, err := align.Follow(line, p.Points)
	if err != nil {
		return Report{}, fmt.Errorf("matching the trace to the line: %w", err)
	}
	return Measure(line, tr, p, m, set), nil
}

// Measure is Score for a trace that has been prepared to p and matched as m
// already.
func Measure(line geom.Line, tr trace.Trace, p trace.Prepared, m align.Match, set Settings) Report {
	if !(set.ToleranceMM > 0) {
		set.ToleranceMM = DefaultTolerance
	}
	r := newRun(line, tr, p, m, set)
	rep := Report{
		Settings: set, Duration: p.Duration(), LineMM: line.Length(), TraceMM: p.Arc[len(p.Arc)-1],
		Pace: r.pace(), Evenness: r.evenness(), Inches: r.inches(), Lateral: r.lateral(), Turns: r.turns(), Slowing: r.slowing(),
		Strokes: r.strokes(), Stops: r.stops,
		Sewn: r.cover.sewn(), Coverage: r.cover.share(), Cover: r.cover, Order: r.order(), Dots: r.dots(), Legs: r.legs(),
		Difficulty: r.difficulty(), Merged: p.Merged, Reordered: p.Reordered, Faulty: p.Faulty, Profile: r.profile(),
	}
	rep.MeanSpeed = undefined(TooShort)
	if rep.Duration > 0 {
		rep.MeanSpeed = figure(rep.TraceMM / rep.Duration)
	}
	for _, g := range p.Gaps {
		rep.Unrecorded += g.To - g.From
	}
	rep.SPARC = smoothness(rep.Strokes)
	r.expect(rep.Slowing)
	rep.Hesitations = r.hesitations(rep.Slowing)
	rep.Wobble = r.wobble()
	rep.Faults = r.faults(rep)
	rep.First, rep.Advice = First(rep), advise(rep)
	return rep
}
