package e2e

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/wasm/e2e/browser"
)

// kinds are all pointers there are, on one screen that feels fingers as well.
var (
	kinds = []browser.Kind{browser.Mouse, browser.Pen, browser.Touch}
	touch = browser.View{Width: 480, Height: 700, Touch: true}
)

// rehearsing makes a choice of the place on the page and in the native program.
func (d *table) rehearsing(name, value string) {
	d.t.Helper()
	d.Do(fmt.Sprintf(`{ const el = document.querySelector('select[data-send="rehearse.%[1]s"]');
		if (el) { el.value = '%[2]s'; el.dispatchEvent(new Event('input', { bubbles: true })); }
		else document.querySelector('button[data-send="rehearse.%[1]s"][value="%[2]s"]').click(); }`, name, value))
	d.m, _ = game.Update(d.m, game.Control{Name: "rehearse." + name, Value: value})
	d.Steady()
}

// traced sends a stroke and waits for its trace.
func (d *table) traced(k browser.Kind, samples []browser.Sample) {
	d.t.Helper()
	before := d.past()
	d.TraceAtOnce(k, samples)
	d.Until(fmt.Sprintf(`document.documentElement.dataset.tracing === 'no' && document.querySelectorAll('.past li').length > %d`, before))
}

// newest evaluates an expression of the newest kept record r.
func newest[T any](d *table, expression string) T {
	d.t.Helper()
	d.saved(d.past())
	return browser.Eval[T](d.Page, `unthreaded.store.newest(1e6).then(([l]) => l.map(JSON.parse).sort((a, b) => b.started - a.started)[0])
		.then(s => unthreaded.store.get(s.id)).then(JSON.parse).then(r => `+expression+`)`)
}

// A screen is measured with a card, by dragging with each pointer, by the buttons and
// by the keys; what was found is there after a reload and goes into the records.
func TestTheMeasuredScreenIsKept(t *testing.T) {
	d := sit(t, browser.View{Width: 700, Height: 1020, Touch: true}, "")
	const long = `document.getElementById('card').getBoundingClientRect().width`
	if note := browser.Eval[string](d.Page, `document.querySelector('[data-text="rehearse.sizeNote"]').textContent`); !strings.Contains(note, "guess") {
		t.Errorf("before the screen is measured the page says %q", note)
	}
	d.Do(`document.querySelector('[data-send="rehearse.screen"]').click()`)
	d.Until(`document.getElementById('card-dialog').open`)
	for i, k := range kinds {
		want := 380.0 + 20*float64(i)
		c := browser.Eval[[]float64](d.Page, `(r => [r.left + r.width / 2, r.top + r.height / 2, `+long+`])(document.getElementById('card-corner').getBoundingClientRect())`)
		s := d.Stroke(k)
		s.Down(browser.Sample{X: c[0], Y: c[1], Pressure: 0.5})
		s.Move(browser.Sample{T: 0.02, X: c[0] + (want-c[2])/2, Y: c[1], Pressure: 0.5}, browser.Sample{T: 0.04, X: c[0] + want - c[2], Y: c[1], Pressure: 0.5})
		d.Until(fmt.Sprintf(`Math.abs(%s - %v) < 1`, long, want))
		s.Up(browser.Sample{T: 0.1, X: c[0] + want - c[2], Y: c[1]})
	}
	before := browser.Eval[float64](d.Page, long)
	d.Do(`document.getElementById('card-slider').focus()`)
	d.Key("ArrowRight")
	d.Key("ArrowRight")
	d.Tap(`[data-send="rehearse.card-more"]`)
	d.Until(fmt.Sprintf(`Math.abs(%s - %v) < 0.01`, long, before+1.5))
	px := browser.Eval[float64](d.Page, long+` / 85.6`)
	d.Do(`document.querySelector('[data-send="rehearse.card-keep"]').click()`)
	d.Until(`!document.getElementById('card-dialog').open && unthreaded.store.settings().then(s => { window.doc = s; }) && (window.doc || '').includes('px_per_mm')`)
	d.Reload()
	d.Ready()
	if note := browser.Eval[string](d.Page, `document.querySelector('[data-text="rehearse.sizeNote"]').textContent`); strings.Contains(note, "guess") {
		t.Errorf("after a reload the page says %q of a measured screen", note)
	}
	d.measure()
	d.traced(browser.Pen, d.samples(short(40)))
	if got := newest[[]float64](d, `[r.px_per_mm, +r.size_known]`); math.Abs(got[0]-px) > 1e-6 || got[1] != 1 {
		t.Errorf("the record says %v px to the mm, want %v, known", got, px)
	}
}

