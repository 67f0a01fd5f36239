package e2e

import (
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"unthreaded/game/keep"
	"unthreaded/scoring"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
	"unthreaded/wasm/e2e/browser"
)

// lookBack opens the place and waits for the verdict.
func lookBack(d *browser.Page, verdict string) {
	d.Click(`[data-send=place][value=back]`)
	d.Until(`document.querySelector('.sentence').textContent.includes('` + verdict + `')`)
}

// set types into a field of the place or chooses in a list.
func set(d *browser.Page, name, value string) {
	d.Do(`{ const el = document.querySelector('[data-send="back.` + name + `"]');
		el.value = '` + value + `'; el.dispatchEvent(new Event('input', { bubbles: true })); }`)
}

// Weeks of practice by a hand that gets more even: the verdict, the figures behind it, two
// traces one over the other and played together, and traces from before all this caught up
// with.
func TestWeeksOfPractice(t *testing.T) {
	t.Parallel()
	d := open(t, brief)

	// Before there is a trace of hers an example can be seen, of which nothing is kept.
	d.Click(`[data-send=place][value=back]`)
	d.Do(`document.querySelector('[data-send="back.example"]').click()`)
	d.Until(`document.querySelector('.sentence').textContent.includes('your stitches varied by') && document.querySelectorAll('[data-list="back.table"] tr').length === 9`)
	if n := browser.Eval[int](d, `unthreaded.store.newest(1e6).then(([l]) => l.length)`); n != 0 {
		t.Errorf("%d traces of the example were kept", n)
	}
	d.Do(`document.querySelector('[data-send="back.example-away"]').click()`)
	d.Until(`!document.querySelector('[data-send="back.example"]').closest('[hidden]')`)

	recs := practice{"linked-swirls", 9, 5, keep.NoMarks, learner(1), true}.records(t)
	older := practice{"linked-swirls", 1, 2, keep.WholeLine, learner(2), false}.records(t)
	fill(t, d, append(recs, older...))
	lookBack(d, "your stitches varied by")
	text := browser.Eval[string](d, `document.querySelector('[data-text="back.like"]').textContent`)
	for _, want := range []string{"45 traces", "1 in the row", "pencil", "by heart"} {
		if !strings.Contains(text, want) {
			t.Errorf("compared are %q, want %q in it", text, want)
		}
	}
	if n := browser.Eval[int](d, `document.querySelectorAll('[data-list="back.table"] tr').length`); n != 9 {
		t.Errorf("the table beside the chart has %d rows, want the 9 sessions", n)
	}
	if label := browser.Eval[string](d, `document.querySelector('#cloth canvas').getAttribute('aria-label')`); !strings.Contains(label, "Chart: Evenness of the stitches, over 9 sessions") {
		t.Errorf("the chart is called %q", label)
	}
	d.Until(`unthreaded.store.newest(1e6).then(([l]) => { window.measured = l.filter(s => s.includes('"measured":')).length; }) && window.measured === 47`)

	choose := `document.querySelectorAll('[data-send="back.choose"]')`
	d.Do(choose + `[4].click()`)
	d.Until(choose + `[4].textContent === 'First of two'`)
	set(d, "session", "8")
	d.Until(choose + `[4].textContent === 'Choose to compare'`)
	d.Do(choose + `[3].click()`)
	d.Until(`document.querySelector('.sentence').textContent.startsWith('The first has the more even stitches')`)
	d.Do(`document.getElementById('play').click()`)
	d.Until(`document.getElementById('play').textContent === 'Pause' && +document.getElementById('scrub').value > 1`)
	d.Do(`document.getElementById('play').click()`)
	d.Until(`document.getElementById('play').textContent === 'Watch them together'`)
}

// What she asked the traces to have in common is there after a reload; what the arrows
// pick is told while the chart keeps the keyboard; a trace deleted from its session's list
// leads the keyboard to the next, and comes back.
func TestHerWayThroughTheWeeks(t *testing.T) {
	t.Parallel()
	d := open(t, brief)
	recs := practice{"linked-swirls", 6, 5, keep.WholeLine, learner(4), true}.records(t)
	fill(t, d, append(recs, practice{"linked-swirls", 2, 3, keep.NoMarks, learner(5), true}.records(t)[:3]...))
	d.Click(`[data-send=place][value=back]`)
	const like = `document.querySelector('[data-text="back.like"]').textContent.includes('%s')`
	d.Until(fmt.Sprintf(like, "whole line shown"))
	d.Do(`document.querySelector('[data-list="back.filters"]').closest('details').open = true`)
	set(d, "filter", "none")
	d.Until(fmt.Sprintf(like, "by heart"))
	d.Until(`unthreaded.store.run(['settings'], 'readonly', (at, get, done) => get(at('settings').get('settings'), done))
		.then((s) => { window.kept = String(s).includes('"help":"none"'); }) && window.kept`)
	d.Reload()
	d.Ready()
	d.Click(`[data-send=place][value=back]`)
	d.Until(fmt.Sprintf(like, "by heart") + ` && document.querySelector('.sentence').textContent.includes('in one sitting')`)
	d.Do(`document.querySelector('[data-send="back.better"]').click()`)
	d.Until(fmt.Sprintf(like, "whole line shown"))

	d.Do(`document.querySelector('#cloth canvas').focus()`)
	d.Key("ArrowLeft")
	d.Until(`/^\d+ [A-Z][a-z][a-z] \d+: \d+ %, \d traces count$/.test(document.querySelector('[data-text="back.told"]').textContent) &&
		document.activeElement.tagName === 'CANVAS'`)
	const rows = `document.querySelectorAll('[data-list="back.traces"] li')`
	d.Do(`window.next = ` + rows + `[2].dataset.trace; ` + rows + `[1].querySelector('[data-send="back.delete"]').click()`)
	d.Until(rows + `.length === 4 && document.activeElement.closest('[data-trace]') && document.activeElement.closest('[data-trace]').dataset.trace === window.next`)
	d.Click(`.notice [data-send=undo]`)
	d.Until(rows + `.length === 5`)
}

