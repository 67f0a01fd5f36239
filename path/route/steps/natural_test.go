package steps

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// natural is what a file says of the way block by block.
type natural struct {
	Cuts    int     `json:"cuts"`
	InOrder bool    `json:"in_order"`
	Alike   [][]int `json:"alike"`
	Strokes int     `json:"strokes"`
	Runs    int     `json:"runs"`
}

// instance is a file of testdata/routes with a part natural.
type instance struct {
	route.Linework
	want natural
}

// instances returns the files of testdata/routes that say what is natural, by name.
func instances(t testing.TB) map[string]instance {
	files, err := filepath.Glob("../../../testdata/routes/*.json")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]instance{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var more struct {
			Natural *natural `json:"natural"`
		}
		if err := json.Unmarshal(text, &more); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if more.Natural == nil {
			continue
		}
		l, err := route.ParseLinework(text)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		out[strings.TrimSuffix(filepath.Base(file), ".json")] = instance{l, *more.Natural}
	}
	if len(out) == 0 {
		t.Fatal("no file says what is natural")
	}
	return out
}

func (in instance) through() route.Through {
	if in.OutAndBack {
		return route.OutAndBack
	}
	return route.OnePass
}

// Every file keeps what it says of block by block: visits in order, lines whole,
// blocks that lie alike sewn alike, no more runs than lines and their corners.
func TestNatural(t *testing.T) {
	for name, in := range instances(t) {
		t.Run(name, func(t *testing.T) {
			r, err := PlanRow(in.Graph, in.Row, in.Rules, in.through())
			if err != nil {
				t.Fatal(err)
			}
			s := seen{in: in, r: r, block: map[int]int{}}
			for i, b := range in.Row {
				for _, e := range b.Edges {
					s.block[e] = i
				}
			}
			for what, check := range map[string]func() error{
				"walk": s.walks, "order": s.inOrder, "alike": s.alike, "cuts": s.cuts, "runs": s.runs,
			} {
				if err := check(); err != nil {
					t.Errorf("%s: %v", what, err)
				}
			}
			share := 100 * (r.Added - r.Least) / r.SewnMM
			t.Logf("adds %.1f mm, no route less than %.1f (%.1f %% of %.0f mm sewn), %d stops, %d different blocks",
				r.Added, r.Least, share, r.SewnMM, r.Jumps, r.Different)
		})
	}
}

// seen checks the steps of a row by themselves, whatever the planner says of them.
type seen struct {
	in    instance
	r     Row
	block map[int]int // of each line
}

func (s seen) edge(i int) plane.Edge { return s.in.Graph.Edges[s.r.Steps[i].Edge] }

// walks follows the steps: end on end, from the start to the exit, all sewn once.
func (s seen) walks() error {
	g, times := s.in.Graph, map[int]int{}
	start, exit := Given(s.in.Rules.Ends)
	at := s.r.Steps[0].From
	if start != route.Nowhere && at != start {
		return fmt.Errorf("begins at junction %d, not %d", at, start)
	}
	for i, st := range s.r.Steps {
		if st.From != at {
			return fmt.Errorf("step %d begins at junction %d, not %d", i, st.From, at)
		}
		at = st.To
		if st.Way == route.Jump {
			if math.IsInf(s.in.Rules.Costs.Jump, 1) {
				return fmt.Errorf("step %d: a stop where none is allowed", i)
			}
			continue
		}
		e := g.Edges[st.Edge]
		if st.Reverse && (st.From != e.V || st.To != e.U) || !st.Reverse && (st.From != e.U || st.To != e.V) {
			return fmt.Errorf("step %d does not run along its line", i)
		}
		if e.Kind.Must() == (st.Way == route.Hidden) {
			return fmt.Errorf("step %d: way %v along a line of kind %s", i, st.Way, e.Kind)
		}
		if e.Kind.Must() {
			times[st.Edge]++
			if first := times[st.Edge] == 1; first != (st.Way == route.Sew) {
				return fmt.Errorf("step %d: walk %d of line %d goes as %v", i, times[st.Edge], st.Edge, st.Way)
			}
		}
	}
	if exit != route.Nowhere && at != exit {
		return fmt.Errorf("leaves at junction %d, not %d", at, exit)
	}
	for i, e := range g.Edges {
		if e.Kind.Must() && times[i] == 0 {
			return fmt.Errorf("line %d is not sewn", i)
		}
	}
	return nil
}

