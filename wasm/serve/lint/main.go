// Command lint reports Go files and functions of the project that have grown too
// long to be read at one sitting. Run it from the folder of go.mod.
package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"strings"
)

// Limits in lines. Tests may be longer, since their tables count too.
var (
	programLimits = limits{file: 500, function: 80}
	testLimits    = limits{file: 600, function: 120}
)

type limits struct{ file, function int }

func main() {
	found, err := check(os.DirFS("."))
	if err != nil {
		fmt.Fprintln(os.Stderr, "lint:", err)
		os.Exit(1)
	}
	for _, f := range found {
		fmt.Println(f)
	}
	if len(found) > 0 {
		os.Exit(1)
	}
}

// check reads all Go files below the root, hidden folders and those for tests'
// data excepted, and returns a line for each excess.
func check(root fs.FS) ([]string, error) {
	var found []string
	err := fs.WalkDir(root, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() {
			if name != "." && (strings.HasPrefix(entry.Name(), ".") || entry.Name() == "testdata") {
				return fs.SkipDir
			}
			return nil
		}
		if path.Ext(name) != ".go" {
			return nil
		}
		source, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		long, err := excesses(name, source)
		found = append(found, long...)
		return err
	})
	return found, err
}

// excesses lists what is too long in one file.
func excesses(name string, source []byte) ([]string, error) {
	limit := programLimits
	if strings.HasSuffix(name, "_test.go") {
		limit = testLimits
	}
	var found []string
	if n := bytes.Count(source, []byte("\n")); n > limit.file {
		found = append(found, fmt.Sprintf("%s: %d lines, at most %d", name, n, limit.file))
	}
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, name, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	for _, decl := range file.Decls {
		f, ok := decl.(*ast.FuncDecl)
		if !ok {
			continue
		}
		from := fset.Position(f.Pos())
		if n := fset.Position(f.End()).Line - from.Line + 1; n > limit.function {
			found = append(found, fmt.Sprintf("%s:%d: %s has %d lines, at most %d", name, from.Line, f.Name.Name, n, limit.function))
		}
	}
	return found, nil
}
