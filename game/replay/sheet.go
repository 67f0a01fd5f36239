package replay

import (
	"math"
	"slices"

	"unthreaded/game/guard"
	"unthreaded/game/keep"
	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/align"
	"unthreaded/scoring/trace"
)

// Sheet is a finished trace laid out for looking at: as stitches, measured, and
// matched to its line.
type Sheet struct {
	Rec  keep.Record
	Line geom.Line
	Prep trace.Prepared
	// Falls are the places where the needle goes down.
	Falls []trace.Fall
	// Place is the arc length on the line of each prepared point, in mm. It falls
	// where the hand went back.
	Place  []float64
	match  align.Match
	Report scoring.Report
	// Unmeasured says why there are no measures; nil where there are.
	Unmeasured error
}

// Lay lays out a record, its stitches and measures at the needle speed and stitch
// length given, which may differ from those it was traced with.
func Lay(rec keep.Record, line geom.Line, spm, stitchMM float64) *Sheet {
	sh := &Sheet{Rec: rec, Line: line}
	var err error
	if f := guard.Run("align", func() {
		if sh.Prep, err = trace.Prepare(rec.Trace()); err == nil {
			sh.match, err = align.Follow(line, sh.Prep.Points)
		}
	}); f != nil {
		err = f
	}
	if err != nil {
		sh.Unmeasured = err
		return sh
	}
	sh.Place = sh.match.Place
	return sh.Stitched(spm, stitchMM)
}

// Stitched returns the sheet with stitches and measures for another needle speed
// and stitch length.
func (sh *Sheet) Stitched(spm, stitchMM float64) *Sheet {
	next := *sh
	if sh.Unmeasured != nil {
		return &next
	}
	// A fault in one measure costs the measures, not the trace.
	if f := guard.Run("scoring", func() {
		next.Falls = sh.Prep.Falls(spm)
		next.Report = scoring.Measure(sh.Line, sh.Rec.Trace(), sh.Prep, sh.match, scoring.Settings{SPM: spm, TargetMM: stitchMM})
	}); f != nil {
		next.Unmeasured = f
	}
	return &next
}

// Duration returns the duration of the trace in s.
func (sh *Sheet) Duration() float64 { return sh.Rec.Trace().Duration() }

// Unadvised returns the sheet without advice, whose places would be marked on the cloth:
// two traces are compared, not corrected.
func (sh *Sheet) Unadvised() *Sheet {
	next := *sh
	next.Report.Advice = nil
	return &next
}

// Beside tells whether a movement followed nothing of the line: it sewed less than a
// twentieth of it, or 20 mm, and most of the movement did not run along it either.
func (sh *Sheet) Beside() bool {
	length := sh.Line.Length()
	sewn := math.Max(sh.Report.Coverage.Value, sh.Report.Sewn.Value)
	if sh.Unmeasured != nil || sewn*length >= math.Min(followedShare*length, followedMM) {
		return false
	}
	pts := sh.Prep.Points
	along := 0.0
	for i := 1; i < len(pts); i++ {
		change := math.Abs(sh.Place[i] - sh.Place[i-1])
		near := !sh.match.Lost[i] && math.Abs(sh.match.Offset[i]) <= asideMM
		// A place that runs ahead of the hand has jumped.
		if near && change <= 2*geom.Dist(pts[i-1], pts[i]) {
			along += change
		}
	}
	return along < followedHalf*pts.Length()
}

const (
	// asideMM is how far beside the line in mm a movement may run and still follow it:
	// twice what counts as sewn, as for a line followed in order.
	asideMM = 2 * 3.0
	// followedShare of the line, or followedMM of a long one, a trace must have sewn to be
	// one, or else have followed it with followedHalf of its movement.
	followedShare, followedMM, followedHalf = 0.05, 20.0, 0.5
)

// Noted returns the record of the sheet with its measures.
func (sh *Sheet) Noted() keep.Record {
	rec := sh.Rec
	if sh.Unmeasured != nil {
		rec.SetUnmeasured()
	} else {
		rec.SetMeasures(sh.Report)
	}
	return rec
}

// PlaceAt returns the place on the line in mm that the trace has reached at the time t in s.
func (sh *Sheet) PlaceAt(t float64) float64 { return PlaceAt(sh.Place, sh.Prep.Rate, t) }

// TimeAt returns the first time in s at which the trace passes a place in mm along the line.
func (sh *Sheet) TimeAt(place float64) float64 { return TimeAt(sh.Place, sh.Prep.Rate, place) }

// Scrub stops the clock where the trace of the sheet is at the place s in mm along its
// line. The end of the trace is that of the clock, also where dwelling there takes time
// that no place on the line shows.
func (c Clock) Scrub(sh *Sheet, s float64) Clock {
	if sh == nil || len(sh.Place) == 0 {
		return c
	}
	c.Playing = false
	if last := sh.Place[len(sh.Place)-1]; s >= last && last >= slices.Max(sh.Place) {
		return c.At(c.Length)
	}
	return c.At(TimeAt(sh.Place, sh.Prep.Rate, s))
}
