package motif

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/path/geom"
)

var update = flag.Bool("update", false, "write the table of measures anew; look at the sheets before committing it")

// Parallel lines e apart leave gaps of e everywhere, those at the rim of half that to the
// outline: the ridge is even. Of squares of the side a, sewn round, the largest gap is a.
// An arc of the radius r has the jump e/r where a straight runs into it.
func TestSurveyOfKnownLines(t *testing.T) {
	s := Shape{Kind: Square, W: 100}
	var lines []Piece
	for i := range 10 {
		y := 5 + 10*float64(i)
		lines = append(lines, Piece{Name: fmt.Sprint(i), Path: geom.Polyline{{X: 0, Y: y}, {X: 100, Y: y}}})
	}
	u := s.Survey(lines)
	near := func(what string, got, want, by float64) {
		if math.Abs(got-want) > by {
			t.Errorf("%s is %.3f, want %.3f", what, got, want)
		}
	}
	near("spacing", u.Spacing, 10, 1e-9)
	near("ratio", u.Ratio, 1, 0.1)
	near("spread", u.Spread, 0, 0.1)
	near("doubled", u.Doubled, 0, 1e-9)
	near("length", u.Length, 1000, 1e-9)
	twice := append(lines, Piece{Name: "again", Path: lines[3].Path})
	near("doubled", s.Survey(twice).Doubled, 2.0/11, 0.02)
	bend := append(geom.Polyline{{X: 10, Y: 30}}, geom.Arc(geom.Pt(50, 50), 20, -math.Pi/2, math.Pi/2)...)
	u = s.Survey([]Piece{{Name: "bend", Path: append(bend, geom.Pt(10, 70))}})
	near("radius", u.Tightest*u.Spacing, 20, 1)
	near("jump", u.Jump, u.Spacing/20, 0.1*u.Spacing/20)
}

// limits are what is asked of a motif in every shape it is offered for, set after looking at
// the sheets: of its largest gap over the median, in triangles of that apart (they have tips
// that no round line reaches); of the radius in mm that 99 % of the line exceed, and all of it,
// in a block of 150 mm; of the share of the shape that lies open, and of the line that lies
// doubled.
type limits struct{ ratio, inTriangles, radius, tightest, open, doubled float64 }

var asked = map[string]limits{
	"stipple":          {3.1, 7, 2.5, 1.8, 0.02, 0.01},
	"meander-loops":    {3.9, 8, 2, 1.6, 0.04, 0.02},
	"meander-leaves":   {4.5, 5.8, 2.8, 1.4, 0.02, 0.02},
	"linked-swirls":    {7, 0, 1.9, 1.2, 0.08, 0.01},
	"double-spiral":    {3.2, 5.2, 6.1, 1.7, 0.015, 0.01},
	"spiral":           {3.6, 5.4, 5, 2.1, 0.01, 0.01},
	"loops":            {5.1, 0, 5.2, 5.1, 0.025, 0.01},
	"figure-eights":    {3.2, 0, 4, 4, 0.01, 0.16},
	"waves":            {4, 0, 7.2, 6.9, 0.005, 0.01},
	"ribbon":           {3.7, 0, 6.6, 6.3, 0.015, 0.01},
	"wishbone":         {5.6, 0, 4.6, 2.9, 0.03, 0.01},
	"to-and-fro":       {3.3, 0, 4.3, 4.3, 0.02, 0.01},
	"pebbles":          {5.4, 7.4, 3.9, 3.4, 0.145, 0.37},
	"feather":          {5.4, 0, 7, 2.9, 0.105, 0.29},
	"feather-wreath":   {6.1, 0, 7.1, 4.2, 0.19, 0.45},
	"cable":            {2.6, 0, 18.1, 18.1, 0.005, 0.01},
	"vine":             {7, 0, 5.7, 4.7, 0.065, 0.25},
	"paisley":          {7.5, 0, 5.6, 4.4, 0.06, 0.06},
	"flower":           {3.5, 0, 2.1, 2.1, 0.015, 0.01},
	"clamshell":        {3.6, 3.4, 12.1, 11.9, 0.045, 0.2},
	"fans":             {2, 3.5, 8.3, 7.8, 0.005, 0.03},
	"orange-peel":      {5.4, 3.1, 17.4, 17.4, 0.15, 0.33},
	"echo-outline":     {2.8, 2.5, 8.8, 7.9, 0.005, 0.01},
	"square-spiral":    {3, 2.8, 7.2, 3.7, 0.01, 0.01},
	"straight-lines":   {2.7, 4.5, 50, 50, 0.005, 0.01},
	"crosshatch":       {4, 4.4, 50, 50, 0.02, 0.01},
	"piano-keys":       {2.5, 0, 50, 50, 0.005, 0.01},
	"matchstick":       {4.3, 7.4, 50, 13.2, 0.015, 0.01},
	"hanging-diamonds": {4.5, 4.6, 50, 50, 0.015, 0.01},
	"ruler-zigzag":     {2.8, 3.7, 50, 50, 0.04, 0.1},
	"diamonds":         {3.1, 0, 50, 50, 0.01, 0.08},
	"star-chain":       {5.4, 0, 50, 50, 0.155, 0.02},
	"sunburst":         {6, 0, 50, 50, 0.095, 0.15},
}

