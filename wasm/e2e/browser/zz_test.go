package browser_test

import (
	"math"
	"sort"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

func TestZZ(t *testing.T) {
	for range 10 {
		for _, k := range []browser.Kind{browser.Pen, browser.Mouse} {
			p := openRecorder(t, browser.View{Width: 480, Height: 360})
			sent := turn(8)
			p.Do(`pad.addEventListener('pointermove', e => { const c = e.getCoalescedEvents(); (window.batch = window.batch || []).push([e.timeStamp, e.clientX, c.length, c[c.length-1].timeStamp, c[0].timeStamp, performance.now()]) })`)
			p.TraceAtOnce(k, sent)
			got := browser.Eval[[]recorded](p, "record")
			batch := browser.Eval[[][]float64](p, "batch")
			var res []float64
			big := 0
			for i := range sent {
				d := got[i].T - got[0].T - 1000*sent[i].T
				if math.Abs(d) > 0.02 {
					big++
					t.Log(k, i, d, got[i].T, got[i-1].T, got[i+1].T, got[i].X-sent[i].X)
					at := 1
					for _, b := range batch {
						if at+int(b[2]) > i {
							t.Log("   at", i-at, "of batch", b)
							break
						}
						at += int(b[2])
					}
				}
				res = append(res, d)
			}
			sort.Float64s(res)
			t.Log(k, len(got), res[0], res[len(res)/2], res[len(res)-1], big, got[0].T)
		}
	}
}
