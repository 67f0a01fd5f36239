// Package route plans the way round a block: from the line work as a planar
// graph to one continuous path that sews every line once, with the least to be
// added and the least turning, and with reasons for what has to be added.
//
// Solve plans one drawing, SolveRow a row of blocks in one pass or two.
// Alternatives ranks other routes, Explain proves why so much is added and what
// would save it, Check follows an order of hers, and Route.Pieces gives the paths
// to rehearse. Whole tops are planned by path/quilt/order.
//
// In the field's terms: one drawing is a rural postman problem, whose required edges are
// the lines to be sewn. What has to be added is a least T-join of its odd junctions:
// shortest paths between them and a minimum-weight perfect matching (package matching).
// Where the lines lie in several pieces the problem is NP-hard and is solved by dynamic
// programming over a frontier (Sekine and Imai), within a budget. Of the Euler tours of the result the one
// that turns least is taken: pairings of the line ends at each junction, joined into one
// circuit.
//
// Lengths are mm, angles radians. A junction or a line is named by its index in
// the graph.
package route

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"unthreaded/path/plane"
)

// Costs are the prices of what a route adds to sewing every line once. Prices
// are taken to hundredths and lengths to micrometres, so that sums are exact.
type Costs struct {
	// Retrace is the price of each mm of a further walk along a sewn line, at
	// least 0.01.
	Retrace float64
	// Seam is the price of each mm walked along a seam, hidden in the ditch.
	Seam float64
	// Jump is the price in mm of one stop-and-start (tie off, cut, begin again
	// elsewhere); +Inf where none is allowed.
	Jump float64
}

// Nowhere stands for a junction that is not given.
const Nowhere = -1

// EndRule tells where a route begins and leaves.
type EndRule string

// The rules for the ends, by their names in a linework file.
const (
	// Closed routes leave where they begin.
	Closed EndRule = "closed"
	// Fixed routes begin and leave at given junctions.
	Fixed EndRule = "fixed"
	// StartOnly routes begin at a given junction and leave anywhere.
	StartOnly EndRule = "start"
	// Free routes begin and leave anywhere.
	Free EndRule = "free"
)

// Ends says where a route begins and leaves. Start is optional (Nowhere) for
// closed routes; Exit is read for fixed ones only.
type Ends struct {
	Rule        EndRule
	Start, Exit int
}

// Rules are what she decides about a route.
type Rules struct {
	Costs Costs
	Ends  Ends
	// NoSeams bars all seams from being travelled, Barred those of the named
	// strokes.
	NoSeams bool
	Barred  []string
	// NeverCross asks for a route that does not cross itself at a junction; it
	// then cannot go straight through a crossing.
	NeverCross bool
	// FewestMoves asks for the fewest moves among the routes that walk the same lines,
	// and of those for the smoothest, instead of the smoothest of all.
	FewestMoves bool
}

// Way tells how a step goes.
type Way int

// The ways of a step.
const (
	// Sew is the first walk along a line that must be sewn.
	Sew Way = iota
	// Again is a further walk along such a line: a retrace.
	Again
	// Hidden travels along a seam.
	Hidden
	// Jump stops, cuts and starts elsewhere.
	Jump
)

// Step is one line walked, or one stop-and-start.
type Step struct {
	// Edge is the line walked; Nowhere for a Jump.
	Edge int
	// Reverse is true where the line is walked from its V to its U.
	Reverse bool
	Way     Way
	// From and To are the junctions at its ends.
	From, To int
}

