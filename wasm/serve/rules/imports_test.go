// Package rules holds the tests of the project's own shape: which package may
// import which, and where the clock may be read.
package rules

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/wasm/serve/build"
)

// table says what each package of the project may import besides the standard
// library: on the left the package, on the right packages of the project and
// paths of modules. "game/..." means the package and all below it. A package
// that is not on the left may not exist.
//
// The order is that of the layers: path knows nothing of traces, screens, storage
// or clocks; scoring gets a line and a trace and never learns how the line was
// planned; game/scene is the seam above which nothing draws; only what is js needs
// the engine, and only wasm/dom talks to the browser.
const table = `
path/geom            gonum.org/v1/gonum/spatial/r2
path/motif           path/geom gonum.org/v1/gonum
path/sketch          path/geom gonum.org/v1/gonum
path/plane           path/geom github.com/peterstace/simplefeatures gonum.org/v1/gonum
path/route           path/geom path/plane path/route/matching gonum.org/v1/gonum
path/route/matching
path/route/steps     path/geom path/plane path/route gonum.org/v1/gonum
path/quilt           path/geom path/motif path/plane path/sketch gonum.org/v1/gonum
path/quilt/order     path/geom path/machine path/motif path/plane path/quilt path/route path/route/steps gonum.org/v1/gonum
path/machine         path/geom gonum.org/v1/gonum
path/svg             path/geom
path/photo           path/geom path/sketch gonum.org/v1/gonum

scoring/trace        path/geom gonum.org/v1/gonum
scoring/align        path/geom scoring/trace gonum.org/v1/gonum
scoring              path/geom scoring/trace scoring/align gonum.org/v1/gonum
scoring/progress     path/geom scoring scoring/trace gonum.org/v1/gonum
scoring/practice     scoring/progress scoring

game                 path/... scoring/... game/film/reel game/work game/guard game/control game/place game/place/... game/screen game/page game/scene game/look game/keep game/replay game/plan game/words gonum.org/v1/gonum/spatial/r2 game/top
game/look
game/words
game/said            scoring game/words
game/control
game/control/checkhtml game/control golang.org/x/net
game/guard
game/keep            path/... scoring/... game/guard
game/plan            path/... game/replay game/words
game/place/draw      path/... scoring/trace game/work game/place game/keep game/place/draw/board game/screen game/scene game/control game/words game/look gonum.org/v1/gonum/spatial/r2
game/place/quilt     path/... scoring/trace game/work game/place game/keep game/top game/plan game/screen game/scene game/control game/words game/look gonum.org/v1/gonum/spatial/r2
game/place/draw/board path/... game/words gonum.org/v1/gonum
game/screen          path/geom gonum.org/v1/gonum/spatial/r2
game/place           path/... scoring/... game/work game/screen game/scene game/control game/words game/look game/keep game/plan game/top gonum.org/v1/gonum/spatial/r2
game/place/rehearse  path/... scoring/... game/film/reel game/work game/said game/place game/place/rehearse/guide game/place/rehearse/lesson game/screen game/scene game/control game/words game/look game/keep game/plan game/replay gonum.org/v1/gonum/spatial/r2
game/place/rehearse/guide  path/geom gonum.org/v1/gonum/spatial/r2
game/place/rehearse/lesson path/... scoring/... game/keep game/words
game/replay          path/geom path/machine scoring scoring/align scoring/trace game/keep game/guard
game/page            path/... scoring/... game game/control game/guard game/place game/place/... game/screen game/plan game/look game/keep game/replay game/words game/top
game/scene           path/... scoring/... game/plan game/words game/look game/keep game/replay game/screen gonum.org/v1/gonum/spatial/r2
game/work            path/... scoring/trace game/film/reel game/keep game/top game/plan game/sewing game/words
game/work/run        path/... scoring/trace game/synth game/film game/words game/guard game/keep game/top game/work game/plan game/card game/sewing
game/worktest        game game/work game/work/run
game/top             path/... game/plan game/words gonum.org/v1/gonum/spatial/r2
game/glyph           github.com/golang/freetype golang.org/x/image
game/softdraw        path/geom game/look game/scene game/glyph github.com/golang/freetype golang.org/x/image
game/film/reel       game/look game/scene
game/film            game/film/reel game/look game/scene game/softdraw
game/sewing          path/... game/plan game/words
game/card            path/... game/look game/scene game/sewing game/softdraw game/words codeberg.org/go-pdf/fpdf game/screen game/glyph game/plan gonum.org/v1/gonum/spatial/r2
game/place/back      path/... scoring/... game/work game/place game/place/back/... game/screen game/scene game/control game/words game/look game/keep game/replay gonum.org/v1/gonum/spatial/r2
game/place/back/weeks path/geom scoring/... game/keep game/words gonum.org/v1/gonum
game/place/machine   path/... game/work game/place game/place/machine/... game/sewing game/screen game/scene game/control game/words game/look game/plan game/top gonum.org/v1/gonum/spatial/r2
game/place/machine/bench path/... game/plan game/top game/words
game/place/route     path/... game/work game/place game/screen game/scene game/control game/words game/look game/plan game/top game/replay gonum.org/v1/gonum/spatial/r2
game/synth           path/geom scoring/trace gonum.org/v1/gonum
game/view            path/geom game/look game/scene game/glyph github.com/hajimehoshi/ebiten/v2

wasm/dom
wasm/work            game/work/run wasm/dom
wasm                 path/... scoring/... game/... wasm/dom github.com/hajimehoshi/ebiten/v2

wasm/serve/build     game/words github.com/andybalholm/brotli golang.org/x/net
wasm/serve/host      wasm/serve/build
wasm/serve           wasm/serve/build wasm/serve/host wasm/serve/weigh
wasm/serve/weigh
wasm/serve/lint
wasm/serve/rules
wasm/e2e             wasm/e2e/browser wasm/serve/build wasm/serve/host
wasm/e2e/browser     github.com/chromedp/chromedp github.com/chromedp/cdproto
`

