package card

import (
	"testing"

	"unthreaded/path/quilt/order"
)

// The card of a job and that of a stage are laid out while a person waits, in a browser
// some five times as slowly.
func BenchmarkWholeJob(b *testing.B) {
	q, d := bedQuilt(false)
	j := wholeOf(b, q, d, "a4", order.Choices{})
	b.Run("job", func(b *testing.B) {
		for b.Loop() {
			JobPages(j)
		}
	})
	b.Run("stage", func(b *testing.B) {
		for b.Loop() {
			StagePage(j, 2)
		}
	})
}
