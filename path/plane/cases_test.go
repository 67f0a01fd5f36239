package plane

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

func sewn(name, path string) Stroke {
	return Stroke{Name: name, Kind: Sewn, Path: geom.MustParse(path)}
}

func seam(name, path string) Stroke {
	return Stroke{Name: name, Kind: Seam, Path: geom.MustParse(path)}
}

// smallDrawings tell what becomes of small drawings: "stroke kind length" of every
// edge.
var smallDrawings = []struct {
	what    string
	strokes []Stroke
	want    string
}{
	{"a sewn line lies on part of a seam, and wins",
		[]Stroke{seam("ditch", "M 0 0 L 30 0"), sewn("quilting", "M 10 0 L 20 0")},
		"ditch seam 10.0, ditch seam 10.0, quilting sewn 10.0"},
	{"a ruler line wins over a sewn line",
		[]Stroke{sewn("free", "M 0 0 L 30 0"), {Name: "ruler", Kind: Ruler, Path: geom.MustParse("M 0 0 L 30 0")}},
		"ruler ruler 30.0"},
	{"a short patch over a long line of the same kind does not cut it",
		[]Stroke{sewn("patch", "M 10 0 L 20 0"), sewn("line", "M 0 0 L 30 0")},
		"line sewn 30.0"},
	{"lines of two names meet: the node stays",
		[]Stroke{sewn("a", "M 0 0 L 10 0"), sewn("b", "M 10 0 L 10 10")},
		"a sewn 10.0, b sewn 10.0"},
	{"two parts of one line meet: no node",
		[]Stroke{sewn("a", "M 0 0 L 10 0"), sewn("a", "M 10 10 L 10 0")},
		"a sewn 20.0"},
	{"the dots of a ruler line are no nodes",
		[]Stroke{{Name: "zigzag", Kind: Ruler, Path: geom.MustParse("M 0 0 L 30 40 L 60 0 L 90 40")}},
		"zigzag ruler 150.0"},
	{"a sewn line beside a seam that other seams join takes the seam's place",
		[]Stroke{seam("ditch", "M 0 0 L 40 0"), seam("up", "M 10 0 L 10 -9"), seam("down", "M 30 0 L 30 9"),
			sewn("quilting", "M 0 0.1 L 40 0.1")},
		"down seam 8.9, quilting sewn 10.0, quilting sewn 10.0, quilting sewn 20.0, up seam 9.0"},
	{"a circle closed but for 0.2 mm, and one overdrawn by 2 mm, are closed",
		[]Stroke{{Name: "short", Kind: Sewn, Path: geom.Arc(geom.Pt(0, 0), 10, 0, 2*math.Pi-0.02)},
			{Name: "long", Kind: Sewn, Path: geom.Arc(geom.Pt(50, 0), 10, 0, 2*math.Pi+0.2)}},
		"long sewn 62.8, short sewn 62.6"},
	{"a circle walked twice, 0.1 mm beside",
		[]Stroke{{Name: "circle", Kind: Sewn, Path: geom.Arc(geom.Pt(0, 0), 10, 0, 2*math.Pi)},
			{Name: "once more", Kind: Sewn, Path: geom.Arc(geom.Pt(0.1, 0), 10, 1, 1+2*math.Pi)}},
		"circle sewn 62.8"},
	{"the points of two diamonds touch but for 0.05 mm",
		[]Stroke{sewn("left", "M 0 0 L 5 -5 L 10 0 L 5 5 Z"), sewn("right", "M 10.05 0 L 15 -5 L 20 0 L 15 5 Z")},
		"left sewn 28.3, right sewn 28.2"},
	{"a zigzag ends its points 0.1 mm short of a line",
		[]Stroke{sewn("border", "M -10 0 L 50 0"), sewn("zigzag", "M 0 10 L 10 0.1 L 20 10 L 30 0.1 L 40 10")},
		"border sewn 20.0, border sewn 20.0, border sewn 20.0, zigzag sewn 14.1, zigzag sewn 14.1, zigzag sewn 28.1"},
	{"smooth lines that pass each other at 0.1 mm are left alone",
		[]Stroke{{Name: "circle", Kind: Sewn, Path: geom.Arc(geom.Pt(0, 0), 10, 0, 2*math.Pi)}, sewn("line", "M -20 10.1 L 20 10.1")},
		"circle sewn 62.8, line sewn 40.0"},
	{"a tangent that runs 0.1 mm into a circle shares no stretch with it",
		[]Stroke{{Name: "circle", Kind: Sewn, Path: geom.Arc(geom.Pt(0, 0), 10, 0, 2*math.Pi)}, sewn("line", "M -20 9.9 L 20 9.9")},
		"circle sewn 2.8, circle sewn 60.0, line sewn 18.6, line sewn 18.6, line sewn 2.8"},
	{"out and back along one line, 0.1 mm beside",
		[]Stroke{sewn("spike", "M 0 0 L 20 0 L 0 0.1")},
		"spike sewn 20.0"},
	{"out and back with a bulge to either side",
		[]Stroke{sewn("spike", "M 0 0 L 10 0.1 L 20 0 L 10 -0.1 L 0 0.05")},
		"spike sewn 20.0"},
	{"a line and its copy, each with a copy of a half",
		[]Stroke{sewn("line", "M 0 0 L 40 0"), sewn("line", "M 0 -0.1 L 20 -0.1"), sewn("line", "M 0.1 0.15 L 40.1 0.15"), sewn("line", "M 20 0.3 L 40 0.3")},
		"line sewn 40.0"},
	{"an end is joined to an end first, though a crossing is nearer",
		[]Stroke{sewn("level", "M -10 0 L 10 0"), sewn("upright", "M 0 -10 L 0 10"), sewn("e", "M 0.1 0.1 L 5 5"), sewn("f", "M 0.27 0.2 L 9 3")},
		"e sewn 6.9, f sewn 9.2, level sewn 0.2, level sewn 10.0, level sewn 9.8, upright sewn 10.0, upright sewn 10.0"},
	{"a stroke smaller than the snap distance goes",
		[]Stroke{sewn("dot", "M 5 5 L 5.1 5 L 5 5.1"), sewn("line", "M 0 0 L 9 0")},
		"line sewn 9.0"},
}

