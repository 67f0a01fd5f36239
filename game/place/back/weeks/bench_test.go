package weeks

import (
	"fmt"
	"testing"

	"unthreaded/game/keep"
)

// All of it for some hundred and for ten thousand kept traces, and a look at another motif
// once they are read.
func BenchmarkBook(b *testing.B) {
	for _, n := range []int{20, 400} {
		kept := practise("swirls", n, 24, keep.NoMarks, learning(1))
		b.Run(fmt.Sprintf("all/%d", len(kept)), func(b *testing.B) {
			for b.Loop() {
				about("swirls", kept)
			}
		})
		book := about("swirls", kept)
		b.Run(fmt.Sprintf("look/%d", len(kept)), func(b *testing.B) {
			for b.Loop() {
				book.Look(Ask{Measure: Measures[1]}).Done()
			}
		})
		b.Run(fmt.Sprintf("longest/%d", len(kept)), func(b *testing.B) {
			for b.Loop() {
				b.StopTimer()
				w := New().With(kept).Look(Ask{Motif: "swirls"})
				for w.Busy() && w.stage < judging {
					w = w.piece()
				}
				b.StartTimer()
				w.piece()
			}
		})
	}
}
