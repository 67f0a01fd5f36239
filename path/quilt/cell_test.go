package quilt

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// plain returns a valid quilt of blocks of 150 mm.
func plain(s Setting, rows, cols int) Quilt {
	return Quilt{Schema: Schema, ID: "q", Name: "q", Setting: s, Rows: rows, Cols: cols, BlockMM: 150}
}

// drawQuilt draws a valid layout.
func drawQuilt(rt *rapid.T) Quilt {
	q := plain(rapid.SampledFrom([]Setting{Straight, OnPoint}).Draw(rt, "setting"),
		rapid.IntRange(1, 6).Draw(rt, "rows"), rapid.IntRange(1, 6).Draw(rt, "cols"))
	q.BlockMM = rapid.Float64Range(20, 200).Draw(rt, "block")
	q.Alternate = rapid.SampledFrom([]Alternation{AllAlike, Checkerboard, ByRow}).Draw(rt, "alternate")
	if rapid.Bool().Draw(rt, "sashed") {
		q.Sashing = Sashing{
			WidthMM:      rapid.Float64Range(10, 60).Draw(rt, "sashing"),
			Cornerstones: rapid.Bool().Draw(rt, "cornerstones"), Round: rapid.Bool().Draw(rt, "round"),
		}
	}
	for range rapid.IntRange(0, 3).Draw(rt, "borders") {
		q.Borders = append(q.Borders, Border{WidthMM: rapid.Float64Range(10, 90).Draw(rt, "border"), Corners: rapid.Bool().Draw(rt, "corners")})
	}
	if err := q.Validate(); err != nil {
		rt.Fatal(err)
	}
	return q
}

// inCell tells whether a point of the top lies in a place, by the way back into the
// shape's own mm.
func inCell(c Cell, p geom.Point) bool {
	back := r2.Rotate(r2.Sub(p, c.Where.Move), -c.Where.Turn, geom.Point{})
	return c.Shape.Contains(back)
}

// The places tile the top: their areas add up to its area, every point lies in one
// of them (in two on a seam, which a random point hardly meets), none sticks out.
func TestCellsTileTheTop(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q := drawQuilt(rt)
		size := q.Size()
		var area float64
		ids, spots := map[string]bool{}, map[Spot]bool{}
		cells := q.Cells()
		for _, c := range cells {
			if err := c.Shape.Validate(); err != nil || ids[c.ID] || c.Spot.Code == "" || spots[c.Spot] {
				rt.Fatalf("%s (%v): %v, used before %v, %v", c.ID, c.Spot, err, ids[c.ID], spots[c.Spot])
			}
			ids[c.ID], spots[c.Spot] = true, true
			area += c.Shape.Area()
			lo, hi := c.Outline().Bounds()
			if lo.X < -1e-6 || lo.Y < -1e-6 || hi.X > size.W+1e-6 || hi.Y > size.H+1e-6 {
				rt.Fatalf("%s lies from %v to %v, the top is %v", c.ID, lo, hi, size)
			}
		}
		if want := size.W * size.H; math.Abs(area-want) > 1e-9*want {
			rt.Fatalf("the places have %v mm^2, the top %v", area, want)
		}
		r := rand.New(rand.NewSource(3))
		for range 100 {
			p, in := geom.Pt(r.Float64()*size.W, r.Float64()*size.H), 0
			for _, c := range cells {
				if inCell(c, p) {
					in++
				}
			}
			if in != 1 {
				rt.Fatalf("%v lies in %d places", p, in)
			}
		}
	})
}

// Every place is in one row, neighbours in a row of blocks and strips touch, and a
// row on point climbs to the right by an eighth of a turn.
func TestSewingRows(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q := drawQuilt(rt)
		cells := q.Cells()
		var all []int
		for _, row := range q.SewingRows() {
			all = append(all, row...)
			for i := 1; i < len(row); i++ {
				if a, b := cells[row[i-1]], cells[row[i]]; apart(a, b) > 1e-6 {
					rt.Fatalf("%s and %s stand side by side in a row and %v mm apart", a.ID, b.ID, apart(a, b))
				}
			}
		}
		for i, k := range all {
			if i != k {
				rt.Fatalf("the rows name the places in the order %v", all)
			}
		}
		if len(all) != len(cells) {
			rt.Fatalf("%d of %d places are in rows", len(all), len(cells))
		}
	})
}

// apart is the distance between two outlines, taken from corner to side.
func apart(a, b Cell) float64 {
	least := math.Inf(1)
	for _, pair := range [][2]geom.Polyline{{a.Outline(), b.Outline()}, {b.Outline(), a.Outline()}} {
		for _, p := range pair[0] {
			for i := 1; i < len(pair[1]); i++ {
				_, q := geom.NearestOnSegment(p, pair[1][i-1], pair[1][i])
				least = math.Min(least, geom.Dist(p, q))
			}
		}
	}
	return least
}

