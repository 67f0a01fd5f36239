package e2e

import (
	"strings"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

const (
	stageNames = `[...document.querySelectorAll('[data-list="quilt.order.stages"] > li [data-text=name]')].map(x => x.textContent)`
	stageCount = `document.querySelectorAll('[data-list="quilt.order.stages"] > li').length`
	sewnDays   = `[...document.querySelectorAll('[data-list="quilt.order.stages"] > li .sewn small')].map(x => x.textContent).filter(x => x)`
	keptTicks  = `unthreaded.store.things().then(all => { window.ticks = all.filter(x => x[0] === 'sewn').map(x => x[2]); }) && window.ticks`
)

// bed lays out a top of 30 blocks of 8 in with sashing, cornerstones and a border, about
// 54 x 64 in, from an empty quilt: with lines in its blocks by mouse, in its strips by
// keyboard.
func bed(t *testing.T, v browser.View) *table {
	t.Helper()
	d := layTop(t, v)
	d.tell("quilt.new", "", "")
	d.Until(quiltName + ` === 'My quilt'`)
	for field, text := range map[string]string{"rows": "6", "cols": "5", "block": "8", "sashing": "1 1/2"} {
		d.tell("quilt."+field, text, "")
	}
	d.tell("quilt.stones", "on", "")
	d.tell("quilt.border-add", "", "")
	d.tell("quilt.choose", "", "block-1-1")
	d.Until(placeName + ` === 'Row 1, block 1'`)
	d.Do(`document.querySelector('#quilt-designs [value=demo-lily]').click()`)
	d.tell("quilt.choose", "", "border-1-upper")
	d.Do(`document.querySelector('#quilt-designs [value=demo-bank]').click()`)
	d.Until(stageNames + `.includes('Border 1')`)
	return d
}

// A bed quilt, from an empty one to its card: edge to edge is tried and the border sewn in one
// line, the stages are in the order sewn, drawn to
// another place by mouse and moved by keyboard, a row is ticked off, and all that is there
// after a reload; a copy that is changed leaves the first as it was.
func TestAQuiltFromNothingToItsCard(t *testing.T) {
	d := bed(t, desk)

	// Edge to edge by mouse, taken off by keyboard; the border in one line by keyboard.
	edges := stageNames + `.some(n => n.toLowerCase().startsWith('edge-to-edge row'))`
	d.Click(`details:has([data-list="quilt.over.motifs"]) > summary`)
	d.Click(`[data-list="quilt.over.motifs"] li:first-of-type button`)
	d.Until(edges + ` && !` + stageNames + `.includes('Row 6')`)
	d.press(`[data-send="quilt.overall"][value=""]`)
	d.Until(`!(` + edges + `) && ` + stageNames + `.includes('Row 6')`)
	d.Do(`document.querySelector('[data-send="quilt.border-line"]').focus()`)
	d.Key("ArrowDown")
	d.Until(`document.querySelector('.borders [role=status]').textContent.includes('corners turned') && ` + stageNames + `.at(-1) === 'Border 1'`)

	names := browser.Eval[[]string](d.Page, stageNames)
	if !strings.Contains(strings.Join(names, ","), "Row 6") {
		t.Errorf("the stages are %v", names)
	}

	// By mouse: the second to the first place.
	d.Do(`document.querySelectorAll('.stages > li')[1].scrollIntoView({ block: 'center' })`)
	type spot struct{ X, Y float64 }
	grip := browser.Eval[spot](d.Page, `(r => ({ X: r.left + r.width / 2, Y: r.top + r.height / 2 }))(document.querySelectorAll('.stages .puller')[1].getBoundingClientRect())`)
	up := browser.Eval[float64](d.Page, `document.querySelector('.stages > li').getBoundingClientRect().top`)
	s := d.Stroke(browser.Mouse)
	s.Down(browser.Sample{X: grip.X, Y: grip.Y})
	s.Move(browser.Sample{T: 0.1, X: grip.X, Y: (grip.Y + up) / 2}, browser.Sample{T: 0.2, X: grip.X, Y: up + 2})
	s.Up(browser.Sample{T: 0.3, X: grip.X, Y: up + 2})
	d.Until(stageNames + `[0] === '` + names[1] + `'`)

	// By keyboard: its number back to the second, and a tick.
	d.Do(`document.querySelector('.stages > li input[type=number]').focus()`)
	d.Key("Control+a")
	d.Key("2")
	d.Key("Tab")
	d.Until(stageNames + `[1] === '` + names[1] + `'`)
	d.Do(`document.querySelector('.stages > li .sewn input').focus()`)
	d.Key(" ")
	d.Until(sewnDays + `.length === 1 && (` + keptTicks + `).length === 1`)

	d.Reload()
	d.Ready()
	d.Click(`[data-send=place][value=quilt]`)
	d.Until(quiltName + ` === 'My quilt' && ` + stageCount + ` >= 7 && ` + sewnDays + `.length === 1`)

	// A copy has designs and an order of its own.
	d.Do(`document.querySelector('[data-send="quilt.copy"]').click()`)
	d.Until(quiltName + ` === 'My quilt, copy' && ` + stageCount + ` >= 7`)
	if n := browser.Eval[int](d.Page, sewnDays+`.length`); n != 0 {
		t.Errorf("%d stages of the copy are sewn", n)
	}
	d.Do(`unthreaded.send('quilt.rows', '2', '')`)
	d.Until(stageCount + ` < 8`)
	d.Do(`{ const q = document.querySelector('[data-send="quilt.quilt"]'); q.value = [...q.options].find(o => o.textContent === 'My quilt').value; q.dispatchEvent(new Event('input', { bubbles: true })); }`)
	d.Until(quiltName + ` === 'My quilt' && ` + sewnDays + `.length === 1 && ` + stageNames + `.includes('Row 6')`)

	// The next stage is explained in Route, and the job is at the machine with its card.
	d.Do(`document.querySelectorAll('.stages > li .past-open')[1].click()`)
	d.Until(`!document.querySelector('[data-send="quilt.stage-route"]').closest('[hidden]')`)
	want := browser.Eval[string](d.Page, stageNames+`[1]`)
	d.Do(`document.querySelector('[data-send="quilt.stage-route"]').click()`)
	d.Until(`document.documentElement.dataset.place === 'route' && document.querySelector('[data-send=drawing]').selectedOptions[0].textContent.startsWith('` + want + `')`)
	d.Click(`[data-send=place][value=machine]`)
	d.topic("card")
	d.Do(`{ window.file = null; const real = unthreaded.download;
		unthreaded.download = (name, type, ...parts) => { new Blob(parts).slice(0, 5).text().then((text) => { window.file = name + ' ' + text; }); unthreaded.download = real; }; }`)
	d.Until(`!!document.querySelector('[data-list="machine.cards"] [value=pdf]')`)
	d.press(`[data-list="machine.cards"] [value=pdf]`)
	d.Until(`window.file`)
	if got := browser.Eval[string](d.Page, `window.file`); !strings.Contains(got, ".pdf %PDF-") {
		t.Errorf("the card is %q", got)
	}
}