// chalk counts the pixels of chalk on the page.
func (d *table) chalk() int {
	d.t.Helper()
	file := filepath.Join(d.t.TempDir(), "page.png")
	d.Screenshot(file)
	return pixelsOf(d.t, file, func(r, g, b int) bool { return max(r-0x3E, 0x3E-r)+max(g-0x6A, 0x6A-g)+max(b-0x92, 0x92-b) < 24 })
}

// With no line marked but the start, the cloth is blank while she traces, whatever
// she traces with; afterwards the whole line shows, and the record names the guide.
func TestTheGuideFades(t *testing.T) {
	d := sit(t, touch, "")
	whole := d.chalk()
	d.rehearsing("marks", "none")
	if n := d.chalk(); n == 0 || n > whole/3 {
		t.Errorf("%d pixels of chalk before the trace, want the start alone; the whole line has %d", n, whole)
	}
	for _, k := range kinds {
		samples := d.samples(synth.Hand{Hz: 60, Speed: synth.Steady(80), Stop: 40})
		s := d.Stroke(k)
		s.Down(samples[0])
		s.Move(samples[1:]...)
		d.Until(`document.documentElement.dataset.tracing === 'yes'`)
		if n := d.chalk(); n > 0 {
			t.Errorf("%s: %d pixels of chalk while tracing, want none", k, n)
		}
		last := samples[len(samples)-1]
		last.T += 0.1
		s.Up(last)
		d.Until(`document.documentElement.dataset.trace === 'yes' && document.documentElement.dataset.tracing === 'no'`)
		if n := d.chalk(); n < whole/2 {
			t.Errorf("%s: %d pixels of chalk after the trace, want the whole line, %d", k, n, whole)
		}
		if got := newest[string](d, `r.guide.marks + ' ' + r.device`); got != "none "+string(k) {
			t.Errorf("kept with %q, want none %s", got, k)
		}
		d.again()
	}
}

// A dot that is left out is told while she traces, and the trace goes on.
func TestASkippedDotIsTold(t *testing.T) {
	d := sit(t, tablet, "ruler-zigzag")
	dot := func(k int) geom.Point { return d.at(d.m.Rehearsal().Line.At(d.m.Rehearsal().Line.Dots[k])) }
	for _, k := range kinds {
		s := d.Stroke(k)
		from, to := dot(0), dot(2)
		s.Down(browser.Sample{X: from.X, Y: from.Y, Pressure: 0.5})
		var way []browser.Sample
		for i := 1.0; i <= 30; i++ {
			p := geom.Lerp(from, to, i/30)
			way = append(way, browser.Sample{T: i / 60, X: p.X, Y: p.Y, Pressure: 0.5})
		}
		s.Move(way...)
		d.Until(`document.querySelector('.sentence').textContent.startsWith('Left out: dot 2.')`)
		if browser.Eval[string](d.Page, `document.documentElement.dataset.tracing`) != "yes" {
			t.Errorf("%s: the trace was stopped", k)
		}
		next := dot(3)
		s.Move(browser.Sample{T: 1.2, X: next.X, Y: next.Y, Pressure: 0.5})
		s.Up(browser.Sample{T: 1.3, X: next.X, Y: next.Y})
		d.Until(`document.documentElement.dataset.trace === 'yes' && document.documentElement.dataset.tracing === 'no'`)
		if got := newest[string](d, `r.ending + ' ' + r.device`); got != "lifted "+string(k) {
			t.Errorf("kept as %q, want lifted %s", got, k)
		}
		d.again()
	}
}

