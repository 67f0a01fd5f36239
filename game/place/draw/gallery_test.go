package draw

import (
	"testing"

	"unthreaded/path/motif"
)

// Pictures are made anew with each shape of block; a page must not stand still for
// them.
func BenchmarkPictures(b *testing.B) {
	for _, kind := range motif.Shapes() {
		b.Run(string(kind), func(b *testing.B) {
			s := motif.Shape{Kind: kind, W: 152.4, H: 76.2}
			for b.Loop() {
				for _, pv := range unmade() {
					pv.make(s, 6)
				}
			}
		})
	}
}
