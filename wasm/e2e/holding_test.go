package e2e

import (
	"fmt"
	"strings"
	"testing"

	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/wasm/e2e/browser"
)

// push returns how the pointer pushes the cloth along samples i to j of a movement,
// taking hold of it at a place in pixels of the cloth.
func (d *table) push(h synth.Hand, i, j int, hold geom.Point) []browser.Sample {
	movement := h.Samples(d.m.Rehearsal().Line)[i : j+1]
	var samples []browser.Sample
	for _, s := range movement {
		x := hold.X - (s.P.X-movement[0].P.X)*d.m.Rehearsal().View.Scale
		y := hold.Y - (s.P.Y-movement[0].P.Y)*d.m.Rehearsal().View.Scale
		samples = append(samples, browser.Sample{T: s.T - movement[0].T, X: x + d.left, Y: y + d.top, Pressure: 0.5})
	}
	return samples
}

// Moving the cloth under the needle: the pointer goes the mirrored way. Let go half way,
// the needle stays down; a press anywhere else goes on with the same trace, and it is as
// even and as near the line as the hand was. It is finished by the button, by Enter and
// by Escape, and is one trace, of two holds, also after a reload.
func TestMovingTheClothUnderTheNeedle(t *testing.T) {
	d := sit(t, touch, "")
	d.rehearsing("way", "cloth")
	d.Until(`document.querySelector('.sentence').textContent.includes('push the cloth')`)
	h := synth.Hand{Hz: 120, Speed: synth.Steady(inchPerSecond), Stop: 90}
	last := len(h.Samples(d.m.Rehearsal().Line)) - 1
	const down = `document.querySelector('.sentence').textContent.startsWith('Needle down.') && document.documentElement.dataset.tracing === 'no'`
	finish := map[browser.Kind]func(){
		browser.Mouse: func() { d.Tap(`[data-send="rehearse.finish"]`) },
		browser.Pen:   func() { d.Key("Enter") },
		browser.Touch: func() { d.Key("Escape") },
	}
	for i, k := range kinds {
		d.TraceAtOnce(k, d.push(h, 0, last/2, d.m.Rehearsal().Hold()))
		d.Until(down)
		if n := d.past(); n != i {
			t.Errorf("%s: %d traces are listed with the needle down, want %d", k, n, i)
		}
		d.TraceAtOnce(k, d.push(h, last/2, last, geom.Pt(240, 150)))
		d.Until(down)
		finish[k]()
		d.Until(fmt.Sprintf(`document.querySelectorAll('.past li').length === %d && document.documentElement.dataset.trace === 'yes'`, i+1))
		if cv, note := d.figure("Stitch length varies by"); cv > 3 {
			t.Errorf("%s: an even hand's stitches vary by %v %% (%s), want at most 3", k, cv, note)
		}
		if off, note := d.figure("Beside the line"); off > 0.2 {
			t.Errorf("%s: a hand on the line is shown %v mm beside it (%s), want at most 0.2", k, off, note)
		}
		if got := newest[string](d, `[r.way, r.device, r.ending, r.holds.length].join(' ')`); got != "cloth "+string(k)+" lifted 1" {
			t.Errorf("kept as %q, want cloth %s lifted 1", got, k)
		}
		if s := newest[float64](d, `r.samples.t_s.at(-1)`); s < 3.4 || s > 3.7 {
			t.Errorf("%s: the trace lasts %.2f s, want %.2f without the pause", k, s, 90/inchPerSecond)
		}
		d.again()
	}
	d.Reload()
	d.Ready()
	if n := d.past(); n != len(kinds) {
		t.Errorf("%d traces after a reload, want %d", n, len(kinds))
	}
}

// A trace whose needle is down is kept when the page goes away, and when another place
// is opened.
func TestAnOpenTraceIsKept(t *testing.T) {
	h := synth.Hand{Hz: 60, Speed: synth.Steady(40), Stop: 60}
	for name, leave := range map[string]func(d *table){
		"reload": func(d *table) { d.Reload(); d.Ready() },
		"place": func(d *table) {
			d.Do(`document.querySelector('button.place[value=machine]').click()`)
			d.Until(`document.documentElement.dataset.place === 'machine'`)
			d.Do(`document.querySelector('button.place[value=rehearse]').click()`)
		},
	} {
		t.Run(name, func(t *testing.T) {
			d := sit(t, brief, "")
			d.rehearsing("way", "cloth")
			d.TraceAtOnce(browser.Pen, d.push(h, 0, len(h.Samples(d.m.Rehearsal().Line))-1, d.m.Rehearsal().Hold()))
			d.Until(`document.querySelector('.sentence').textContent.startsWith('Needle down.')`)
			leave(d)
			if got := d.ended(); got != "lifted true" {
				t.Errorf("kept as %q, want lifted true", got)
			}
		})
	}
}

// A movement far from the line is not kept, and the page says where to begin.
func TestBesideTheLineIsNotKept(t *testing.T) {
	d := sit(t, touch, "")
	for _, k := range kinds {
		var samples []browser.Sample
		for i := 0.0; i < 60; i++ {
			samples = append(samples, browser.Sample{T: i / 60, X: d.left + 60 + 5*i, Y: d.top + 12, Pressure: 0.5})
		}
		d.TraceAtOnce(k, samples)
		d.Until(`[...document.querySelectorAll('[role=status], .notice')].some(e => e.textContent.includes('beside the line'))`)
		if n := d.past(); n != 0 || !strings.Contains(d.sentence(), "on the start dot and follow") {
			t.Errorf("%s: %d traces, and the page says %q", k, n, d.sentence())
		}
		d.Do(`document.querySelector('[data-send=dismiss]').click()`)
		d.Until(`![...document.querySelectorAll('[role=status], .notice')].some(e => e.textContent.includes('beside the line'))`)
		d.Steady()
	}
}
