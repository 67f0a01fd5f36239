package e2e

import (
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"

	"unthreaded/wasm/e2e/browser"
	"unthreaded/wasm/serve/build"
	"unthreaded/wasm/serve/host"
)

// another returns the site as a later build of it would be: another version and, to
// tell it by, another title; what its second program answers is not of the types that this
// build knows. The version in build.json may be given on its own.
func another(t *testing.T, version, info string) http.Handler {
	t.Helper()
	site := fstest.MapFS{}
	out := os.DirFS(siteFolder)
	err := fs.WalkDir(out, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || strings.HasSuffix(name, build.GzipSuffix) || strings.HasSuffix(name, build.BrotliSuffix) {
			return err
		}
		data, err := fs.ReadFile(out, name)
		text := string(data)
		switch name {
		case "index.html":
			text = regexp.MustCompile(`<title[^>]*>`).ReplaceAllString(text, "${0}"+version+" ")
		case build.InfoFile:
			text = strings.Replace(text, report.Version, info, 1)
		case "worker.js":
			text = strings.Replace(text, "done: (doc) =>", "done: (doc) => (doc[0] ^= 1) >= 0 &&", 1)
		case build.WorkerFile:
			text = strings.Replace(text, report.Version, version, 1)
		}
		site[name] = &fstest.MapFile{Data: []byte(text)}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	h, err := host.New(site)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// Once loaded the page opens without a server, all of one version; a newer version is
// offered and comes whole when she takes it, and one that changes under the hand of the
// worker is not taken.
func TestThePageOpensWithoutAConnection(t *testing.T) {
	var now atomic.Value // the handler that serves, nil for none
	type serving struct{ h http.Handler }
	now.Store(serving{pages})
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := now.Load().(serving).h
		if h == nil {
			panic(http.ErrAbortHandler)
		}
		h.ServeHTTP(w, r)
	}))
	defer server.Close()
	d := &table{Page: chromium.Open(t, brief), t: t}
	d.Before(`Object.defineProperty(navigator, 'onLine', { get: () => !localStorage.getItem('test.offline') })`)
	d.Go(server.URL + "/")
	d.Ready()
	d.Do(`unthreaded.offline.start().then(() => navigator.serviceWorker.ready)`)
	d.Until(`caches.keys().then((k) => { window.kept = k.join(); }) && window.kept === 'unthreaded-` + report.Version + `'`)

	now.Store(serving{})
	d.Do(`localStorage.setItem('test.offline', 'yes')`)
	d.Reload()
	d.Ready()
	d.measure()
	d.draw(browser.Mouse, short(40))
	d.saved(1)
	if !browser.Eval[bool](d.Page, `crossOriginIsolated && !!navigator.serviceWorker.controller`) {
		t.Error("without a connection the page lost what its headers promise")
	}

	now.Store(serving{another(t, "torn", "other")})
	d.Do(`localStorage.removeItem('test.offline'); navigator.serviceWorker.getRegistration().then(async (r) => {
		await r.update();
		window.torn = '';
		r.installing.addEventListener('statechange', (e) => { window.torn = e.target.state; });
	})`)
	d.Until(`window.torn === 'redundant'`)
	now.Store(serving{another(t, "later", "later")})
	d.Do(`unthreaded.offline.start().then(() => navigator.serviceWorker.getRegistration()).then((r) => r.update())`)
	d.Until(`!document.getElementById('newer').hidden`)
	if title := browser.Eval[string](d.Page, `fetch('./').then((r) => r.text()).then((t) => t.match(/<title[^>]*>(\w+)/)[1])`); title != "Unthreaded" {
		t.Errorf("before it was asked for, the newer version shows: %s", title)
	}
	old := &table{Page: d.Another(brief), t: t}
	old.Go(server.URL + "/")
	old.Ready()
	old.measure()
	d.Do(`window.before = true; document.getElementById('newer-load').click()`)
	d.Until(`!window.before && document.title.startsWith('later') && document.documentElement.dataset.state === 'ready'`)
	d.Until(`caches.keys().then((k) => { window.kept = k.join(); }) && window.kept === 'unthreaded-later'`)
	d.Until(`document.querySelectorAll('.past li').length === 1`)
	// The tab that was open before goes on with its version: what it traces is kept, and what
	// it asks of the newer program beside the page is not taken for an answer.
	old.draw(browser.Pen, short(40))
	old.saved(2)
	d.Reload()
	d.Ready()
	d.Until(`document.querySelectorAll('.past li').length === 2`)
	old.tell("place", "quilt", "")
	old.Until(notice + `.includes('another tab has taken a newer version')`)
}
