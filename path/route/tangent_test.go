package route

import (
	"math"
	"math/rand/v2"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// Lines that leave a junction in one direction are ordered by the side to which they
// bend: clockwise to the eye the one that bends up comes before the one that bends down.
func TestTangentLinesAreOrderedByTheirBend(t *testing.T) {
	bowed := func(down float64) geom.Polyline {
		path := geom.Polyline{geom.Pt(0, 0)}
		for _, x := range []float64{0.05, 0.5, 1, 2, 4, 7, 10} {
			path = append(path, geom.Pt(x, down*x*x*x/200)) // flat at the junction
		}
		return path
	}
	for _, first := range []float64{-1, 1} {
		g := plane.Graph{Nodes: []geom.Point{{}, {X: 10, Y: first * 5}, {X: 10, Y: -first * 5}, {X: -10}}}
		for i, path := range []geom.Polyline{bowed(first), bowed(-first), {geom.Pt(0, 0), geom.Pt(-10, 0)}} {
			path[len(path)-1] = g.Nodes[i+1]
			g.Edges = append(g.Edges, plane.Edge{U: 0, V: i + 1, Kind: plane.Sewn, Path: path, Length: path.Length()})
		}
		c := newCompass(g)
		up, down, back := c.rank[0], c.rank[2], c.rank[4]
		if first > 0 {
			up, down = down, up
		}
		// Round the junction: back, up, down, and back again.
		if (up-back+3)%3 != 1 || (down-up+3)%3 != 1 {
			t.Errorf("clockwise the ranks are: back %d, bending up %d, down %d", back, up, down)
		}
	}
}

// Where line ends without a direction (stops) stand among many others, pairing them in
// the order at hand need not be the least; by as much as it may be undercut is loose, so
// that no pairing without a crossing costs less than what is left.
func TestLoosePairings(t *testing.T) {
	dearer := 0
	for seed := range uint64(12) {
		rng := rand.New(rand.NewPCG(seed, 5))
		g := plane.Graph{Nodes: []geom.Point{{}}}
		for k := range 8 {
			s, c := math.Sincos(rng.Float64() * 2 * math.Pi)
			g.Nodes = append(g.Nodes, geom.Pt(10*c, 10*s))
			path := geom.Polyline{g.Nodes[0], g.Nodes[k+1]}
			g.Edges = append(g.Edges, plane.Edge{U: 0, V: k + 1, Kind: plane.Sewn, Path: path, Length: path.Length()})
		}
		n := newNetwork(g, Rules{Costs: Costs{Retrace: 1, Jump: 5}})
		must := make([]bool, len(n.lines))
		j := join{extra: make([]uint8, len(n.lines)), start: Nowhere, exit: Nowhere}
		for i := range g.Edges {
			must[i] = true
		}
		j.extra[len(g.Edges)] = 2 // up and down at the centre
		w := newWalks(n, must, j, true)
		p, err := w.cheapest(w.at[0])
		if err != nil {
			t.Fatal(err)
		}
		want := leastNested(w, w.at[0], nil, 0)
		if p.cost-p.loose > want || p.cost < want {
			t.Errorf("seed %d: a pairing of %d, loose by %d; the least by trying all is %d", seed, p.cost, p.loose, want)
		}
		if p.cost > want {
			dearer++
		}
	}
	if dearer == 0 {
		t.Error("no pairing was dearer than the least: nothing was tried")
	}
}

// leastNested tries all pairings without a crossing.
func leastNested(w *walks, free []int32, pairs [][2]int32, sum int64) int64 {
	if len(free) == 0 {
		return sum
	}
	best := int64(math.MaxInt64)
	a := free[0]
	for i := 1; i < len(free); i++ {
		b := free[i]
		if w.crossings(pairs, a, b) > 0 {
			continue
		}
		rest := append(append([]int32(nil), free[1:i]...), free[i+1:]...)
		best = min(best, leastNested(w, rest, append(pairs[:len(pairs):len(pairs)], [2]int32{a, b}), sum+w.cost(a, b)))
	}
	return best
}
