package e2e

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/synth"
	"unthreaded/wasm/e2e/browser"
)

// layTop opens the place Quilt of a first visit.
func layTop(t *testing.T, v browser.View) *table {
	t.Helper()
	d := &table{Page: open(t, v), t: t}
	d.Click(`[data-send=place][value=quilt]`)
	d.Until(quiltName + ` === 'Cot quilt, pond and reeds'`)
	d.measure()
	d.m, _ = game.Update(d.m, game.Control{Name: "place", Value: "quilt"})
	return d
}

const (
	quiltName   = `document.querySelector('[data-send="quilt.quilt"]').selectedOptions[0]?.textContent`
	placeName   = `document.querySelector('[data-text="quilt.place.name"]').textContent`
	gapWords    = `document.querySelector('[data-text="quilt.gaps.text"]').textContent`
	keptQuilts  = `unthreaded.store.things().then(all => { window.kept = all.filter(x => x[0] === 'quilt').map(x => x[2]); }) && window.kept`
	designMarks = `[...document.querySelectorAll('#quilt-designs button')].find(b => b.getAttribute('aria-pressed') === 'true')?.value`
)

// sum returns a value of the table of what the top adds up to.
func (d *table) sum(name string) string {
	return browser.Eval[string](d.Page, fmt.Sprintf(
		`[...document.querySelectorAll('[data-list="quilt.totals"] tr')].find(r => r.querySelector('th span').textContent === %q)?.querySelector('td').textContent || ''`, name))
}

// typeInto writes into a field by keyboard.
func (d *table) typeInto(field, text string) {
	d.t.Helper()
	d.Do(`{ const el = document.querySelector('[data-send="quilt.` + field + `"]');
		if (el.closest('details')) el.closest('details').open = true;
		el.focus(); }`)
	d.Key("Control+a")
	for _, k := range text {
		d.Key(string(k))
	}
	d.Key("Tab")
}

// The first visit finds a quilt; a top is laid out by typing, straight and on point,
// and its sums are those of handbooks: blocks of 12 in on point have a diagonal of
// 17 in, side triangles from squares of 18 1/4 in, corners from 9 3/8 in (common
// practice).
func TestATopIsLaidOut(t *testing.T) {
	t.Parallel()
	d := layTop(t, desk)
	if got := d.sum("Finished top"); got != "38 in x 46 in" {
		t.Errorf("the first quilt measures %q, want 38 x 46 in", got)
	}
	d.Click(`.block-row [data-send="quilt.new"]`)
	d.Until(quiltName + ` === 'My quilt'`)
	d.typeInto("rows", "2")
	d.typeInto("sashing", "1 1/2")
	d.Until(`document.querySelector('[data-list="quilt.totals"]').textContent.includes('39 in x 25½ in')`)
	d.typeInto("sashing", "0")
	d.typeInto("block", "12")
	d.tell("quilt.setting", "on-point", "")
	d.Until(`document.querySelector('[data-list="quilt.totals"]').textContent.includes('Diagonal')`)
	for name, want := range map[string]string{
		"Diagonal of a block": "about 16.97 in", "For the side triangles": "of 18¼ in, rounded up from about 18.22 in", "For the corner triangles": "cut 2 squares of 9⅜ in, rounded up from about 9.36 in", "Finished top": "about 50.91 in x about 33.94 in",
	} {
		if got := d.sum(name); !strings.HasSuffix(got, want) {
			t.Errorf("%s reads %q, want %q", name, got, want)
		}
	}
	d.Do(`for (const x of document.querySelectorAll('#column details')) x.open = true`)
	d.typeInto("want-width", "60")
	d.typeInto("want-height", "40")
	d.Until(`document.querySelector('[data-text="quilt.fit"]').textContent.includes('9.09 in less than 60 in')`)
	d.typeInto("block", "99999")
	d.Until(`document.querySelector('[data-text="quilt.wrongs.block"]').textContent.includes('takes')`)
}

// A design is given by a tap on the cloth and by keyboard alone; taken back, done
// again, kept over a reload.
func TestDesignsByTapAndByKeyboard(t *testing.T) {
	t.Parallel()
	d := layTop(t, desk)
	for i, c := range d.m.Top.Laying.Cells {
		if c.ID == "block-2-2" {
			d.stroke(browser.Mouse, d.m.Top.Middle(i))
		}
	}
	d.Until(placeName + ` === 'Row 2, block 2'`)
	d.Click(`[data-send="quilt.scope"][value=one]`)
	d.Click(`#quilt-designs [value=demo-ripples]`)
	d.Until(designMarks + ` === 'demo-ripples' && ` + keptQuilts + `.some(q => q.includes('block-2-2'))`)

	d.Do(`document.querySelector('#cloth canvas').focus()`)
	d.Key("ArrowDown")
	d.Key("ArrowDown")
	d.Until(placeName + ` === 'Row 3, block 2'`)
	d.Key("Enter")
	d.Until(`document.activeElement.closest('#quilt-designs')`)
	d.Do(`document.querySelector('#quilt-designs [value=demo-stones]').focus()`)
	d.Key("Enter")
	d.Until(designMarks + ` === 'demo-stones'`)
	d.Key("Escape")
	d.Until(`document.activeElement.tagName === 'CANVAS'`)
	d.Key("Control+z")
	d.Until(designMarks + ` === 'demo-ripples'`)
	d.Key("Control+y")
	d.Until(designMarks + ` === 'demo-stones'`)
	d.Until(keptQuilts + `.some(q => q.includes('block-2-2') && q.includes('block-3-2'))`)
	d.Reload()
	d.Ready()
	d.Click(`[data-send=place][value=quilt]`)
	d.Until(quiltName + ` === 'Cot quilt, pond and reeds'`)
	d.Do(`unthreaded.send('quilt.choose', '', 'block-3-2')`)
	d.Until(designMarks + ` === 'demo-stones'`)
}