// inOrder: one visit to each block in a pass, along the row.
func (s seen) inOrder() error {
	if !s.in.want.InOrder {
		return nil
	}
	passes := [][]int{nil, nil}
	for i, st := range s.r.Steps {
		if st.Way == route.Jump || !s.edge(i).Kind.Must() {
			continue
		}
		pass := 0
		if i >= s.r.Second {
			pass = 1
		}
		b := s.block[st.Edge]
		if v := passes[pass]; len(v) == 0 || v[len(v)-1] != b {
			passes[pass] = append(v, b)
		}
	}
	for k := 1; k < len(passes[0]); k++ {
		if passes[0][k] <= passes[0][k-1] {
			return fmt.Errorf("block %d comes after %d on the way out", passes[0][k], passes[0][k-1])
		}
	}
	for k := 1; k < len(passes[1]); k++ {
		if passes[1][k] >= passes[1][k-1] {
			return fmt.Errorf("block %d comes after %d on the way home", passes[1][k], passes[1][k-1])
		}
	}
	if !s.in.OutAndBack && len(passes[1]) > 0 {
		return fmt.Errorf("a second pass")
	}
	return nil
}

// stroke is a stroke as it is sewn: its first walks in order.
type stroke struct {
	name  string
	steps []int
}

// strokes groups the first walks of each block by stroke, in the order sewn: one
// entry each time that a stroke is taken up.
func (s seen) strokes() [][]stroke {
	out := make([][]stroke, len(s.in.Row))
	last := ""
	for i, st := range s.r.Steps {
		if st.Way != route.Sew {
			if st.Way != route.Sew {
				last = ""
			}
			continue
		}
		b := s.block[st.Edge]
		name := fmt.Sprint(b, " ", s.edge(i).Stroke)
		if name != last {
			out[b] = append(out[b], stroke{name: name})
		}
		k := len(out[b]) - 1
		out[b][k].steps = append(out[b][k].steps, i)
		last = name
	}
	return out
}

// cuts: each stroke is taken up once, its pieces by rising number or wholly reversed;
// a stroke that ends where it begins may begin at any of its pieces.
func (s seen) cuts() error {
	cuts, count := 0, 0
	for _, list := range s.strokes() {
		names := map[string]bool{}
		for _, st := range list {
			if names[st.name] {
				cuts++
			}
			names[st.name] = true
			if !s.followed(st) {
				cuts++
			}
		}
		count += len(names)
	}
	if cuts > s.in.want.Cuts {
		return fmt.Errorf("%d cuts, at most %d", cuts, s.in.want.Cuts)
	}
	if count != s.in.want.Strokes {
		return fmt.Errorf("%d strokes, the file has %d", count, s.in.want.Strokes)
	}
	return nil
}

func (s seen) followed(st stroke) bool {
	var ids []int
	back := s.r.Steps[st.steps[0]].Reverse
	for _, i := range st.steps {
		if s.r.Steps[i].Reverse != back {
			return false
		}
		ids = append(ids, s.r.Steps[i].Edge)
	}
	if back {
		slices.Reverse(ids)
	}
	rises := 0
	for k := 1; k < len(ids); k++ {
		if ids[k] <= ids[k-1] {
			rises++
		}
	}
	g := s.in.Graph
	low, high := slices.Min(ids), slices.Max(ids)
	closed := g.Edges[low].U == g.Edges[high].V
	return rises == 0 || rises == 1 && closed
}

// alike: blocks of a group are sewn by the same strokes in the same directions and
// order, after shifting, but for the first and the last of the row.
func (s seen) alike() error {
	for _, group := range s.in.want.Alike {
		first := -1
		for _, b := range group {
			if b == 0 || b == len(s.in.Row)-1 {
				continue
			}
			if first < 0 {
				first = b
				continue
			}
			if err := s.same(first, b); err != nil {
				return fmt.Errorf("blocks %d and %d: %w", first, b, err)
			}
		}
	}
	return nil
}

