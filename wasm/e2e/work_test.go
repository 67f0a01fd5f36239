package e2e

import (
	"strconv"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// keptWorker lets a test reach the worker that the page has begun.
const keptWorker = `{ const Real = Worker; window.Worker = class extends Real {
	constructor(...a) { super(...a); window.begun = (window.begun || 0) + 1; window.lastWorker = this; }
	postMessage(...a) { if (window.deaf) return; super.postMessage(...a); }
}; }`

// What is worked out is said and can be stopped; stopped, or lost because the worker was
// killed, it can be asked for again, and comes; what was there before stays. A trace drawn
// while a job is in hand keeps every sample.
func TestTheWorkBesideThePage(t *testing.T) {
	d := sitAfter(t, keptWorker)
	p := d.Page
	d.tell("place", "quilt", "")
	d.Until(stageCount + ` > 2`)
	before := browser.Eval[[]string](p, stageNames)
	work := `document.getElementById('work')`
	p.Until(work + `.hidden`)
	press := func(name string) { p.Do(work + `.querySelector('[data-send=` + name + `]').click()`) }

	// A worker that hears nothing works for ever.
	p.Do(`window.deaf = true`)
	d.tell("quilt.ditch-first", "off", "")
	p.Until(`!` + work + `.hidden && ` + work + `.textContent.includes('Working out the order')`)
	if now := browser.Eval[[]string](p, stageNames); len(now) != len(before) {
		t.Errorf("while the order is worked out %d stages are shown, want the %d before", len(now), len(before))
	}
	press("work-stop")
	p.Until(work + `.textContent.includes('was stopped')`)

	// Meanwhile a trace.
	press("work-again")
	p.Until(work + `.textContent.includes('Working out the order')`)
	d.tell("place", "rehearse", "")
	want := len(d.samples(short(40)))
	d.draw(browser.Mouse, short(40))
	d.saved(1)
	if n := browser.Eval[int](p, `unthreaded.store.newest(1).then(([l]) => unthreaded.store.get(JSON.parse(l[0]).id)).then(JSON.parse).then((r) => r.samples.t_s.length)`); n < want {
		t.Errorf("%d of %d samples are kept of a trace made beside a job", n, want)
	}

	p.Until(`navigator.locks.query().then((q) => { window.held = q.held.some((l) => l.name.startsWith('unthreaded.work.')); }) && window.held`)
	p.Do(`window.lastWorker.terminate()`)
	p.Until(`document.body.textContent.includes('Nothing of yours was lost') && ` + work + `.textContent.includes('was lost')`)
	p.Do(`window.deaf = false`)
	press("work-again")
	p.Until(work + `.hidden`)
	d.tell("place", "quilt", "")
	p.Until(stageNames + `.length < ` + strconv.Itoa(len(before)))
	if n := browser.Eval[int](p, `window.begun`); n != 3 {
		t.Errorf("the worker was begun %d times, want 3: first, after the stop, after the loss", n)
	}
}

// Where no worker can be had the page says so, and works all the same.
func TestWithoutAWorker(t *testing.T) {
	t.Parallel()
	d := sitAfter(t, `delete window.Worker; window.told = [];`)
	p := d.Page
	p.Do(`new MutationObserver(() => window.told.push(document.getElementById('work').textContent)).observe(document.getElementById('work'), { subtree: true, childList: true, characterData: true })`)
	d.tell("place", "quilt", "")
	d.Until(stageCount + ` > 2 && document.getElementById('work').hidden`)
	p.Until(`window.told.some((x) => x.includes('in small steps'))`)
}

// sitAfter is sit with a script run before the page's own.
func sitAfter(t *testing.T, script string) *table {
	t.Helper()
	d := &table{Page: chromium.Open(t, brief), t: t}
	d.Before(script)
	d.Go(siteURL + "/")
	d.Ready()
	d.measure()
	return d
}