// On a phone the sheet closes once the second trace is chosen, not before, and the keyboard
// stands on what plays both.
func TestTheSecondTraceClosesTheSheet(t *testing.T) {
	t.Parallel()
	d := open(t, phone)
	fill(t, d, practice{"linked-swirls", 1, 3, keep.NoMarks, learner(1), true}.records(t))
	d.Click(`[data-send=place][value=back]`)
	d.Click(`#column-toggle`)
	d.Do(`document.querySelector('[data-send="back.view"][value=pair]').click()`)
	const choose = `document.querySelectorAll('[data-send="back.choose"]')`
	d.Until(choose + `.length === 3`)
	d.Do(choose + `[0].click()`)
	d.Until(choose + `[0].textContent === 'First of two' && document.getElementById('column').classList.contains('open')`)
	d.Do(choose + `[1].click()`)
	d.Until(`!document.getElementById('column').classList.contains('open') && document.activeElement.id === 'play'`)
}

// pieces are the pieces that were sewn, in the list of the page.
const pieces = `document.querySelectorAll('[data-list="back.machine.pieces"] li')`

// sewnView opens what the machine said.
func sewnView(d *browser.Page) {
	d.Click(`[data-send=place][value=back]`)
	d.Do(`document.querySelector('[data-send="back.view"][value=sewn]').click()`)
}

// keepPiece keeps a note with a count of stitches.
func keepPiece(d *browser.Page, stitches string) {
	set(d, "sewn-stitches", stitches)
	d.Do(`document.querySelector('[data-send="back.sewn-keep"]').click()`)
}

// pieceKept waits until the storage has the only note, and its photo.
func pieceKept(d *browser.Page) {
	d.Until(`unthreaded.store.things().then(l => { window.notes = l.filter((x) => x[0] === 'sewn').length; }) && window.notes === 1`)
	d.Until(`unthreaded.store.things().then(async (l) => {
		const id = JSON.parse(l.find((x) => x[0] === 'sewn')[2]).photo;
		window.photoKept = !!(await unthreaded.store.photo(id));
	}) && window.photoKept`)
}

// photographed opens the form and fills it but for the count, with a photo of 40 pixels.
func photographed(t *testing.T) *browser.Page {
	t.Helper()
	d := open(t, brief)
	sewnView(d)
	file := filepath.Join(t.TempDir(), "piece.png")
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, image.NewRGBA(image.Rect(0, 0, 40, 30))); err != nil {
		t.Fatal(err)
	}
	f.Close()
	d.Upload(`[data-photo="back.photo"]`, file)
	d.Until(`document.querySelector('[data-picture="back.machine.photo"]').naturalWidth === 40`)
	for _, field := range [][2]string{{"sewn-length", "4 in"}, {"sewn-spm", "600"}, {"sewn-note", "thick batting"}} {
		set(d, field[0], field[1])
	}
	return d
}

