package e2e

import (
	"fmt"
	"testing"

	"unthreaded/game/synth"
	"unthreaded/wasm/e2e/browser"
)

// half puts a pointer down and traces without lifting.
func (d *table) half(k browser.Kind) (*browser.Stroke, []browser.Sample) {
	d.t.Helper()
	samples := d.samples(synth.Hand{Hz: 60, Speed: synth.Steady(40), Stop: 60})
	s := d.Stroke(k)
	s.Down(samples[0])
	s.Move(samples[1:]...)
	d.Until(`document.documentElement.dataset.tracing === 'yes'`)
	return s, samples
}

// ended waits for the one trace and tells how it ended.
func (d *table) ended() string {
	d.t.Helper()
	d.Until(`document.querySelectorAll('.past li').length === 1`)
	d.saved(1)
	return browser.Eval[string](d.Page, `unthreaded.store.newest(1e6).then(([l]) => l).then(l => unthreaded.store.get(JSON.parse(l[0]).id)).then(JSON.parse)
		.then(r => r.ending + ' ' + (r.samples.t_s.at(-1) > 1))`)
}

const interruptedWhole = "interrupted true"

func TestACancelledTouchKeepsTheTrace(t *testing.T) {
	d := sit(t, browser.View{Width: 480, Height: 700, Touch: true}, "")
	s, samples := d.half(browser.Touch)
	s.Cancel(samples[len(samples)-1].T + 0.02)
	if got := d.ended(); got != interruptedWhole {
		t.Errorf("kept as %q, want %q", got, interruptedWhole)
	}
}

func TestASecondFingerChangesNothing(t *testing.T) {
	d := sit(t, browser.View{Width: 480, Height: 700, Touch: true}, "")
	s, samples := d.half(browser.Touch)
	last := samples[len(samples)-1]
	other := d.Finger(1)
	other.Down(browser.Sample{X: 400, Y: 100, Pressure: 0.5})
	other.Up(browser.Sample{T: 0.05, X: 400, Y: 100})
	if browser.Eval[string](d.Page, `document.documentElement.dataset.tracing`) != "yes" {
		t.Error("a second finger ended the trace")
	}
	last.T += 0.5
	s.Up(last)
	if got := d.ended(); got != "lifted true" {
		t.Errorf("kept as %q, want lifted true", got)
	}
}

// Leaving the window with the button down: the pointer is captured, so the trace
// goes on and ends where the button is let go.
func TestLeavingTheCloth(t *testing.T) {
	d := sit(t, brief, "")
	s, samples := d.half(browser.Mouse)
	last := samples[len(samples)-1]
	s.Move(browser.Sample{T: last.T + 0.05, X: 5, Y: 5, Pressure: 0.5}, browser.Sample{T: last.T + 0.1, X: -40, Y: -40, Pressure: 0.5})
	s.Up(browser.Sample{T: last.T + 0.15, X: -40, Y: -40})
	if got := d.ended(); got != "lifted true" {
		t.Errorf("kept as %q, want lifted true", got)
	}
}

// A button let go outside a window that took the capture is only seen when the mouse comes
// back without it (buttons, Pointer Events level 3, W3C): the trace ends there.
func TestTheMouseLetGoOutside(t *testing.T) {
	d := sit(t, brief, "")
	_, samples := d.half(browser.Mouse)
	last := samples[len(samples)-1]
	d.Do(fmt.Sprintf(`for (const x of [10, 60]) document.querySelector('#cloth canvas').dispatchEvent(new PointerEvent('pointermove',
		{ bubbles: true, pointerType: 'mouse', pointerId: 1, isPrimary: true, buttons: 0, clientX: %v + x, clientY: %v }))`, last.X, last.Y))
	d.Until(`document.documentElement.dataset.tracing === 'no'`)
	if got := d.ended(); got != interruptedWhole {
		t.Errorf("kept as %q, want %q", got, interruptedWhole)
	}
}

// A slider in the hand keeps its own value, whatever the program makes of it meanwhile.
func TestAHeldSliderIsNotFought(t *testing.T) {
	d := sit(t, brief, "")
	d.draw(browser.Pen, short(60))
	at := browser.Eval[[]float64](d.Page, `(() => { const r = document.getElementById('scrub').getBoundingClientRect(); return [r.left + r.width * 0.3, r.top + r.height / 2]; })()`)
	s := d.Stroke(browser.Mouse)
	s.Down(browser.Sample{X: at[0], Y: at[1], Pressure: 0.5})
	d.Until(`document.getElementById('scrub').matches(':active')`)
	held := browser.Eval[string](d.Page, `document.getElementById('scrub').value`)
	d.Do(`unthreaded.send('scrub', '3', '')`)
	d.Steady()
	if got := browser.Eval[string](d.Page, `document.getElementById('scrub').value`); got != held {
		t.Errorf("the slider was held at %s and stands at %s", held, got)
	}
	s.Up(browser.Sample{T: 0.2, X: at[0], Y: at[1]})
}

// A page that is hidden in mid-trace, left, or frozen (Page Lifecycle, WICG) keeps what
// there is.
func TestAHiddenPageKeepsTheTrace(t *testing.T) {
	d := sit(t, brief, "")
	for _, goes := range []string{
		`Object.defineProperty(document, 'hidden', { configurable: true, get: () => true }); document.dispatchEvent(new Event('visibilitychange'))`,
		`dispatchEvent(new PageTransitionEvent('pagehide', { persisted: true }))`,
		`document.dispatchEvent(new Event('freeze', { bubbles: true }))`,
	} {
		s, samples := d.half(browser.Pen)
		d.Do(goes)
		if got := d.ended(); got != interruptedWhole {
			t.Errorf("%s: kept as %q, want %q", goes, got, interruptedWhole)
		}
		s.Up(samples[len(samples)-1])
		d.Do(`document.querySelector('.past li [data-send=delete]').click()`)
		d.saved(0)
		d.Until(`document.querySelectorAll('.past li').length === 0`)
		d.measure() // the offer to bring it back takes room of the cloth
	}
}

// Lost graphics reload the page; the trace in hand is there afterwards.
func TestLostGraphicsLoseNothing(t *testing.T) {
	d := sit(t, brief, "")
	d.half(browser.Pen)
	d.Do(`window.before = true; document.querySelector('#cloth canvas').getContext('webgl2').getExtension('WEBGL_lose_context').loseContext()`)
	d.Until(`!window.before && document.documentElement.dataset.state === 'ready'`)
	if got := d.ended(); got != interruptedWhole {
		t.Errorf("kept as %q, want %q", got, interruptedWhole)
	}
}

// A page that is gone before the store has the trace: the journal has it, and the
// next visit takes it in.
func TestTheJournalOutlivesThePage(t *testing.T) {
	d := sit(t, brief, "")
	d.Do(`unthreaded.store.put = () => new Promise(() => {})`) // a store that never answers
	d.draw(browser.Pen, short(60))
	d.Reload()
	d.Ready()
	if got := d.ended(); got != "lifted true" {
		t.Errorf("kept as %q, want lifted true", got)
	}
}
