package progress

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"unthreaded/scoring/trace"
)

const (
	// Gap in seconds without a trace that ends a session. It is ours: a coffee is
	// no new session, the afternoon after the morning is.
	Gap = 30 * 60
	// WarmUpTraces is how many traces a session begins with that do not count: the
	// hand needs two or three to find its way back (warm-up decrement: Adams,
	// Psychological Bulletin 58, 1961, from memory). Traces on any line count as
	// warming up, and those of a warm-up.
	WarmUpTraces = 2
	// LeastTraces is the number of traces that make the score of a session sure
	// enough to be judged by.
	LeastTraces = 3
)

// Like names all that has to be the same for figures to be compared.
type Like struct {
	// Line is the identity of the line: a ready motif and its repeats, or a name
	// made from the path.
	Line string `json:"line"`
	// Zoom is the share of true size at which it is traced.
	Zoom float64 `json:"zoom"`
	// Way is the way of moving: "pencil" or "cloth".
	Way    string       `json:"way"`
	Device trace.Device `json:"device"`
	// Guide is what helped; only what was done without is scored.
	Guide Guide `json:"guide"`
}

// Guide is how much of the line is shown while it is traced.
type Guide string

// The guides, from the most help to none.
const (
	Whole Guide = "whole" // the line itself
	Dots  Guide = "dots"  // dots along it
	Ends  Guide = "ends"  // where it starts and ends
	None  Guide = "none"
)

// Trace is one measured movement.
type Trace struct {
	ID string `json:"id"`
	// At is when it began, in seconds since 1970 (UTC), Seconds how long it took.
	At      float64 `json:"at_s"`
	Seconds float64 `json:"seconds"`
	Like    Like    `json:"like"`
	// WarmUp marks a trace of a warm-up: it is kept and never scored.
	WarmUp bool `json:"warm_up,omitempty"`
	// Figures are the measures that are defined, Places those of each movement.
	Figures map[Measure]float64              `json:"figures"`
	Places  map[Movement]map[Measure]float64 `json:"places,omitempty"`
}

// Session is a time of practice: its traces in the order of their times, none more
// than Gap after the end of the one before.
type Session struct {
	From, To float64
	Traces   []Trace
}

// Sessions groups traces, in any order, into sessions, the earliest first; every
// trace is in one. It fails on a trace whose time is not a finite number or that
// took less than no time. Cost O(n log n).
func Sessions(traces []Trace) ([]Session, error) {
	for i, t := range traces {
		if math.IsNaN(t.At+t.Seconds) || math.IsInf(t.At+t.Seconds, 0) || t.Seconds < 0 {
			return nil, fmt.Errorf("trace %d (%s): it began at %v s and took %v s", i, t.ID, t.At, t.Seconds)
		}
	}
	sorted := slices.Clone(traces)
	slices.SortStableFunc(sorted, func(a, b Trace) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Seconds, b.Seconds), cmp.Compare(a.ID, b.ID))
	})
	var out []Session
	for _, t := range sorted {
		if n := len(out); n == 0 || t.At-out[n-1].To > Gap {
			out = append(out, Session{From: t.At, To: t.At})
		}
		s := &out[len(out)-1]
		s.Traces = append(s.Traces, t)
		s.To = max(s.To, t.At+t.Seconds)
	}
	return out, nil
}

// Counts tells whether trace i of the session may be scored: it had no guide and
// is neither one of the first WarmUpTraces nor of a warm-up.
func (s Session) Counts(i int) bool {
	return i >= WarmUpTraces && !s.Traces[i].WarmUp && s.Traces[i].Like.Guide == None
}
