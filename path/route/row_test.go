package route

import (
	"math"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// Every row among the instances, in one pass, in two and in whichever is cheaper:
// the walk is valid, the choice is the cheaper one, the second pass begins at the
// far end, and each pass goes through the blocks in order.
func TestRowsOfInstances(t *testing.T) {
	for _, in := range instances(t) {
		if in.Row == nil {
			continue
		}
		left, right := in.Row[0].Left, in.Row[len(in.Row)-1].Right
		var both [3]RowRoute
		for _, through := range []Through{Cheaper, OnePass, OutAndBack} {
			r, err := SolveRow(in.Graph, in.Row, in.Rules, through)
			if err != nil {
				t.Fatalf("%s: %v", in.file, err)
			}
			both[through] = r
			rules := in.Rules
			rules.Ends = Ends{Rule: Fixed, Start: left, Exit: right}
			if r.Through == OutAndBack {
				rules.Ends = Ends{Rule: Closed, Start: left}
				if turn := r.Steps[r.Second]; turn.From != right {
					t.Errorf("%s: the second pass begins at junction %d, not at %d", in.file, turn.From, right)
				}
				checkHalves(t, in, r)
			}
			if err := walk(in.Graph, rules, r.Route); err != nil {
				t.Errorf("%s, through %d: %v", in.file, through, err)
			}
		}
		if want := min(both[OnePass].Added, both[OutAndBack].Added); both[Cheaper].Added != want {
			t.Errorf("%s: the cheaper way adds %v, want %v", in.file, both[Cheaper].Added, want)
		}
	}
}

// checkHalves adds up anew what each pass walks in each block.
func checkHalves(t *testing.T, in instance, r RowRoute) {
	t.Helper()
	owner := map[int]int{}
	for i, b := range in.Row {
		for _, e := range b.Edges {
			owner[e] = i
		}
	}
	got := make([]Half, len(in.Row))
	block := 0
	for i, s := range r.Steps {
		was := block
		block = owner[s.Edge]
		if i < r.Second {
			got[block].OutMM += in.Graph.Edges[s.Edge].Length
		} else {
			got[block].BackMM += in.Graph.Edges[s.Edge].Length
		}
		if i < r.Second && block < was || i >= r.Second && block > was {
			t.Errorf("%s: step %d goes from block %d to %d", in.file, i, was, block)
		}
	}
	for i, h := range got {
		if math.Abs(h.OutMM-r.Halves[i].OutMM)+math.Abs(h.BackMM-r.Halves[i].BackMM) > 1e-6 {
			t.Errorf("%s: block %d is shared %+v, the route says %+v", in.file, i, h, r.Halves[i])
		}
		if share := h.OutMM / (h.OutMM + h.BackMM); share < 0.25 || share > 0.75 {
			t.Errorf("%s: block %d has %.0f %% on the way out", in.file, i, 100*share)
		}
	}
}

// zigzagTop draws rows of diamonds, each diamond a block of four lines that is
// entered at its left and left at its right tip, rows 100 mm apart.
func zigzagTop(rows, blocks int, gapSeam bool) (plane.Graph, [][]Block) {
	var g plane.Graph
	var top [][]Block
	node := func(x, y float64) int {
		g.Nodes = append(g.Nodes, geom.Pt(x, y))
		return len(g.Nodes) - 1
	}
	add := func(u, v int, kind plane.Kind) int {
		e := plane.Edge{U: u, V: v, Kind: kind, Path: geom.Polyline{g.Nodes[u], g.Nodes[v]}}
		e.Length = e.Path.Length()
		g.Edges = append(g.Edges, e)
		return len(g.Edges) - 1
	}
	for r := 0; r < rows; r++ {
		y := 100 * float64(r)
		left := node(0, y)
		var row []Block
		for b := 0; b < blocks; b++ {
			x := 80 * float64(b)
			up, down, right := node(x+40, y-30), node(x+40, y+30), node(x+80, y)
			row = append(row, Block{Left: left, Right: right, Edges: []int{
				add(left, up, plane.Sewn), add(up, right, plane.Sewn), add(left, down, plane.Sewn), add(down, right, plane.Sewn),
			}})
			left = right
		}
		top = append(top, row)
		if gapSeam && r > 0 {
			add(top[r-1][blocks-1].Right, left, plane.Seam)
			add(top[r-1][0].Left, row[0].Left, plane.Seam)
		}
	}
	return g, top
}

// A row of diamonds needs nothing out and back, and in one pass one half of each
// diamond twice: two sides of 50 mm (a 3-4-5 triangle).
func TestRowOfDiamonds(t *testing.T) {
	g, top := zigzagTop(1, 4, false)
	rules := Rules{Costs: Costs{Retrace: 1, Seam: 0.3, Jump: math.Inf(1)}}
	r, err := SolveRow(g, top[0], rules, Cheaper)
	if err != nil {
		t.Fatal(err)
	}
	if r.Through != OutAndBack || r.Added != 0 || r.OnePassAdded != 400 {
		t.Errorf("through %d adds %v, one pass %v; want two passes, 0 and 400", r.Through, r.Added, r.OnePassAdded)
	}
	for i, h := range r.Halves {
		if h != (Half{100, 100}) {
			t.Errorf("block %d is shared %+v, want 100 and 100", i, h)
		}
	}
}

// Sashing between two diamonds is a block of one seam: 20 mm of it, once or there
// and back, at 0.3.
func TestRowWithSashing(t *testing.T) {
	g, top := zigzagTop(1, 1, false)
	far, _ := zigzagTop(1, 1, false)
	for _, p := range far.Nodes {
		g.Nodes = append(g.Nodes, geom.Pt(p.X+100, p.Y))
	}
	for _, e := range far.Edges {
		e.U, e.V = e.U+4, e.V+4
		e.Path = e.Path.Map(func(p geom.Point) geom.Point { return geom.Pt(p.X+100, p.Y) })
		g.Edges = append(g.Edges, e)
	}
	first := top[0][0]
	seam := plane.Edge{U: first.Right, V: 4, Kind: plane.Seam, Path: geom.Polyline{g.Nodes[first.Right], g.Nodes[4]}, Length: 20}
	g.Edges = append(g.Edges, seam)
	row := []Block{first, {Left: first.Right, Right: 4, Edges: []int{8}}, {Left: 4, Right: 4 + first.Right, Edges: []int{4, 5, 6, 7}}}
	rules := Rules{Costs: Costs{Retrace: 1, Seam: 0.3, Jump: math.Inf(1)}}
	r, err := SolveRow(g, row, rules, Cheaper)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(r.OnePassAdded-206) > costTolerance || math.Abs(r.OutAndBackAdded-12) > costTolerance {
		t.Errorf("one pass adds %v, out and back %v; want 2 x 100 + 6 and 12", r.OnePassAdded, r.OutAndBackAdded)
	}
	if h := r.Halves[1]; h != (Half{20, 20}) {
		t.Errorf("the sashing is shared %+v, want 20 and 20", h)
	}
}

func TestRowsThatDoNotFit(t *testing.T) {
	g, top := zigzagTop(1, 2, false)
	row := top[0]
	rules := Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}}
	for want, bad := range map[string][]Block{
		"a row needs a block": nil,
		"block 1: begins at junction 0, but the one before ends at 3": {row[0], row[0]},
		"block 0: runs from junction 0 to 99 of 7":                    {{Left: 0, Right: 99}},
		"block 0: line 99 is not one of 8":                            {{Left: 0, Right: 3, Edges: []int{99}}},
		"block 1: line 0 belongs to block 0 already":                  {row[0], {Left: 3, Right: 6, Edges: []int{0}}},
	} {
		if _, err := SolveRow(g, bad, rules, OnePass); err == nil || err.Error() != want {
			t.Errorf("error %v, want %q", err, want)
		}
	}
}
