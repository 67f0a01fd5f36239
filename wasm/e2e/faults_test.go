package e2e

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

const faultText = `document.getElementById('fault').innerText`

// waitFault waits until the page says that it has stopped.
func waitFault(p *browser.Page) {
	p.Until(`document.documentElement.dataset.state === 'fault' && !document.getElementById('fault').hidden`)
}

// The program traps: the page says so and what to do, and that traces are kept once it
// has looked. What was in hand is there when it is loaded again.
func TestATrapIsHeard(t *testing.T) {
	d := sit(t, brief, "")
	d.Expect("unreachable")
	_, samples := d.half(browser.Pen)
	d.jots(1)
	d.Do(`setTimeout(() => { throw new WebAssembly.RuntimeError('unreachable'); })`)
	waitFault(d.Page)
	d.Until(faultText + `.includes('is kept in this browser')`)
	d.Reload()
	d.Ready()
	d.Until(`document.querySelectorAll('.past li').length === 1`)
	if got := d.keptSeconds(); got < samples[len(samples)-1].T-1 {
		t.Errorf("%.2f s are kept of %.2f s", got, samples[len(samples)-1].T)
	}
}

// A script that fails is said in a sentence, and the page goes on.
func TestAScriptFaultIsHeard(t *testing.T) {
	t.Parallel()
	d := sit(t, brief, "")
	d.Expect("stumbled")
	d.Do(`setTimeout(() => { throw new Error('it stumbled'); })`)
	d.Until(notice + `.includes('Something went wrong on the page. ')`)
	d.Click(`.notice.pinned [data-send=dismiss]`)
	d.Until(`document.querySelector('.notice.pinned').hidden`)
	d.Do(`void Promise.reject(new Error('stumbled again'))`)
	d.Until(notice + `.includes('Something went wrong on the page. ')`)
	d.Click(`.notice.pinned [data-send=dismiss]`)
	d.Until(`document.querySelector('.notice.pinned').hidden`)
	d.Steady()
	d.measure()
	d.draw(browser.Mouse, short(40))
	d.saved(1)
}

// A storage that never answers: within seconds the page opens and says so.
func TestAStorageThatDoesNotAnswer(t *testing.T) {
	t.Parallel()
	d := &table{Page: chromium.Open(t, desk), t: t}
	d.Before(`IDBFactory.prototype.open = () => ({})`)
	d.Go(siteURL + "/")
	d.Ready()
	d.Until(`document.querySelector('.column').innerText.includes('does not answer')`)
}

// without serves the site without a file.
func without(name string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.TrimPrefix(r.URL.Path, "/") != name {
			pages.ServeHTTP(w, r)
			return
		}
		http.NotFound(w, r)
	})
}

// A file of the program that is missing is named.
func TestAMissingFileIsNamed(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"page.js", "boot.js", "store.js", "app.wasm"} {
		t.Run(name, func(t *testing.T) {
			server := httptest.NewServer(without(name))
			t.Cleanup(server.Close) // after the page is closed, which may still be loading
			p := chromium.Open(t, brief)
			p.Expect("404")
			if strings.HasSuffix(name, ".js") {
				p.Expect("MIME type")
			}
			p.Go(server.URL + "/")
			waitFault(p)
			if said := browser.Eval[string](p, faultText); name != "app.wasm" && !strings.Contains(said, name) {
				t.Errorf("the page says %q", said)
			}
		})
	}
}

// A kept file that is damaged is fetched anew by the button that is there.
func TestADamagedCacheHeals(t *testing.T) {
	p := chromium.Open(t, brief)
	p.Go(siteURL + "/")
	p.Ready()
	p.Do(`unthreaded.offline.start().then(() => navigator.serviceWorker.ready)`)
	p.Until(`caches.keys().then((k) => { window.kept = k.length; }) && window.kept === 1`)
	p.Do(`(async () => {
		const cache = await caches.open((await caches.keys())[0]);
		await cache.put('app.wasm', new Response(new Uint8Array(1000), { headers: { 'Content-Type': 'application/wasm' } }));
		window.damaged = true;
	})()`)
	p.Until(`window.damaged`)
	p.Reload()
	waitFault(p)
	p.Do(`window.before = true; document.getElementById('fault-reload').click()`)
	p.Until(`!window.before && document.documentElement.dataset.state === 'ready'`)
}

// A version that does not start lets the good one that comes after it take over.
func TestABrokenVersionLetsTheNextTakeOver(t *testing.T) {
	var now atomic.Value
	type serving struct{ h http.Handler }
	now.Store(serving{pages})
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { now.Load().(serving).h.ServeHTTP(w, r) }))
	defer server.Close()
	p := chromium.Open(t, brief)
	p.Go(server.URL + "/")
	p.Ready()
	p.Do(`unthreaded.offline.start().then(() => navigator.serviceWorker.ready)`)
	p.Until(`caches.keys().then((k) => { window.kept = k.length; }) && window.kept === 1`)
	p.Reload() // now it is in the worker's hands
	p.Ready()
	bad := another(t, "bad", "bad")
	now.Store(serving{http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, "app.wasm") {
			w.Header().Set("Content-Type", "application/wasm")
			w.Write(make([]byte, 1000))
			return
		}
		bad.ServeHTTP(w, r)
	})})
	p.Do(`unthreaded.offline.start().then(() => navigator.serviceWorker.getRegistration()).then((r) => r.update())`)
	p.Until(`!document.getElementById('newer').hidden`)
	p.Do(`document.getElementById('newer-load').click()`)
	p.Until(`document.title.startsWith('bad')`)
	waitFault(p)
	now.Store(serving{another(t, "good", "good")})
	p.Reload()
	waitFault(p)
	p.Until(`!document.getElementById('fault-newer').hidden`)
	p.Do(`document.getElementById('fault-take').click()`)
	p.Until(`document.title.startsWith('good') && document.documentElement.dataset.state === 'ready'`)
}
