package build

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
)

// trial gives options for the site of testdata in a folder of the test.
func trial(t *testing.T) Options {
	t.Helper()
	root, err := ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	pages := t.TempDir()
	if err := os.CopyFS(pages, os.DirFS("testdata/pages")); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	return Options{
		Root: root, Main: "testdata/program", Pages: pages,
		Work: filepath.Join(dir, "work"), Out: filepath.Join(dir, "site"),
		Quality: QuickQuality, Notices: io.Discard,
	}
}

func mustBuild(t *testing.T, o Options) Report {
	t.Helper()
	r, err := Site(t.Context(), o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestSite(t *testing.T) {
	o := trial(t)
	r := mustBuild(t, o)
	var names []string
	for _, f := range r.Files {
		names = append(names, f.Name)
		checkForms(t, o.Out, f)
	}
	want := []string{ProgramFile, "art/line.svg", InfoFile, "index.html", LicencesFile, RuntimeFile}
	if !slices.Equal(names, want) {
		t.Errorf("expected the files %v, got %v", want, names)
	}
	program := read(t, o.Out, ProgramFile)
	// The magic number and version 1 that begin every module: WebAssembly Core
	// Specification, 5.5.16.
	if !bytes.HasPrefix(program, []byte("\x00asm\x01\x00\x00\x00")) {
		t.Errorf("the program begins with % x", program[:min(8, len(program))])
	}
	var info map[string]any
	if err := json.Unmarshal(read(t, o.Out, InfoFile), &info); err != nil {
		t.Fatal(err)
	}
	if info["wasmBytes"] != float64(len(program)) || info["version"] != r.Version {
		t.Errorf("expected %d bytes and version %s, got %v", len(program), r.Version, info)
	}
	if !bytes.Contains(read(t, o.Out, LicencesFile), []byte("Redistribution and use in source and binary forms")) {
		t.Error("the licence of Go is missing")
	}
	if bytes.Contains(program, []byte(o.Root)) {
		t.Error("the program holds the place of its sources on this machine")
	}
}

// checkForms decompresses the forms of a file and compares them with it.
func checkForms(t *testing.T, dir string, f File) {
	t.Helper()
	raw := read(t, dir, f.Name)
	if int64(len(raw)) != f.Raw {
		t.Errorf("%s: expected %d bytes, got %d", f.Name, len(raw), f.Raw)
	}
	for suffix, size := range map[string]int64{GzipSuffix: f.Gzip, BrotliSuffix: f.Brotli} {
		if size == 0 {
			if _, err := os.Stat(filepath.Join(dir, f.Name+suffix)); err == nil {
				t.Errorf("%s%s: there, but not reported", f.Name, suffix)
			}
			continue
		}
		packed := read(t, dir, f.Name+suffix)
		var unpacked io.Reader = brotli.NewReader(bytes.NewReader(packed))
		if suffix == GzipSuffix {
			z, err := gzip.NewReader(bytes.NewReader(packed))
			if err != nil {
				t.Fatal(err)
			}
			unpacked = z
		}
		got, err := io.ReadAll(unpacked)
		if err != nil || !bytes.Equal(got, raw) {
			t.Errorf("%s%s: does not give the file back (%v)", f.Name, suffix, err)
		}
		if int64(len(packed)) != size || size >= f.Raw {
			t.Errorf("%s%s: reported as %d bytes, has %d, the file %d", f.Name, suffix, size, len(packed), f.Raw)
		}
	}
}

// TestRebuild: equal sources give equal versions, also elsewhere; a changed file
// gives another; a file that is gone is gone from the site.
func TestRebuild(t *testing.T) {
	o := trial(t)
	first := mustBuild(t, o)
	if elsewhere := mustBuild(t, trial(t)); elsewhere.Version != first.Version {
		t.Errorf("built in two folders: versions %s and %s", first.Version, elsewhere.Version)
	}
	if err := os.Remove(filepath.Join(o.Pages, "art", "line.svg")); err != nil {
		t.Fatal(err)
	}
	long := strings.Repeat("p { color: indigo }\n", 100)
	if err := os.WriteFile(filepath.Join(o.Pages, "style.css"), []byte(long), 0o644); err != nil {
		t.Fatal(err)
	}
	if changed := mustBuild(t, o); changed.Version == first.Version {
		t.Error("other files, the same version")
	}
	if _, err := os.Stat(filepath.Join(o.Out, "art", "line.svg")); !os.IsNotExist(err) {
		t.Errorf("a deleted file is still in the site (%v)", err)
	}
}

// TestCompressOnce: what has not changed is taken from the work folder.
func TestCompressOnce(t *testing.T) {
	o := trial(t)
	mustBuild(t, o)
	stored := filepath.Join(o.Work, "compressed")
	entries, err := os.ReadDir(stored)
	if err != nil || len(entries) == 0 {
		t.Fatalf("expected stored forms, got %d (%v)", len(entries), err)
	}
	sign := []byte("taken from the store")
	for _, e := range entries {
		if err := os.WriteFile(filepath.Join(stored, e.Name()), sign, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	mustBuild(t, o)
	if got := read(t, o.Out, RuntimeFile+BrotliSuffix); !bytes.Equal(got, sign) {
		t.Error("an unchanged file was compressed again")
	}
	o.Quality = 1
	if r := mustBuild(t, o); len(r.Files) == 0 || bytes.Equal(read(t, o.Out, RuntimeFile+BrotliSuffix), sign) {
		t.Error("another quality was not asked of the compressor")
	}
}

func TestSiteErrors(t *testing.T) {
	for name, change := range map[string]func(*Options){
		"compile app.wasm":           func(o *Options) { o.Main = "testdata/absent" },
		"copy the files of the page": func(o *Options) { o.Pages = "testdata/absent" },
	} {
		o := trial(t)
		change(&o)
		if _, err := Site(t.Context(), o); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("expected an error that names %q, got %v", name, err)
		}
	}
}

func TestWriteSizes(t *testing.T) {
	var b strings.Builder
	r := Report{Files: []File{{"app.wasm", 5000, 2000, 1500}, {"a.html", 100, 0, 0}, {LicencesFile, 9000, 3000, 2500}, {SecondFile, 400, 300, 200}}}
	if err := r.WriteSizes(&b); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(b.String()), "\n")
	for i, want := range []string{"5100 2100 1600 until the first trace", "5500 2400 1800 with the second program"} {
		if got := strings.Join(strings.Fields(lines[len(lines)-2+i]), " "); got != want {
			t.Errorf("expected %q, got %q", want, got)
		}
	}
}

func read(t *testing.T, dir, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return data
}
