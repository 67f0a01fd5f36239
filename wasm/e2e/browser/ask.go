package browser

import (
	"context"
	"fmt"
	"time"

	"github.com/chromedp/chromedp"
)

// Eval gives the value of a JavaScript expression on the page; a promise is
// waited for. What T cannot hold fails the test.
func Eval[T any](p *Page, expression string) T {
	p.tb.Helper()
	return run(p, "evaluate "+shorten(expression), chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}

// Do evaluates statements for their effect.
func (p *Page) Do(statements string) {
	p.tb.Helper()
	Eval[chromedp.Void](p, statements)
}

// Until waits until the JavaScript condition holds. It looks every 20 ms and
// ends the test at once when the page fails in the meantime.
func (p *Page) Until(condition string) {
	p.tb.Helper()
	deadline := time.Now().Add(patience)
	for {
		ctx, cancel := context.WithDeadline(p.ctx, deadline)
		held, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+condition+")"))
		cancel()
		if held {
			return
		}
		if bad := p.console.complaints(); len(bad) > 0 {
			p.tb.Fatalf("while waiting for %s the page complained: %s", shorten(condition), bad[0])
		}
		if time.Now().After(deadline) {
			p.tb.Fatalf("waited %v in vain for %s (last error: %v)%s", patience, shorten(condition), err, p.console.tail())
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// Ready waits until the program of the page runs, which the page shows by the
// attribute data-state="ready" of its root element, and its frames are steady. A
// page that shows data-state="fault" instead fails the test with its words.
func (p *Page) Ready() {
	p.tb.Helper()
	p.Until("['ready', 'fault'].includes(document.documentElement.dataset.state)")
	if Eval[string](p, "document.documentElement.dataset.state") == "fault" {
		p.tb.Fatalf("the page reports a fault: %s%s", Eval[string](p, "document.body.innerText"), p.console.tail())
	}
	p.Steady()
}

// Steady waits for a run of frames with no long pause among them, or for a few
// seconds on a machine too slow for that. Input sent while a page is still starting
// tells nothing about the page in use.
func (p *Page) Steady() {
	p.tb.Helper()
	p.Do(fmt.Sprintf(`new Promise(resolve => {
		const begin = performance.now();
		let last = 0, good = 0;
		const frame = now => {
			good = now - last < %d ? good + 1 : 0;
			last = now;
			if (good >= 4 || now - begin > %d) resolve(); else requestAnimationFrame(frame);
		};
		requestAnimationFrame(frame);
	})`, steadyFrame.Milliseconds(), steadyLimit.Milliseconds()))
}

const (
	steadyFrame = 100 * time.Millisecond // the longest frame that counts as steady
	steadyLimit = 3 * time.Second
)

func shorten(text string) string {
	if r := []rune(text); len(r) > 60 {
		return string(r[:57]) + "..."
	}
	return text
}
