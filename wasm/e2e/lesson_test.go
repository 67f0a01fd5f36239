package e2e

import (
	"fmt"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/synth"
	"unthreaded/wasm/e2e/browser"
)

// lesson presses a control of the practice and waits until the sentence begins as it
// should.
func (d *table) lesson(name, value, begins string) {
	d.t.Helper()
	d.Do(fmt.Sprintf(`[...document.querySelectorAll('button[data-send="rehearse.%s"]')].find(b => b.value === %q).click()`, name, value))
	d.says(begins)
}

func (d *table) says(begins string) {
	d.t.Helper()
	d.Until(fmt.Sprintf(`document.querySelector('.sentence').textContent.startsWith(%q)`, begins))
}

// skipTo skips steps until the sentence holds a text.
func (d *table) skipTo(text string) {
	d.t.Helper()
	for range 9 {
		before := d.sentence()
		if strings.Contains(before, text) {
			return
		}
		d.Do(`document.querySelector('[data-send="rehearse.skip"]').click()`)
		d.Until(fmt.Sprintf(`document.querySelector('.sentence').textContent !== %q`, before))
	}
	d.t.Fatalf("%q never came; the sentence is %q", text, d.sentence())
}

// again clears the cloth.
func (d *table) again() {
	d.t.Helper()
	d.Do(`document.querySelector('[data-send=again]').click()`)
	d.Until(`document.documentElement.dataset.trace === 'no'`)
}

// lay brings the native program to one repeat of the line on the page.
func (d *table) lay() {
	d.measure()
	d.m, _ = game.Update(d.m, game.Control{Name: "repeats", Value: "1"})
}

// reopened loads the page anew and returns what it said at the moment it was ready.
func (d *table) reopened() string {
	d.t.Helper()
	d.Before(`new MutationObserver((_, o) => { if (document.documentElement.dataset.state === 'ready') { window.first = document.querySelector('.sentence').textContent; o.disconnect(); } })
		.observe(document, { attributes: true, subtree: true, attributeFilter: ['data-state'] })`)
	d.Reload()
	d.Ready()
	return browser.Eval[string](d.Page, `first`)
}

const asked = `!document.querySelector('[data-send="rehearse.guess"]').closest('.lesson-acts').hidden`

// A course with mouse, finger and pen: the whole line first, then less of it; she is
// asked before anything is shown; a reload in the middle goes on, also while she is
// asked; the trace from memory is kept as one without guide; then lines take turns;
// leaving is one click.
func TestACourseFromTheLineToMemory(t *testing.T) {
	t.Parallel()
	d := sit(t, touch, "waves")
	d.choose("rehearse.repeats", "1")
	d.lesson("learn", "", "Trace 1 of ")
	d.Steady()
	d.lay()
	hand := synth.Hand{Hz: 120, Speed: synth.Steady(50)}
	d.traced(browser.Mouse, d.samples(hand))
	d.Until(`document.querySelectorAll('.figure').length === 4 && !(` + asked + `)`)
	d.again()
	d.skipTo(", with its dots only")
	at := d.sentence()

	if first := d.reopened(); first != at {
		t.Errorf("loaded anew, the page first says %q, left with %q", first, at)
	}
	d.Until(fmt.Sprintf(`document.querySelector('.sentence').textContent === %q`, at))
	if got := browser.Eval[[]any](d.Page, `(() => { const motif = document.querySelector('[data-send=motif]'), marks = document.querySelector('[data-send="rehearse.marks"]');
		return [motif.value, motif.disabled, marks.value, marks.disabled]; })()`); got[0] != "waves" || got[1] != true || got[2] != "dots" || got[3] != true {
		t.Errorf("after loading anew: motif %v (fixed %v), marked %v (fixed %v)", got[0], got[1], got[2], got[3])
	}
	d.lay()
	d.TraceAtOnce(browser.Touch, d.samples(hand))
	d.Until(asked)
	d.saved(2)
	d.Reload()
	d.Ready()
	d.Until(asked)
	if shown := browser.Eval[int](d.Page, `document.querySelectorAll('.figure, .advice li').length`); shown > 0 {
		t.Errorf("before her guess the page shows %d figures and places", shown)
	}
	d.lesson("guess", "very even", "As you said.")
	d.Until(`document.querySelectorAll('.figure').length === 4`)
	d.again()
	d.skipTo(", from memory")
	d.TraceAtOnce(browser.Pen, d.samples(hand))
	d.Until(asked)
	d.lesson("guess", "", "Even, but")
	if marks := newest[string](d, `r.guide.marks + ' ' + r.motif`); marks != "none waves" {
		t.Errorf("the trace from memory is kept with %q", marks)
	}
	d.again()
	for range 3 {
		if s := d.sentence(); strings.HasPrefix(s, "Trace ") {
			d.Do(`document.querySelector('[data-send="rehearse.skip"]').click()`)
			d.Until(fmt.Sprintf(`document.querySelector('.sentence').textContent !== %q`, s))
		}
	}
	if s := d.sentence(); strings.HasPrefix(s, "Trace ") || !strings.Contains(s, ". Then ") {
		t.Errorf("after the row comes %q, want lines taking turns", s)
	}
	if s := d.sentence(); !strings.HasPrefix(s, "Turn ") {
		t.Errorf("in the mix it says %q, want the turn", s)
	}
	d.lesson("freely", "", "Put your finger or pen on the start dot")
	d.Until(`!document.querySelector('[data-send=motif]').disabled && document.querySelector('.lesson').hidden`)
}

// A warm-up by a clock that can be put on: a minute goes by, the next one comes; a
// reload in the middle goes on; a trace is flagged; the end is told.
func TestAWarmUpByTheClock(t *testing.T) {
	t.Parallel()
	d := &table{Page: chromium.Open(t, brief), t: t}
	d.Before(`{ const now = performance.now.bind(performance); let ahead = 0;
		performance.now = () => now() + ahead;
		window.hurry = async (until) => { while (!until()) { ahead += 4000; await new Promise(requestAnimationFrame); } }; }`)
	d.Go(siteURL + "/")
	d.Ready()
	d.choose("rehearse.repeats", "1")
	d.lesson("warm-up", "", "Put the pointer")
	d.lesson("warm-up", "3", "Minute 1 of 3: ")
	first := d.sentence()
	const stitches = `document.querySelector('.warm-clock progress').value`
	d.Do(`hurry(() => ` + stitches + ` >= 4)`)

	d.Reload()
	d.Ready()
	d.Until(fmt.Sprintf(`document.querySelector('.sentence').textContent === %q && %s >= 4`, first, stitches))
	d.Do(`hurry(() => document.querySelector('.sentence').textContent.startsWith('Minute 2 of 3: '))`)
	d.lesson("skip", "", "Minute 3 of 3: Linked swirls")
	d.lay()
	d.traced(browser.Pen, d.samples(short(60)))
	if kept := newest[string](d, `r.warm_up + ' ' + r.motif + ' ' + r.guide.marks`); kept != "true linked-swirls line" {
		t.Errorf("its trace is kept as %q", kept)
	}
	d.lesson("skip", "", "Put the pointer on the start dot")
	d.Until(`document.querySelector('.notice').innerText.startsWith('You are warm.')`)
	d.Until(`unthreaded.store.things().then(l => { window.left = l.filter(([kind]) => kind === 'warm-up').length; }) && window.left === 0`)
}