// Route is a way round and what it costs.
type Route struct {
	Steps       []Step
	Start, Exit int
	// Added is what the route adds to sewing every line once, at the prices of
	// the rules, in mm.
	Added float64
	// SewnMM is the length of the lines sewn, each once, RetraceMM that of the
	// further walks along them, SeamMM that of the travel along seams.
	SewnMM, RetraceMM, SeamMM float64
	// Jumps counts the stop-and-starts.
	Jumps int
	// LowerBound is a proven limit: no route under these rules adds less. Exact
	// tells that Added meets it; else the route is the best found, and the gap
	// between the two is open.
	LowerBound float64
	Exact      bool
	// Turning is the sum of the angles turned at junctions, those at start, exit
	// and stops left out; a closed route turns at its start too. No route that
	// walks the same lines as often turns less than TurningBound, and where
	// TurningExact is set none turns less than this one (none that never
	// crosses itself, if that was asked for; none that leaves ruler lines as
	// seldom, if it has any).
	Turning, TurningBound float64
	TurningExact          bool
	// Moves counts the stretches that a hand does in one go, from where it begins to
	// where it turns by 45 degrees or more, goes on along another kind of line, or stops
	// (see Hand). Where the fewest were asked for, no route that walks the
	// same lines makes fewer than MovesBound; Smoothest is then the turning of the
	// smoothest, whatever moves it makes.
	Moves, MovesBound int
	Smoothest         float64
}

// maxTotalMM bounds the line work, so that all sums fit whole numbers: a
// kilometre of lines.
const maxTotalMM = 1e6

// maxPrice bounds the prices per mm.
const maxPrice = 100

// Validate reports the first rule that cannot hold for g.
func (r Rules) Validate(g plane.Graph) error {
	c := r.Costs
	if !(c.Retrace >= 0.01 && c.Retrace <= maxPrice) {
		return fmt.Errorf("the retrace price %v is not from 0.01 to %d", c.Retrace, maxPrice)
	}
	if !(c.Seam >= 0 && c.Seam <= maxPrice) {
		return fmt.Errorf("the seam price %v is not from 0 to %d", c.Seam, maxPrice)
	}
	if !(c.Jump >= 0 && (c.Jump <= maxTotalMM || math.IsInf(c.Jump, 1))) {
		return fmt.Errorf("the price of a stop %v is not from 0 to %d, nor infinite", c.Jump, int(maxTotalMM))
	}
	return r.Ends.validate(len(g.Nodes))
}

// bars tells whether the seams of a stroke may not be travelled.
func (r Rules) bars(stroke string) bool { return r.NoSeams || slices.Contains(r.Barred, stroke) }

func (e Ends) validate(nodes int) error {
	in := func(v int) bool { return v >= 0 && v < nodes }
	switch e.Rule {
	case Closed:
		if e.Start != Nowhere && !in(e.Start) {
			return fmt.Errorf("the start, junction %d, is not one of %d", e.Start, nodes)
		}
	case Fixed, StartOnly:
		if !in(e.Start) {
			return fmt.Errorf("the start, junction %d, is not one of %d", e.Start, nodes)
		}
		if e.Rule == Fixed && !in(e.Exit) {
			return fmt.Errorf("the exit, junction %d, is not one of %d", e.Exit, nodes)
		}
	case Free:
	default:
		return fmt.Errorf("no rule for the ends is called %q", e.Rule)
	}
	return nil
}

// ErrNothing is returned where no line has to be sewn.
var ErrNothing = errors.New("no line has to be sewn")

// validateGraph reports the first line of g that cannot be walked.
func validateGraph(g plane.Graph) error {
	total, must := 0.0, 0
	for i, e := range g.Edges {
		if e.U < 0 || e.U >= len(g.Nodes) || e.V < 0 || e.V >= len(g.Nodes) {
			return fmt.Errorf("line %d: joins junctions %d and %d of %d", i, e.U, e.V, len(g.Nodes))
		}
		if !(e.Length >= 0 && e.Length <= maxTotalMM) {
			return fmt.Errorf("line %d: length %v mm", i, e.Length)
		}
		if err := e.Path.Validate(); err != nil {
			return fmt.Errorf("line %d: %w", i, err)
		}
		if lo, hi := e.Path.Bounds(); min(lo.X, lo.Y) < -maxTotalMM || max(hi.X, hi.Y) > maxTotalMM {
			return fmt.Errorf("line %d: lies more than %d mm away", i, int(maxTotalMM))
		}
		total += e.Length
		if e.Kind.Must() {
			must++
		}
	}
	if total > maxTotalMM {
		return fmt.Errorf("the lines are %.0f mm long together, more than %d", total, int(maxTotalMM))
	}
	if must == 0 {
		return ErrNothing
	}
	return nil
}
