package e2e

import (
	"bytes"
	"encoding/base64"
	"encoding/csv"
	"fmt"
	"image/gif"
	"strings"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// file presses a control and returns the file that is handed out, as bytes.
func (d *table) file(control string) []byte {
	d.t.Helper()
	d.Do(`{ window.file = null; const real = unthreaded.download;
		unthreaded.download = (name, type, ...parts) => {
			const r = new FileReader();
			r.onload = () => { window.file = r.result.slice(r.result.indexOf(',') + 1); };
			r.readAsDataURL(new Blob(parts));
			unthreaded.download = real;
		}; document.querySelector('[data-send="` + control + `"]').click(); }`)
	d.Until(`window.file`)
	data, err := base64.StdEncoding.DecodeString(browser.Eval[string](d.Page, `window.file`))
	if err != nil {
		d.t.Fatal(err)
	}
	return data
}

// A replay becomes a film of its own length while the page stays usable; it can be
// given up.
func TestAReplayBecomesAFilm(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(60))
	seconds := browser.Eval[float64](d.Page, `parseFloat(document.querySelector('.clock').textContent)`)
	d.Do(`document.querySelector('[data-send=film]').click()`)
	d.Until(`!document.querySelector('[data-send=film-stop]').closest('[data-show]').hidden`)
	d.Do(`document.querySelector('[data-send=film-stop]').click()`)
	d.Until(`!document.querySelector('[data-send=film]').disabled`)
	g, err := gif.DecodeAll(bytes.NewReader(d.file("film")))
	if err != nil {
		t.Fatal(err)
	}
	sum := 0
	for _, delay := range g.Delay[:len(g.Delay)-1] {
		sum += delay
	}
	if got := float64(sum) / 100; got < seconds-0.1 || got > seconds+0.1 {
		t.Errorf("the film lasts %v s, the replay %v", got, seconds)
	}
	d.Until(`document.querySelector('.notice').textContent.includes('The film is among your downloads')`)
}

// The table has a row for each trace; a damaged one is left out, left as it is, and
// said; the others open.
func TestADamagedTraceHoldsNothingUp(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(40))
	d.draw(browser.Mouse, short(60))
	d.saved(2)
	d.Do(`unthreaded.store.newest(1e6).then(([l]) => l).then(async (l) => {
		const id = JSON.parse(l[0]).id;
		await unthreaded.store.put(id, '{"schema":1,"id":', l[0]);
		await unthreaded.store.put('x', '{', '{"id":');
		localStorage.setItem('unthreaded.journal.y', '{"doc":');
		await unthreaded.store.keep('design', 'broken', '{');
		await unthreaded.store.keep('quilt', 'broken', '{');
	})`)
	d.Reload()
	d.Ready()
	d.Until(`document.querySelectorAll('.past li').length === 2 && document.querySelector('.notice').textContent.includes('2 kept traces')`)
	if said := browser.Eval[string](d.Page, `document.querySelector('.notice').textContent`); !strings.Contains(said, "2 kept traces could not be read") || strings.Count(said, "kept trace") > 1 {
		t.Errorf("the page says %q", said)
	}
	rows, err := csv.NewReader(bytes.NewReader(d.file("table-all"))).ReadAll()
	if err != nil || len(rows) != 2 {
		t.Errorf("%d rows, want the headings and one trace (%v)", len(rows), err)
	}
	d.Until(`document.querySelector('.notice').textContent.includes('1 could not be read')`)
	d.Do(`document.querySelectorAll('.past-open')[1].click()`)
	d.Until(`document.querySelector('.notice').textContent.includes('damaged and was left as it is')`)
	d.Do(`document.querySelectorAll('.past-open')[0].click()`)
	d.Until(`document.querySelectorAll('.figure').length === 4`)
	if kept := browser.Eval[string](d.Page, `unthreaded.store.get('x')`); kept != "{" || !browser.Eval[bool](d.Page, `!!localStorage.getItem('unthreaded.journal.y')`) {
		t.Errorf("the damaged records did not stay as they were: %q", kept)
	}
}

