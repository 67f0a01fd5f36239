// Package said puts what scoring says in codes and values into messages: what happened on
// a trace, what to try next time, and why a figure is missing.
package said

import (
	"math"
	"strconv"

	"unthreaded/game/words"
	"unthreaded/scoring"
)

// What says what happened; where names the place of the fault (see Where). One sentence.
func What(a scoring.Advice, rep scoring.Report, where words.Msg) words.Msg {
	f := a.Fault
	length, there, usual := words.SmallMM(f.Size), words.StitchToMM(a.ThereMM), words.StitchAloneMM(a.UsualMM)
	of := func(args ...any) words.Msg { return words.Of("said.what."+string(f.Kind), args...) }
	switch f.Kind {
	case "":
		return noFault(a, rep)
	case scoring.MissedLine:
		return of(words.LengthMM(f.Size), endOf(f, rep), where)
	case scoring.MissedDot, scoring.EarlyDot:
		return of(f.Number)
	case scoring.SewnTwice:
		return of(words.LengthMM(f.Size), where)
	case scoring.AnotherSize:
		return of(words.Share(f.Size))
	case scoring.AllAside:
		return of(length, string(a.Side))
	case scoring.KnotHere:
		return of(words.ClockS(f.Size), where, int(a.Piled))
	case scoring.Unsteady, scoring.AllUneven:
		return of(words.StitchAloneMM(a.ThereMM), words.StitchMM(a.UsualMM))
	case scoring.SlowCurves:
		return of(there, usual)
	case scoring.TooSlow, scoring.Hesitated:
		return of(there, usual, where, slowedTo(f.Size))
	case scoring.TooFast:
		return of(there, usual, where)
	case scoring.Overshot, scoring.CutCorner:
		return of(length, f.Number)
	case scoring.Aside:
		return of(length, string(a.Side), where)
	case scoring.PastEnd:
		return of(words.LengthMM(f.Size))
	case scoring.OffPace:
		how := "faster"
		if f.Size < 1 {
			how = "slower"
		}
		return of(there, usual, how)
	}
	return of()
}

// slowedTo names a share of the usual speed in a round number, where it is near one.
func slowedTo(share float64) string {
	switch {
	case share >= 0.44 && share <= 0.56:
		return "half"
	case share >= 0.29 && share <= 0.38:
		return "third"
	}
	return ""
}

// noFault says that all is fine, or that this cannot be told.
func noFault(a scoring.Advice, rep scoring.Report) words.Msg {
	if a.Word == scoring.SaidUntold {
		return words.Of("said.what.untold", Why(a.Why))
	}
	cv := rep.Evenness.SpacingCV
	return words.Of("said.what.fine", cv.Defined && cv.Value <= scoring.VeryEven)
}

// Do says what to try next time; check fails on a needle speed, in stitches a minute, that
// cannot be set. One sentence; speeds in inches or mm.
func Do(a scoring.Advice, rep scoring.Report, check func(spm float64) error, inches bool) words.Msg {
	f := a.Fault
	kind := string(f.Kind)
	if kind == "" {
		kind = string(a.Word)
	}
	of := func(args ...any) words.Msg { return words.Of("said.do."+kind, args...) }
	switch f.Kind {
	case scoring.MissedLine:
		return of(endOf(f, rep))
	case scoring.KnotHere:
		return of(a.Dotted)
	case scoring.AllUneven:
		return of(Speed(a.AimMMS, inches))
	case scoring.OffPace:
		spm := 10 * math.Round(rep.Settings.SPM*f.Size/10)
		return of(Speed(a.AimMMS, inches), check(spm) == nil, spm)
	}
	return of()
}

// Speed is a speed in mm/s in words.
func Speed(v float64, inches bool) words.Msg {
	if inches {
		return words.Of("said.speed-in", words.Mixed(v/25.4, 8))
	}
	return words.Of("said.speed-mm", strconv.FormatFloat(math.Round(v), 'f', -1, 64))
}

// endOf tells whether a part that was left out is at the start of the line or at its end.
func endOf(f scoring.Fault, rep scoring.Report) string {
	switch {
	case f.To >= rep.LineMM-1:
		return "end"
	case f.From <= 1:
		return "start"
	}
	return ""
}

// Where names a place on the line, a share of it, as a quilter would point at it.
func Where(share float64) words.Msg {
	at := "end"
	switch {
	case share < 0.1:
		at = "start"
	case share < 0.4:
		at = "first"
	case share < 0.6:
		at = "middle"
	case share < 0.9:
		at = "second"
	}
	return words.Of("said.where." + at)
}

// Why tells why there is no figure.
func Why(f scoring.Figure) words.Msg {
	var args []any
	if f.Why == scoring.HiddenByPixels {
		args = append(args, words.Share(f.Least))
	}
	return words.Of("said.why."+string(f.Why), args...)
}
