package e2e

import (
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// A host of static files that sends no headers of ours and serves the page below a folder:
// the whole page works, without a connection too, and says that the clock is the coarse
// one; what its own policy forbids is not done.
func TestPublishedAsAFolder(t *testing.T) {
	files := http.StripPrefix("/guild/quilts/", http.FileServer(http.Dir(siteFolder)))
	gone := false
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if gone {
			panic(http.ErrAbortHandler)
		}
		if !strings.HasPrefix(r.URL.Path, "/guild/quilts/") {
			t.Errorf("the page asks for %s", r.URL.Path)
		}
		files.ServeHTTP(w, r)
	}))
	defer server.Close()
	d := &table{Page: chromium.Open(t, brief), t: t}
	d.Before(`window.refused = []; document.addEventListener('securitypolicyviolation', (e) => refused.push(e.effectiveDirective))`)
	d.Go(server.URL + "/guild/quilts/")
	d.Ready()
	if browser.Eval[bool](d.Page, `crossOriginIsolated`) {
		t.Fatal("the host sends headers after all")
	}
	d.measure()
	d.draw(browser.Mouse, short(40))
	d.saved(1)
	if text := browser.Eval[string](d.Page, `(() => { document.querySelector('.prefs').open = true; const p = document.querySelector('.clock-coarse'); return p.offsetHeight ? p.textContent : ''; })()`); !strings.Contains(text, "0.1 ms") {
		t.Errorf("of the clock the settings say %q", text)
	}
	d.Expect("policy violation")
	d.Expect("Content Security Policy")
	d.Do(`{ const s = document.createElement('script'); s.textContent = 'window.ran = "inline"'; document.body.append(s);
		const b = document.createElement('button'); b.setAttribute('onclick', 'window.ran = "handler"'); document.body.append(b); b.click();
		const f = document.createElement('iframe'); f.src = 'https://example.org/'; document.body.append(f);
		fetch('https://example.org/').catch(() => { window.kept = true; }); }`)
	d.Until(`window.kept && refused.includes('script-src-elem') && refused.includes('script-src-attr') && refused.includes('connect-src') && refused.some((r) => r === 'frame-src')`)
	if ran := browser.Eval[string](d.Page, `window.ran || ''`); ran != "" {
		t.Errorf("an %s script ran", ran)
	}

	d.Do(`unthreaded.offline.start().then(() => navigator.serviceWorker.ready)`)
	d.Until(`caches.keys().then((k) => { window.cached = k.join(); }) && window.cached === 'unthreaded-` + report.Version + `'`)
	gone = true
	d.Reload()
	d.Ready()
	d.Until(`document.querySelectorAll('.past li').length === 1`)
}

// Everything of the site is a plain file with a name that any host serves, and nothing
// is named from the root.
func TestTheFolderIsPlain(t *testing.T) {
	for _, f := range report.Files {
		if strings.ContainsAny(f.Name, " ?#%") || strings.HasPrefix(f.Name, ".") {
			t.Errorf("%q is no name for every host", f.Name)
		}
	}
	page, err := os.ReadFile(siteFolder + "/index.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, root := range []string{`src="/`, `href="/`, `http:`, `https:`} {
		if strings.Contains(string(page), root) {
			t.Errorf("the page names %s", root)
		}
	}
}
