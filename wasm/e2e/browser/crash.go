package browser

import (
	"context"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Crash takes the page's process down, as a fault of the browser or of the machine does. The
// tab cannot be used any more; Another opens the next one.
func (p *Page) Crash() {
	p.tb.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 2*time.Second)
	defer cancel()
	// Nobody is left to answer.
	chromedp.Call(ctx, page.Crash, cdp.Empty{})
	p.crashed = true
}