// restricted names packages of the standard library with those that may import
// them: net/http would add 7.5 MB to the program, the template packages make the
// linker keep every method, and what talks to the browser has one place.
var restricted = map[string]string{
	"syscall/js":    "wasm/dom",
	"net/http":      "wasm/serve/... wasm/e2e/...",
	"text/template": "",
	"html/template": "",
}

// tests names packages that only tests may import.
var tests = []string{"game/control/checkhtml", "game/worktest"}

type listed struct {
	ImportPath string
	Imports    []string
	Standard   bool
}

// targets are the two machines that the project is built for.
var targets = map[string][]string{"native": nil, "browser": {"GOOS=js", "GOARCH=wasm"}}

// TestImports holds every direct import of every package against the table, for
// both targets.
func TestImports(t *testing.T) {
	allowed := parseTable(t)
	for target, env := range targets {
		for _, p := range list(t, env, "./...") {
			name := short(p.ImportPath)
			words, known := allowed[name]
			if !known {
				t.Errorf("%s: not in the table of imports", name)
				continue
			}
			for _, imp := range p.Imports {
				if err := judge(name, words, imp); err != nil {
					t.Errorf("%s (%s): %v", name, target, err)
				}
			}
		}
	}
}

// judge tells what is wrong with one import of the package, if anything.
func judge(name string, allowed []string, imp string) error {
	for _, test := range tests {
		if short(imp) == test {
			return fmt.Errorf("imports %s, which is for tests", test)
		}
	}
	if limited, ok := restricted[imp]; ok {
		if !matches(name, strings.Fields(limited)) {
			return fmt.Errorf("imports %s, which only [%s] may", imp, limited)
		}
		return nil
	}
	if isStandard(imp) || matches(short(imp), allowed) {
		return nil
	}
	return fmt.Errorf("imports %s, and may import only %v", short(imp), allowed)
}