// Gaps are set against what the batting allows, and each leads to its place.
func TestGapsAgainstTheBatting(t *testing.T) {
	t.Parallel()
	d := layTop(t, desk)
	d.Until(gapWords + `.includes('it holds')`)
	d.typeInto("gap", "1 1/2")
	d.Until(`document.querySelectorAll('[data-list="quilt.gaps.wide"] li').length > 0`)
	d.Click(`[data-list="quilt.gaps.wide"] li button`)
	d.Until(`!document.querySelector('[data-text="quilt.place.name"]').closest('[hidden]') && document.querySelector('[data-list="quilt.gaps.wide"] li').getAttribute('aria-current')`)
	first := browser.Eval[string](d.Page, `document.querySelector('[data-list="quilt.gaps.wide"] li').textContent`)
	place := browser.Eval[string](d.Page, placeName)
	if !strings.Contains(strings.ToLower(first), strings.ToLower(place)) {
		t.Errorf("the gap %q leads to %q", first, place)
	}
}

// A quilt deleted is gone, undone it is back; deleted for good it does not come back
// with the next visit, and the empty place says what to do.
func TestADeletedQuiltStaysDeleted(t *testing.T) {
	t.Parallel()
	d := layTop(t, brief)
	d.Until(keptQuilts + `.length === 1`)
	d.Do(`document.querySelector('[data-send="quilt.delete"]').click()`)
	d.Until(`document.querySelector('.sentence').textContent.includes('Begin a new quilt')`)
	d.Click(`.notice [data-send=undo]`)
	d.Until(quiltName + ` === 'Cot quilt, pond and reeds'`)
	d.Do(`document.querySelector('[data-send="quilt.delete"]').click()`)
	d.Until(keptQuilts + `.length === 0`)
	d.Reload()
	d.Ready()
	d.Click(`[data-send=place][value=quilt]`)
	d.Until(`document.querySelector('.sentence').textContent.includes('Begin a new quilt')`)
}

// Stepping back shows her own stitches once a block was rehearsed.
func TestSteppingBackShowsMyStitches(t *testing.T) {
	t.Parallel()
	d := layTop(t, desk)
	d.Do(`unthreaded.send('quilt.choose', '', 'block-1-1'); unthreaded.send('quilt.draw', '', '')`)
	d.Until(`document.querySelector('[data-send="draw.name"]').value === 'Water lily'`)
	d.Click(`[data-send="draw.rehearse"]`)
	d.Until(`document.querySelector('[data-send=motif]').value.startsWith('block-demo-lily-')`)
	for _, c := range []game.Control{{Name: "place", Value: "draw"}, {Name: "draw.design", Value: "demo-lily"}, {Name: "draw.rehearse"}} {
		d.m, _ = game.Update(d.m, c)
	}
	box := browser.Eval[[]float64](d.Page, `unthreaded.measure()`)
	d.m, _ = game.Update(d.m, game.Resized{W: box[0], H: box[1], Strip: box[2], DPR: box[3]})
	d.draw(browser.Mouse, synth.Hand{Hz: 60, Speed: synth.Steady(80)})
	d.saved(1)
	d.Click(`[data-send=place][value=quilt]`)
	d.Click(`[data-send="quilt.back"][value=on]`)
	d.Click(`[data-send="quilt.threads"][value=own]`)
	d.Until(`document.querySelector('[data-text="quilt.away.threads"]').textContent.startsWith('Your newest traces: Water lily.')`)
	d.Until(`document.querySelector('.sentence').textContent.includes('your own stitches')`)
	if text := browser.Eval[string](d.Page, `document.querySelector('[data-text="quilt.away.text"]').textContent`); !strings.Contains(text, "ft away, if the screen is 2 ft from you") {
		t.Errorf("stepped back the page says %q", text)
	}
}

// A quilt saved as a file opens again beside the first.
func TestAQuiltFileComesBack(t *testing.T) {
	t.Parallel()
	d := layTop(t, brief)
	d.Do(`{ const real = unthreaded.download;
		unthreaded.download = (name, type, bytes) => { window.file = { name, text: new TextDecoder().decode(bytes) }; real(name, type, bytes); }; }`)
	d.Do(`document.querySelector('[data-send="quilt.save"]').click()`)
	d.Until(`window.file`)
	saved := browser.Eval[map[string]string](d.Page, `window.file`)
	file := filepath.Join(t.TempDir(), saved["name"])
	if err := os.WriteFile(file, []byte(saved["text"]), 0o644); err != nil {
		t.Fatal(err)
	}
	d.Upload(`[data-file="quilt.open"]`, file)
	d.Until(quiltName + ` === 'Cot quilt, pond and reeds 2'`)
	d.Until(keptQuilts + `.length === 2`)
}
