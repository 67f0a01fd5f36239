package order

import (
	"fmt"
	"math"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// hatch is a design of k + k lines, straight or bent by so many mm in their middle.
func hatch(id string, side float64, k int, bend float64) quilt.Design {
	d := quilt.Design{
		Schema: quilt.DesignSchema, ID: id, Name: id, Shape: motif.Shape{Kind: motif.Square, W: side}, Seams: motif.NoSeams,
	}
	for i := 1; i <= k; i++ {
		at := side * float64(i) / float64(k+1)
		for _, down := range []bool{false, true} {
			var path geom.Polyline
			for n := 0; n <= 12; n++ {
				s := float64(n) / 12
				p := geom.Pt(side*s, at+bend*math.Sin(math.Pi*s))
				if down {
					p = geom.Pt(p.Y, p.X)
				}
				path = append(path, p)
			}
			d.Lines = append(d.Lines, quilt.Line{Name: fmt.Sprint(down, i), Kind: "sewn", Path: geom.Straight(path)})
		}
	}
	return d
}

// denseQuilt is a top of rows x cols blocks with different dense designs in turn:
// 12 + 12 lines each, more than 300 pieces.
func denseQuilt(rows, cols, different int) (quilt.Quilt, quilt.Designs) {
	const side = 304.8
	designs := quilt.Designs{}
	for i := range different {
		id := fmt.Sprint("hatch-", i)
		designs[id] = hatch(id, side, 12, 1.5*float64(i))
	}
	q := quilt.Quilt{
		Schema: quilt.Schema, ID: "dense", Name: "dense", Setting: quilt.Straight, Rows: rows, Cols: cols, BlockMM: side,
		ByCell: map[string]quilt.Choice{},
	}
	for r := 1; r <= rows; r++ {
		for c := 1; c <= cols; c++ {
			q.ByCell[fmt.Sprintf("block-%d-%d", r, c)] = quilt.Choice{Design: fmt.Sprint("hatch-", (r+c)%different)}
		}
	}
	return q, designs
}

// BenchmarkPlan plans whole tops: of 60 dense blocks, of which 1, 2, 4 or 8 are
// different, and of 15 and 30; the time grows with the different ones.
func BenchmarkPlan(b *testing.B) {
	for _, c := range []struct{ rows, cols, different int }{
		{10, 6, 1}, {10, 6, 2}, {10, 6, 4}, {10, 6, 8}, {5, 3, 4}, {5, 6, 4},
	} {
		q, d := denseQuilt(c.rows, c.cols, c.different)
		b.Run(fmt.Sprintf("blocks=%d/different=%d", c.rows*c.cols, c.different), func(b *testing.B) {
			for b.Loop() {
				if _, err := Plan(q, d, Choices{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
