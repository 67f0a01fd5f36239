// Package e2e tests the page as it is served, in a real Chromium: what a person
// does with mouse, pen, finger and keys, and what she then sees.
//
// The site is built once for all tests. A test opens the page with open, which
// gives it fresh storage, and acts through the methods of browser.Page. Whatever
// the page complains of on its console fails the test.
//
// Tests that say t.Parallel run two at a time after all others: they do not depend on
// how fast frames come.
package e2e

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"unthreaded/wasm/e2e/browser"
	"unthreaded/wasm/serve/build"
	"unthreaded/wasm/serve/host"
)

var (
	chromium *browser.Browser // shared by all tests
	pages    http.Handler     // serves the built site; a test may serve it at an address of its own
	siteURL  string           // where pages is served for all tests
	report   build.Report     // of the site

	siteFolder string // where the site was built
)

// The three sizes that the page is looked at.
var (
	desk   = browser.View{Width: 1366, Height: 768}
	tablet = browser.View{Width: 820, Height: 1180, Touch: true}
	phone  = browser.View{Width: 390, Height: 844, Touch: true}
)

// brief is a small view for tests of timing: software drawing takes time in
// proportion to the pixels.
var brief = browser.View{Width: 480, Height: 700}

func TestMain(m *testing.M) {
	code, err := runTests(m)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(code)
}

func runTests(m *testing.M) (int, error) {
	if _, err := browser.Find(); errors.Is(err, browser.ErrNotInstalled) && os.Getenv("CI") == "" {
		return 0, fmt.Errorf("SKIPPED, the page was not tested: %w", err)
	}
	root, err := build.ModuleRoot()
	if err != nil {
		return 1, err
	}
	work := filepath.Join(root, ".build")
	out := filepath.Join(work, "site-e2e")
	siteFolder = out
	report, err = build.Site(context.Background(), build.Options{
		Root: root, Main: filepath.Join(root, "wasm"), Second: filepath.Join(root, "wasm", "work"), Pages: filepath.Join(root, "wasm", "site"),
		Work: work, Out: out, Quality: build.QuickQuality, Notices: os.Stderr,
	})
	if err != nil {
		return 1, fmt.Errorf("build the site: %w", err)
	}
	if pages, err = host.New(os.DirFS(out)); err != nil {
		return 1, err
	}
	server := httptest.NewServer(pages)
	defer server.Close()
	siteURL = server.URL
	if chromium, err = browser.Start(code()); err != nil {
		return 1, err
	}
	defer chromium.Close()
	return m.Run(), nil
}

// code is what a page is compiled to: for speed of the tests, unless speed itself
// is measured.
func code() browser.Code {
	flag.Parse()
	if flag.Lookup("test.bench").Value.String() != "" {
		return browser.Usual
	}
	return browser.Quick
}

// open shows the page to somebody new, up to the moment when she can begin.
func open(tb testing.TB, v browser.View) *browser.Page {
	tb.Helper()
	p := chromium.Open(tb, v)
	p.Go(siteURL + "/")
	p.Ready()
	return p
}
