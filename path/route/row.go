package route

import (
	"fmt"
	"math"

	"unthreaded/path/plane"
)

// Block is one block of a row: the lines in it and the junctions where a pass
// through the row enters and leaves it. A strip of sashing between two blocks is
// a block of its own, of one line or seam.
type Block struct {
	Left, Right int
	Edges       []int
}

// Through says in how many passes a row is sewn.
type Through int

// The ways through a row.
const (
	// Cheaper takes the one that adds less; one pass where both add the same.
	Cheaper Through = iota
	// OnePass begins at one end of the row and leaves at the other.
	OnePass
	// OutAndBack sews part of each block on the way out and the rest on the way
	// home.
	OutAndBack
)

// Half tells how much of a block is walked in each pass, in mm.
type Half struct{ OutMM, BackMM float64 }

// RowRoute is a route through a row of blocks.
type RowRoute struct {
	Route
	Through Through // OnePass or OutAndBack
	// Second is the index of the first step of the second pass; the number of
	// steps where there is one pass only.
	Second int
	// Halves tells for each block how the two passes share it; nil for one pass.
	Halves []Half
	// OnePassAdded and OutAndBackAdded are what either way through adds, in mm, as
	// far as it was asked for; +Inf for one that no line, seam or stop allows.
	OnePassAdded, OutAndBackAdded float64
}

// SolveRow returns the route through a row from the left of its first block to
// the right of its last, or out to there and back. Of the rules all but the ends
// hold; that the route never crosses itself holds within each block only, if
// there are two passes. Out and back each block is sewn by itself, its lines walked so that a
// closed tour comes by both its ends, which is cut at the far one; that is exact
// in what is added, while how evenly the passes share a block is a matter of
// sampling (exactly equal halves are weakly NP-hard). Cost: that of Solve for one
// pass, and for each block that of Solve for two.
func SolveRow(g plane.Graph, row []Block, rules Rules, through Through) (RowRoute, error) {
	n, err := networkForRow(g, row, rules)
	if err != nil {
		return RowRoute{}, err
	}
	one, two := RowRoute{}, RowRoute{}
	errOne, errTwo := ErrApart, ErrApart
	one.Added, two.Added = math.Inf(1), math.Inf(1)
	if through != OutAndBack {
		one, errOne = n.onePass(row, rules)
	}
	if through != OnePass {
		two, errTwo = n.outAndBack(row, rules)
	}
	best := one
	switch {
	case errOne != nil && errTwo != nil:
		if through == OutAndBack {
			return RowRoute{}, errTwo
		}
		return RowRoute{}, errOne
	case errOne != nil || errTwo == nil && two.Added < one.Added-costSlack:
		best = two
	}
	best.OnePassAdded, best.OutAndBackAdded = one.Added, two.Added
	return best, nil
}

// costSlack is the difference in mm below which two costs are the same: half a
// cost unit, for costs are whole units and their sums are made of fractions.
const costSlack = 0.5 / costUnit

func networkForRow(g plane.Graph, row []Block, rules Rules) (*network, error) {
	if err := validateGraph(g); err != nil {
		return nil, err
	}
	if len(row) == 0 {
		return nil, fmt.Errorf("a row needs a block")
	}
	if err := validateRow(g, row); err != nil {
		return nil, err
	}
	rules.Ends = Ends{Rule: Fixed, Start: row[0].Left, Exit: row[len(row)-1].Right}
	if err := rules.Validate(g); err != nil {
		return nil, err
	}
	return newNetwork(g, rules), nil
}

// demandOfBlocks asks for the lines of the blocks and bans all others.
func (n *network) demandOfBlocks(rules Rules, blocks ...Block) demand {
	all := n.demandOf(rules)
	d := demand{must: make([]bool, len(n.lines)), bans: make([]bool, len(n.lines)), ends: rules.Ends}
	for i := range n.g.Edges {
		d.bans[i] = true
	}
	for _, b := range blocks {
		for _, e := range b.Edges {
			d.must[e], d.bans[e] = all.must[e], all.bans[e]
		}
	}
	return d
}

func (n *network) onePass(row []Block, rules Rules) (RowRoute, error) {
	rules.Ends = Ends{Rule: Fixed, Start: row[0].Left, Exit: row[len(row)-1].Right}
	f := &finder{n: n, work: searchWork}
	r, err := f.plan(n.demandOfBlocks(rules, row...), rules)
	if err != nil {
		return RowRoute{Route: Route{Added: math.Inf(1)}}, err
	}
	return RowRoute{Route: r, Through: OnePass, Second: len(r.Steps)}, nil
}

// validateRow reports the first block that does not fit.
func validateRow(g plane.Graph, row []Block) error {
	owner := map[int]int{}
	for i, b := range row {
		if b.Left < 0 || b.Left >= len(g.Nodes) || b.Right < 0 || b.Right >= len(g.Nodes) {
			return fmt.Errorf("block %d: runs from junction %d to %d of %d", i, b.Left, b.Right, len(g.Nodes))
		}
		if i > 0 && row[i-1].Right != b.Left {
			return fmt.Errorf("block %d: begins at junction %d, but the one before ends at %d", i, b.Left, row[i-1].Right)
		}
		for _, e := range b.Edges {
			if e < 0 || e >= len(g.Edges) {
				return fmt.Errorf("block %d: line %d is not one of %d", i, e, len(g.Edges))
			}
			if other, taken := owner[e]; taken {
				return fmt.Errorf("block %d: line %d belongs to block %d already", i, e, other)
			}
			owner[e] = i
		}
	}
	return nil
}
