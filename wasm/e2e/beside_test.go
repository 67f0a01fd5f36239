package e2e

import (
	"fmt"
	"strings"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// timer counts how late a timer of 16 ms comes at worst, from when it is begun to when it is
// asked, in ms.
const timer = `window.late = () => { let worst = 0, last = performance.now(), on = true;
	const tick = () => { const now = performance.now(); worst = Math.max(worst, now - last - 16); last = now; if (on) setTimeout(tick, 16); };
	setTimeout(tick, 16);
	return () => { on = false; return Math.max(worst, performance.now() - last - 16); }; };`

// manyLines is an SVG file of n lines that cross each other, 240 mm wide.
func manyLines(n int) string {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="240mm" height="240mm" viewBox="0 0 240 240">`)
	for i := range n {
		at := 240 * float64(i/2) / float64(n/2)
		if i%2 == 0 {
			fmt.Fprintf(&b, `<path d="M %.3f 0 L %.3f 240"/>`, at, at)
		} else {
			fmt.Fprintf(&b, `<path d="M 0 %.3f L 240 %.3f"/>`, at, at)
		}
	}
	return b.String() + `</svg>`
}

// BenchmarkBeside measures on the page, while something heavy is worked out, how late a timer
// of 16 ms comes at worst, against one of the same page at rest.
func BenchmarkBeside(b *testing.B) {
	work := `document.getElementById('work').hidden`
	for _, c := range []struct{ name, before, do, done string }{
		{"rest", ``, `setTimeout(() => { window.over = true; }, 1000)`, `window.over`},
		{"svg-2000-lines", `unthreaded.send('place', 'draw', '')`, `unthreaded.send('draw.open-svg', ` + "`" + manyLines(2000) + "`" + `, '')`,
			`document.querySelector('[data-text="draw.said"]').textContent !== ''`},
		{"order-of-a-quilt", `unthreaded.send('place', 'quilt', '')`, `unthreaded.send('quilt.ditch-first', 'off', '')`, work},
		{"card-of-the-job", `unthreaded.send('place', 'quilt', ''); unthreaded.send('place', 'machine', '')`,
			`unthreaded.send('machine.card', 'pdf', 'all')`, `document.querySelector('[data-text=notice]').textContent.includes('.pdf')`},
	} {
		b.Run(c.name, func(b *testing.B) {
			worst := 0.0
			for b.Loop() {
				b.StopTimer()
				p := chromium.Open(b, brief)
				p.Before(timer)
				p.Go(siteURL + "/")
				p.Ready()
				if c.before != "" {
					p.Do(c.before)
				}
				p.Steady()
				p.Until(work)
				b.StartTimer()
				p.Do(`window.lateNow = window.late(); ` + c.do)
				p.Until(c.done)
				b.StopTimer()
				worst = max(worst, browser.Eval[float64](p, `window.lateNow()`))
				b.StartTimer()
			}
			b.ReportMetric(worst, "late-ms")
		})
	}
}
