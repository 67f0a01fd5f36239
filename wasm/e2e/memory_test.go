package e2e

import (
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// watchMemory keeps the program's instance where a test can ask for it.
const watchMemory = `{ const real = WebAssembly.instantiateStreaming;
	WebAssembly.instantiateStreaming = async (...args) => {
		const made = await real.apply(WebAssembly, args);
		window.program = made.instance;
		return made;
	}; }`

// linear returns the bytes of the program's linear memory, which never shrinks.
func linear(p *browser.Page) float64 {
	return browser.Eval[float64](p, "program.exports.mem.buffer.byteLength")
}

// The program's memory after the first trace: 64 MB, so that a tablet of 2 GB has room
// for the page beside all else.
func TestTheFirstTraceTakesLittleMemory(t *testing.T) {
	p := chromium.Open(t, desk)
	p.Before(watchMemory)
	p.Go(siteURL + "/")
	p.Ready()
	d := &table{Page: p, t: t}
	d.measure()
	d.draw(browser.Pen, short(150))
	d.saved(1)
	if got := linear(p) / (1 << 20); got > 64 {
		t.Errorf("the program holds %.0f MB after the first trace, want at most 64", got)
	} else {
		t.Logf("%.0f MB", got)
	}
}
