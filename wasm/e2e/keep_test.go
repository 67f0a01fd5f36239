package e2e

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/game/synth"
	"unthreaded/wasm/e2e/browser"
)

func short(stop float64) synth.Hand {
	return synth.Hand{Hz: 125, Speed: synth.Steady(inchPerSecond), Stop: stop}
}

// The job of a second visit: the trace is there, opens with the same figures, can
// be compared, deleted and brought back.
func TestTracesAreThereTomorrow(t *testing.T) {
	t.Parallel()
	d := sit(t, desk, "")
	d.draw(browser.Mouse, short(150))
	even, _ := d.figure("Stitch length varies by")
	d.draw(browser.Mouse, synth.Hand{Hz: 125, Speed: synth.Steady(18), Stop: 120})
	d.saved(2)

	d.Reload()
	d.Ready()
	d.Until(`document.querySelectorAll('.past li').length === 2`)
	if s := d.sentence(); !strings.Contains(s, "start dot") {
		t.Errorf("a second visit opens with %q, want a cloth ready to trace", s)
	}
	d.Do(`document.querySelectorAll('.past-open')[1].click()`) // the older one
	d.Until(`document.querySelectorAll('.figure').length === 4`)
	if again, note := d.figure("Stitch length varies by"); again != even {
		t.Errorf("the kept trace varies by %v %% (%s), it was %v", again, note, even)
	}
	d.Do(`document.querySelectorAll('.past li')[0].querySelector('[data-send=over]').click()`)
	d.Until(`document.querySelector('.past li [aria-pressed=true]')?.textContent === 'Stop comparing'`)

	d.Do(`document.querySelectorAll('.past li')[1].querySelector('[data-send=delete]').click()`)
	d.Until(`document.querySelectorAll('.past li').length === 1 && !document.querySelector('[data-send=undo]').hidden`)
	d.Click(`.notice [data-send=undo]`)
	d.Until(`document.querySelectorAll('.past li').length === 2`)
	d.Key("Escape")
	d.Do(`document.querySelectorAll('.past li')[1].querySelector('[data-send=delete]').click()`)
	d.Until(`document.querySelectorAll('.past li').length === 1`)
	d.Key("Control+z")
	d.Until(`document.querySelectorAll('.past li').length === 2`)
	d.saved(2)
}

// What is deleted and not brought back is gone at the next visit.
func TestADeletedTraceStaysDeleted(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(60))
	d.saved(1)
	d.Do(`unthreaded.store.newest(1).then(([l]) => { window.late = l[0]; })`)
	d.Until(`window.late`)
	d.Do(`document.querySelector('.past li [data-send=delete]').click()`)
	d.saved(0)
	// Measures that were taken anew meanwhile do not bring it back.
	d.Do(`unthreaded.store.putSummary(JSON.parse(late).id, late).then(() => { window.put = true; })`)
	d.Until(`window.put`)
	d.Reload()
	d.Ready()
	d.Until(`!document.querySelector('[data-show="rehearse.pastEmpty"]').hidden`)
	if n := d.past(); n != 0 {
		t.Errorf("%d traces are listed after deleting the only one", n)
	}
}

// The settings of the last visit are those of the next.
func TestSettingsAreKept(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "ruler-zigzag")
	d.choose("spm", "800")
	d.choose("units", "mm")
	d.choose("theme", "dark")
	d.Until(`unthreaded.store.settings().then(s => { window.doc = s; }) && (window.doc || '').includes('"theme":"dark"')`)
	d.Reload()
	d.Ready()
	got := browser.Eval[string](d.Page, `['motif', 'spm', 'units', 'theme'].map(n => document.querySelector('[data-send=' + n + ']').value).join()
		+ ',' + document.documentElement.dataset.theme`)
	if want := "ruler-zigzag,800,mm,dark,dark"; got != want {
		t.Errorf("after a reload the settings are %s, want %s", got, want)
	}
}

// A browser that denies storage: the page says so, the trace stays, and it can be
// saved as a file.
func TestStorageDenied(t *testing.T) {
	t.Parallel()
	d := &table{Page: chromium.Open(t, desk), t: t}
	d.Before(`Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('denied', 'SecurityError'); } })`)
	d.Go(siteURL + "/")
	d.Ready()
	d.measure()
	d.draw(browser.Pen, short(80))
	d.Until(`document.querySelector('.notice').innerText.includes('save it as a file')`)
	page := browser.Eval[string](d.Page, `document.querySelector('.column').innerText`)
	for _, want := range []string{"does not let the page keep anything", "Nothing is kept"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q:\n%s", want, page)
		}
	}
	d.download(t)
}

// A full storage: the same, for this trace.
func TestStorageFull(t *testing.T) {
	t.Parallel()
	d := sit(t, desk, "")
	d.Do(`IDBObjectStore.prototype.put = () => { throw new DOMException('full', 'QuotaExceededError'); };
		Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }`)
	d.draw(browser.Pen, short(80))
	d.Until(`document.querySelector('.notice').innerText.includes('full')`)
	if browser.Eval[bool](d.Page, `document.querySelector('.notice [data-send=download]').hidden`) {
		t.Error("the notice does not offer to save the trace as a file")
	}
	d.download(t)
}

