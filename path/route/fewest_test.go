package route

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
)

// straightEdges joins places of a drawing by straight lines, without strokes.
func straightEdges(nodes []geom.Point, pairs ...[2]int) plane.Graph {
	g := plane.Graph{Nodes: nodes}
	for _, p := range pairs {
		path := geom.Polyline{nodes[p[0]], nodes[p[1]]}
		g.Edges = append(g.Edges, plane.Edge{U: p[0], V: p[1], Kind: plane.Sewn, Path: path, Length: path.Length()})
	}
	return g
}

func fewest(t testing.TB, g plane.Graph, ends Ends) Route {
	t.Helper()
	r, err := Solve(g, Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}, Ends: ends, FewestMoves: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// orangePeel draws n x n lenses: each side of the grid is two quarter arcs, one bowed
// to either side, so that the arcs of a grid line make two waves.
func orangePeel(n int) plane.Graph {
	var g plane.Graph
	const side = 50.0
	for y := range n + 1 {
		for x := range n + 1 {
			g.Nodes = append(g.Nodes, geom.Pt(side*float64(x), side*float64(y)))
		}
	}
	arc := func(u, v int, bow float64) {
		a, b := g.Nodes[u], g.Nodes[v]
		// A quarter circle over the chord: its centre lies half a chord beside it.
		c := geom.Pt((a.X+b.X)/2+bow*(b.Y-a.Y)/2, (a.Y+b.Y)/2-bow*(b.X-a.X)/2)
		from, to := math.Atan2(a.Y-c.Y, a.X-c.X), math.Atan2(b.Y-c.Y, b.X-c.X)
		turn := math.Remainder(to-from, 2*math.Pi)
		path := geom.Polyline{a}
		for k := 1; k < 16; k++ {
			s, co := math.Sincos(from + turn*float64(k)/16)
			path = append(path, geom.Pt(c.X+side/math.Sqrt2*co, c.Y+side/math.Sqrt2*s))
		}
		path = append(path, b)
		g.Edges = append(g.Edges, plane.Edge{U: u, V: v, Kind: plane.Sewn, Path: path, Length: path.Length()})
	}
	for v := range g.Nodes {
		if v%(n+1) < n {
			arc(v, v+1, 1)
			arc(v, v+1, -1)
		}
		if v+n+1 < len(g.Nodes) {
			arc(v, v+n+1, 1)
			arc(v, v+n+1, -1)
		}
	}
	return g
}

// Orange peel: every junction is even, so that nothing is added. In one square each of
// the four corners of the outline has a sharp angle both of whose lenses end there; by
// trying all ways 5 turns are the least. With n = 2, 3, 4 the waves of the outer grid
// lines turn at the corners, two at each end of the 2(n+1) lines that cross the rim, and
// 4n is the sum of the cheapest pairings, met by joining waves where they touch (the
// counts are those of an exhaustive search and of the bound, made for this project).
func TestFewestMovesOfOrangePeel(t *testing.T) {
	for n, want := range map[int]int{1: 5, 2: 8, 3: 12, 4: 16} {
		g := orangePeel(n)
		r := fewest(t, g, Ends{Rule: Closed, Start: Nowhere, Exit: Nowhere})
		if len(g.Edges) != 4*n*(n+1) || r.Added != 0 || r.Moves != want {
			t.Errorf("%d x %d: %d arcs in %d moves (no fewer than %d), want %d", n, n, len(g.Edges), r.Moves, r.MovesBound, want)
		}
		if r.Turning < r.Smoothest-1e-9 {
			t.Errorf("%d x %d: turns %.3f, less than the smoothest %.3f", n, n, r.Turning, r.Smoothest)
		}
	}
}

// A five-pointed star: 10 junctions, 15 lines. Going straight on at its 5 crossings makes
// one closed trail, which turns at its 5 points only; at each point the two lines that
// meet turn by 144 degrees whatever the way, so no route turns less often.
func TestFewestMovesOfAStar(t *testing.T) {
	var tips, inner []geom.Point
	for k := range 5 {
		s, c := math.Sincos(float64(k) * 2 * math.Pi / 5)
		tips = append(tips, geom.Pt(100*s, -100*c))
		s, c = math.Sincos((float64(k) + 0.5) * 2 * math.Pi / 5)
		r := 100 * math.Cos(2*math.Pi/5) / math.Cos(math.Pi/5)
		inner = append(inner, geom.Pt(r*s, -r*c))
	}
	var pairs [][2]int
	for k := range 5 {
		pairs = append(pairs, [2]int{k, 5 + k}, [2]int{5 + k, (k + 1) % 5}, [2]int{5 + k, 5 + (k+1)%5})
	}
	g := straightEdges(append(tips, inner...), pairs...)
	if r := fewest(t, g, Ends{Rule: Closed, Start: Nowhere, Exit: Nowhere}); r.Moves != 5 || r.MovesBound != 5 || len(g.Edges) != 15 {
		t.Errorf("the star is sewn in %d moves, no fewer than %d, want 5", r.Moves, r.MovesBound)
	}
}

// The house of St Nicholas with its crossing as a junction, square, its roof a right
// angle: from a lower corner 120 trails, of which 44 go straight on at the crossing, each
// with 7 turns and so 8 moves; none makes fewer, and none turns by less than 630 degrees
// (counted by trying all).
func TestFewestMovesOfTheHouse(t *testing.T) {
	g := straightEdges([]geom.Point{{X: 0, Y: 100}, {X: 100, Y: 100}, {X: 100, Y: 0}, {X: 0, Y: 0}, {X: 50, Y: -50}, {X: 50, Y: 50}},
		[2]int{0, 1}, [2]int{1, 2}, [2]int{2, 3}, [2]int{3, 0}, [2]int{3, 4}, [2]int{4, 2}, [2]int{0, 5}, [2]int{5, 2}, [2]int{1, 5}, [2]int{5, 3})
	r := fewest(t, g, Ends{Rule: Fixed, Start: 0, Exit: 1})
	if r.Moves != 8 || r.MovesBound != 8 || r.Added != 0 {
		t.Errorf("the house is sewn in %d moves, no fewer than %d, want 8", r.Moves, r.MovesBound)
	}
	if d := degrees(r.Turning); math.Abs(d-630) > 1e-6 {
		t.Errorf("it turns by %.3f degrees, want 630", d)
	}
}

// A line that loops comes down on itself and bends away to the right: followed as it was
// drawn it is one move.
func TestFewestMovesOfALoopingLine(t *testing.T) {
	line := geom.Polyline{{X: 0, Y: 0}, {X: 40, Y: 0}}
	for k := 0; k <= 24; k++ {
		s, c := math.Sincos(float64(k) / 24 * 1.5 * math.Pi)
		line = append(line, geom.Pt(40+20*s, -20+20*c))
	}
	line = append(line, geom.Pt(20, 0), geom.Pt(60, 10))
	built, err := plane.Build([]plane.Stroke{{Name: "loop", Kind: plane.Sewn, Path: line}}, plane.Options{})
	if err != nil {
		t.Fatal(err)
	}
	r := fewest(t, built.Graph, Ends{Rule: Free, Start: Nowhere, Exit: Nowhere})
	if r.Moves != 1 || len(built.Edges) != 3 {
		t.Errorf("%d pieces in %d moves, want 3 in 1", len(built.Edges), r.Moves)
	}
}

// crosshatch draws k lines down and k across, to be sewn along a ruler, in a square whose
// sides are seams; lines and sides lie one spacing apart.
func crosshatch(t *testing.T, k int) plane.Graph {
	t.Helper()
	side := float64(20 * (k + 1))
	c := geom.Polyline{{X: 0, Y: 0}, {X: side, Y: 0}, {X: side, Y: side}, {X: 0, Y: side}, {X: 0, Y: 0}}
	var strokes []plane.Stroke
	add := func(kind plane.Kind, a, b geom.Point) {
		strokes = append(strokes, plane.Stroke{Name: fmt.Sprint(len(strokes)), Kind: kind, Path: geom.Polyline{a, b}})
	}
	for i := range 4 {
		add(plane.Seam, c[i], c[i+1])
	}
	for i := 1; i <= k; i++ {
		x := float64(20 * i)
		add(plane.Ruler, geom.Pt(x, 0), geom.Pt(x, side))
		add(plane.Ruler, geom.Pt(0, x), geom.Pt(side, x))
	}
	built, err := plane.Build(strokes, plane.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return built.Graph
}

// A crosshatch of k + k lines with the ditch round it has 4k ends, k on each side, of which
// the route begins and leaves at two; the others are paired by 2k - 1 walks in the ditch.
// Each line takes a move and so does each walk, one more for each corner that it passes.
//
// k odd: of four sides with k ends each two are evened out by start and exit, the other two
// by one walk round a corner: 2k + (2k - 1) + 1 = 4k moves at least, and to and fro down
// and then to and fro across has as many.
//
// k even: least is added only if no walk passes a corner, so that ends are paired with
// their neighbours on each side. Start and exit lie on one side, whose lines are one trail
// to and fro; the k lines the other way are k/2 loops of two lines and two walks. A loop
// is joined to the rest by leaving and taking up a line at a crossing, which makes two
// moves more: 2k + (2k - 1) + 2k/2 = 5k - 1.
func TestFewestMovesOfACrosshatch(t *testing.T) {
	for k := 1; k <= 6; k++ {
		r, err := Solve(crosshatch(t, k), Rules{Costs: Costs{Retrace: 1, Seam: 0.2, Jump: math.Inf(1)}, Ends: Ends{Rule: Free, Start: Nowhere, Exit: Nowhere}, FewestMoves: true})
		if err != nil {
			t.Fatal(err)
		}
		want := 4 * k
		if k%2 == 0 {
			want = 5*k - 1
		}
		if r.Moves != want || r.MovesBound != want {
			t.Errorf("%d + %d lines: %d moves, no fewer than %d over the same lines, want %d", k, k, r.Moves, r.MovesBound, want)
		}
	}
}

// Clamshell, 8 rows by turns of 4 shells and of 3 between two halves, on top of each other:
// 36 arcs. Where two shells of a row meet, the top of one below lies level, so that a hand
// turns by a right angle at least wherever it goes on: each arc is a move. A row and the one
// below it have both ends in common and make a ring; there are four, and to join two of them
// a top is left and taken up in its middle, where no hand turned before, or both rows change
// places at a side: one move more for each of three joins, 39.
func TestFewestMovesOfClamshell(t *testing.T) {
	var strokes []plane.Stroke
	for _, p := range motif.Clamshell(motif.Rect{W: 120, H: 120}, 30) {
		strokes = append(strokes, plane.Stroke{Name: p.Name, Kind: plane.Sewn, Path: p.Path, Length: p.Length})
	}
	built, err := plane.Build(strokes, plane.Options{})
	if err != nil {
		t.Fatal(err)
	}
	r := fewest(t, built.Graph, Ends{Rule: Closed, Start: Nowhere, Exit: Nowhere})
	if len(strokes) != 8 || r.Added != 0 || r.Moves != 39 || r.MovesBound != 39 {
		t.Errorf("%d rows in %d moves, no fewer than %d, adding %.1f mm; want 39", len(strokes), r.Moves, r.MovesBound, r.Added)
	}
	if r.Turning < r.Smoothest-1e-9 {
		t.Errorf("it turns by %.3f, less than the smoothest, %.3f", r.Turning, r.Smoothest)
	}
}

// leastMovesByAll tries every pairing of line ends at every junction that makes one
// trail of a drawing with at most two odd junctions, and returns the fewest moves.
func leastMovesByAll(g plane.Graph, start, exit int) int {
	n := newNetwork(g, Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}})
	at := make([][]int32, len(g.Nodes))
	for i, e := range g.Edges {
		at[e.U] = append(at[e.U], int32(2*i))
		at[e.V] = append(at[e.V], int32(2*i+1))
	}
	mate := make([]int32, 2*len(g.Edges))
	for d := range mate {
		mate[d] = -1
	}
	best := math.MaxInt
	count := func() {
		first := int32(-1)
		for d, m := range mate {
			if m < 0 && int(n.foot(int32(d))) == start {
				first = int32(d)
			}
		}
		closed := first < 0
		if closed {
			first = 0
		}
		seen, turns, d := 0, 0, first
		for {
			seen++
			m := mate[d^1]
			if m < 0 {
				break
			}
			if n.breaks(d^1, m) {
				turns++
			}
			if d = m; d == first {
				break
			}
		}
		if seen == len(g.Edges) {
			if !closed {
				turns++
			}
			best = min(best, max(1, turns))
		}
	}
	var pair func(v int)
	pair = func(v int) {
		if v == len(at) {
			count()
			return
		}
		var free []int32
		for _, d := range at[v] {
			if mate[d] < 0 {
				free = append(free, d)
			}
		}
		open := start != exit && (v == start || v == exit)
		if len(free) == 0 || open && len(free) == 1 {
			pair(v + 1)
			return
		}
		try := func(a int32, rest []int32) {
			for _, b := range rest {
				mate[a], mate[b] = b, a
				pair(v)
				mate[a], mate[b] = -1, -1
			}
		}
		try(free[0], free[1:])
		if open { // the first may be the end
			for i := 1; i < len(free); i++ {
				rest := free[i+1:]
				if i == 1 && len(free)%2 == 1 {
					try(free[1], rest)
				}
			}
		}
	}
	pair(0)
	return best
}

