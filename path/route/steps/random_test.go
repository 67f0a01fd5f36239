package steps

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// side is the side of the random blocks in mm.
const side = 120.0

// chord is a line of a random block, from a place on its outline to another; bent by so
// many mm in the middle.
type chord struct {
	from, to geom.Point
	bend     float64
}

// drawChords draws the lines of a block: different chords from side to side.
func drawChords(rt *rapid.T, most int) []chord {
	place := rapid.Custom(func(rt *rapid.T) geom.Point {
		at := 30 * float64(rapid.IntRange(1, 3).Draw(rt, "at"))
		return [4]geom.Point{{X: at}, {X: side, Y: at}, {X: at, Y: side}, {Y: at}}[rapid.IntRange(0, 3).Draw(rt, "side")]
	})
	var out []chord
	for range rapid.IntRange(1, most).Draw(rt, "lines") {
		c := chord{from: place.Draw(rt, "from"), to: place.Draw(rt, "to"), bend: float64(rapid.IntRange(-1, 1).Draw(rt, "bend")) * 7}
		if c.from.X == c.to.X || c.from.Y == c.to.Y || slices.ContainsFunc(out, func(o chord) bool {
			return o.from == c.from && o.to == c.to || o.from == c.to && o.to == c.from
		}) {
			continue
		}
		out = append(out, c)
	}
	if len(out) == 0 {
		out = []chord{{from: geom.Pt(0, 30), to: geom.Pt(side, 60)}}
	}
	return out
}

func (c chord) mirrored() chord {
	flip := func(p geom.Point) geom.Point { return geom.Pt(side-p.X, p.Y) }
	return chord{flip(c.from), flip(c.to), -c.bend}
}

func (c chord) path(shift float64) geom.Polyline {
	n := geom.Pt(c.from.Y-c.to.Y, c.to.X-c.from.X)
	long := math.Hypot(n.X, n.Y)
	var out geom.Polyline
	for k := 0; k <= 8; k++ {
		s := float64(k) / 8
		p := geom.Lerp(c.from, c.to, s)
		b := c.bend * math.Sin(math.Pi*s) / long
		out = append(out, geom.Pt(p.X+n.X*b+shift, p.Y+n.Y*b))
	}
	return out
}

// rowOf lays designs side by side as a row of blocks, the seams round them included.
func rowOf(rt interface{ Fatal(...any) }, designs [][]chord) (plane.Graph, []route.Block) {
	var strokes []plane.Stroke
	for i, d := range designs {
		x, block := side*float64(i), fmt.Sprint(i)
		seam := func(name string, a, b geom.Point) {
			strokes = append(strokes, plane.Stroke{Name: name, Kind: plane.Seam, Block: block, Path: geom.Polyline{a, b}})
		}
		seam("top", geom.Pt(x, 0), geom.Pt(x+side, 0))
		seam("right", geom.Pt(x+side, 0), geom.Pt(x+side, side))
		seam("bottom", geom.Pt(x, side), geom.Pt(x+side, side))
		if i == 0 {
			seam("left", geom.Pt(x, 0), geom.Pt(x, side))
		}
		for k, c := range d {
			strokes = append(strokes, plane.Stroke{Name: fmt.Sprint("line ", k), Kind: plane.Sewn, Block: block, Path: c.path(x)})
		}
	}
	built, err := plane.Build(strokes, plane.Options{})
	if err != nil {
		rt.Fatal(err)
	}
	at := func(p geom.Point) int {
		return slices.IndexFunc(built.Nodes, func(q geom.Point) bool { return geom.Dist(p, q) < 1e-3 })
	}
	row := make([]route.Block, len(designs))
	for i := range row {
		row[i].Left, row[i].Right = at(geom.Pt(side*float64(i), 0)), at(geom.Pt(side*float64(i+1), 0))
		for e, edge := range built.Edges {
			if edge.Block == fmt.Sprint(i) {
				row[i].Edges = append(row[i].Edges, e)
			}
		}
	}
	return built.Graph, row
}

func fixedRules(row []route.Block, costs route.Costs, through route.Through) route.Rules {
	r := route.Rules{Costs: costs, Ends: route.Ends{Rule: route.Fixed, Start: row[0].Left, Exit: row[len(row)-1].Right}}
	if through == route.OutAndBack {
		r.Ends = route.Ends{Rule: route.Closed, Start: row[0].Left, Exit: route.Nowhere}
	}
	return r
}