// On request a tick is scheduled for each stitch length, 19 on 50 mm at 2.54; none
// before, and no sound is even made ready before she asks for it.
func TestTicksOnRequest(t *testing.T) {
	d := &table{Page: chromium.Open(t, touch), t: t}
	d.Before(`window.ticks = []; window.contexts = 0;
		window.AudioContext = class extends AudioContext { constructor(...a) { super(...a); window.contexts++; } };
		OscillatorNode.prototype.start = (real => function (at) { window.ticks.push(at); return real.call(this, at); })(OscillatorNode.prototype.start)`)
	d.Go(siteURL + "/")
	d.Ready()
	d.choose("motif", "ruler-zigzag")
	d.measure()
	hand := short(50)
	d.traced(browser.Mouse, d.samples(hand))
	if got := browser.Eval[[]int](d.Page, `[ticks.length, contexts]`); got[0] != 0 || got[1] != 0 {
		t.Errorf("unasked: %d ticks, %d contexts", got[0], got[1])
	}
	d.Do(`document.querySelectorAll('.choices').forEach(c => { c.open = true; }); document.querySelector('.column').classList.add('open')`)
	d.Tap(`[data-send="rehearse.ticks"]`)
	d.Until(`contexts === 1`)
	d.Do(`document.querySelector('.column').classList.remove('open')`)
	for _, k := range kinds {
		d.again()
		d.Do(`ticks.length = 0`)
		d.traced(k, d.samples(hand))
		if n := browser.Eval[int](d.Page, `ticks.length`); n != 19 {
			t.Errorf("%s: %d ticks on 50 mm at 2.54 mm a stitch, want 19", k, n)
		}
	}
}

// What sounds, rendered by the browser's own audio engine without a loudspeaker: a tick
// for each call at its time, of the pitch meant, soft, and silence between.
func TestTicksSoundAsTicks(t *testing.T) {
	d := &table{Page: chromium.Open(t, touch), t: t}
	d.Before(`window.AudioContext = class extends OfflineAudioContext {
		constructor() { super(1, 24000, 48000); window.heard = this; }
		resume() { return Promise.resolve(); }
	}`)
	d.Go(siteURL + "/")
	d.Ready()
	d.Do(`document.querySelectorAll('.choices').forEach(c => { c.open = true; }); document.querySelector('.column').classList.add('open')`)
	d.Tap(`[data-send="rehearse.ticks"]`)
	d.Until(`window.heard`)
	sound := browser.Eval[[]float64](d.Page, `(async () => {
		performance.now = () => 5000;
		unthreaded.sound.tick(5, 1, false);
		unthreaded.sound.tick(5.1, 0.5, false);
		unthreaded.sound.tick(5.2, 0.5, true);
		delete performance.now;
		return [...(await heard.startRendering()).getChannelData(0)];
	})()`)
	const rate = 48000
	for i, want := range []struct{ at, peak, hertz float64 }{{0.03, 0.5, 1500}, {0.13, 0.125, 1500}, {0.23, 0.125, 750}} {
		from := int(math.Round(want.at * rate))
		peak, crossings := 0.0, 0
		for k := from; k < from+rate*3/100; k++ {
			peak = math.Max(peak, math.Abs(sound[k]))
			if (sound[k] < 0) != (sound[k+1] < 0) {
				crossings++
			}
		}
		hertz := float64(crossings) / 2 / 0.03
		if peak > want.peak || peak < 0.6*want.peak || math.Abs(hertz-want.hertz) > 50 {
			t.Errorf("tick %d: as loud as %.3f, pitch %.0f Hz; want %+v", i, peak, hertz, want)
		}
		for k := from + rate*31/1000; k < from+rate*99/1000; k++ {
			if math.Abs(sound[k]) > 1e-3 {
				t.Fatalf("after tick %d the sound at %.4f s is %.4f, want silence", i, float64(k)/rate, sound[k])
			}
		}
	}
}
