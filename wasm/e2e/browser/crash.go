package browser

import (
	"context"
	"errors"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/inspector"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Crash takes the page's process down, as a fault of the browser or of the machine does,
// and waits until it is gone: until then a next page of the same site may be given to it.
// The tab cannot be used any more; Another opens the next one.
func (p *Page) Crash() {
	p.tb.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	_, err := chromedp.Call(ctx, inspector.Enable, cdp.Empty{})
	p.must("watch the page's process", err)
	gone := chromedp.Events(ctx, inspector.TargetCrashed)
	p.crashed = true
	go func() {
		asked, cancel := context.WithTimeout(ctx, 2*time.Second)
		defer cancel()
		// Nobody is left to answer.
		chromedp.Call(asked, page.Crash, cdp.Empty{})
	}()
	for _, err := range gone {
		p.must("wait for the crash", err)
		return
	}
}

// Kill ends the whole browser at once, as the system does when memory runs out. None of its
// pages can be used any more.
func (p *Page) Kill() {
	p.tb.Helper()
	process := chromedp.FromContext(p.ctx).Browser.Process()
	if process == nil {
		p.must("kill the browser", errors.New("it has no process"))
	}
	p.crashed = true
	p.must("kill the browser", process.Kill())
}
