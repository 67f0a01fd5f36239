//go:build js

// Command work is the second program of the page: it does the jobs that take longer than a
// frame (game/work/run), in a worker beside the page, and knows nothing of the screen.
package main

import (
	"time"

	"unthreaded/game/work/run"
	"unthreaded/wasm/dom"
)

// restAfter is how long a part of a job lasts, at most about two frames where the job lets
// itself be parted so, before the page gets control back; tellAfter is how often the page is
// told how far the job has come.
const (
	restAfter = 25 * time.Millisecond
	tellAfter = 80 * time.Millisecond
)

// givenUp ends a job that nobody waits for any more.
type givenUp struct{}

func main() {
	rests := dom.Rests()
	dom.Jobs(func(doc []byte, tell func(share float64) bool) []byte {
		rested, told := time.Now(), time.Time{}
		return run.Doc(doc, func(share float64) {
			now := time.Now()
			if now.Sub(told) > tellAfter {
				told = now
				if !tell(share) {
					panic(givenUp{})
				}
			}
			if rests && now.Sub(rested) > restAfter {
				time.Sleep(time.Millisecond)
				rested = time.Now()
			}
		})
	})
}