// A store of the program's first version opens: what was kept is there, and there is
// room for what came later.
func TestAnOlderStoreOpens(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.draw(browser.Mouse, short(40))
	d.saved(1)
	d.Do(`new Promise((resolve, reject) => {
		const old = indexedDB.open('unthreaded');
		old.onsuccess = () => {
			const tx = old.result.transaction(['traces', 'summaries']), kept = {};
			for (const name of ['traces', 'summaries']) {
				tx.objectStore(name).getAll().onsuccess = (e) => { kept[name] = e.target.result; };
			}
			tx.oncomplete = () => {
				old.result.close();
				indexedDB.deleteDatabase('unthreaded').onsuccess = () => {
					const first = indexedDB.open('unthreaded', 1);
					first.onupgradeneeded = () => {
						for (const name of ['traces', 'summaries', 'bin', 'settings']) first.result.createObjectStore(name);
						for (const name of ['traces', 'summaries']) {
							kept[name].forEach((v) => first.transaction.objectStore(name).put(v, 'first'));
						}
					};
					first.onsuccess = () => { first.result.close(); resolve(); };
					first.onerror = () => reject(first.error);
				};
			};
		};
	})`)
	d.Reload()
	d.Ready()
	d.Until(`document.querySelectorAll('.past li').length === 1`)
	d.measure()
	d.draw(browser.Mouse, short(50))
	d.Until(`unthreaded.store.keep('note', 'one', '{}').then(() => { window.noted = true; }) && window.noted`)
}

// BenchmarkManyTraces opens a page on which no traces or 10,000 are kept, and tells
// how long it takes from the load of the page to the list, how long of that the store
// took, and how much memory the program has then.
func BenchmarkManyTraces(b *testing.B) {
	for _, n := range []int{0, 10000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := chromium.Open(b, brief)
			p.Before(`{ const real = WebAssembly.instantiateStreaming;
				WebAssembly.instantiateStreaming = async (...args) => {
					const made = await real(...args);
					window.memory = made.instance.exports.mem;
					return made;
				}; }`)
			p.Go(siteURL + "/")
			p.Ready()
			p.Do(fmt.Sprintf(manyTraces, n))
			for b.Loop() {
				p.Reload()
				p.Until(fmt.Sprintf(`document.documentElement.dataset.state === 'ready' && document.querySelectorAll('.past li').length === %d`, min(n, 50)))
				b.ReportMetric(browser.Eval[float64](p, `performance.now()`), "load-ms")
				p.Until(fmt.Sprintf(`(document.querySelector('[data-send=past-more]').textContent.match(/\d+/) || [0])[0] == %d`, max(0, n-50)))
				b.ReportMetric(browser.Eval[float64](p, `performance.now()`), "all-ms")
				b.ReportMetric(browser.Eval[float64](p, `window.memory.buffer.byteLength / 1e6`), "wasm-MB")
				b.ReportMetric(browser.Eval[float64](p, `(async () => {
					const begin = performance.now();
					for (let i = 0; i < 5; i++) (await unthreaded.store.newest(1e6))[0].join('\n');
					return (performance.now() - begin) / 5;
				})()`), "getAll-ms")
			}
		})
	}
}

// manyTraces keeps so many summaries, as the program writes them, of one motif.
const manyTraces = `unthreaded.store.run(['summaries'], 'readwrite', (at) => {
	for (let i = 0; i < %d; i++) {
		const id = String(1700000000000 + i * 60000) + '0-pen';
		at('summaries').put(JSON.stringify({ id, started: 1700000000000 + i * 60000, motif: 'linked-swirls', name: 'Linked swirls', repeats: 3,
			device: 'pen', ending: 'lifted', stitch_cv: 0.21345678 + i * 1e-6, within: 0.6543, p95_mm: 1.2345678, coverage: 0.98765, digest: 'cbf29ce484222325' }), id);
	}
})`
