package plane

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// coordinate returns a generator for one of several sorts of drawing: on a
// coarse lattice, where lines overlap, touch and meet in one point; on a lattice
// shaken by a grid step or so, where everything is nearly degenerate; anywhere.
func coordinate(rt *rapid.T) *rapid.Generator[float64] {
	switch rapid.IntRange(0, 3).Draw(rt, "sort") {
	case 0:
		return rapid.Map(rapid.IntRange(0, 6), func(i int) float64 { return float64(i) * 5 })
	case 1:
		return rapid.Custom(func(rt *rapid.T) float64 {
			return float64(rapid.IntRange(0, 4).Draw(rt, "cell"))*5 + float64(rapid.IntRange(-2, 2).Draw(rt, "shake"))*Grid
		})
	case 2:
		return rapid.Map(rapid.IntRange(-12, 12), func(i int) float64 { return float64(i) * Grid })
	}
	return rapid.Float64Range(-200, 200)
}

func drawStrokes(rt *rapid.T) []Stroke {
	xy := coordinate(rt)
	n := rapid.IntRange(1, 8).Draw(rt, "strokes")
	var out []Stroke
	for i := 0; i < n; i++ {
		s := Stroke{
			Name: rapid.SampledFrom([]string{"a", "b", "c"}).Draw(rt, "name"),
			Kind: rapid.SampledFrom([]Kind{Sewn, Sewn, Ruler, Seam}).Draw(rt, "kind"),
		}
		for k := rapid.IntRange(2, 6).Draw(rt, "points"); k > 0; k-- {
			s.Path = append(s.Path, geom.Pt(xy.Draw(rt, "x"), xy.Draw(rt, "y")))
		}
		if rapid.IntRange(0, 3).Draw(rt, "closed") == 0 {
			s.Path = append(s.Path, s.Path[0])
		}
		if rapid.IntRange(0, 5).Draw(rt, "curved") == 0 {
			s.Length = s.Path.Length()*1.1 + 1
		}
		out = append(out, s)
	}
	return out
}

// Whatever is drawn, the result is a plane graph with all of the length.
func TestAnythingBecomesAPlaneGraph(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawStrokes(rt)
		for _, snap := range []float64{0, 5 * Grid, DefaultSnap, 4} {
			r, err := Build(s, Options{SnapMM: snap})
			if err != nil {
				rt.Fatal(err)
			}
			if err := check(s, r); err != nil {
				rt.Fatalf("snap %v: %v", snap, err)
			}
		}
	})
}

// Noding what was noded changes nothing.
func TestNodingTwiceChangesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		once, err := Build(drawStrokes(rt), Options{})
		if err != nil {
			rt.Fatal(err)
		}
		twice, err := Build(asStrokes(once.Graph), Options{})
		if err != nil {
			rt.Fatal(err)
		}
		if a, b := sketchOf(once.Graph), sketchOf(twice.Graph); !slices.Equal(a, b) {
			rt.Fatalf("once:\n%s\ntwice:\n%s", strings.Join(a, "\n"), strings.Join(b, "\n"))
		}
		if len(twice.Doubled)+len(twice.Snapped)+len(twice.Trimmed) > 0 {
			rt.Fatalf("the second time something was changed: %+v", twice)
		}
	})
}

func TestErrorsNameTheStroke(t *testing.T) {
	good := Stroke{Name: "good", Kind: Sewn, Path: geom.MustParse("M 0 0 L 1 1")}
	for want, bad := range map[string]Stroke{
		`stroke 1 ("bad"): point 1 of the line is not a finite place: (NaN, 0)`:               {Kind: Sewn, Path: geom.Polyline{{}, {X: math.NaN()}}},
		`stroke 1 ("bad"): point 0 of the line is not a finite place: (+Inf, 0)`:              {Kind: Sewn, Path: geom.Polyline{{X: math.Inf(1)}, {}}},
		`stroke 1 ("bad"): point 1 at (0, 1e+300) mm lies more than 10000 mm from the origin`: {Kind: Sewn, Path: geom.Polyline{{}, {Y: 1e300}}},
		`stroke 1 ("bad"): a line needs at least 2 points, this one has 0`:                    {Kind: Sewn},
		`stroke 1 ("bad"): kind "" is none of "sewn", "ruler", "seam"`:                        {Path: good.Path},
		`stroke 1 ("bad"): length NaN mm is not between 1e-09 and 1e+09 mm`:                   {Kind: Sewn, Path: good.Path, Length: math.NaN()},
		`stroke 1 ("bad"): length -1 mm is not between 1e-09 and 1e+09 mm`:                    {Kind: Sewn, Path: good.Path, Length: -1},
	} {
		bad.Name = "bad"
		if _, err := Build([]Stroke{good, bad}, Options{}); err == nil || err.Error() != want {
			t.Errorf("error %v, want %s", err, want)
		}
	}
	for _, snap := range []float64{-1, math.NaN(), MaxSnap * 2, math.Inf(1)} {
		if _, err := Build([]Stroke{good}, Options{SnapMM: snap}); err == nil {
			t.Errorf("snap distance %v was accepted", snap)
		}
	}
}

// kept tells of each edge "stroke kind length", sorted.
func kept(g Graph) string {
	var out []string
	for _, e := range g.Edges {
		out = append(out, fmt.Sprintf("%s %s %.1f", e.Stroke, e.Kind, e.Length))
	}
	slices.Sort(out)
	return strings.Join(out, ", ")
}