// leastOfAllJoins tries every choice of lines to walk twice that closes a route and adds
// least, and returns the fewest moves of any; false where that is too much to try.
func leastOfAllJoins(g plane.Graph) (int, bool) {
	least, fewest := math.Inf(1), math.MaxInt
	for twice := range 1 << len(g.Edges) {
		sum, odd := 0.0, make([]bool, len(g.Nodes))
		size := 1
		degree := make([]int, len(g.Nodes))
		doubled := g
		doubled.Edges = slices.Clone(g.Edges)
		for i, e := range g.Edges {
			times := 1
			if twice>>i&1 == 1 {
				sum += e.Length
				times = 2
				doubled.Edges = append(doubled.Edges, e)
			}
			degree[e.U] += times
			degree[e.V] += times
			odd[e.U] = odd[e.U] != (times%2 == 1)
			odd[e.V] = odd[e.V] != (times%2 == 1)
		}
		if slices.Contains(odd, true) || sum > least+1e-6 {
			continue
		}
		for _, k := range degree {
			for ; k > 2; k -= 2 {
				size *= k - 1
			}
		}
		if size > 2e4 {
			return 0, false
		}
		if sum < least-1e-6 {
			least, fewest = sum, math.MaxInt
		}
		fewest = min(fewest, leastMovesByAll(doubled, Nowhere, Nowhere))
	}
	return fewest, true
}

