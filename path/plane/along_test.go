package plane

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// follow returns the pieces of a part in order as one path, or fails where they do
// not hang together.
func follow(rt interface{ Fatalf(string, ...any) }, g Graph, stroke string, part int) (geom.Polyline, float64) {
	var path geom.Polyline
	at := 0.0
	for {
		found := -1
		for i, e := range g.Edges {
			if e.Stroke == stroke && e.Part == part && math.Abs(math.Min(e.From, e.To)-at) < 1e-9 && e.Length > 0 {
				found = i
			}
		}
		if found < 0 {
			return path, at
		}
		leg := g.Edges[found].Path
		if g.Edges[found].To < g.Edges[found].From {
			leg = leg.Reversed()
		}
		if len(path) > 0 && geom.Dist(path[len(path)-1], leg[0]) > 1e-9 {
			rt.Fatalf("%s, part %d: breaks off %g mm along it", stroke, part, at)
		}
		path = append(path, leg...)
		at += g.Edges[found].Length
	}
}

// A loop that crosses itself is followed as drawn, not straight on where its two
// arms cross, which would skip the loop.
func TestPartsFollowTheLineAsDrawn(t *testing.T) {
	loop := geom.Polyline{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 10), geom.Pt(10, 10), geom.Pt(10, -10)}
	g := mustBuild(t, []Stroke{
		{Name: "loop", Kind: Sewn, Path: loop},
		{Name: "bar", Kind: Sewn, Path: geom.Polyline{geom.Pt(15, -5), geom.Pt(15, 15)}},
	}, 0).Graph
	path, length := follow(t, g, "loop", 0)
	if math.Abs(length-60) > 1e-9 {
		t.Fatalf("the loop's part 0 is %g mm long, want 60", length)
	}
	for i, p := range path.Compact() {
		_ = i
		if d := nearestOn(loop, p); d > 1e-9 {
			t.Errorf("%v lies %g mm off the line", p, d)
		}
	}
	if path[0] != loop[0] || path[len(path)-1] != loop[4] {
		t.Errorf("it runs from %v to %v", path[0], path[len(path)-1])
	}
	// At the arms' crossing it bends: 10 mm, then 10 more to the right, not down.
	if at := alongPath(path, 15); geom.Dist(at, geom.Pt(15, 0)) > 1e-9 {
		t.Errorf("15 mm along it is at %v, want (15, 0)", at)
	}
}

// alongPath returns the place so many mm along a path.
func alongPath(pl geom.Polyline, s float64) geom.Point {
	for i := 1; i < len(pl); i++ {
		if d := geom.Dist(pl[i-1], pl[i]); s <= d && d > 0 {
			return geom.Lerp(pl[i-1], pl[i], s/d)
		} else {
			s -= d
		}
	}
	return pl[len(pl)-1]
}

// nearestOn returns the distance in mm of p from a path.
func nearestOn(pl geom.Polyline, p geom.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(pl); i++ {
		_, q := geom.NearestOnSegment(p, pl[i-1], pl[i])
		least = math.Min(least, geom.Dist(p, q))
	}
	return least
}

// A ring that meets nothing at its start keeps its way round, and a line drawn in
// two strokes end on end, the second backwards, is one part.
func TestPartsOfRingsAndJoinedStrokes(t *testing.T) {
	ring := geom.Polyline{geom.Pt(0, 0), geom.Pt(20, 0), geom.Pt(20, 20), geom.Pt(0, 20), geom.Pt(0, 0)}
	bar := Stroke{Name: "bar", Kind: Sewn, Path: geom.Polyline{geom.Pt(10, -5), geom.Pt(10, 30)}}
	g := mustBuild(t, []Stroke{{Name: "ring", Kind: Sewn, Path: ring}, bar}, 0).Graph
	if path, length := follow(t, g, "ring", 0); math.Abs(length-80) > 1e-9 || path[0] != path[len(path)-1] {
		t.Errorf("the ring is %g mm long and runs from %v to %v", length, path[0], path[len(path)-1])
	}
	g = mustBuild(t, []Stroke{
		{Name: "a", Kind: Sewn, Path: geom.Polyline{geom.Pt(0, 0), geom.Pt(10, 0)}},
		{Name: "a", Kind: Sewn, Path: geom.Polyline{geom.Pt(20.1, 0), geom.Pt(10.1, 0)}},
		{Name: "bar", Kind: Sewn, Path: geom.Polyline{geom.Pt(5, -5), geom.Pt(5, 5)}},
		{Name: "bar 2", Kind: Sewn, Path: geom.Polyline{geom.Pt(15, -5), geom.Pt(15, 5)}},
	}, DefaultSnap).Graph
	if path, length := follow(t, g, "a", 0); length < 19 || path[0].X != 0 {
		t.Errorf("the joined line is %g mm long from %v", length, path[0])
	}
}

// On random drawings the parts of each stroke hang together and are as long as its
// pieces; a part ends nowhere that its line goes on.
func TestPartsOfRandomDrawings(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		drawn := tidy(rt, rapid.SampledFrom([]float64{0, 0.2}).Draw(rt, "shake"))
		g := mustBuild(t, drawn, DefaultSnap).Graph
		sum := map[string]float64{}
		parts := map[string]int{}
		for _, e := range g.Edges {
			sum[e.Stroke] += e.Length
			parts[e.Stroke] = max(parts[e.Stroke], e.Part+1)
			if math.Abs(math.Abs(e.To-e.From)-e.Length) > 1e-9 {
				rt.Fatalf("a piece %g mm long goes from %g to %g mm", e.Length, e.From, e.To)
			}
		}
		for stroke, want := range sum {
			got := 0.0
			for part := range parts[stroke] {
				_, length := follow(rt, g, stroke, part)
				got += length
			}
			if math.Abs(got-want) > 1e-6 {
				rt.Fatalf("%s: its parts are %g mm long, its pieces %g", stroke, got, want)
			}
		}
	})
}
