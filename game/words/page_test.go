//go:build !js

package words_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// pages returns the HTML files of the page, parts included, by their names.
func pages(t *testing.T) map[string]*html.Node {
	t.Helper()
	out := map[string]*html.Node{}
	for name, text := range siteFiles(t, "*.html", "parts/*.html") {
		n, err := html.ParseWithOptions(strings.NewReader(text), html.ParseOptionEnableScripting(false))
		if err != nil {
			t.Fatal(err)
		}
		out[name] = n
	}
	return out
}

func siteFiles(t *testing.T, patterns ...string) map[string]string {
	t.Helper()
	site := filepath.Join(root, "wasm/site")
	out := map[string]string{}
	for _, p := range patterns {
		list, err := filepath.Glob(filepath.Join(site, p))
		if err != nil || len(list) == 0 {
			t.Fatalf("%s: %v, %d files", p, err, len(list))
		}
		for _, path := range list {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			name, _ := filepath.Rel(site, path)
			out[filepath.ToSlash(name)] = string(text)
		}
	}
	return out
}

// saidByScript finds the messages that the scripts of the page name.
var saidByScript = regexp.MustCompile(`\bsay\('([a-z0-9.-]+)'`)

// usesOnPage returns the messages that the page names: by data-words, by
// data-words-attr="attribute:key,...", and by say('key') in the scripts. They take no
// arguments.
func usesOnPage(t *testing.T) []use {
	t.Helper()
	var out []use
	for name, page := range pages(t) {
		for n := range page.Descendants() {
			for _, a := range n.Attr {
				switch a.Key {
				case "data-words":
					out = append(out, use{at: name, key: a.Val})
				case "data-words-attr":
					for pair := range strings.SplitSeq(a.Val, ",") {
						_, key, _ := strings.Cut(pair, ":")
						out = append(out, use{at: name, key: key})
					}
				}
			}
		}
	}
	for name, script := range siteFiles(t, "*.js") {
		for _, m := range saidByScript.FindAllStringSubmatch(script, -1) {
			out = append(out, use{at: name, key: m[1], args: -1, prefix: strings.HasSuffix(m[1], ".")})
		}
	}
	return out
}

// No text of the page stands in the HTML: all of it comes from the catalogue or from
// what the program shows.
func TestNoTextInHTML(t *testing.T) {
	for name, page := range pages(t) {
		for _, text := range ownTexts(page) {
			t.Errorf("%s: %q belongs in the catalogue", name, text)
		}
	}
}

var letters = regexp.MustCompile(`\p{L}{2,}`)

// ownTexts returns the texts of a page that a person reads: text and speaking attributes.
func ownTexts(page *html.Node) []string {
	var out []string
	for n := range page.Descendants() {
		if n.Type == html.TextNode && letters.MatchString(n.Data) && n.Parent.Data != "script" && n.Parent.Data != "style" {
			out = append(out, strings.TrimSpace(n.Data))
		}
		for _, a := range n.Attr {
			if slices.Contains([]string{"aria-label", "alt", "title", "placeholder"}, a.Key) && letters.MatchString(a.Val) {
				out = append(out, a.Val)
			}
		}
	}
	return out
}

func TestOwnTexts(t *testing.T) {
	page, err := html.Parse(strings.NewReader(`<html><head><script>one two</script></head><body><p data-words="a.b"></p><p>own</p><img alt="seen">
<template><i>inner</i></template><p> 3 </p></body></html>`))
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(ownTexts(page), ","); got != "own,seen,inner" {
		t.Errorf("found %s", got)
	}
}