// On 300 random drawings of at most 9 junctions the fewest moves among the closed routes
// that add least are those found by trying all of them: every choice of lines to walk
// twice, and every pairing of line ends. Half of the drawings lie on a grid, where many
// choices add the same.
func TestFewestMovesAgainstAll(t *testing.T) {
	d := drawing{columns: 3, rows: 3, most: 11}
	gen := rapid.Custom(d.draw)
	tried, adding := 0, 0
	for seed := 0; tried < 300 && seed < 20000; seed++ {
		g := gen.Example(seed)
		if seed%2 == 0 {
			g = onGrid(g)
		}
		if len(g.Edges) == 0 {
			continue
		}
		r, err := Solve(g, Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}, Ends: Ends{Rule: Closed, Start: Nowhere, Exit: Nowhere}, FewestMoves: true})
		if err != nil {
			continue // it lies in pieces
		}
		want, small := leastOfAllJoins(g)
		if !small {
			continue
		}
		tried++
		if r.Added > 0 {
			adding++
		}
		if turns := newNetwork(g, Rules{}).corners(r.Steps); turns > 0 {
			if want == 1 && r.Moves == turns {
				turns-- // a closed route that turns within a line only begins there
			}
			want += turns
		}
		if r.Moves != want {
			t.Errorf("seed %d: %d moves, by trying all %d (bound %d, adds %.3f)", seed, r.Moves, want, r.MovesBound, r.Added)
		}
		if r.MovesBound > want {
			t.Errorf("seed %d: the bound %d lies above the fewest %d", seed, r.MovesBound, want)
		}
	}
	if tried < 300 || adding < 150 {
		t.Errorf("only %d drawings were tried, of which %d add something", tried, adding)
	}
}

// onGrid moves the junctions of a random drawing back to their places on the grid.
func onGrid(g plane.Graph) plane.Graph {
	out := plane.Graph{}
	for _, p := range g.Nodes {
		out.Nodes = append(out.Nodes, geom.Pt(10*math.Round(p.X/10), 10*math.Round(p.Y/10)))
	}
	for _, e := range g.Edges {
		if e.U == e.V {
			continue
		}
		p, q := out.Nodes[e.U], out.Nodes[e.V]
		e.Path = geom.Polyline{p, q}
		e.Length = math.Round(e.Path.Length()*1000) / 1000
		out.Edges = append(out.Edges, e)
	}
	return out
}
