package top

import (
	"testing"

	"unthreaded/path/quilt"
)

func BenchmarkDemo(b *testing.B) {
	q, designs := quilt.Demo()
	t := Open(q, designs)
	b.Run("lay", func(b *testing.B) {
		for b.Loop() {
			Open(q, designs)
		}
	})
	b.Run("order", func(b *testing.B) {
		for b.Loop() {
			if p := t.WithDesigns(designs).Planned().Plan; p.Trouble != nil {
				b.Fatal(p.Trouble)
			}
		}
	})
	b.Run("measure", func(b *testing.B) {
		for b.Loop() {
			t.Measure(false)
		}
	})
}