// Random rows keep what block by block must keep: each line sewn whole, blocks in order,
// equal blocks alike but for the ends, nothing missed; what that adds against the exact
// least of the row is told.
func TestRandomRows(t *testing.T) {
	var shares []float64
	rapid.Check(t, func(rt *rapid.T) {
		kinds := make([][]chord, rapid.IntRange(1, 3).Draw(rt, "kinds"))
		for i := range kinds {
			kinds[i] = drawChords(rt, 6)
		}
		count := rapid.IntRange(1, 7).Draw(rt, "blocks")
		designs := make([][]chord, count)
		which := make([]int, count)
		for i := range designs {
			which[i] = rapid.IntRange(0, len(kinds)-1).Draw(rt, "kind")
			designs[i] = kinds[which[i]]
		}
		g, row := rowOf(rt, designs)
		through := rapid.SampledFrom([]route.Through{route.OnePass, route.OutAndBack}).Draw(rt, "through")
		jump := rapid.SampledFrom([]float64{40, 250, math.Inf(1)}).Draw(rt, "stop")
		rules := fixedRules(row, route.Costs{Retrace: 1, Seam: 0.2, Jump: jump}, through)
		r, err := PlanRow(g, row, rules, through)
		if err != nil {
			rt.Fatal(err)
		}
		in := instance{Linework: route.Linework{Graph: g, Rules: rules, Row: row, OutAndBack: through == route.OutAndBack}}
		in.want = natural{InOrder: true, Runs: math.MaxInt}
		for k := range kinds {
			var group []int
			for i, w := range which {
				if w == k {
					group = append(group, i)
				}
			}
			in.want.Alike = append(in.want.Alike, group)
		}
		s := seen{in: in, r: r, block: map[int]int{}}
		for i, b := range row {
			for _, e := range b.Edges {
				s.block[e] = i
			}
			s.in.want.Strokes += len(r.Lines[i])
		}
		for what, check := range map[string]func() error{"walk": s.walks, "order": s.inOrder, "alike": s.alike, "cuts": s.cuts, "runs": s.runs} {
			if err := check(); err != nil {
				rt.Fatalf("%s: %v", what, err)
			}
		}
		if r.Added < r.Least-1e-6 || math.Abs(r.Saves-(r.Added-r.Least)) > 1e-6 {
			rt.Fatalf("adds %.3f, no route less than %.3f, cutting saves %.3f at most", r.Added, r.Least, r.Saves)
		}
		exact, err := route.SolveRow(g, row, rules, through)
		if err != nil {
			rt.Fatal(err)
		}
		if through == route.OutAndBack {
			return // the exact way is bound to one junction on each side
		}
		if r.Added < exact.LowerBound-1e-6 {
			rt.Fatalf("adds %.3f, less than the bound %.3f", r.Added, exact.LowerBound)
		}
		shares = append(shares, (r.Added-exact.Added)/r.SewnMM)
	})
	slices.Sort(shares)
	at := func(q float64) float64 { return 100 * shares[int(q*float64(len(shares)-1))] }
	t.Logf("more than the least of the row, in %% of what is sewn: median %.1f, 90th percentile %.1f, most %.1f", at(0.5), at(0.9), at(1))
}

// leastByAll tries every order and direction of the lines of every block, blocks in
// order, travel by shortest paths over seams, over lines of the block that are sewn, or
// by a stop.
type leastByAll struct {
	g     plane.Graph
	row   []route.Block
	rules route.Rules
	lines [][]Line
	best  float64
}

// travel is the cost in mm of the cheapest way from a junction to another, over seams and
// the given lines (Bellman and Ford's relaxation).
func (b *leastByAll) travel(from, to int, sewn []Line) float64 {
	dist := make([]float64, len(b.g.Nodes))
	for v := range dist {
		dist[v] = math.Inf(1)
	}
	dist[from] = 0
	own := map[int]bool{}
	for _, l := range sewn {
		for _, e := range l.Edges {
			own[e] = true
		}
	}
	for again := true; again; {
		again = false
		for i, e := range b.g.Edges {
			price := b.rules.Costs.Seam
			if e.Kind.Must() {
				if !own[i] {
					continue
				}
				price = b.rules.Costs.Retrace
			}
			for _, d := range [2][2]int{{e.U, e.V}, {e.V, e.U}} {
				if c := dist[d[0]] + price*e.Length; c < dist[d[1]]-1e-9 {
					dist[d[1]], again = c, true
				}
			}
		}
	}
	return math.Min(dist[to], b.rules.Costs.Jump)
}

