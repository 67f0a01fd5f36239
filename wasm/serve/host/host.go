// Package host serves a built site over HTTP: the right content types, the
// smallest form that the browser accepts, and the headers that keep the page to
// itself. It reads the whole site when it is made and never again.
package host

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"

	"unthreaded/wasm/serve/build"
)

// file is one file of the site in the forms that exist of it.
type file struct {
	contentType string
	forms       []form // from the preferred to the plain one
}

// form is one coding of a file's content.
type form struct {
	coding string // as in Content-Encoding; "identity" for the plain one
	data   []byte
	tag    string // entity tag, quoted
}

// codings lists the codings served, from the smallest result to the plain one,
// with the suffix of the file that holds it.
var codings = []struct{ name, suffix string }{{"br", ".br"}, {"gzip", ".gz"}, {identity, ""}}

// New makes a handler that serves the files of site. A file "x.br" or "x.gz"
// beside "x" is the compressed form of it and has no address of its own.
func New(site fs.FS) (http.Handler, error) {
	h := handler{files: map[string]file{}, version: version(site)}
	err := fs.WalkDir(site, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || isForm(site, name) {
			return err
		}
		f, err := load(site, name)
		if err != nil {
			return err
		}
		h.files["/"+name] = f
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("read the site: %w", err)
	}
	return h, nil
}

// isForm tells whether the file is a compressed form of another one.
func isForm(site fs.FS, name string) bool {
	for _, c := range codings {
		if plain, ok := strings.CutSuffix(name, c.suffix); ok && plain != name {
			_, err := fs.Stat(site, plain)
			return err == nil
		}
	}
	return false
}

func load(site fs.FS, name string) (file, error) {
	f := file{contentType: contentType(name)}
	for _, c := range codings {
		data, err := fs.ReadFile(site, name+c.suffix)
		if err != nil && c.suffix != "" {
			continue
		}
		if err != nil {
			return f, err
		}
		sum := sha256.Sum256(data)
		f.forms = append(f.forms, form{c.name, data, `"` + hex.EncodeToString(sum[:12]) + `"`})
	}
	return f, nil
}

// version reads what the build says of itself; empty if it says nothing.
func version(site fs.FS) string {
	var info build.Info
	text, err := fs.ReadFile(site, build.InfoFile)
	if err != nil || json.Unmarshal(text, &info) != nil {
		return ""
	}
	return info.Version
}

type handler struct {
	files   map[string]file // by URL path
	version string
}

func (h handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	setSecurity(w.Header())
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "this server only gives", http.StatusMethodNotAllowed)
		return
	}
	name := r.URL.Path
	if strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	f, ok := h.files[path.Clean(name)]
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Cache-Control", h.caching(r))
	f.serve(w, r)
}

// caching lets the browser keep for good what it asked for by the version of this
// build, as in "app.wasm?v=0123456789ab". All else it may keep but must ask each
// time whether it is still the one, which the entity tag answers in a few bytes:
// a new build shows at once.
func (h handler) caching(r *http.Request) string {
	if v := r.URL.Query().Get("v"); v != "" && v == h.version {
		return "public, max-age=31536000, immutable"
	}
	return "no-cache"
}

func (f file) serve(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	if len(f.forms) > 1 {
		head.Set("Vary", "Accept-Encoding")
	}
	best, ok := choose(f.forms, r.Header.Values("Accept-Encoding"))
	if !ok {
		head.Del("Cache-Control")
		http.Error(w, "no coding of this file is acceptable to the client", http.StatusNotAcceptable)
		return
	}
	head.Set("ETag", best.tag)
	if tagMatches(r.Header.Values("If-None-Match"), best.tag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	head.Set("Content-Type", f.contentType)
	head.Set("Content-Length", strconv.Itoa(len(best.data)))
	if best.coding != identity {
		head.Set("Content-Encoding", best.coding)
	}
	if r.Method == http.MethodHead {
		return
	}
	w.Write(best.data)
}

// tagMatches applies If-None-Match (RFC 9110, 13.1.2) with the weak comparison
// that it asks for.
func tagMatches(lines []string, tag string) bool {
	for _, line := range lines {
		for _, t := range strings.Split(line, ",") {
			t = strings.TrimPrefix(strings.TrimSpace(t), "W/")
			if t == tag || t == "*" {
				return true
			}
		}
	}
	return false
}