// Triangles look outwards: the long side of a setting triangle lies on an edge of the
// inner part, and so do both legs of a corner; the upper side of a border lies outside.
func TestPlacesLookOutwards(t *testing.T) {
	q := plain(OnPoint, 3, 4)
	q.Borders = []Border{{WidthMM: 40, Corners: true}}
	in := q.Inner()
	onEdge := func(p geom.Point) bool {
		x, y := p.X-40, p.Y-40
		return math.Abs(x) < 1e-6 || math.Abs(y) < 1e-6 || math.Abs(x-in.W) < 1e-6 || math.Abs(y-in.H) < 1e-6
	}
	seen := map[Kind]int{}
	for _, c := range q.Cells() {
		seen[c.Kind]++
		w, h := c.Shape.Box()
		var out []geom.Point
		switch c.Kind {
		case SettingTriangle:
			out = []geom.Point{geom.Pt(0, h), geom.Pt(w/2, h), geom.Pt(w, h)}
		case CornerTriangle:
			out = []geom.Point{geom.Pt(0, 0), geom.Pt(0, h/2), geom.Pt(0, h), geom.Pt(w/2, h), geom.Pt(w, h)}
		case BorderKind(0):
			p := c.Where.Apply(geom.Pt(w/3, 0))
			if size := q.Size(); math.Min(math.Min(p.X, p.Y), math.Min(size.W-p.X, size.H-p.Y)) > 1e-6 {
				t.Errorf("%s: its upper side passes %v", c.ID, p)
			}
		}
		for _, p := range out {
			if at := c.Where.Apply(p); !onEdge(at) {
				t.Errorf("%s: %v of the shape lies at %v, not on the edge", c.ID, p, at)
			}
		}
	}
	if seen[SettingTriangle] != 10 || seen[CornerTriangle] != 4 || seen[BorderKind(0)] != 4 {
		t.Errorf("places %v", seen)
	}
}

// A chequerboard has no two alternate blocks side by side; by row all blocks of a
// sewing row are alike and the next row is of the other kind.
func TestAlternation(t *testing.T) {
	for _, s := range []Setting{Straight, OnPoint} {
		for _, alternate := range []Alternation{Checkerboard, ByRow} {
			q := plain(s, 4, 5)
			q.Alternate = alternate
			cells := q.Cells()
			var before Kind
			for _, row := range q.SewingRows() {
				var kinds []Kind
				for _, i := range row {
					if k := cells[i].Kind; k == Block || k == Alternate {
						kinds = append(kinds, k)
					}
				}
				for i := 1; i < len(kinds); i++ {
					if alike := kinds[i] == kinds[i-1]; alike != (alternate == ByRow) {
						t.Errorf("%s, %s: a row of %v", s, alternate, kinds)
					}
				}
				if alternate == ByRow && len(kinds) > 0 {
					if kinds[0] == before {
						t.Errorf("%s: two rows of %s", s, before)
					}
					before = kinds[0]
				}
			}
			if !slices.Contains(q.Kinds(), Block) || !slices.Contains(q.Kinds(), Alternate) {
				t.Errorf("%s, %s: kinds %v", s, alternate, q.Kinds())
			}
		}
	}
}

// Where t leads, t.After leads from where the first leads.
func TestTransformsFollowEachOther(t *testing.T) {
	v := rapid.Float64Range(-4, 4)
	rapid.Check(t, func(rt *rapid.T) {
		draw := func() Transform {
			return Transform{rapid.Float64Range(0.1, 4).Draw(rt, "scale"), v.Draw(rt, "turn"), geom.Pt(v.Draw(rt, "x"), v.Draw(rt, "y"))}
		}
		a, b, p := draw(), draw(), geom.Pt(v.Draw(rt, "px"), v.Draw(rt, "py"))
		if d := geom.Dist(b.After(a).Apply(p), b.Apply(a.Apply(p))); d > 1e-9 {
			rt.Fatalf("%v apart", d)
		}
		if d := geom.Dist(a.Path(geom.Polyline{p})[0], a.Apply(p)); d != 0 {
			rt.Fatalf("a path is moved otherwise by %v", d)
		}
	})
}

// A border's width is that of its shape, whichever side it is.
func TestBorderShapes(t *testing.T) {
	q := plain(Straight, 2, 3)
	q.Borders = []Border{{WidthMM: 30}, {WidthMM: 50, Corners: true}}
	want := map[string]motif.Shape{
		"border-1-upper": {Kind: motif.Rectangle, W: 510, H: 30}, "border-1-left": {Kind: motif.Rectangle, W: 300, H: 30},
		"border-2-lower": {Kind: motif.Rectangle, W: 510, H: 50}, "border-2-right": {Kind: motif.Rectangle, W: 360, H: 50},
		"border-2-upper-left": {Kind: motif.Square, W: 50},
	}
	for _, c := range q.Cells() {
		if s, ok := want[c.ID]; ok {
			delete(want, c.ID)
			if c.Shape != s {
				t.Errorf("%s is %v, want %v", c.ID, c.Shape, s)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("there is no %v", want)
	}
}