// A trace saved as an InkML file opens again with the same figures, and a file that
// is none says so and changes nothing.
func TestAnInkMLFileComesBack(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "ruler-zigzag")
	d.draw(browser.Mouse, synth.Hand{Hz: 60, Speed: synth.Steady(40), Overshoot: 2})
	before, _ := d.figure("Past the corners")
	file := filepath.Join(t.TempDir(), "trace.inkml")
	if err := os.WriteFile(file, []byte(d.download(t)), 0o644); err != nil {
		t.Fatal(err)
	}
	d.Upload(`[data-file=import]`, file)
	d.Until(`document.querySelector('.notice').innerText.includes('This trace is here already')`)
	d.Do(`document.querySelector('.past li [data-send=delete]').click()`)
	d.Until(`document.querySelectorAll('.past li').length === 0`)
	d.choose("motif", "linked-swirls") // the file brings its own line
	d.Upload(`[data-file=import]`, file)
	d.Until(`document.querySelectorAll('.past li').length === 1 && document.querySelector('[data-send=motif]').value === 'ruler-zigzag'`)
	if after, note := d.figure("Past the corners"); math.Abs(after-before) > 0.1 {
		t.Errorf("the file's trace goes %v mm past the corners (%s), it was %v", after, note, before)
	}
	if err := os.WriteFile(file, []byte("<svg/>"), 0o644); err != nil {
		t.Fatal(err)
	}
	d.Upload(`[data-file=import]`, file)
	d.Until(`document.querySelector('.notice').innerText.includes('Draw opens it')`)
	if n := d.past(); n != 1 {
		t.Errorf("%d traces are listed after a broken file, want 1", n)
	}
}

// A file of many traces is read while the page goes on: it says how far it is, can be stopped,
// and is read whole when it is asked for again.
func TestAFileOfManyTraces(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	var ink strings.Builder
	ink.WriteString(`<ink xmlns="http://www.w3.org/2003/InkML"><context><inkSource><traceFormat><channel name="X" type="decimal" units="mm"/>` +
		`<channel name="Y" type="decimal" units="mm"/></traceFormat><sampleRate value="100"/></inkSource></context>`)
	const n = 200
	for k := range n {
		ink.WriteString("<trace>")
		for i := range 300 {
			fmt.Fprintf(&ink, "%.2f %.2f,", 0.2*float64(i), 0.01*float64(k))
		}
		ink.WriteString("61 0</trace>")
	}
	file := filepath.Join(t.TempDir(), "many.inkml")
	if err := os.WriteFile(file, []byte(ink.String()+"</ink>"), 0o644); err != nil {
		t.Fatal(err)
	}
	// The work is stopped in the frame in which it says how far it is.
	d.Do(`{ const stop = () => { const e = document.getElementById('work');
		if (!e.hidden && e.innerText.includes('%')) e.querySelector('[data-send="work-stop"]').click(); else requestAnimationFrame(stop); }; stop(); }`)
	d.Upload(`[data-file=import]`, file)
	d.Until(`document.getElementById('work').innerText.includes('stopped')`)
	if got := d.past(); got != 0 {
		t.Errorf("%d traces of a stopped file are listed", got)
	}
	d.Do(`window.longest = 0; { let last = performance.now(); const look = (now) => { window.longest = Math.max(window.longest, now - last); last = now; requestAnimationFrame(look); }; requestAnimationFrame(look); }`)
	d.Do(`document.querySelector('#work [data-send="work-again"]').click()`)
	d.Until(`document.querySelector('.notice.pinned').innerText.includes('200 traces were read')`)
	d.saved(n)
	t.Logf("the longest frame took %.0f ms", browser.Eval[float64](d.Page, `window.longest`))
}

// On a low phone what can be taken back is in sight, however the sheet is scrolled.
func TestUndoIsInSightOnALowPhone(t *testing.T) {
	t.Parallel()
	d := sit(t, browser.View{Width: 390, Height: 600, Touch: true}, "")
	d.draw(browser.Pen, short(60))
	d.Click(`#column-toggle`)
	d.Do(`document.querySelector('.past li [data-send=delete]').click()`)
	d.Until(`!document.querySelector('.notice.pinned').hidden`)
	for _, open := range []bool{true, false} {
		for _, at := range []string{"0", "e.scrollHeight"} {
			d.Do(`for (const id of ['column', 'column-body']) { const e = document.getElementById(id); e.scrollTop = ` + at + `; }`)
			if !browser.Eval[bool](d.Page, inSight+`(document.querySelector('.notice.pinned [data-send=undo]'))`) {
				t.Errorf("open %v, scrolled to %s: undo is not in sight", open, at)
			}
		}
		d.Do(`document.getElementById('column-toggle').click()`)
	}
}

// A place where the hand you slowed is named, and its number leads there.
func TestAdviceLeadsToThePlace(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.draw(browser.Pen, synth.Hand{Hz: 120, Stop: 300, Speed: func(s float64) float64 {
		if s > 140 && s < 190 {
			return inchPerSecond * 0.45
		}
		return inchPerSecond
	}})
	const slow = `[...document.querySelectorAll('.advice li')].find((li) => li.innerText.includes('you slowed'))`
	d.Until(slow)
	d.Do(slow + `.querySelector('.badge').click()`)
	d.Until(`(v => v > 130 && v < 200)(+document.getElementById('scrub').value)`)
}

// download saves the trace as a file, checks that it holds the samples, and returns
// its text.
func (d *table) download(t *testing.T) string {
	t.Helper()
	d.Do(`{ const real = unthreaded.download;
		unthreaded.download = (name, type, bytes) => { window.file = { name, type, text: new TextDecoder().decode(bytes) }; real(name, type, bytes); }; }`)
	d.Do(`document.querySelector('p > [data-send=download]').click()`)
	d.Until(`window.file`)
	file := browser.Eval[map[string]string](d.Page, `window.file`)
	if !strings.HasSuffix(file["name"], ".inkml") || len(file["text"]) < 2000 {
		t.Errorf("the file %q holds %d characters", file["name"], len(file["text"]))
	}
	return file["text"]
}
