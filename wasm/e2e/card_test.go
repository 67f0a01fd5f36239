package e2e

import (
	"fmt"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// A card lies with its corner in the corner marked while the outline is fitted to it:
// that corner stays to the pixel whatever the outline's size, and the buttons stay in
// sight. Cards are 85.60 mm long (ISO/IEC 7810, ID-1); 324 px is that at 96 px to the
// inch, 520 px at the 154 of a telephone.
func TestTheCardsCornerStays(t *testing.T) {
	for name, v := range map[string]browser.View{"desk": desk, "tablet": tablet, "phone": phone} {
		p := open(t, v)
		p.Do(`{ const grip = document.getElementById('column-toggle'); if (grip.offsetParent) grip.click(); }
			document.querySelector('[data-send="rehearse.screen"]').click()`)
		p.Until(`document.getElementById('card-dialog').open`)
		type corner [2]float64
		const at = `(r => [r.left, r.top])(document.getElementById('card-mark').getBoundingClientRect())`
		first := browser.Eval[corner](p, at)
		for _, long := range []float64{120, 324, 520, 1100, 404} {
			p.Do(fmt.Sprintf(`{ const s = document.getElementById('card-slider'); s.value = %v; s.dispatchEvent(new Event('input', { bubbles: true })); }`, long))
			p.Until(fmt.Sprintf(`(r => Math.abs(Math.max(r.width, r.height) - %v) < 0.1)(document.getElementById('card').getBoundingClientRect())`, long))
			if now := browser.Eval[corner](p, at); now != first {
				t.Errorf("%s: with an outline of %v px the corner is at %v, was at %v", name, long, now, first)
			}
			if out := browser.Eval[int](p, `[...document.querySelectorAll('#card-dialog .card-set button:not([hidden])')]
				.filter(b => (r => r.bottom > innerHeight || r.right > innerWidth || r.top < 0)(b.getBoundingClientRect())).length`); out > 0 {
				t.Errorf("%s: with an outline of %v px %d buttons are out of sight", name, long, out)
			}
			if long != 520 {
				continue
			}
			if seen := browser.Eval[bool](p, `(c => document.elementFromPoint(c.right - 2, c.bottom - 8)?.closest('#card') !== null)(document.getElementById('card').getBoundingClientRect())`); !seen {
				t.Errorf("%s: the far corner of an outline of %v px is out of sight", name, long)
			}
		}
	}
}
