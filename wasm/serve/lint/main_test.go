package main

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

func TestCheck(t *testing.T) {
	function := func(lines int) string {
		return "package a\n\n// A does a lot.\nfunc A() {\n" + strings.Repeat("\tprintln()\n", lines-2) + "}\n"
	}
	file := func(lines int) string {
		return "package a\n" + strings.Repeat("\n", lines-1)
	}
	source := func(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }
	found, err := check(fstest.MapFS{
		"short.go":           source(function(40)),
		"long.go":            source(function(41)),
		"short_test.go":      source(function(60)),
		"long_test.go":       source(function(61)),
		"deep/fits.go":       source(file(250)),
		"deep/over.go":       source(file(251)),
		"deep/fits_test.go":  source(file(300)),
		"deep/over_test.go":  source(file(301)),
		"testdata/long.go":   source(function(99)),
		".build/long.go":     source(function(99)),
		"notes/long_text.md": source(file(999)),
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"deep/over.go: 251 lines, at most 250",
		"deep/over_test.go: 301 lines, at most 300",
		"long.go:4: A has 41 lines, at most 40",
		"long_test.go:4: A has 61 lines, at most 60",
	}
	if !slices.Equal(found, want) {
		t.Errorf("expected %q, got %q", want, found)
	}
	if _, err := check(fstest.MapFS{"broken.go": source("func")}); err == nil {
		t.Error("a file that is no Go was accepted")
	}
}
