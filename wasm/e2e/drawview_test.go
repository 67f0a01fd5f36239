package e2e

import (
	"testing"

	"unthreaded/path/geom"
	"unthreaded/wasm/e2e/browser"
)

const whole = `!document.querySelector('.whole').hidden`

// On a phone two fingers show the block larger and draw nothing; the wheel with ctrl
// does the same and leaves the page's own zoom alone. With the sheet open, the head
// stays in sight however far it is scrolled. After a reload she is where she was.
func TestBoardOnAPhone(t *testing.T) {
	t.Parallel()
	d := drawBlock(t, phone)
	d.tell("draw.shape", "square", "")
	d.tell("draw.width", "6", "")
	place := func(dx, dy float64) browser.Sample {
		at := d.at(geom.Pt(76.2, 76.2))
		return browser.Sample{X: at.X + dx, Y: at.Y + dy, Pressure: 0.5}
	}
	first, second := d.Finger(1), d.Finger(2)
	first.Down(place(-20, 0))
	first.Move(place(-24, 3), place(-28, 5))
	second.Down(place(30, 5))
	first.Move(place(-60, 5))
	second.Move(place(70, 5), place(90, 5))
	second.Up(place(90, 5))
	first.Up(place(-60, 5))
	d.Until(whole)
	if n := browser.Eval[int](d.Page, rows+`.length`); n != 0 {
		t.Errorf("two fingers drew %d lines", n)
	}
	d.Click(`.whole`)
	d.Until(`document.querySelector('.whole').hidden`)
	stopped := browser.Eval[bool](d.Page, `(() => {
		const c = document.querySelector('#cloth canvas'), r = c.getBoundingClientRect();
		const e = new WheelEvent('wheel', { deltaY: -200, ctrlKey: true, clientX: r.left + 100, clientY: r.top + 100, bubbles: true, cancelable: true });
		c.dispatchEvent(e);
		return e.defaultPrevented;
	})()`)
	d.Until(whole)
	if !stopped {
		t.Error("the wheel zooms the page as well")
	}
	d.Do(`document.getElementById('column-toggle').click(); document.getElementById('column-body').scrollTop = 1e6`)
	d.Until(`document.getElementById('column-body').scrollTop > 100`)
	d.Until(`(() => {
		return ['#column-toggle', '.hold [data-send=undo]'].every(s => {
			const r = document.querySelector(s).getBoundingClientRect();
			return r.height >= 44 && r.top >= 0 && r.bottom <= innerHeight && r.right <= innerWidth;
		});
	})()`)
	name := browser.Eval[string](d.Page, `document.querySelector('[data-send="draw.name"]').value`)
	d.Reload()
	d.Ready()
	d.Until(`document.documentElement.dataset.place === 'draw' && document.querySelector('[data-send="draw.name"]').value === '` + name + `'`)
}

// What she needs next is in sight without scrolling: the measures of a motif once it
// has been chosen, and what can be done with a point while Change is in hand.
func TestNextThingsAreInSight(t *testing.T) {
	t.Parallel()
	d := drawBlock(t, desk)
	d.Do(`for (const x of document.querySelectorAll('#column details')) x.open = false`)
	d.tell("draw.shape", "square", "")
	d.tell("draw.width", "6", "")
	d.Until(`[...document.querySelectorAll('.motifs button:not([hidden])')].every(b => b.querySelector('path:not(.rim)').hasAttribute('d') || b.disabled)`)
	d.Click(`.motifs button[value=feather]`)
	d.Until(`document.getElementById('draw-motifs').hidden && document.activeElement.dataset.send === 'draw.pick'`)
	inSight := func(selector string) {
		t.Helper()
		d.Until(`(() => {
			const all = [...document.querySelectorAll('` + selector + `')].filter(x => x.offsetParent);
			return all.length > 0 && all.every(x => { const r = x.getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight; });
		})()`)
	}
	inSight(`[data-list="draw.params"] .field`)
	inSight(`[data-send="draw.loosen"]`)
	d.Click(`[data-send="draw.tool"][value=change]`)
	inSight(`.points button`)
}
