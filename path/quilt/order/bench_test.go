package order

import (
	"fmt"
	"math"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// drawnDesign is a design of lines that run through a square block.
func drawnDesign(id string, side float64, paths []geom.Polyline) quilt.Design {
	d := quilt.Design{
		Schema: quilt.DesignSchema, ID: id, Name: id, Shape: motif.Shape{Kind: motif.Square, W: side}, Seams: motif.NoSeams,
	}
	for i, p := range paths {
		d.Lines = append(d.Lines, quilt.Line{Name: fmt.Sprint(i), Kind: "sewn", Path: geom.Straight(p)})
	}
	return d
}

// bothWays returns lines across a square and the same down it, from at(i, s) of n + 1
// places.
func bothWays(n, points int, side float64, at func(line int, s float64) float64) []geom.Polyline {
	var out []geom.Polyline
	for i := range n {
		for _, down := range []bool{false, true} {
			var path geom.Polyline
			for k := range points + 1 {
				s := float64(k) / float64(points)
				p := geom.Pt(side*s, at(i, s))
				if down {
					p = geom.Pt(p.Y, p.X)
				}
				path = append(path, p)
			}
			out = append(out, path)
		}
	}
	return out
}

// hatch is a design of k + k lines, straight or bent by so many mm in their middle.
func hatch(id string, side float64, k int, bend float64) quilt.Design {
	return drawnDesign(id, side, bothWays(k, 12, side, func(i int, s float64) float64 {
		return side*float64(i+1)/float64(k+1) + bend*math.Sin(math.Pi*s)
	}))
}

// slant is a design of lines aslant both ways, at so many places of each side.
func slant(id string, side float64, k int) quilt.Design {
	var out []geom.Polyline
	step := side / float64(k)
	for i := 1; i < 2*k; i++ {
		a, b := geom.Pt(step*float64(max(0, i-k)), step*float64(min(i, k))), geom.Pt(step*float64(min(i, k)), step*float64(max(0, i-k)))
		out = append(out, geom.Polyline{a, b}, geom.Polyline{geom.Pt(side-a.X, a.Y), geom.Pt(side-b.X, b.Y)})
	}
	return drawnDesign(id, side, out)
}

// peel is a design of waves that swing to either side of the lines of an n x n grid and
// meet on its junctions.
func peel(id string, side float64, n int, swing float64) quilt.Design {
	step := side / float64(n)
	var out []geom.Polyline
	for _, sign := range []float64{1, -1} {
		out = append(out, bothWays(n-1, 8*n, side, func(i int, s float64) float64 {
			return step*float64(i+1) + sign*swing*step*math.Sin(math.Pi*s*float64(n))
		})...)
	}
	return drawnDesign(id, side, out)
}

// denseDesign is the i-th of the dense designs: straight lines, bent ones, lines aslant,
// waves; each of more than 330 lines between the places where they meet.
func denseDesign(i int, side float64) quilt.Design {
	id, more := fmt.Sprint("dense-", i), float64(i/4)
	switch i % 4 {
	case 0:
		return hatch(id, side, 13, 3*more)
	case 1:
		return hatch(id, side, 13, 1.5+more)
	case 2:
		return slant(id, side, 10-i/4)
	}
	return peel(id, side, 10, 0.2+0.02*more)
}

// denseQuilt is a top of rows x cols blocks with different dense designs in turn.
func denseQuilt(rows, cols, different int) (quilt.Quilt, quilt.Designs) {
	const side = 304.8
	designs := quilt.Designs{}
	for i := range different {
		d := denseDesign(i, side)
		designs[d.ID] = d
	}
	q := quilt.Quilt{
		Schema: quilt.Schema, ID: "dense", Name: "dense", Setting: quilt.Straight, Rows: rows, Cols: cols, BlockMM: side,
		ByCell: map[string]quilt.Choice{},
	}
	for r := 1; r <= rows; r++ {
		for c := 1; c <= cols; c++ {
			q.ByCell[fmt.Sprintf("block-%d-%d", r, c)] = quilt.Choice{Design: fmt.Sprint("dense-", (r+c)%different)}
		}
	}
	return q, designs
}

// linesOf counts the lines of a top between the places where they meet.
func linesOf(t testing.TB, q quilt.Quilt, d quilt.Designs) int {
	places, err := lay(q.Lay(d))
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, l := range places {
		for _, e := range l.block.Graph().Edges {
			if e.Kind.Must() {
				n++
			}
		}
	}
	return n
}

// The benchmark's quilt of 60 blocks is as dense as it says.
func TestDenseQuiltIsDense(t *testing.T) {
	q, d := denseQuilt(10, 6, 4)
	if n := linesOf(t, q, d); n < 20000 || n > 25000 {
		t.Errorf("%d lines, want some 20,000", n)
	}
}

// BenchmarkPlan plans whole tops and compares the orders of their rows in the throat: of 60
// dense blocks, of which 1, 2, 4 or 8 are different, and of 15 and 30; the time grows with
// the different ones.
func BenchmarkPlan(b *testing.B) {
	for _, c := range []struct{ rows, cols, different int }{
		{10, 6, 1}, {10, 6, 2}, {10, 6, 4}, {10, 6, 8}, {5, 3, 4}, {5, 6, 4},
	} {
		q, d := denseQuilt(c.rows, c.cols, c.different)
		size := q.Size()
		top := machine.Top{Along: size.W, Across: size.H, Thickness: machine.Thickness.Usual, Core: machine.Core.Usual,
			Packing: machine.Packing.Usual, Density: machine.ArealDensity.Usual, Loose: machine.LooseRoll.Usual}
		for r := range c.rows {
			top.Rows = append(top.Rows, machine.Band{From: q.BlockMM * float64(r), To: q.BlockMM * float64(r+1)})
		}
		throat := machine.Throat{Width: machine.ThroatWidth.Usual, Height: machine.ThroatHeight.Usual, Hand: machine.HandRoom.Usual}
		b.Run(fmt.Sprintf("blocks=%d/different=%d", c.rows*c.cols, c.different), func(b *testing.B) {
			for b.Loop() {
				if _, err := Plan(q, d, Choices{}); err != nil {
					b.Fatal(err)
				}
				if _, err := machine.Orders(top, throat, nil, nil); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(linesOf(b, q, d)), "lines")
		})
	}
}
