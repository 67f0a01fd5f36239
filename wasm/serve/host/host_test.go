package host

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/andybalholm/brotli"
)

const page = "<!doctype html><title>Cloth</title>"

var script = strings.Repeat("stitch(); ", 200)

// site holds one file in all forms, one in a single form, and one whose name only
// looks like that of a compressed form.
func site(t *testing.T) fstest.MapFS {
	t.Helper()
	var gz, br bytes.Buffer
	for _, w := range []io.WriteCloser{gzip.NewWriter(&gz), brotli.NewWriter(&br)} {
		io.WriteString(w, script)
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
	return fstest.MapFS{
		"index.html":        {Data: []byte(page)},
		"stitch.js":         {Data: []byte(script)},
		"stitch.js.gz":      {Data: gz.Bytes()},
		"stitch.js.br":      {Data: br.Bytes()},
		"app.wasm":          {Data: []byte("\x00asm\x01\x00\x00\x00")},
		"motifs/index.html": {Data: []byte("motifs")},
		"alone.gz":          {Data: []byte("not of another file")},
		"build.json":        {Data: []byte(`{"wasmBytes": 8, "version": "0123456789ab"}`)},
	}
}

func ask(t *testing.T, method, path string, header ...string) *http.Response {
	t.Helper()
	h, err := New(site(t))
	if err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest(method, path, nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Add(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

// decode undoes the content coding by the libraries that made it.
func decode(t *testing.T, resp *http.Response) string {
	t.Helper()
	body := io.Reader(resp.Body)
	switch resp.Header.Get("Content-Encoding") {
	case "br":
		body = brotli.NewReader(body)
	case "gzip":
		z, err := gzip.NewReader(body)
		if err != nil {
			t.Fatal(err)
		}
		body = z
	}
	text, err := io.ReadAll(body)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestFiles(t *testing.T) {
	for _, c := range []struct {
		path   string
		status int
		typ    string
		body   string
	}{
		{"/", 200, "text/html; charset=utf-8", page},
		{"/index.html", 200, "text/html; charset=utf-8", page},
		{"/stitch.js", 200, "text/javascript; charset=utf-8", script},
		{"/app.wasm", 200, "application/wasm", "\x00asm\x01\x00\x00\x00"},
		{"/app.wasm?v=1", 200, "application/wasm", "\x00asm\x01\x00\x00\x00"},
		{"/motifs/", 200, "text/html; charset=utf-8", "motifs"},
		{"/alone.gz", 200, "application/octet-stream", "not of another file"},
		{"/stitch.js.br", 404, "", ""},
		{"/stitch.js.gz", 404, "", ""},
		{"/motifs", 404, "", ""},
		{"/absent.js", 404, "", ""},
		{"/../host.go", 404, "", ""},
	} {
		resp := ask(t, "GET", c.path, "Accept-Encoding", "gzip, br")
		if resp.StatusCode != c.status {
			t.Errorf("%s: expected status %d, got %d", c.path, c.status, resp.StatusCode)
			continue
		}
		if c.status != 200 {
			continue
		}
		if got := resp.Header.Get("Content-Type"); got != c.typ {
			t.Errorf("%s: expected type %s, got %s", c.path, c.typ, got)
		}
		if got := decode(t, resp); got != c.body {
			t.Errorf("%s: expected %q, got %q", c.path, c.body, got)
		}
	}
}

// TestCodings has the examples of RFC 9110, section 12.5.3, and the cases that its
// rules on "*", on identity and on weights make.
func TestCodings(t *testing.T) {
	for _, c := range []struct{ accept, want string }{
		{"compress, gzip", "gzip"},
		{"", "identity"},
		{"*", "br"},
		{"compress;q=0.5, gzip;q=1.0", "gzip"},
		{"gzip;q=1.0, identity; q=0.5, *;q=0", "gzip"},
		{"gzip, deflate, br, zstd", "br"},
		{"br;q=0.5, gzip;q=0.8", "gzip"},
		{"br;q=0, gzip", "gzip"},
		{"br;q=0, gzip;q=0", "identity"},
		{"identity, br;q=0.2", "identity"},
		{"gzip;q=0.001", "gzip"},
		{"BR", "br"},
		{"x-gzip", "gzip"},
		{"*;q=0.1, br;q=0", "gzip"},
		{"br;q=1.5, gzip;q=0.1", "gzip"},
		{"br;q=tight, gzip;q=0.1", "gzip"},
		{"identity;q=0, compress", "none"},
		{"*;q=0", "none"},
	} {
		resp := ask(t, "GET", "/stitch.js", "Accept-Encoding", c.accept)
		got := resp.Header.Get("Content-Encoding")
		switch {
		case resp.StatusCode == http.StatusNotAcceptable:
			got = "none"
		case got == "":
			got = "identity"
		}
		if got != c.want {
			t.Errorf("Accept-Encoding %q: expected %s, got %s", c.accept, c.want, got)
		}
		if got != "none" && decode(t, resp) != script {
			t.Errorf("Accept-Encoding %q: the content differs", c.accept)
		}
		if resp.Header.Get("Vary") != "Accept-Encoding" {
			t.Errorf("Accept-Encoding %q: caches are not told that the answer depends on it", c.accept)
		}
	}
	if got := ask(t, "GET", "/stitch.js").Header.Get("Content-Encoding"); got != "" {
		t.Errorf("no Accept-Encoding: expected the plain form, got %s", got)
	}
}

func FuzzWeights(f *testing.F) {
	f.Add("gzip;q=1.0, identity; q=0.5, *;q=0")
	f.Add(";;q=,,br;q=0.0001")
	f.Fuzz(func(t *testing.T, line string) {
		for coding, w := range parseWeights([]string{line}) {
			if !(w >= 0 && w <= 1) || coding == "" {
				t.Errorf("%q: coding %q has weight %v", line, coding, w)
			}
		}
	})
}

func TestRevisit(t *testing.T) {
	first := ask(t, "GET", "/stitch.js", "Accept-Encoding", "br")
	tag := first.Header.Get("ETag")
	if plain := ask(t, "GET", "/stitch.js").Header.Get("ETag"); plain == tag {
		t.Error("two forms of a file share an entity tag")
	}
	again := ask(t, "GET", "/stitch.js", "Accept-Encoding", "br", "If-None-Match", `"other", W/`+tag)
	if again.StatusCode != http.StatusNotModified || decode(t, &http.Response{Body: again.Body}) != "" {
		t.Errorf("expected an empty 304 for the same content, got %d", again.StatusCode)
	}
	changed := ask(t, "GET", "/stitch.js", "Accept-Encoding", "br", "If-None-Match", `"other"`)
	if changed.StatusCode != http.StatusOK {
		t.Errorf("expected 200 for other content, got %d", changed.StatusCode)
	}
}

func TestCaching(t *testing.T) {
	for path, want := range map[string]string{
		"/":                        "no-cache",
		"/app.wasm":                "no-cache",
		"/app.wasm?v=":             "no-cache",
		"/app.wasm?v=ffffffffffff": "no-cache",
		"/app.wasm?v=0123456789ab": "public, max-age=31536000, immutable",
	} {
		if got := ask(t, "GET", path).Header.Get("Cache-Control"); got != want {
			t.Errorf("%s: expected %q, got %q", path, want, got)
		}
	}
}

func TestMethods(t *testing.T) {
	head := ask(t, "HEAD", "/stitch.js", "Accept-Encoding", "br")
	get := ask(t, "GET", "/stitch.js", "Accept-Encoding", "br")
	if body := decode(t, &http.Response{Body: head.Body}); body != "" {
		t.Errorf("HEAD: expected no content, got %q", body)
	}
	for _, name := range []string{"Content-Length", "Content-Type", "Content-Encoding", "ETag"} {
		if h, g := head.Header.Get(name), get.Header.Get(name); h != g || h == "" {
			t.Errorf("HEAD: expected %s as for GET, %q, got %q", name, g, h)
		}
	}
	post := ask(t, "POST", "/stitch.js")
	if post.StatusCode != http.StatusMethodNotAllowed || post.Header.Get("Allow") != "GET, HEAD" {
		t.Errorf("POST: expected 405 and the methods allowed, got %d and %q", post.StatusCode, post.Header.Get("Allow"))
	}
}

// TestLocal: only this computer's own names are answered, with a port and without.
func TestLocal(t *testing.T) {
	site, err := New(fstest.MapFS{"index.html": {Data: []byte("cloth")}})
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]int{
		"localhost": 200, "localhost:8017": 200, "127.0.0.1:8017": 200, "127.0.0.1": 200, "[::1]:8017": 200, "[::1]": 200,
		"example.org": 421, "example.org:8017": 421, "127.0.0.1.example.org": 421, "192.0.2.7:8017": 421, "": 421,
	} {
		r := httptest.NewRequest("GET", "/", nil)
		r.Host = name
		w := httptest.NewRecorder()
		Local(site).ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("%q: expected %d, got %d", name, want, w.Code)
		}
	}
}

// TestSecurity: every answer, errors included, carries the headers, and the policy
// names no other origin.
func TestSecurity(t *testing.T) {
	want := map[string]string{
		"Cross-Origin-Opener-Policy":   "same-origin",
		"Cross-Origin-Embedder-Policy": "require-corp",
		"X-Content-Type-Options":       "nosniff",
		"Referrer-Policy":              "no-referrer",
	}
	for _, path := range []string{"/", "/app.wasm", "/absent"} {
		h := ask(t, "GET", path).Header
		for name, value := range want {
			if got := h.Get(name); got != value {
				t.Errorf("%s: expected %s: %s, got %q", path, name, value, got)
			}
		}
		checkPolicy(t, path, h.Get("Content-Security-Policy"))
	}
}

func checkPolicy(t *testing.T, path, policy string) {
	t.Helper()
	allowed := map[string]string{ // directive to the sources that it may name
		"default-src":     "'self'",
		"script-src":      "'self' 'wasm-unsafe-eval'",
		"worker-src":      "'self'",
		"connect-src":     "'self'",
		"img-src":         "'self' blob: data:",
		"object-src":      "'none'",
		"base-uri":        "'none'",
		"form-action":     "'none'",
		"frame-ancestors": "'none'",
	}
	found := map[string]bool{}
	for _, directive := range strings.Split(policy, "; ") {
		name, sources, _ := strings.Cut(directive, " ")
		if allowed[name] != sources {
			t.Errorf("%s: expected %s %s, got %q", path, name, allowed[name], sources)
		}
		found[name] = true
	}
	if len(found) != len(allowed) {
		t.Errorf("%s: expected the directives %v, got %q", path, allowed, policy)
	}
}
