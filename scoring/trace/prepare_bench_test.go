package trace

import (
	"fmt"
	"math"
	"testing"

	"unthreaded/path/geom"
)

// circling samples a hand that goes round at 25 mm/s.
func circling(n int, rate float64) Trace {
	tr := Trace{Device: Pen, Ending: Lifted}
	for k := range n {
		t := float64(k) / rate
		tr.Samples = append(tr.Samples, Sample{T: t, P: geom.Pt(40*math.Cos(t*25/40), 40*math.Sin(t*25/40)), Pressure: 0.5})
	}
	return tr
}

func BenchmarkPrepare(b *testing.B) {
	for _, n := range []int{2400, 4800, 9600} {
		tr := circling(n, 240)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Prepare(tr); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