func (s seen) same(a, b int) error {
	all := s.strokes()
	if len(all[a]) != len(all[b]) {
		return fmt.Errorf("%d strokes and %d", len(all[a]), len(all[b]))
	}
	shift := func(block int) geom.Point {
		var pts geom.Polyline
		for _, e := range s.in.Row[block].Edges {
			if s.in.Graph.Edges[e].Kind.Must() {
				pts = append(pts, s.in.Graph.Edges[e].Path...)
			}
		}
		lo, _ := pts.Bounds()
		return lo
	}
	p, q := shift(a), shift(b)
	for k := range all[a] {
		u, v := s.path(all[a][k]), s.path(all[b][k])
		if math.Abs(u.Length()-v.Length()) > 0.1 {
			return fmt.Errorf("stroke %d is %.2f and %.2f mm long", k, u.Length(), v.Length())
		}
		for _, end := range [2]float64{0, 0.37} {
			x, y := alongPath(u, end*u.Length()), alongPath(v, end*v.Length())
			if d := math.Hypot(x.X-p.X-y.X+q.X, x.Y-p.Y-y.Y+q.Y); d > 0.1 {
				return fmt.Errorf("stroke %d runs %.2f mm off the other at %.0f %% of its length", k, d, 100*end)
			}
		}
		pass := func(st stroke) bool { return st.steps[0] >= s.r.Second }
		if pass(all[a][k]) != pass(all[b][k]) {
			return fmt.Errorf("stroke %d is sewn in another pass", k)
		}
	}
	return nil
}

func (s seen) path(st stroke) geom.Polyline {
	var out geom.Polyline
	for _, i := range st.steps {
		leg := s.edge(i).Path
		if s.r.Steps[i].Reverse {
			leg = leg.Reversed()
		}
		out = append(out, leg...)
	}
	return out
}

func alongPath(pl geom.Polyline, s float64) geom.Point {
	for i := 1; i < len(pl); i++ {
		d := geom.Dist(pl[i-1], pl[i])
		if s <= d && d > 0 {
			return geom.Lerp(pl[i-1], pl[i], s/d)
		}
		s -= d
	}
	return pl[len(pl)-1]
}

// runs counts the stretches without a sharp turn that sewn lines fall into.
func (s seen) runs() error {
	visits := map[[2]string]map[int]int{}
	nodesOf := func(name string, block int) map[int]int {
		key := [2]string{name, fmt.Sprint(block)}
		if visits[key] == nil {
			visits[key] = map[int]int{}
			for _, e := range s.in.Row[block].Edges {
				if edge := s.in.Graph.Edges[e]; edge.Kind.Must() && edge.Stroke == name {
					visits[key][edge.U]++
					visits[key][edge.V]++
				}
			}
		}
		return visits[key]
	}
	end := func(i int, last bool) float64 {
		path := s.edge(i).Path
		if s.r.Steps[i].Reverse {
			path = path.Reversed()
		}
		a, b := path[0], path[1]
		if last {
			a, b = path[len(path)-2], path[len(path)-1]
		}
		return math.Atan2(b.Y-a.Y, b.X-a.X)
	}
	runs := 0
	for i, st := range s.r.Steps {
		if st.Way != route.Sew {
			continue
		}
		if i == 0 || s.r.Steps[i-1].Way != route.Sew {
			runs++
			continue
		}
		turn := math.Abs(math.Remainder(end(i, false)-end(i-1, true), 2*math.Pi))
		p, q := s.edge(i-1), s.edge(i)
		own := p.Stroke == q.Stroke && s.block[st.Edge] == s.block[s.r.Steps[i-1].Edge] && nodesOf(p.Stroke, s.block[st.Edge])[st.From] > 2
		if turn >= math.Pi/4-1e-9 && !own {
			runs++
		}
	}
	if runs > s.in.want.Runs {
		return fmt.Errorf("%d runs, at most %d", runs, s.in.want.Runs)
	}
	return nil
}