// onePass goes through the blocks from block i on, standing at a junction with lines of
// the block before sewn.
func (b *leastByAll) onePass(i, at, exit int, before []Line, sum float64) {
	if sum >= b.best {
		return
	}
	if i == len(b.row) {
		b.best = math.Min(b.best, sum+b.travel(at, exit, before))
		return
	}
	b.block(b.lines[i], nil, at, before, sum, func(at int, sewn []Line, sum float64) { b.onePass(i+1, at, exit, sewn, sum) })
}

// block sews the lines left in every order and direction and calls next after each; the
// first is reached over the lines of the block before.
func (b *leastByAll) block(left, sewn []Line, at int, before []Line, sum float64, next func(at int, sewn []Line, sum float64)) {
	if len(left) == 0 {
		if len(sewn) == 0 {
			sewn = before
		}
		next(at, sewn, sum)
		return
	}
	for k, l := range left {
		rest := slices.Delete(slices.Clone(left), k, k+1)
		over := sewn
		if len(sewn) == 0 {
			over = before
		}
		for _, w := range []Walk{{}, {Reverse: true}} {
			from, to := l.ends(w)
			b.block(rest, append(slices.Clone(sewn), l), to, nil, sum+b.travel(at, from, over), next)
		}
	}
}

// Small rows, some of mirrored blocks, add exactly what trying everything finds: orders,
// directions, ends of each block; out and back every share of the lines.
func TestSmallRowsAgainstAll(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		designs := make([][]chord, rapid.IntRange(1, 3).Draw(rt, "blocks"))
		for i := range designs {
			designs[i] = drawChords(rt, 2)
			if i > 0 && rapid.Bool().Draw(rt, "mirrored") {
				designs[i] = nil
				for _, c := range designs[i-1] {
					designs[i] = append(designs[i], c.mirrored())
				}
			}
		}
		g, row := rowOf(rt, designs)
		jump := rapid.SampledFrom([]float64{30, 100, math.Inf(1)}).Draw(rt, "stop")
		rules := fixedRules(row, route.Costs{Retrace: 1, Seam: 0.3, Jump: jump}, route.OnePass)
		r, err := PlanRow(g, row, rules, route.OnePass)
		if err != nil {
			rt.Fatal(err)
		}
		b := &leastByAll{g: g, row: row, rules: rules, best: math.Inf(1)}
		for _, block := range row {
			b.lines = append(b.lines, Lines(g, block.Edges))
		}
		b.onePass(0, row[0].Left, row[len(row)-1].Right, nil, 0)
		// Where a stop pays between two blocks the ends of both are priced with one, so
		// that two may be counted where one does; the rows then only may not be better.
		if r.Added < b.best-1e-3 {
			rt.Fatalf("adds %.3f, by trying all %.3f at least", r.Added, b.best)
		}
		if r.Jumps == 0 && math.IsInf(jump, 1) && r.Added > b.best+1e-3 {
			rt.Fatalf("adds %.3f, by trying all %.3f", r.Added, b.best)
		}
	})
}

// Out and back, small rows add what trying every share of the lines between the passes,
// every order and direction finds; sewn lines are not travelled here.
func TestSmallRowsOutAndBackAgainstAll(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		designs := make([][]chord, rapid.IntRange(1, 2).Draw(rt, "blocks"))
		for i := range designs {
			designs[i] = drawChords(rt, 2)
		}
		g, row := rowOf(rt, designs)
		rules := fixedRules(row, route.Costs{Retrace: 100, Seam: 0.3, Jump: math.Inf(1)}, route.OutAndBack)
		r, err := PlanRow(g, row, rules, route.OutAndBack)
		if err != nil {
			rt.Fatal(err)
		}
		b := &leastByAll{g: g, row: row, rules: rules, best: math.Inf(1)}
		for _, block := range row {
			b.lines = append(b.lines, Lines(g, block.Edges))
		}
		start := row[0].Left
		if len(row) == 1 {
			b.onePass(0, start, start, nil, 0)
		} else {
			first := b.lines[0]
			for set := range 1 << len(first) {
				var there, home []Line
				for k, l := range first {
					if set&(1<<k) != 0 {
						there = append(there, l)
					} else {
						home = append(home, l)
					}
				}
				b.lines = [][]Line{there, b.lines[1], home}
				b.row = make([]route.Block, 3)
				b.onePass(0, start, start, nil, 0)
				b.lines = [][]Line{first, b.lines[1]}
			}
		}
		if math.Abs(r.Added-b.best) > 1e-3 {
			rt.Fatalf("adds %.3f, by trying all %.3f", r.Added, b.best)
		}
	})
}
