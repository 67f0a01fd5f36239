package rules

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"strings"
	"testing"

	"unthreaded/wasm/serve/build"
)

// Nothing skips where CI is set: a function that skips a test asks for CI first, or whether
// the run is a short one. Benchmarks may, and so may draws of a property test (rt).
func TestNothingSkipsWithCI(t *testing.T) {
	root, err := build.ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	source, skips := os.DirFS(root), 0
	for _, tree := range []string{"path", "scoring", "game", "wasm"} {
		err := fs.WalkDir(source, tree, func(name string, entry fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(name, "_test.go") {
				return err
			}
			text, err := fs.ReadFile(source, name)
			if err != nil {
				return err
			}
			for _, f := range skipping(t, name, text) {
				skips++
				if !strings.Contains(f, `os.Getenv("CI")`) && !strings.Contains(f, "testing.Short()") {
					t.Errorf("%s skips with CI set:\n%s", name, f)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if skips == 0 {
		t.Error("no test that skips was found: the sources are not as this test reads them")
	}
}

// skipping returns the functions of a file that skip tests.
func skipping(t *testing.T, name string, text []byte) (out []string) {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), name, text, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range file.Decls {
		skips := false
		ast.Inspect(d, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok && strings.HasPrefix(s.Sel.Name, "Skip") {
				on, ok := s.X.(*ast.Ident)
				skips = skips || ok && (on.Name == "t" || on.Name == "tb")
			}
			return true
		})
		if skips {
			out = append(out, string(text[d.Pos()-1:d.End()-1]))
		}
	}
	return out
}
