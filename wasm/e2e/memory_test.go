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

// Traces and changes of place, one after another: once it has its size, neither the program's
// memory nor that of the scripts grows along with them. A thousand of each are played in the
// program alone (TestASeasonAtOneSitting); here it takes some seconds, since a rise is only
// told from the usual to and fro after some dozens.
func TestMemoryLevelsOff(t *testing.T) {
	p := chromium.Open(t, brief)
	p.Before(watchMemory)
	p.Go(siteURL + "/")
	p.Ready()
	d := &table{Page: p, t: t}
	d.measure()
	samples := d.samples(short(60))
	play := func(n int) (program, scripts float64) {
		for range n {
			d.TraceAtOnce(browser.Pen, samples)
			d.Until(`document.documentElement.dataset.trace === 'yes' && document.documentElement.dataset.tracing === 'no'`)
			d.Do(`unthreaded.send('place', 'back', ''); unthreaded.send('place', 'rehearse', ''); unthreaded.send('again', '', '')`)
			d.Until(`document.documentElement.dataset.trace === 'no'`)
		}
		return linear(p) / (1 << 20), browser.Eval[float64](p, `performance.memory.usedJSHeapSize`) / (1 << 20)
	}
	program, scripts := play(16)
	later, after := play(32)
	if later > program+8 || after > scripts+16 {
		t.Errorf("after 16 traces %.0f and %.0f MB, after 48 %.0f and %.0f", program, scripts, later, after)
	}
	t.Logf("program %.0f to %.0f MB, scripts %.0f to %.0f MB", program, later, scripts, after)
}
