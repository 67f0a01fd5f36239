package rules

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"

	"unthreaded/wasm/serve/build"
)

// clock names what package time offers that depends on when it is called.
var clock = map[string]bool{
	"Now": true, "Since": true, "Until": true, "Sleep": true, "After": true, "AfterFunc": true,
	"Tick": true, "NewTicker": true, "NewTimer": true,
}

// TestNoClock: outside wasm, times come in with the samples and messages, so that
// everything can be played again from a record.
func TestNoClock(t *testing.T) {
	root, err := build.ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, tree := range []string{"path", "scoring", "game"} {
		source := os.DirFS(root)
		err := fs.WalkDir(source, tree, func(name string, entry fs.DirEntry, err error) error {
			if err != nil || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
				return err
			}
			text, err := fs.ReadFile(source, name)
			if err != nil {
				return err
			}
			seen++
			for _, use := range clockUses(t, name, text) {
				t.Errorf("%s reads the clock", use)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if seen == 0 {
		t.Error("no sources were found")
	}
}

// clockUses lists the places in a file that depend on the time of day. A file that
// imports time by a dot is listed as a whole.
func clockUses(t *testing.T, name string, text []byte) []string {
	t.Helper()
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, name, text, 0)
	if err != nil {
		t.Fatal(err)
	}
	called := ""
	for _, imp := range file.Imports {
		if imp.Path.Value != `"time"` {
			continue
		}
		called = "time"
		if imp.Name != nil {
			called = imp.Name.Name
		}
	}
	if called == "" {
		return nil
	}
	if called == "." {
		return []string{name}
	}
	var uses []string
	ast.Inspect(file, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok && clock[s.Sel.Name] {
			if id, ok := s.X.(*ast.Ident); ok && id.Name == called {
				uses = append(uses, fset.Position(s.Pos()).String())
			}
		}
		return true
	})
	return uses
}

func TestClockUses(t *testing.T) {
	for _, c := range []struct {
		source string
		want   int
	}{
		{"import \"time\"\n\nvar a = time.Now()", 1},
		{"import t \"time\"\n\nvar a, b = t.Now, t.Since", 2},
		{"import . \"time\"\n\nvar a = Now()", 1},
		{"import \"time\"\n\nvar a = time.Unix(0, 0).Add(time.Second)", 0},
		{"var time struct{ Now func() }\n\nvar a = time.Now", 0},
	} {
		if got := clockUses(t, "a.go", []byte("package a\n\n"+c.source)); len(got) != c.want {
			t.Errorf("%q: expected %d, got %v", c.source, c.want, got)
		}
	}
}
