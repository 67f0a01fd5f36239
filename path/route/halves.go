package route

import (
	"errors"
	"fmt"
	"math"
)

// tourSamples is the number of tours of each block that are looked at for even
// halves.
const tourSamples = 48

// evenPerRadian is how many mm of difference between the halves of a block count
// as much as turning by one radian more: 20 mm for a square corner. A judgement
// of ours.
const evenPerRadian = 20 / (math.Pi / 2)

// cutTour is a tour of one block, cut at both its ends: the steps from left to
// right and those from right to left.
type cutTour struct {
	there, home []Step
	score       float64
}

// outAndBack solves each block as a closed tour by both its ends, and strings
// the halves together: out through all blocks, home in the opposite order.
func (n *network) outAndBack(row []Block, rules Rules) (RowRoute, error) {
	var cuts []cutTour
	bound, exact := int64(0), true
	all := join{extra: make([]uint8, len(n.lines)), start: Nowhere, exit: Nowhere}
	for i, b := range row {
		rules.Ends = Ends{Rule: Closed, Start: b.Left}
		d := n.demandOfBlocks(rules, b)
		d.visit = []int{b.Right}
		f := &finder{n: n, work: searchWork}
		j, least, _, err := f.leastConnected(d)
		if err != nil {
			return RowRoute{Route: Route{Added: math.Inf(1)}}, fmt.Errorf("block %d: %w", i, err)
		}
		bound += least >> tieBits << tieBits
		exact = exact && least>>tieBits == j.cost>>tieBits
		cut, err := n.evenest(b, newWalks(n, d.must, j, rules.NeverCross))
		if err != nil {
			return RowRoute{Route: Route{Added: math.Inf(1)}}, fmt.Errorf("block %d: %w", i, err)
		}
		cuts = append(cuts, cut)
		for l, times := range j.extra {
			all.extra[l] += times
		}
	}
	r := RowRoute{Through: OutAndBack}
	steps := n.stringUp(cuts)
	for _, c := range cuts {
		r.Second += len(c.there)
		r.Halves = append(r.Halves, Half{OutMM: n.lengthOf(c.there), BackMM: n.lengthOf(c.home)})
	}
	r.Route = n.routeAlong(steps)
	r.LowerBound, r.Exact = mm(bound), exact
	var err error
	r.TurningBound, err = newWalks(n, n.demandOfBlocks(rules, row...).must, all, false).turningBound()
	return r, err
}

func (n *network) lengthOf(steps []Step) float64 {
	sum := 0.0
	for _, s := range steps {
		if s.Way != Jump {
			sum += n.g.Edges[s.Edge].Length
		}
	}
	return sum
}

// evenest returns the tour of a block that shares it most evenly between there
// and home for the turning it takes. The first sample is the smoothest tour;
// the others are the smoothest under turns that are blurred at random.
func (n *network) evenest(b Block, w *walks) (cutTour, error) {
	best := cutTour{score: math.Inf(1)}
	for w.blur = 0; w.blur < tourSamples; w.blur++ {
		c, err := w.sample()
		if err != nil {
			return best, err
		}
		if cut := c.cutEvenly(int32(b.Left), int32(b.Right)); cut.score < best.score {
			best = cut
		}
		if best.score == 0 || len(w.arcs) <= 2 {
			break
		}
	}
	if math.IsInf(best.score, 1) {
		return best, errors.New("the tour does not come by both ends")
	}
	return best, nil
}

// sample returns the smoothest tour for no blur, and a smooth one for any other.
func (w *walks) sample() (*circuits, error) {
	if w.blur == 0 {
		c, _, err := w.smoothest()
		return c, err
	}
	c, err := w.cheapestCircuits()
	if err != nil {
		return nil, err
	}
	return c, c.joinUp(func(int) bool { return true })
}

// cutEvenly cuts the tour at a passage through each of two junctions, so that
// the parts differ least in length. Where both ends are one junction all of it
// counts as the way there.
func (c *circuits) cutEvenly(left, right int32) cutTour {
	n := c.w.n
	best := cutTour{score: math.Inf(1)}
	for _, d := range c.w.at[left] {
		steps := c.stepsFrom(c.follow(d))
		if left == right {
			return cutTour{there: steps, score: evenPerRadian * n.turning(steps)}
		}
		total := n.lengthOf(steps)
		there := 0.0
		for i, s := range steps {
			if s.Way != Jump {
				there += n.g.Edges[s.Edge].Length
			}
			if s.To != int(right) {
				continue
			}
			cut := cutTour{there: steps[:i+1], home: steps[i+1:]}
			cut.score = math.Abs(total-2*there) + evenPerRadian*(n.turning(cut.there)+n.turning(cut.home))
			if cut.score < best.score {
				best = cut
			}
		}
	}
	return best
}