// The measures of every motif in every shape it is offered for are those of the table, to a
// twentieth, and within what is asked of it.
func TestMeasuresOfMotifs(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "motifs", "measures.txt")
	kept, err := os.ReadFile(file)
	if err != nil && !*update {
		t.Fatal(err)
	}
	old := map[string]string{}
	for _, line := range strings.Split(string(kept), "\n") {
		if f := strings.Fields(line); len(f) > 2 && !strings.HasPrefix(line, "#") {
			old[f[0]+" "+f[1]] = strings.Join(f[2:], " ")
		}
	}
	var out strings.Builder
	out.WriteString("# motif shape: pieces, points, length mm, spacing mm, ratio, spread, open, radius, tightest, jump, doubled (see Survey)\n")
	for _, m := range Ready() {
		for i, k := range append(Shapes(), "strip") {
			s := Shape{Kind: k, W: 150, H: 100}
			switch k {
			case "strip":
				s = Shape{Kind: Rectangle, W: 300, H: 50}
			case Hexagon:
				s.W = 75
			}
			if m.Lack(s) != "" || testing.Short() && i%4 != 0 {
				continue
			}
			pieces, err := measured(m, s)
			if err != nil {
				t.Error(err)
				continue
			}
			u := s.Survey(pieces)
			tight := func(r float64) float64 { return math.Min(r, 99) }
			name := m.ID + " " + string(k)
			row := fmt.Sprintf("%d %d %.0f %.2f %.2f %.3f %.3f %.2f %.2f %.2f %.3f",
				u.Pieces, u.Points, u.Length, u.Spacing, u.Ratio, u.Spread, u.Open, tight(u.Radius), tight(u.Tightest), u.Jump, u.Doubled)
			fmt.Fprintf(&out, "%s %s\n", name, row)
			if !*update && !alike(row, old[name]) {
				t.Errorf("%s: %s\nwas %s", name, row, old[name])
			}
			want, ratio := asked[m.ID], asked[m.ID].ratio
			if k == HalfSquare || k == SettingTriangle {
				ratio = want.inTriangles
			}
			small := math.Min(1, s.inradius()/75)
			if u.Ratio > ratio || u.Radius*u.Spacing < want.radius*small || u.Tightest*u.Spacing < want.tightest*small || u.Open > want.open || u.Doubled > want.doubled {
				t.Errorf("%s: largest gap %.2f of the median (at most %.1f), radius %.2f mm (at least %.1f in a block), least %.2f (at least %.1f), open %.3f (at most %.3f), doubled %.3f (at most %.2f)",
					name, u.Ratio, ratio, u.Radius*u.Spacing, want.radius, u.Tightest*u.Spacing, want.tightest, u.Open, want.open, u.Doubled, want.doubled)
			}
		}
	}
	if *update {
		if err := os.WriteFile(file, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// measured returns a motif in a shape of the table, with a margin of 3 mm.
func measured(m Motif, s Shape) ([]Piece, error) {
	if s.W == 300 {
		return m.Fit(s, 3, nil)
	}
	pieces, _, err := usualFit(m, s)
	return pieces, err
}

// alike tells that the numbers of two rows differ by a twentieth or 0.02 at most.
func alike(a, b string) bool {
	x, y := strings.Fields(a), strings.Fields(b)
	if len(x) != len(y) {
		return false
	}
	for i := range x {
		var p, q float64
		fmt.Sscan(x[i], &p)
		fmt.Sscan(y[i], &q)
		if math.Abs(p-q) > math.Max(0.02, 0.05*math.Abs(q)) {
			return false
		}
	}
	return true
}
