package e2e

import (
	"math"
	"strings"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// WCAG 2.1.2: the cloth is no keyboard trap, though Ebitengine takes every key that
// its canvas is given.
func TestTabLeadsThroughTheClothAndOut(t *testing.T) {
	d := sit(t, brief, "")
	d.Do(`document.querySelector('#cloth canvas').focus()`)
	d.Key("Tab")
	if got := browser.Eval[string](d.Page, `document.activeElement.tagName`); got == "CANVAS" {
		t.Error("Tab does not leave the cloth")
	}
	d.Key("Shift+Tab")
	if got := browser.Eval[string](d.Page, `document.activeElement.tagName`); got != "CANVAS" {
		t.Errorf("Shift+Tab leads to %s, want back to the cloth", got)
	}
	if bad := browser.Eval[int](d.Page, `document.querySelectorAll('[tabindex]:not([tabindex="0"]):not([tabindex="-1"])').length`); bad > 0 {
		t.Errorf("%d elements have a place of their own in the tab order", bad)
	}
}

// Space plays and stops, the arrows move along the line, all by keyboard.
func TestReplayByKeyboard(t *testing.T) {
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(100))
	if got := browser.Eval[[]float64](d.Page, `(e => [+e.value, +e.max])(document.getElementById('scrub'))`); math.Abs(got[0]-100) > 1.5 {
		t.Errorf("after the trace the replay stands at %v of %v mm, want where it ended, at 100", got[0], got[1])
	}
	d.Do(`document.getElementById('scrub').focus()`)
	d.Key("Home")
	d.Until(`+document.getElementById('scrub').value < 1`)
	d.Do(`document.querySelector('#cloth canvas').focus()`)
	d.Key("Space")
	d.Until(`document.getElementById('play').textContent === 'Pause' && +document.getElementById('scrub').value > 2`)
	d.Key("Space")
	d.Until(`document.getElementById('play').textContent === 'Watch it again'`)
	d.choose("rate", "2")
	d.Click("#play")
	d.Until(`document.getElementById('play').textContent === 'Watch it again' && +document.getElementById('scrub').value > 98`)
	if got := browser.Eval[string](d.Page, `document.querySelector('.clock').textContent`); !strings.HasPrefix(got, "3.9 s of 3.9 s") {
		t.Errorf("the replay of 100 mm at an inch a second ends at %q", got)
	}
}

// The canvas has one pixel for each pixel of the screen, also when the page is
// zoomed or moved to another screen: Ebitengine by itself keeps the first ratio.
func TestTheClothStaysSharp(t *testing.T) {
	d := sit(t, brief, "")
	for _, dpr := range []float64{1, 2, 1.25, 3} {
		v := brief
		v.DPR = dpr
		d.Resize(v)
		d.Until(`(c => Math.abs(c.width - c.getBoundingClientRect().width * devicePixelRatio) <= 1
			&& Math.abs(c.height - c.getBoundingClientRect().height * devicePixelRatio) <= 1)(document.querySelector('#cloth canvas'))`)
	}
}

// Zooming with the wheel stays possible over the cloth.
func TestTheWheelStillZooms(t *testing.T) {
	d := &table{Page: chromium.Open(t, brief), t: t}
	// The first listener of all, since the page's own keeps the event from others.
	d.Before(`window.stopped = null; addEventListener('wheel', e => setTimeout(() => { window.stopped = e.defaultPrevented; }), true)`)
	d.Go(siteURL + "/")
	d.Ready()
	d.Wheel(300, 150, 100, true)
	d.Until(`window.stopped !== null`)
	if browser.Eval[bool](d.Page, `window.stopped`) {
		t.Error("ctrl and wheel over the cloth are swallowed")
	}
}

// What is missing is said in words.
func TestMissingGraphicsAreExplained(t *testing.T) {
	for script, want := range map[string]string{
		`HTMLCanvasElement.prototype.getContext = () => null`: "WebGL",
		`delete window.WebAssembly`:                           "WebAssembly",
	} {
		p := chromium.Open(t, phone)
		p.Before(script)
		p.Go(siteURL + "/")
		p.Until(`document.documentElement.dataset.state === 'fault'`)
		if got := browser.Eval[string](p, `document.getElementById('fault').innerText`); !strings.Contains(got, want) {
			t.Errorf("%s: the page says %q, want it to name %s", script, got, want)
		}
	}
}

// Two entries of one id in a list are shown as one row, and leave none behind.
func TestEntriesOfOneIDAreOneRow(t *testing.T) {
	d := sit(t, brief, "")
	d.Do(`{ const real = unthreaded.render; unthreaded.render = (json) => { window.said = json; real(json); }; }`)
	d.choose("units", "mm")
	d.Until(`window.said`)
	const rows = `document.querySelectorAll('[data-list=langs] option').length`
	want := browser.Eval[int](d.Page, rows)
	d.Do(`const page = JSON.parse(said); page.langs.push(page.langs[0]); unthreaded.render(JSON.stringify(page)); unthreaded.render(JSON.stringify(page)); page.langs.pop(); unthreaded.render(JSON.stringify(page))`)
	if got := browser.Eval[int](d.Page, rows); got != want || want < 2 {
		t.Errorf("%d rows, want %d", got, want)
	}
}
