package board

import (
	"testing"

	"unthreaded/path/motif"
)

// Previews are made anew with each shape of block; a page must not stand still for
// them.
func BenchmarkPreviews(b *testing.B) {
	for _, kind := range motif.Shapes() {
		b.Run(string(kind), func(b *testing.B) {
			s := motif.Shape{Kind: kind, W: 152.4, H: 76.2}
			for b.Loop() {
				for _, pv := range Unmade() {
					pv.Make(s, 6)
				}
			}
		})
	}
}
