package e2e

import (
	"strconv"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/wasm/e2e/browser"
)

// table is a page together with the same program run natively, which tells where
// on the page the line lies.
type table struct {
	*browser.Page
	t    *testing.T
	m    game.Model
	left float64 // of the cloth on the page, in CSS pixels
	top  float64
}

// sit opens the page and chooses a motif.
func sit(t *testing.T, v browser.View, motif string) *table {
	t.Helper()
	d := &table{Page: open(t, v), t: t}
	if motif != "" {
		d.choose("motif", motif)
	}
	d.measure()
	return d
}

// measure brings the native program to the page's state.
func (d *table) measure() {
	d.t.Helper()
	box := browser.Eval[[]float64](d.Page, `(() => {
		const r = document.getElementById('cloth').getBoundingClientRect();
		return [r.left, r.top, ...unthreaded.measure()];
	})()`)
	d.left, d.top = box[0], box[1]
	s := game.DefaultSettings()
	s.Screens = game.DecodeSettings([]byte(browser.Eval[string](d.Page, `unthreaded.store.settings().catch(() => '')`))).Screens
	s.Motif = browser.Eval[string](d.Page, `document.querySelector('[data-send=motif]').value`)
	d.m = game.New(s, 0)
	d.m, _ = game.Update(d.m, game.Resized{W: box[2], H: box[3], Strip: box[4], DPR: box[5], ScreenW: box[6], ScreenH: box[7]})
}

// choose sets a control of the page.
func (d *table) choose(name, value string) {
	d.t.Helper()
	d.Do(`{ const el = document.querySelector('[data-send="` + name + `"]');
		el.value = '` + value + `'; el.dispatchEvent(new Event('input', { bubbles: true })); }`)
	d.Until(`document.querySelector('[data-send="` + name + `"]').value === '` + value + `'`)
	d.Steady()
}

// at returns the place on the page of a place on the cloth.
func (d *table) at(p geom.Point) geom.Point {
	q := d.m.Sight().ToScreen(p)
	return geom.Pt(q.X+d.left, q.Y+d.top)
}

// samples returns a hand's movement in places on the page.
func (d *table) samples(h synth.Hand) []browser.Sample {
	var out []browser.Sample
	for _, s := range h.Samples(d.m.Rehearsal().Line) {
		p := d.at(s.P)
		out = append(out, browser.Sample{T: s.T, X: p.X, Y: p.Y, Pressure: 0.5})
	}
	return out
}

// draw traces the line and waits for the measures.
func (d *table) draw(k browser.Kind, h synth.Hand) {
	d.t.Helper()
	before := d.past()
	d.TraceAtOnce(k, d.samples(h))
	d.Until(`document.documentElement.dataset.tracing === 'no' && document.querySelectorAll('.past li').length > ` + strconv.Itoa(before))
}

// past returns how many traces are listed.
func (d *table) past() int {
	return browser.Eval[int](d.Page, `document.querySelectorAll('.past li').length`)
}

// sentence returns the sentence beside the cloth.
func (d *table) sentence() string {
	return browser.Eval[string](d.Page, `document.querySelector('.sentence').textContent`)
}

// figure returns the value and the note of a measure, by its name.
func (d *table) figure(name string) (value float64, note string) {
	d.t.Helper()
	parts := browser.Eval[[]string](d.Page, `[...document.querySelectorAll('.figure')]
		.filter(f => f.querySelector('dt').textContent === '`+name+`')
		.flatMap(f => [f.querySelector('strong').textContent, f.querySelector('dd span').textContent])`)
	if len(parts) != 2 {
		d.t.Fatalf("no figure %q: %s", name, browser.Eval[string](d.Page, `document.querySelector('.column').innerText`))
	}
	v, err := strconv.ParseFloat(strings.Fields(parts[0])[0], 64)
	if err != nil {
		d.t.Fatalf("%s reads %q (%s)", name, parts[0], parts[1])
	}
	return v, parts[1]
}

// saved waits until every listed trace is in the store and none in the journal.
func (d *table) saved(n int) {
	d.t.Helper()
	d.Until(`unthreaded.store.newest(1e6).then(([l]) => l).then(l => { window.kept = l.length; }) && window.kept === ` + strconv.Itoa(n) + ` &&
		!Object.keys(localStorage).some(k => k.startsWith('unthreaded.journal.'))`)
}
