package browser_test

import (
	"errors"
	"fmt"
	"net/http/httptest"
	"os"
	"testing"

	"unthreaded/wasm/e2e/browser"
	"unthreaded/wasm/serve/host"
)

// shared is the browser of all tests here, and site the address of testdata.
var (
	shared *browser.Browser
	site   string
)

func TestMain(m *testing.M) {
	code, err := runTests(m)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(code)
}

func runTests(m *testing.M) (int, error) {
	handler, err := host.New(os.DirFS("testdata"))
	if err != nil {
		return 1, err
	}
	server := httptest.NewServer(handler)
	defer server.Close()
	site = server.URL
	shared, err = browser.Start(browser.Quick)
	if errors.Is(err, browser.ErrNotInstalled) && os.Getenv("CI") == "" {
		return 0, fmt.Errorf("SKIPPED, nothing here was tested: %w", err)
	}
	if err != nil {
		return 1, err
	}
	defer shared.Close()
	return m.Run(), nil
}

func openRecorder(t *testing.T, v browser.View) *browser.Page {
	t.Helper()
	p := shared.Open(t, v)
	p.Go(site + "/recorder.html")
	p.Ready()
	return p
}
