package build

import (
	"bytes"
	"strings"
	"testing"
)

// The file of headers says for all addresses what Headers says, a line each.
func TestHeadersFile(t *testing.T) {
	dir := t.TempDir()
	if err := writeHeaders(dir); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSuffix(string(read(t, dir, HeadersFile)), "\n"), "\n")
	if lines[0] != "/*" || len(lines) != 1+len(Headers()) {
		t.Fatalf("%q", lines)
	}
	for i, h := range Headers() {
		if lines[i+1] != "  "+h.Name+": "+h.Value {
			t.Errorf("%q for %v", lines[i+1], h)
		}
	}
}

// The policy stands in the page before anything that it rules, without
// frame-ancestors, which does nothing there (CSP Level 3, 3.3).
func TestWithPolicy(t *testing.T) {
	page, err := withPolicy([]byte("<!doctype html>\n<meta charset=\"utf-8\">\n<script src=\"a.js\"></script>\n"))
	if err != nil {
		t.Fatal(err)
	}
	meta, script := bytes.Index(page, []byte("Content-Security-Policy")), bytes.Index(page, []byte("<script"))
	if meta < 0 || meta > script || bytes.Contains(page, []byte("frame-ancestors")) {
		t.Errorf("%s", page)
	}
	if _, err := withPolicy([]byte("<p>")); err == nil {
		t.Error("a page without its first line gets no policy, and nobody hears of it")
	}
}
