package browser

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// patience is how long a step may take before the test fails: far more than any
// step needs, as a loaded machine with software drawing is slow.
const patience = 60 * time.Second

// View is the screen that a page is shown on.
type View struct {
	Width, Height int     // of the page in CSS pixels
	DPR           float64 // device pixels per CSS pixel; 0 means 1
	Touch         bool    // whether the screen takes touch, up to five fingers
}

// Page is one open tab in a storage of its own.
type Page struct {
	tb      testing.TB
	browser *Browser
	ctx     context.Context
	console *console
	pointer pointerState
	crashed bool
}

// Open opens an empty tab for the test. Its storage is fresh and goes with it.
// When the test ends, the tab is closed and what the page complained about fails
// the test; see Expect.
func (b *Browser) Open(tb testing.TB, v View) *Page {
	tb.Helper()
	return b.open(tb, v, chromedp.WithNewBrowserContext())
}

// OpenKept opens an empty tab in the browser's own profile, which is kept; see StartIn.
func (b *Browser) OpenKept(tb testing.TB, v View) *Page {
	tb.Helper()
	return b.open(tb, v, func(*chromedp.Context) {})
}

// Another opens a second tab with the same storage, for two tabs at once or for
// a later visit.
func (p *Page) Another(v View) *Page {
	p.tb.Helper()
	id := chromedp.FromContext(p.ctx).BrowserContextID
	return p.browser.open(p.tb, v, chromedp.WithExistingBrowserContext(id))
}

func (b *Browser) open(tb testing.TB, v View, option chromedp.ContextOption) *Page {
	tb.Helper()
	ctx, cancel := chromedp.NewContext(b.ctx, option)
	p := &Page{tb: tb, browser: b, ctx: ctx}
	tb.Cleanup(func() {
		if p.console != nil && !p.crashed {
			p.console.check(p)
		}
		cancel()
	})
	p.must("open a tab", chromedp.Do(ctx))
	p.console = listen(ctx)
	p.Before(violationScript)
	p.Resize(v)
	return p
}

// Before runs a script in every document that is loaded from now on, before the
// document's own scripts: to take away what some browsers lack.
func (p *Page) Before(script string) {
	p.tb.Helper()
	p.run("run before the page", chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, page.AddScriptToEvaluateOnNewDocument,
			page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
		return err
	}))
}

// Resize changes the screen under the open page, as by zooming the browser or
// turning a tablet.
func (p *Page) Resize(v View) {
	p.tb.Helper()
	if v.DPR == 0 {
		v.DPR = 1
	}
	_, err := call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: int64(v.Width), Height: int64(v.Height), DeviceScaleFactor: v.DPR,
	})
	p.must("set the size", err)
	touch := emulation.SetTouchEmulationEnabledParams{Enabled: v.Touch}
	if v.Touch {
		touch.MaxTouchPoints = maxFingers
	}
	_, err = call(p, emulation.SetTouchEmulationEnabled, touch)
	p.must("set touch", err)
	p.pointer.touch = v.Touch
}

// Go loads the address and waits for the load event.
func (p *Page) Go(url string) {
	p.tb.Helper()
	p.run("go to "+url, chromedp.Navigate(url))
	p.pointer.latest = time.Now()
}

// Reload loads the page anew, as a second visit does.
func (p *Page) Reload() {
	p.tb.Helper()
	p.run("reload", chromedp.Reload())
	p.pointer.latest = time.Now()
}

// Screenshot writes what is seen to a PNG file, in device pixels.
func (p *Page) Screenshot(file string) {
	p.tb.Helper()
	png := run(p, "take a picture", chromedp.CaptureScreenshot())
	p.must("make a folder", os.MkdirAll(filepath.Dir(file), 0o755))
	p.must("save the picture", os.WriteFile(file, png, 0o644))
}

// run performs a step that gives no value.
func (p *Page) run(what string, a chromedp.Action[chromedp.Void]) {
	p.tb.Helper()
	run(p, what, a)
}

// run performs a step and fails the test if it does.
func run[T any](p *Page, what string, a chromedp.Action[T]) T {
	p.tb.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, a)
	p.must(what, err)
	return v
}

// call sends one command of the DevTools protocol.
func call[P, R any](p *Page, c cdp.Command[P, R], params P) (R, error) {
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	return chromedp.Call(ctx, c, params)
}

func (p *Page) must(what string, err error) {
	p.tb.Helper()
	if err != nil {
		p.tb.Fatalf("%s: %v%s", what, err, p.console.tail())
	}
}
