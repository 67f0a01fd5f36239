package machine

import (
	"testing"

	"unthreaded/path/geom"
)

// BenchmarkFigures measures a top of 200 m in curves of 20 mm.
func BenchmarkFigures(b *testing.B) {
	var pl geom.Polyline
	for i := range 3200 {
		pl = append(pl, geom.Arc(geom.Pt(40*float64(i), 0), 20, 3.141592653589793*float64(1+i%2*2), 6.283185307179586)...)
	}
	l, err := geom.NewLine(pl)
	if err != nil {
		b.Fatal(err)
	}
	w := Work{BlockW: 2000, BlockH: 2000, Pieces: []Piece{{Line: l}}}
	b.ReportMetric(l.Length()/1000, "m")
	for b.Loop() {
		if _, err := w.Figures(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPlaces sorts the places of 10,000 corners.
func BenchmarkPlaces(b *testing.B) {
	var pl geom.Polyline
	for i := range 10000 {
		pl = append(pl, geom.Pt(5*float64(i), float64(i%2*5)))
	}
	l, err := geom.NewLine(pl)
	if err != nil {
		b.Fatal(err)
	}
	w := Work{BlockW: 2000, BlockH: 2000, Pieces: []Piece{{Line: l}}}
	for b.Loop() {
		w.Places()
	}
}
