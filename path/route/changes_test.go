package route

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// Every change that is offered saves what it says: the drawing or the rules are
// changed and planned from the start.
func TestChangesAgainstPlanningAnew(t *testing.T) {
	for _, in := range instances(t) {
		if len(in.Graph.Edges) > 300 {
			continue
		}
		r, err := Solve(in.Graph, in.Rules)
		if err != nil {
			t.Fatalf("%s: %v", in.file, err)
		}
		if err := checkChanges(in.Graph, in.Rules, r, t.Errorf); err != nil {
			t.Errorf("%s: %v", in.file, err)
		}
	}
	d := drawing{columns: 4, rows: 3, seams: true, jumps: true, most: 24}
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := d.drawRules(rt, g)
		rules.NoSeams = rapid.Bool().Draw(rt, "no seams")
		rules.Barred = rapid.SampledFrom([][]string{nil, {"a"}, {"b", "c"}}).Draw(rt, "barred")
		for i := range g.Edges {
			g.Edges[i].Stroke = rapid.SampledFrom([]string{"a", "b", "c"}).Draw(rt, "stroke")
		}
		r, err := Solve(g, rules)
		if err != nil {
			return
		}
		if err := checkChanges(g, rules, r, rt.Fatalf); err != nil {
			rt.Fatal(err)
		}
	})
}

func checkChanges(g plane.Graph, rules Rules, r Route, report func(string, ...any)) error {
	reasons, err := Explain(g, rules, r)
	if err != nil {
		return err
	}
	for i, c := range reasons.Changes {
		if i > 0 && c.Saves > reasons.Changes[i-1].Saves+costTolerance {
			report("change %d saves %v, the one before %v", i, c.Saves, reasons.Changes[i-1].Saves)
		}
		if math.Abs(r.Added-c.Added-c.Saves) > costTolerance || c.Saves <= 0 {
			report("%s: added %v now, %v then, saves %v", c.Kind, r.Added, c.Added, c.Saves)
		}
		h, changed := apply(g, rules, c)
		anew, err := Solve(h, changed)
		if err != nil {
			report("%s: %v", c.Kind, err)
			continue
		}
		if c.Kind == AllowStop {
			if anew.Jumps != 1 {
				continue // at the next lower price more than one stop pays
			}
			anew.Added -= changed.Costs.Jump
		}
		if exact := anew.Exact && r.Exact; exact && math.Abs(anew.Added-c.Added) > costTolerance {
			report("%+v: planning anew adds %v", c, anew.Added)
		}
	}
	return nil
}

// apply makes change c to a drawing and its rules.
func apply(g plane.Graph, rules Rules, c Change) (plane.Graph, Rules) {
	h := plane.Graph{Nodes: g.Nodes, Edges: slices.Clone(g.Edges)}
	switch c.Kind {
	case StartElsewhere, LeaveElsewhere, BothElsewhere:
		rules.Ends = Ends{Rule: Fixed, Start: c.Start, Exit: c.Exit}
		if c.Start == Nowhere {
			rules.Ends = Ends{Rule: Closed, Start: Nowhere}
		}
	case AddLine:
		path := geom.Polyline{g.Nodes[c.From], g.Nodes[c.To]}
		h.Edges = append(h.Edges, plane.Edge{U: c.From, V: c.To, Kind: plane.Sewn, Path: path, Length: math.Round(c.LengthMM*1000) / 1000})
	case DropLine:
		h.Edges = slices.Delete(h.Edges, c.Edge, c.Edge+1)
	case AllowSeam:
		if rules.NoSeams {
			rules.NoSeams = false
			rules.Barred = []string{"a", "b", "c", ""}
		}
		rules.Barred = slices.DeleteFunc(slices.Clone(rules.Barred), func(s string) bool { return s == c.Stroke })
	case AllowStop:
		rules.Costs.Jump = c.Saves * 0.99
	}
	return h, rules
}

// The change that saves most, of all that move an end, drop a line or join two
// odd junctions in sight of each other, is among those found: each is planned.
func TestNoBetterChangeIsMissed(t *testing.T) {
	d := drawing{columns: 3, rows: 3, most: 14}
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := d.drawRules(rt, g)
		r, err := Solve(g, rules)
		if err != nil || r.Added == 0 {
			return
		}
		reasons, err := Explain(g, rules, r)
		if err != nil {
			rt.Fatal(err)
		}
		best := map[ChangeKind]float64{}
		for _, c := range reasons.Changes {
			best[c.Kind] = max(best[c.Kind], c.Saves)
		}
		try := func(c Change) {
			h, changed := apply(g, rules, c)
			if anew, err := Solve(h, changed); err == nil && r.Added-anew.Added > best[c.Kind]+costTolerance {
				rt.Fatalf("%+v saves %v, the best found of its kind %v", c, r.Added-anew.Added, best[c.Kind])
			}
		}
		for i := range g.Edges {
			try(Change{Kind: DropLine, Edge: i})
		}
		for v := range g.Nodes {
			if rules.Ends.Rule == Fixed {
				try(Change{Kind: StartElsewhere, Start: v, Exit: r.Exit})
			}
			if rules.Ends.Rule == Fixed || rules.Ends.Rule == Closed && rules.Ends.Start != Nowhere {
				try(Change{Kind: LeaveElsewhere, Start: r.Start, Exit: v})
			}
		}
	})
}

// Euler's bridges, closed: four odd junctions, where 3, 3, 3 and 5 lines meet.
func TestWhyOfKoenigsberg(t *testing.T) {
	in := load(t, "../../testdata/routes/koenigsberg_closed.json")
	r, err := Solve(in.Graph, in.Rules)
	if err != nil {
		t.Fatal(err)
	}
	reasons, err := Explain(in.Graph, in.Rules, r)
	if err != nil {
		t.Fatal(err)
	}
	var lines []int
	for _, o := range reasons.Odd {
		lines = append(lines, o.Lines)
	}
	if want := []int{5, 3, 3, 3}; !slices.Equal(lines, want) {
		t.Errorf("lines at the odd junctions: %v, want %v", lines, want)
	}
	if reasons.BandsMM != 2 || reasons.LooseMM != 0 {
		t.Errorf("bands %v, loose %v, want 2 and 0", reasons.BandsMM, reasons.LooseMM)
	}
}

// 12.7 mm at ten stitches to the inch (2.54 mm) are five; a rest takes one more.
func TestStitches(t *testing.T) {
	for _, c := range []struct {
		length, stitch float64
		want           int
	}{{12.7, 2.54, 5}, {12.8, 2.54, 6}, {0, 2.5, 0}, {3, 0, 0}} {
		if got := Stitches(c.length, c.stitch); got != c.want {
			t.Errorf("%v mm in stitches of %v: %d, want %d", c.length, c.stitch, got, c.want)
		}
	}
}