// What the machine said is noted, asked back where it cannot be, changed, photo and all,
// says what follows for the needle once there are three, is there after a reload, and a
// deleted note comes back.
func TestAPieceIsNoted(t *testing.T) {
	t.Parallel()
	d := photographed(t)
	keepPiece(d, "3200")
	d.Until(`document.getElementById('sewn-bad-stitches').textContent.includes('800 to the inch') && document.activeElement.dataset.send === 'back.sewn-stitches' && document.activeElement.ariaInvalid === 'true'`)
	keepPiece(d, "32")
	d.Until(pieces + `.length === 1 && document.getElementById('sewn-bad-stitches').hidden && document.querySelector('.sentence').textContent.startsWith('You sewed 8 per inch; the plan is 10 per inch. It is early')`)
	pieceKept(d)
	d.Reload()
	d.Ready()
	sewnView(d)
	d.Until(pieces + `.length === 1 && ` + pieces + `[0].innerText.includes('thick batting') && ` + pieces + `[0].querySelector('img').naturalWidth === 40`)
	// Changed in the form, photo and all, under its own ID.
	d.Do(`document.querySelector('[data-send="back.sewn-change"]').click()`)
	d.Until(`document.querySelector('[data-send="back.sewn-length"]').value === '4 in' && document.querySelector('[data-picture="back.machine.photo"]').naturalWidth === 40`)
	keepPiece(d, "31")
	d.Until(pieces + `.length === 1 && ` + pieces + `[0].innerText.includes('31 stitches') && document.activeElement.dataset.send === 'back.sewn-change'`)
	d.Do(`document.querySelector('.notice [data-send=undo]').click()`)
	d.Until(pieces + `[0].innerText.includes('32 stitches')`)
	for n := 2; n <= 3; n++ {
		keepPiece(d, "32")
		d.Until(fmt.Sprintf(pieces+`.length === %d`, n))
	}
	d.Do(`document.querySelector('[data-send="back.use-needle"]').click()`)
	d.Until(`document.querySelector('.notice').textContent.includes('750')`)
	for n := 2; n >= 1; n-- {
		d.Do(`document.querySelector('[data-send="back.sewn-delete"]').click()`)
		d.Until(fmt.Sprintf(pieces+`.length === %d && document.activeElement.dataset.send === 'back.sewn-change'`, n))
	}
	d.Do(`document.querySelector('[data-send="back.sewn-delete"]').click()`)
	d.Until(pieces + `.length === 0`)
	d.Click(`.notice [data-send=undo]`)
	d.Until(pieces + `.length === 1`)
}

// The photo of a piece is kept beside its note, in its own time, as long as the note and
// for a day after it.
func TestPhotoOfAPiece(t *testing.T) {
	t.Parallel()
	d := photographed(t)
	keepPiece(d, "32")
	pieceKept(d)

	const sweep = `unthreaded.photos.sweep(Date.now() + %d * 3600e3).then(() =>
		unthreaded.store.run(['photos'], 'readonly', (at, get, done) => get(at('photos').count(), done)))`
	swept := func(hours, want int) {
		t.Helper()
		if got := browser.Eval[int](d, fmt.Sprintf(sweep, hours)); got != want {
			t.Errorf("after %d hours %d photos are kept, want %d", hours, got, want)
		}
	}
	swept(48, 1)
	d.Do(`document.querySelector('[data-send="back.sewn-delete"]').click()`)
	d.Until(`unthreaded.store.things().then(l => { window.notes = l.filter((x) => x[0] === 'sewn').length; }) && window.notes === 0`)
	swept(0, 1)
	swept(23, 1)
	swept(25, 0)
}

// Two years of practice open, and a session of the first week can be picked.
func TestThousandsOfTraces(t *testing.T) {
	t.Parallel()
	d := open(t, brief)
	var docs []string
	wobble := learner(3)
	for k := range 140 {
		w := wobble(k)
		for i := range 15 {
			measured, err := json.Marshal(keep.Measured{Version: scoring.Version, Seconds: 30, SPM: 600, StitchMM: 2.5, Figures: map[progress.Measure]float64{progress.Spacing: w * (1 + 0.05*float64(i%4))}})
			if err != nil {
				t.Fatal(err)
			}
			doc, err := keep.EncodeSummary(keep.Summary{
				ID: fmt.Sprintf("%03d-%02d", k, i), Started: time.Now().AddDate(0, 0, -5*(140-k)).UnixMilli() + int64(i)*60000, Motif: "linked-swirls", Name: "Linked swirls",
				Repeats: 1, Device: trace.Pen, Way: keep.Pencil, Zoom: 1, Guide: &keep.Guide{Marks: keep.NoMarks}, Measured: measured, Print: "a",
			})
			if err != nil {
				t.Fatal(err)
			}
			docs = append(docs, string(doc))
		}
	}
	all, err := json.Marshal(docs)
	if err != nil {
		t.Fatal(err)
	}
	// One transaction for all, or the disk would be waited for 2100 times.
	d.Do(`window.filled = 0; { const opening = indexedDB.open('unthreaded');
		opening.onsuccess = () => { const db = opening.result, tx = db.transaction('summaries', 'readwrite');
			for (const doc of ` + string(all) + `) tx.objectStore('summaries').put(doc, JSON.parse(doc).id);
			tx.oncomplete = () => { db.close(); window.filled = 1; }; }; }`)
	d.Until(`window.filled === 1`)
	d.Reload()
	d.Ready()
	lookBack(d, "your stitches varied by")
	d.Until(`document.querySelectorAll('[data-send="back.session"] option').length === 140`)
	set(d, "session", "139")
	d.Until(`document.querySelectorAll('[data-list="back.traces"] li').length === 15 && document.querySelector('[data-send="back.session-before"]').disabled`)
	if text := browser.Eval[string](d, `document.querySelector('[data-text="back.tableNote"]').textContent`); !strings.Contains(text, "60 of 140 sessions") {
		t.Errorf("the table says %q", text)
	}
}
