package plane

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"unthreaded/path/geom"
)

// scatter returns n strokes over a square of 300 mm: straight lines, and arcs
// flattened as finely as the program does it, in equal parts.
func scatter(n int, longest float64) []Stroke {
	r := rand.New(rand.NewSource(7))
	var out []Stroke
	for i := 0; i < n; i++ {
		s := Stroke{Name: fmt.Sprint("line ", i), Kind: Sewn}
		at := geom.Pt(300*r.Float64(), 300*r.Float64())
		size, turn := longest*(0.3+0.7*r.Float64()), 2*math.Pi*r.Float64()
		if i%2 == 0 {
			s.Path = geom.Polyline{at, geom.Pt(at.X+size*math.Cos(turn), at.Y+size*math.Sin(turn))}
		} else {
			s.Path = geom.Arc(at, size/4, turn, turn+4)
		}
		out = append(out, s)
	}
	return out
}

// unaryUnion is the library's own noding of the same strokes, for comparison. It
// gives bare pieces: no names, no curves, no snapping, no faces.
func unaryUnion(strokes []Stroke) (sf.Geometry, error) {
	var lines []sf.LineString
	for _, s := range strokes {
		var xy []float64
		for _, p := range s.Path {
			q := toGrid(p)
			xy = append(xy, float64(q.x), float64(q.y))
		}
		lines = append(lines, sf.NewLineString(sf.NewSequence(xy, sf.DimXY)))
	}
	return sf.UnaryUnion(sf.NewMultiLineString(lines).AsGeometry())
}

func BenchmarkBuild(b *testing.B) {
	for _, c := range []struct {
		n       int
		longest float64
	}{{100, 150}, {1000, 60}} {
		strokes := scatter(c.n, c.longest)
		for _, snap := range []float64{0, DefaultSnap} {
			b.Run(fmt.Sprintf("strokes=%d/snap=%v", c.n, snap), func(b *testing.B) {
				var r Result
				for b.Loop() {
					r = mustBuild(b, strokes, snap)
				}
				b.ReportMetric(float64(len(r.Edges)), "edges")
			})
		}
		b.Run(fmt.Sprintf("strokes=%d/UnaryUnion", c.n), func(b *testing.B) {
			for b.Loop() {
				if _, err := unaryUnion(strokes); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
