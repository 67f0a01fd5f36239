package steps

import "testing"

// BenchmarkRow plans the rows of testdata/routes block by block; natural6 has 17
// cells and more than 2,000 lines.
func BenchmarkRow(b *testing.B) {
	for name, in := range instances(b) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := PlanRow(in.Graph, in.Row, in.Rules, in.through()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