// TestProgram looks at all that the program for the browser is made of, whoever
// imports it. The engine is seen as it is built: without its templates.
func TestProgram(t *testing.T) {
	root, err := build.ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	lever, err := build.NewLever(t.Context(), root, filepath.Join(root, ".build"))
	if err != nil {
		t.Fatal(err)
	}
	unwanted := map[string]string{
		"net/http":      "adds 7.5 MB",
		"text/template": "makes the linker keep every method",
		"html/template": "makes the linker keep every method",
		"testing":       "belongs in tests",
		"go/parser":     "compiles shaders, which was done beforehand",
		"math/big":      "is for numbers of any size",
	}
	// The work of these is done in the second program, which is fetched after the first frame.
	for _, beside := range []string{
		"unthreaded/game/work/run", "unthreaded/game/synth", "unthreaded/game/card", "unthreaded/game/film", "unthreaded/game/softdraw", "unthreaded/path/svg",
		"unthreaded/path/photo", "codeberg.org/go-pdf/fpdf", "encoding/gob", "image/gif", "image/jpeg", "image/png", "golang.org/x/image/draw",
	} {
		unwanted[beside] = "works beside the page"
	}
	for _, p := range list(t, targets["browser"], append(lever.Flags(), "-deps", "./wasm")...) {
		if why, ok := unwanted[p.ImportPath]; ok {
			t.Errorf("the program holds %s, which %s", p.ImportPath, why)
		}
	}
}

// TestNativeWithoutScreen: what is tested natively needs no engine, so that tests
// run on a machine without its libraries.
func TestNativeWithoutScreen(t *testing.T) {
	for _, p := range list(t, nil, "-deps", "./...") {
		if strings.HasPrefix(p.ImportPath, "github.com/hajimehoshi/ebiten") {
			t.Errorf("%s is needed natively", p.ImportPath)
		}
	}
}

func TestJudge(t *testing.T) {
	allowed := strings.Fields("path/... gonum.org/v1/gonum/spatial/r2")
	for _, c := range []struct {
		name, imp string
		ok        bool
	}{
		{"game", "fmt", true},
		{"game", "unthreaded/path", true},
		{"game", "unthreaded/path/geom", true},
		{"game", "unthreaded/pathology", false},
		{"game", "unthreaded/scoring", false},
		{"game", "unthreaded/game/worktest", false},
		{"game", "gonum.org/v1/gonum/spatial/r2", true},
		{"game", "gonum.org/v1/gonum/spatial/r2d2", false},
		{"game", "gonum.org/v1/gonum/stat", false},
		{"game", "syscall/js", false},
		{"wasm/dom", "syscall/js", true},
		{"wasm", "net/http", false},
		{"wasm/serve", "net/http", true},
		{"wasm/serve/host", "net/http", true},
		{"wasm/serve/host", "text/template", false},
	} {
		if err := judge(c.name, allowed, c.imp); (err == nil) != c.ok {
			t.Errorf("%s imports %s: expected allowed = %t, got %v", c.name, c.imp, c.ok, err)
		}
	}
}

func parseTable(t *testing.T) map[string][]string {
	t.Helper()
	allowed := map[string][]string{}
	for line := range strings.Lines(table) {
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		if _, twice := allowed[words[0]]; twice {
			t.Fatalf("%s is in the table twice", words[0])
		}
		allowed[words[0]] = words[1:]
	}
	return allowed
}

// matches tells whether a package is one of the allowed words: the same, below a
// word that ends in "/...", or of the module that the word names.
func matches(name string, words []string) bool {
	for _, w := range words {
		tree, whole := strings.CutSuffix(w, "/...")
		if name == tree || (whole || !isStandard(w)) && strings.HasPrefix(name, tree+"/") {
			return true
		}
	}
	return false
}

// isStandard tells a package of the standard library: the first element of its
// path holds no dot, and it is none of the project.
func isStandard(path string) bool {
	first, _, _ := strings.Cut(path, "/")
	return !strings.Contains(first, ".") && first != "unthreaded"
}

func short(path string) string { return strings.TrimPrefix(path, "unthreaded/") }

func list(t *testing.T, env []string, args ...string) []listed {
	t.Helper()
	root, err := build.ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), "go", append([]string{"list", "-json=ImportPath,Imports,Standard"}, args...)...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), env...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list %v: %v\n%s", args, err, stderr.Bytes())
	}
	var all []listed
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
}
