package route

import (
	"cmp"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// A dart is one end of a line of the graph: 2e leaves line e's U along it, 2e+1
// leaves its V. compass holds what is known of the directions of all darts.
type compass struct {
	// out is the direction in radians in which a dart leaves its junction.
	out []float64
	// rank orders the darts of a junction by direction.
	rank []int32
	// onward is the dart at the same junction that carries on a ruler line, or -1.
	onward []int32
}

// newCompass reads the directions off the ends of the lines' paths. Darts that
// leave in the same direction are ranked by where they lie a little further on.
func newCompass(g plane.Graph) compass {
	c := compass{
		out: make([]float64, 2*len(g.Edges)), rank: make([]int32, 2*len(g.Edges)),
		onward: make([]int32, 2*len(g.Edges)),
	}
	at := make([][]int32, len(g.Nodes))
	for i, e := range g.Edges {
		c.out[2*i], c.out[2*i+1] = heading(e.Path, 1, 1), heading(e.Path, len(e.Path)-2, -1)
		at[e.U] = append(at[e.U], int32(2*i))
		at[e.V] = append(at[e.V], int32(2*i+1))
	}
	for _, darts := range at {
		for k, d := range c.sorted(g, darts) {
			c.rank[d] = int32(k)
			c.onward[d] = c.continuation(g, darts, d)
		}
	}
	return c
}

// heading returns the direction from an end of the path to its first vertex,
// searched from i on in steps, that lies apart from that end.
func heading(path geom.Polyline, i, step int) float64 {
	end := path[i-step]
	for ; i >= 0 && i < len(path); i += step {
		if geom.Dist(end, path[i]) > sameMM {
			return math.Atan2(path[i].Y-end.Y, path[i].X-end.X)
		}
	}
	return 0
}

// sameMM is the distance in mm below which two points give no direction: the
// micrometre to which places are kept.
const sameMM = 1e-3

// sameHeading is the angle in radians below which directions count as equal; a
// vertex kept to a micrometre, 1 mm away, has its direction to 1e-3.
const sameHeading = 1e-3

// sorted returns the darts of one junction clockwise. Those that leave in the
// same direction are ordered by where their lines bend, else by what difference
// there is.
func (c compass) sorted(g plane.Graph, darts []int32) []int32 {
	n := len(darts)
	slices.SortFunc(darts, func(a, b int32) int { return cmp.Or(cmp.Compare(c.out[a], c.out[b]), cmp.Compare(a, b)) })
	// Begin after a gap, so that no bundle of equal directions is cut in two.
	near := func(a, b int32) bool { return math.Abs(wrap(c.out[a]-c.out[b])) < sameHeading }
	first := 0
	for first < n && near(darts[first], darts[(first+n-1)%n]) {
		first++
	}
	out := slices.Concat(darts[first%max(n, 1):], darts[:first%max(n, 1)])
	for i := 0; i < n; {
		k := i + 1
		for k < n && near(out[k-1], out[k]) {
			k++
		}
		if k-i > 1 {
			c.sortBundle(g, out[i:k])
		}
		i = k
	}
	return out
}

// sortBundle orders darts that leave in the same direction.
func (c compass) sortBundle(g plane.Graph, darts []int32) {
	from := c.out[darts[0]]
	slices.SortFunc(darts, func(a, b int32) int {
		bendA, bendB := wrap(c.bend(g, a)-from), wrap(c.bend(g, b)-from)
		if math.Abs(bendA-bendB) > sameHeading {
			return cmp.Compare(bendA, bendB)
		}
		return cmp.Or(cmp.Compare(wrap(c.out[a]-from), wrap(c.out[b]-from)), cmp.Compare(a, b))
	})
}

// bend returns the direction from the dart's junction to a point a little along
// its line, as far as all lines are likely to go without turning back.
func (c compass) bend(g plane.Graph, d int32) float64 {
	const reach = 1.0
	path := g.Edges[d/2].Path
	if d%2 == 1 {
		path = path.Reversed()
	}
	sum := 0.0
	for i := 1; i < len(path); i++ {
		leg := geom.Dist(path[i-1], path[i])
		if sum+leg >= reach {
			p := geom.Lerp(path[i-1], path[i], (reach-sum)/leg)
			return math.Atan2(p.Y-path[0].Y, p.X-path[0].X)
		}
		sum += leg
	}
	return c.out[d]
}

// wrap brings an angle into (-pi, pi].
func wrap(a float64) float64 {
	a = math.Mod(a, 2*math.Pi)
	if a > math.Pi {
		return a - 2*math.Pi
	}
	if a <= -math.Pi {
		return a + 2*math.Pi
	}
	return a
}

// turn returns the angle turned, in [0, pi], by a walk that comes in along dart
// a's line and leaves along dart b: 0 straight on, pi back.
func (c compass) turn(a, b int32) float64 {
	between := math.Abs(c.out[a] - c.out[b])
	return math.Abs(math.Pi - between)
}

// continuation returns the dart that carries a ruler line on through the
// junction of darts: the straightest of the same stroke, if it turns less than a
// corner.
func (c compass) continuation(g plane.Graph, darts []int32, d int32) int32 {
	e := g.Edges[d/2]
	best, least := int32(-1), geom.CornerTurn
	if e.Kind != plane.Ruler {
		return best
	}
	for _, o := range darts {
		if f := g.Edges[o/2]; o == d || f.Kind != plane.Ruler || f.Stroke != e.Stroke {
			continue
		}
		if t := c.turn(d, o); t < least {
			best, least = o, t
		}
	}
	return best
}

// rules tells whether a ruler line runs on through any junction.
func (c compass) rules() bool {
	return slices.ContainsFunc(c.onward, func(d int32) bool { return d >= 0 })
}
