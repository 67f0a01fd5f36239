//go:build !js

package words_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// glossary returns the rows of the table of trade words in DEVELOPERS.md: the thing in
// English, its German word, and the words that are not used for it.
func glossary(t *testing.T) [][]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, table, found := strings.Cut(string(text), "| thing | German | not |\n|---|---|---|\n")
	if !found {
		t.Fatal("DEVELOPERS.md has no glossary")
	}
	var out [][]string
	for line := range strings.Lines(table) {
		cells := strings.Split(strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(line), "|"), "|"), "|")
		if len(cells) != 3 {
			break
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		out = append(out, cells)
	}
	return out
}

// One thing has one word in German, as quilters say it (common practice): the word of the
// glossary stands somewhere in the catalogue, those it displaces stand nowhere.
func TestOneGermanWordForOneThing(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(root, "game/words/de/*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatal(err, len(files))
	}
	var all strings.Builder
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(text)
	}
	rows := glossary(t)
	if len(rows) < 20 {
		t.Fatalf("the glossary has %d rows", len(rows))
	}
	for _, row := range rows {
		if !strings.Contains(all.String(), strings.Split(row[1], ",")[0]) {
			t.Errorf("%s: %q is used nowhere", row[0], row[1])
		}
		for _, word := range strings.Split(row[2], ",") {
			if word = strings.TrimSpace(word); word == "" {
				continue
			}
			if at := regexp.MustCompile(`(?m)^.*\b` + word + `.*$`).FindString(all.String()); at != "" {
				t.Errorf("%s is %q, not %q: %s", row[0], row[1], word, at)
			}
		}
	}
}
