package e2e

import (
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// TestStart opens the page at its three sizes, saves what is seen, and checks what
// the server promises to the page: the finer clock and WebGL.
func TestStart(t *testing.T) {
	for name, view := range map[string]browser.View{"desk": desk, "tablet": tablet, "phone": phone} {
		t.Run(name, func(t *testing.T) {
			p := open(t, view)
			if !browser.Eval[bool](p, "crossOriginIsolated") {
				t.Error("the page is not isolated from other origins, so its clock is coarse")
			}
			if size := browser.Eval[int64](p, "fetch('build.json').then(r => r.json()).then(b => b.wasmBytes)"); size != report.WasmBytes {
				t.Errorf("the page is told of %d bytes of program, expected %d", size, report.WasmBytes)
			}
			if wide := browser.Eval[int](p, "document.documentElement.scrollWidth"); wide > view.Width {
				t.Errorf("the page is %d px wide and has to be scrolled sideways on a screen of %d px", wide, view.Width)
			}
		})
	}
}

// BenchmarkFirstFrame measures a first visit from the click on the address to the
// moment when tracing can begin: transfer over loopback, compilation, first frame.
// The browser has compiled nothing of the page before, since each visit has a
// storage and a cache of its own.
func BenchmarkFirstFrame(b *testing.B) {
	for b.Loop() {
		b.StopTimer()
		p := chromium.Open(b, brief)
		b.StartTimer()
		p.Go(siteURL + "/")
		p.Until("document.documentElement.dataset.state === 'ready'")
	}
	b.ReportMetric(float64(report.WasmBytes), "wasm-bytes")
}
