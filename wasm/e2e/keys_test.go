package e2e

import (
	"fmt"
	"strings"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// The first sentence speaks of what she has in her hand.
func TestTheFirstWords(t *testing.T) {
	for want, v := range map[string]browser.View{"Put the pointer on the start dot, hold it down": desk, "Put your finger or pen on the start dot and": phone} {
		if d := sit(t, v, ""); !strings.HasPrefix(d.sentence(), want) {
			t.Errorf("on %d x %d it says %q, want %q", v.Width, v.Height, d.sentence(), want)
		}
	}
}

// By keys alone on the cloth: Space plays the ideal movement, then the trace; the
// arrows step from stitch to stitch. While she traces, what is said stays as dark as it
// was and the rest steps back.
func TestKeysOnTheCloth(t *testing.T) {
	d := sit(t, desk, "")
	d.Do(`document.querySelector('#cloth canvas').focus()`)
	d.Key("Space")
	d.Until(`Number(document.getElementById('scrub').value) > 0`)

	s, samples := d.half(browser.Mouse)
	d.Until(`getComputedStyle(document.getElementById('column-body')).opacity === '0.35'`)
	if seen := browser.Eval[float64](d.Page, `(() => { let seen = 1; for (let e = document.querySelector('.sentence'); e; e = e.parentElement) seen *= getComputedStyle(e).opacity; return seen; })()`); seen != 1 {
		t.Errorf("while she traces the sentence is seen at %v", seen)
	}
	s.Up(samples[len(samples)-1])
	d.Until(`document.documentElement.dataset.trace === 'yes'`)

	const place = `Number(document.getElementById('scrub').value)`
	d.Do(`document.querySelector('#cloth canvas').focus()`)
	for _, step := range []struct{ key, goes string }{
		{"ArrowLeft", "<"}, {"ArrowLeft", "<"}, {"ArrowRight", ">"},
		{"Space", ">"}, // plays what is left, a moment only
	} {
		d.Do(`window.at = ` + place)
		d.Key(step.key)
		d.Until(place + step.goes + `at`)
	}
}

// reach moves the keyboard to an element by Tab alone, or backwards by Shift+Tab where that
// is asked for; what is folded away is opened by its heading on the way.
func (d *table) reach(selector string) {
	d.t.Helper()
	d.Until(fmt.Sprintf(`document.querySelector(%q)`, selector))
	const there = `(() => {
		const el = document.querySelector(%q), at = document.activeElement;
		let fold = null;
		for (let e = el.parentElement; e; e = e.parentElement) if (e.tagName === 'DETAILS' && !e.open) fold = e;
		if (fold) return at === fold.querySelector('summary') ? 'fold' : '';
		return at === el ? 'here' : '';
	})()`
	for range 400 {
		switch browser.Eval[string](d.Page, fmt.Sprintf(there, selector)) {
		case "here":
			return
		case "fold":
			d.Key("Enter")
		default:
			d.Key("Tab")
		}
	}
	d.t.Fatalf("the keyboard does not come to %s", selector)
}

// enter reaches a button and presses it.
func (d *table) enter(selector string) {
	d.t.Helper()
	d.reach(selector)
	d.Key("Enter")
}

// write reaches a field, writes into it and goes on.
func (d *table) write(selector, text string) {
	d.t.Helper()
	d.reach(selector)
	d.Key("Control+a")
	for _, k := range text {
		d.Key(string(k))
	}
	d.Key("Tab")
}

// The whole job with the keyboard alone, no element given the focus by other means (WCAG
// 2.2, 2.1.1 and 2.1.2): from an empty quilt by a motif for all its blocks and a line drawn
// on one of them to the order, a tick, the route, the rehearsal and the card as a document.
// Only the trace itself is a movement of the hand.
func TestTheJobByKeyboardAlone(t *testing.T) {
	t.Parallel()
	d := &table{Page: open(t, desk), t: t}
	d.enter(`[data-send=place][value=quilt]`)
	d.enter(`.block-row [data-send="quilt.new"]`)
	d.Until(quiltName + ` === 'My quilt'`)
	d.write(`[data-send="quilt.rows"]`, "2")
	d.write(`[data-send="quilt.cols"]`, "3")
	d.Until(`document.querySelector('[data-list="quilt.totals"]').textContent.includes('6')`)

	// A ready motif for every block.
	d.reach(`#cloth canvas`)
	d.Key("ArrowDown")
	d.Key("Enter")
	d.Until(`!document.querySelector('[data-send="quilt.motif"]').closest('[hidden]')`)
	d.reach(`[data-send="quilt.motif"]`)
	d.Key("ArrowDown")
	d.Until(stageNames + `.includes('Row 2')`)
	first := browser.Eval[string](d.Page, placeName)

	// A copy for one block, and a line of her own on it.
	d.enter(`[data-send="quilt.scope"][value=one]`)
	d.enter(`[data-send="quilt.draw"]`)
	d.Until(`document.documentElement.dataset.place === 'draw'`)
	lines := browser.Eval[int](d.Page, rows+`.length`)
	d.write(`[data-send="draw.mark-count"]`, "4")
	d.enter(`[data-send="draw.tool"][value=ruler]`)
	d.reach(`#cloth canvas`)
	for _, k := range []string{"Enter", "Enter", "ArrowRight", "ArrowDown", "Enter", "Enter"} {
		d.Key(k)
	}
	d.Until(fmt.Sprintf(rows+`.length === %d`, lines+1))

	// Sewn so far, and the way through the next stage.
	d.enter(`[data-send=place][value=quilt]`)
	d.Until(quiltName + ` === 'My quilt' && ` + placeName + ` === ` + fmt.Sprintf("%q", first))
	d.reach(`.stages > li .sewn input`)
	d.Key(" ")
	d.Until(sewnDays + `.length === 1`)
	d.enter(`.stages > li:nth-of-type(2) .past-open`)
	d.Until(`!document.querySelector('[data-send="quilt.stage-route"]').closest('[hidden]')`)
	d.enter(`[data-send="quilt.stage-route"]`)
	d.Until(`document.documentElement.dataset.place === 'route' && !document.getElementById('play').disabled`)
	d.enter(`#play`)
	d.Until(`document.getElementById('play').textContent === 'Pause' || document.getElementById('scrub').value > 0`)

	// The rehearsal of what is next: the movement is watched.
	d.enter(`[data-send=place][value=quilt]`)
	d.enter(`[data-send="quilt.next-rehearse"]`)
	d.Until(`document.documentElement.dataset.place === 'rehearse' && !document.getElementById('play').disabled`)
	d.enter(`#play`)
	d.Until(`document.getElementById('scrub').value > 0`)

	// The card of the job, as a document.
	d.enter(`[data-send=place][value=machine]`)
	d.enter(`[data-send="machine.topic"][value=card]`)
	d.Do(`{ const real = unthreaded.download;
		unthreaded.download = (name, type, bytes) => { window.file = name + ' ' + new TextDecoder('latin1').decode(bytes.slice(0, 5)); real(name, type, bytes); }; }`)
	d.enter(`[data-list="machine.cards"] [value=pdf]`)
	d.Until(`window.file`)
	if got := browser.Eval[string](d.Page, `window.file`); !strings.Contains(got, ".pdf %PDF-") {
		t.Errorf("the card is %q", got)
	}
}
