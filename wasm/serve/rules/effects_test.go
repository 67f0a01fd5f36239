package rules

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var (
	effectOf = regexp.MustCompile(`(?m)^func \((?:\w+ )?(\w+)\) IsEffect\(\)`)
	askOf    = regexp.MustCompile(`(?m)^func \((?:\w+ )?(\w+)\) For\(\) Name`)
	caseOf   = regexp.MustCompile(`(?m)^\tcase (?:\w+)\.(\w+):`)
)

// Every effect that the program can ask for is carried out on the page, but for what one
// place asks of another, which the program does itself.
func TestEveryEffectIsCarriedOut(t *testing.T) {
	top := filepath.Join("..", "..", "..")
	var effects, asks []string
	err := filepath.WalkDir(filepath.Join(top, "game"), func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		for _, m := range effectOf.FindAllStringSubmatch(string(text), -1) {
			effects = append(effects, m[1])
		}
		for _, m := range askOf.FindAllStringSubmatch(string(text), -1) {
			asks = append(asks, m[1])
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(top, "wasm", "effects.go"))
	if err != nil {
		t.Fatal(err)
	}
	var done []string
	for _, m := range caseOf.FindAllStringSubmatch(string(text), -1) {
		done = append(done, m[1])
	}
	if len(effects) < 20 || len(asks) < 3 || len(done) < 20 {
		t.Fatalf("%d effects, %d of them asks, %d carried out: the sources are not as this test reads them", len(effects), len(asks), len(done))
	}
	for _, e := range effects {
		if !slices.Contains(asks, e) && !slices.Contains(done, e) {
			t.Errorf("nothing is done about the effect %s", e)
		}
	}
}
