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
		"short.go":           source(function(80)),
		"long.go":            source(function(81)),
		"short_test.go":      source(function(120)),
		"long_test.go":       source(function(121)),
		"deep/fits.go":       source(file(500)),
		"deep/over.go":       source(file(501)),
		"deep/fits_test.go":  source(file(600)),
		"deep/over_test.go":  source(file(601)),
		"testdata/long.go":   source(function(199)),
		".build/long.go":     source(function(199)),
		"notes/long_text.md": source(file(999)),
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"deep/over.go: 501 lines, at most 500",
		"deep/over_test.go: 601 lines, at most 600",
		"long.go:4: A has 81 lines, at most 80",
		"long_test.go:4: A has 121 lines, at most 120",
	}
	if !slices.Equal(found, want) {
		t.Errorf("expected %q, got %q", want, found)
	}
	if _, err := check(fstest.MapFS{"broken.go": source("func")}); err == nil {
		t.Error("a file that is no Go was accepted")
	}
}
