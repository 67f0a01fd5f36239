package e2e

import (
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