func TestSmallDrawings(t *testing.T) {
	for _, c := range smallDrawings {
		r := mustBuild(t, c.strokes, DefaultSnap)
		if got := kept(r.Graph); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.what, got, c.want)
		}
		if err := check(c.strokes, r); err != nil {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}

// The true length of a curve is shared out over its pieces: a circle of radius
// 25 flattened to a hexagon is still 50 pi long, and a diameter halves it.
func TestTrueLength(t *testing.T) {
	hexagon := Stroke{Name: "circle", Kind: Sewn, Length: 50 * math.Pi}
	for i := 0; i <= 6; i++ {
		hexagon.Path = append(hexagon.Path, geom.Pt(25*math.Cos(float64(i)*math.Pi/3), 25*math.Sin(float64(i)*math.Pi/3)))
	}
	r := mustBuild(t, []Stroke{hexagon, sewn("diameter", "M -25 0 L 25 0")}, 0)
	if got, want := kept(r.Graph), "circle sewn 78.5, circle sewn 78.5, diameter sewn 50.0"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestReports(t *testing.T) {
	r := mustBuild(t, []Stroke{sewn("line", "M 0 0 L 10 0"), sewn("stem", "M 5 8 L 5 0.1"), sewn("over", "M 7 8 L 7 -0.2")}, DefaultSnap)
	if len(r.Snapped) != 2 {
		t.Fatalf("%d spots reported, want 2: %+v", len(r.Snapped), r.Snapped)
	}
	s := r.Snapped[0]
	if s.Joint != EndToLine || s.At != geom.Pt(5, 0) || !slices.Equal(s.From, []geom.Point{{X: 5, Y: 0.1}}) ||
		math.Abs(s.Moved-0.1) > 1e-9 || strings.Join(s.Strokes, " ") != "line stem" {
		t.Errorf("the near miss is reported as %+v", s)
	}
	if len(r.Trimmed) != 1 || r.Trimmed[0].Stroke != "over" || math.Abs(r.Trimmed[0].Length-0.2) > 1e-9 || r.Trimmed[0].Whole {
		t.Errorf("the stub is reported as %+v", r.Trimmed)
	}
	r = mustBuild(t, []Stroke{sewn("first", "M 0 0 L 40 0"), sewn("again", "M 0 0.05 L 39 -0.05")}, DefaultSnap)
	if len(r.Doubled) == 0 {
		t.Fatal("no double reported")
	}
	var sum, apart float64
	for _, d := range r.Doubled {
		if d.Kept != "first" || d.Dropped != "again" || d.KeptKind != Sewn || d.DroppedKind != Sewn {
			t.Errorf("the redrawn line is reported as %+v", d)
		}
		sum += d.Length
		apart = math.Max(apart, d.Apart)
	}
	if math.Abs(sum-39) > 0.01 || math.Abs(apart-0.05) > 0.003 {
		t.Errorf("%v mm doubled, up to %v apart; want 39 and 0.05", sum, apart)
	}
}

// An end that is moved keeps its direction to within atan(1/bendReach), although
// the chords of the arc are hardly longer than the move.
func TestJoiningKeepsDirections(t *testing.T) {
	arc := Stroke{Name: "arc", Kind: Sewn, Path: geom.Arc(geom.Pt(0, 0), 10, -1, 0)}
	mark := sewn("mark", "M 10.2 0 L 30 0")
	r := mustBuild(t, []Stroke{arc, mark}, DefaultSnap)
	for _, e := range r.Edges {
		if e.Stroke != "arc" {
			continue
		}
		n := len(e.Path)
		got, want := r2.Sub(e.Path[n-1], e.Path[n-2]), r2.Sub(arc.Path[len(arc.Path)-1], arc.Path[len(arc.Path)-2])
		turn := math.Atan2(r2.Cross(want, got), r2.Dot(want, got))
		if limit := math.Atan(1.0/bendReach) + 0.03; math.Abs(turn) > limit {
			t.Errorf("the end of the arc was turned by %v rad, want at most %v", turn, limit)
		}
		if e.Path[n-1] != geom.Pt(10.1, 0) {
			t.Errorf("the ends meet at %v, want half way at (10.1, 0)", e.Path[n-1])
		}
	}
}

// A sewn line that takes the place of a seam keeps its own direction and length.
func TestSewnLineInSeamKeepsItsDirection(t *testing.T) {
	for _, path := range []string{"M 40 0.1 L 0 0.1", "M 0 0.1 L 40 0.1"} {
		quilting := sewn("quilting", path)
		quilting.Length = 44
		again := sewn("sewn again", "M 0 0.2 L 40 0.2")
		r := mustBuild(t, []Stroke{seam("ditch", "M 0 0 L 40 0"), seam("up", "M 10 0 L 10 -9"), quilting, again}, DefaultSnap)
		if got, want := kept(r.Graph), "quilting sewn 11.0, quilting sewn 33.0, up seam 9.0"; got != want {
			t.Errorf("%s: got %s, want %s", path, got, want)
		}
		right := quilting.Path[1].X > quilting.Path[0].X
		for _, e := range r.Edges {
			if e.Stroke == "quilting" && (e.Path[1].X > e.Path[0].X) != right {
				t.Errorf("%s: an edge runs the other way: %v", path, e.Path)
			}
		}
	}
}

// Round a joined spot only straight spokes are left, so that an edge leaves it in
// the direction of its line and no splinters lie about: three bent lines nearly
// through one point.
func TestOnlySpokesRoundJoinedSpots(t *testing.T) {
	for seed := range int64(200) {
		r := rand.New(rand.NewSource(seed))
		var s []Stroke
		for i := range 3 {
			mid := geom.Pt(0.2*r.Float64(), 0.2*r.Float64())
			a := float64(i) + r.Float64()/2
			b := a + math.Pi + 0.8*r.Float64()
			ray := func(angle float64) geom.Point { return geom.Pt(mid.X+10*math.Cos(angle), mid.Y+10*math.Sin(angle)) }
			s = append(s, Stroke{Name: string(rune('a' + i)), Kind: Sewn, Path: geom.Polyline{ray(a), mid, ray(b)}})
		}
		g := mustBuild(t, s, DefaultSnap)
		back := mustBuild(t, mapped(s, func(st Stroke) Stroke {
			st.Path = st.Path.Reversed()
			return st
		}), DefaultSnap)
		for i, l := range lengths(back.Graph) {
			if math.Abs(l-lengths(g.Graph)[i]) > 1e-6 {
				t.Errorf("seed %d: backwards the edges measure %v, forwards %v", seed, lengths(back.Graph), lengths(g.Graph))
				break
			}
		}
		for _, spot := range g.Snapped {
			for _, at := range g.Rotation() {
				for _, h := range at {
					path := g.Path(h)
					if path[0] == spot.At && len(path) > 2 && geom.Dist(path[0], path[1]) < DefaultSnap/2 {
						t.Errorf("seed %d: the spot at %v has a vertex at %v beside it", seed, spot.At, path[1])
					}
				}
			}
		}
	}
}

func lengths(g Graph) []float64 {
	var out []float64
	for _, e := range g.Edges {
		out = append(out, e.Length)
	}
	slices.Sort(out)
	return out
}

// A side that is given to another line takes over its length and its order, also
// against its own direction.
func TestRename(t *testing.T) {
	p := pieces{nodes: make([]gridPoint, 3), list: []piece{
		{u: 0, v: 1, line: 7, chain: 7, from: 0, to: 10, length: 10, path: []gridPoint{{0, 0}, {10, 0}}},
		{u: 1, v: 2, line: 7, chain: 7, from: 10, to: 40, length: 30, path: []gridPoint{{10, 0}, {40, 0}}},
		{u: 2, v: 0, line: 3, chain: 3, from: 100, to: 120, length: 20, path: []gridPoint{{40, 1}, {0, 1}}},
	}}
	p.rename([]HalfEdge{0, 2}, []HalfEdge{5})
	want := []piece{
		{u: 1, v: 0, line: 3, chain: 3, from: 115, to: 120, length: 5, path: []gridPoint{{10, 0}, {0, 0}}, ends: [2]mark{{3, 115}, {3, 120}}},
		{u: 2, v: 1, line: 3, chain: 3, from: 100, to: 115, length: 15, path: []gridPoint{{40, 0}, {10, 0}}, ends: [2]mark{{3, 100}, {3, 115}}},
	}
	for i, w := range want {
		if got := p.list[i]; fmt.Sprint(got) != fmt.Sprint(w) {
			t.Errorf("piece %d is %v, want %v", i, got, w)
		}
	}
}
