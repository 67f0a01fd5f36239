package route

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/path/plane"
)

// Odd is a junction that forces something to be added, unless the route ends
// there: an odd number of line ends come together, start and exit counted as one
// more each.
type Odd struct {
	Junction int
	// Lines is the number of ends of lines to be sewn that meet here; a line from
	// the junction back to it has two.
	Lines int
	// Start and Exit tell whether the route begins or leaves here.
	Start, Exit bool
}

// Reasons tells why a route adds what it adds.
type Reasons struct {
	Odd []Odd
	// Bands prove that with these ends nothing less would do: see Band. They add
	// up to BandsMM.
	Bands   []Band
	BandsMM float64
	// LooseMM is what the route adds beyond that, to join up loose pieces; 0 where
	// the lines hang together. The bands do not prove it.
	LooseMM float64
	// Changes are single changes that would save something, the best first.
	Changes []Change
	// Untried counts the changes that might have saved more than some of those,
	// but were left out on a big drawing.
	Untried int
}

// Explain gives the reasons for route r, which Solve found under the rules. What a
// change saves was found by solving anew, or follows without because what it saves
// at least and at most meet. Cost: one matching, a search for each band, and a
// matching for each candidate that the bands do not settle, within a budget.
func Explain(g plane.Graph, rules Rules, r Route) (Reasons, error) {
	if err := validateGraph(g); err != nil {
		return Reasons{}, err
	}
	if err := rules.Validate(g); err != nil {
		return Reasons{}, err
	}
	n := newNetwork(g, rules).withoutTies()
	d := n.demandOf(rules)
	d.ends = Ends{Rule: Fixed, Start: r.Start, Exit: r.Exit}
	f := &finder{n: n, work: changeWork}
	j, p, err := f.leastJoin(d)
	if err != nil {
		return Reasons{}, fmt.Errorf("proving the route: %w", err)
	}
	out := Reasons{Odd: n.oddReasons(d, p.odd), Bands: f.bands(p)}
	for _, b := range out.Bands {
		out.BandsMM += b.Width
	}
	if loose := r.Added - out.BandsMM; loose > costSlack {
		out.LooseMM = loose
	}
	t := &trial{
		finder: f, demand: n.demandOf(rules), rules: rules, reasons: out,
		join: j, proof: p, now: r.Added,
	}
	err = t.tryAll(r)
	out.Changes, out.Untried = t.found, t.untried
	return out, err
}

// withoutTies returns a copy whose costs have no tie-breaks.
func (n *network) withoutTies() *network {
	out := *n
	out.lines = slices.Clone(n.lines)
	for i := range out.lines {
		out.lines[i].cost = out.lines[i].cost >> tieBits << tieBits
	}
	return &out
}

func (n *network) oddReasons(d demand, odd []int32) []Odd {
	lines := make([]int, n.junctions())
	for i, must := range d.must {
		if must {
			lines[n.lines[i].u]++
			lines[n.lines[i].v]++
		}
	}
	out := make([]Odd, len(odd))
	for i, v := range odd {
		out[i] = Odd{
			Junction: int(v), Lines: lines[v],
			Start: int(v) == d.ends.Start, Exit: int(v) == d.ends.Exit,
		}
	}
	return out
}

// Stitches returns how many stitches of the given length in mm a length of line
// takes, the last one counted whole; 0 for a stitch without length.
func Stitches(lengthMM, stitchMM float64) int {
	if stitchMM <= 0 {
		return 0
	}
	return int(math.Ceil(lengthMM/stitchMM - 1e-9))
}
