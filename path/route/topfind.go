package route

import (
	"errors"
	"fmt"

	"unthreaded/path/plane"
)

// TopFinder is the search of SolveTop taken in steps, so that what waits for it need
// not stand still: a row in one number of passes each. A method returns the search
// after it and leaves the one before as it was.
type TopFinder struct {
	g     plane.Graph
	rows  [][]Block
	rules Rules
	// steps counts those taken, ways holds what they found row by row, apart why the
	// row in hand cannot be sewn in the passes tried so far.
	steps int
	ways  [][]way
	apart error
	vague bool // some row's ways are not proved the best
}

// passes are the numbers of passes that each row is tried in.
var passes = []Through{OnePass, OutAndBack}

// NewTopFinder begins the search of SolveTop.
func NewTopFinder(g plane.Graph, rows [][]Block, rules Rules) (TopFinder, error) {
	if len(rows) == 0 {
		return TopFinder{}, errors.New("a top needs a row")
	}
	return TopFinder{g: g, rows: rows, rules: rules}, nil
}

// Row returns the number of rows that are solved.
func (f TopFinder) Row() int { return f.steps / len(passes) }

// Ready tells that all rows are solved, so that Route can put them together.
func (f TopFinder) Ready() bool { return f.Row() == len(f.rows) }

// Step solves the next row in one of its numbers of passes; a row that can be sewn in
// none is an error. Cost that of SolveRow.
func (f TopFinder) Step() (TopFinder, error) {
	if f.Ready() {
		return f, nil
	}
	i, through := f.Row(), passes[f.steps%len(passes)]
	if f.steps%len(passes) == 0 {
		f.ways, f.apart = append(f.ways[:i:i], nil), nil
	}
	r, err := SolveRow(f.g, f.rows[i], f.rules, through)
	switch {
	case errors.Is(err, ErrApart):
		f.apart = err
	case err != nil:
		return f, fmt.Errorf("row %d: %w", i, err)
	default:
		f.vague = f.vague || !r.Exact
		there, back := bothEnds(r, f.rows[i], through)
		f.ways = append(f.ways[:i:i], append(f.ways[i][:len(f.ways[i]):len(f.ways[i])], there, back))
	}
	if f.steps++; f.Row() > i && len(f.ways[i]) == 0 {
		return f, fmt.Errorf("row %d: %w", i, f.apart)
	}
	return f, nil
}

// bothEnds returns a way through a row as it is begun at its left and at its right.
func bothEnds(r RowRoute, row []Block, through Through) (there, back way) {
	there = way{steps: r.Steps, second: r.Second, through: through, start: r.Start, exit: r.Exit, added: r.Added}
	back = way{steps: reversed(r.Steps), second: len(r.Steps) - r.Second, through: through,
		fromRight: true, start: r.Exit, exit: r.Start, added: r.Added}
	if through == OnePass {
		back.second = len(r.Steps)
		return there, back
	}
	// From the right the pass home comes first.
	back.steps = append(append([]Step(nil), r.Steps[r.Second:]...), r.Steps[:r.Second]...)
	back.start = row[len(row)-1].Right
	back.exit = back.start
	return there, back
}

// Route chooses a way through each row, all of which must be solved, and puts them
// together. Cost of one search over the lines for each end of a row.
func (f TopFinder) Route() (TopRoute, error) {
	if !f.Ready() {
		return TopRoute{}, fmt.Errorf("%d rows of %d are solved", f.Row(), len(f.rows))
	}
	ways := append([][]way(nil), f.ways...)
	if ends := f.rules.Ends; ends.Rule == Fixed || ends.Rule == StartOnly {
		ways[0] = beginningAt(ways[0], ends.Start)
		if len(ways[0]) == 0 {
			return TopRoute{}, fmt.Errorf("junction %d is at neither end of the first row", ends.Start)
		}
	}
	n := newNetwork(f.g, f.rules)
	search := &finder{n: n, bans: n.demandOf(f.rules).bans}
	steps, taken, err := search.inOrder(ways)
	if err != nil {
		return TopRoute{}, err
	}
	settle(steps)
	t := TopRoute{Route: n.routeAlong(steps), Rows: taken}
	if t.Exact = !f.vague; t.Exact {
		t.LowerBound = t.Added
	}
	return t, nil
}

func beginningAt(ways []way, start int) []way {
	var out []way
	for _, w := range ways {
		if w.start == start {
			out = append(out, w)
		}
	}
	return out
}
