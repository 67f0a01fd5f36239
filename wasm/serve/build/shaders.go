package build

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"sort"
)

// changeNotice is put into the changed file, as section 4(b) of the Apache
// License 2.0 asks of "any modified files".
const changeNotice = `// Changed for Unthreaded: the shader sources were made beforehand by this very
// file in its original form, and the template and its execution are left out.

`

// generatorSource is a program that runs the original package and prints a Go
// table of all that its ShaderSource can answer.
const generatorSource = `package main

import (
	"fmt"

	original "generator/original"
)

func main() {
	fmt.Println("var shaderSources = [FilterCount][AddressCount][2]string{")
	for f := original.Filter(0); f < original.FilterCount; f++ {
		fmt.Println("{")
		for a := original.Address(0); a < original.AddressCount; a++ {
			fmt.Printf("{%q, %q},\n", original.ShaderSource(f, a, false), original.ShaderSource(f, a, true))
		}
		fmt.Println("},")
	}
	fmt.Println("}")
}
`

// lookupSource takes the place of the original ShaderSource. Callers may keep
// the bytes, and did get the same slice at each call.
const lookupSource = `
var shaders = func() (all [FilterCount][AddressCount][2][]byte) {
	for f := range shaderSources {
		for a := range shaderSources[f] {
			for c, s := range shaderSources[f][a] {
				all[f][a][c] = []byte(s)
			}
		}
	}
	return all
}()

// ShaderSource returns the built-in shader source based on the given parameters.
func ShaderSource(filter Filter, address Address, useColorM bool) []byte {
	if useColorM {
		return shaders[filter][address][1]
	}
	return shaders[filter][address][0]
}
`

// slimShaders replaces the templates in the module at dir by their results, and
// sees to it that the package still compiles.
func slimShaders(ctx context.Context, dir string) error {
	file := filepath.Join(dir, filepath.FromSlash(shaderPackage), "shader.go")
	original, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	table, err := runGenerator(ctx, original)
	if err != nil {
		return err
	}
	changed, err := rewriteShaders(original, table)
	if err != nil {
		return err
	}
	if err := os.WriteFile(file, changed, 0o644); err != nil {
		return err
	}
	_, err = goTool(ctx, filepath.Dir(file), []string{"GOFLAGS=", "GOWORK=off"}, "build", ".")
	return err
}

// runGenerator compiles the original file and the generator as a module of their
// own, for this machine, and returns what the generator prints.
func runGenerator(ctx context.Context, original []byte) ([]byte, error) {
	dir, err := os.MkdirTemp("", "shaders-*")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	for name, data := range map[string][]byte{
		"go.mod":               []byte("module generator\n\ngo 1.22\n"),
		"main.go":              []byte(generatorSource),
		"original/original.go": original,
	} {
		if err := writeFile(filepath.Join(dir, filepath.FromSlash(name)), data); err != nil {
			return nil, err
		}
	}
	native, err := nativeTarget(ctx)
	if err != nil {
		return nil, err
	}
	return goTool(ctx, dir, append(native, "GOFLAGS=", "GOWORK=off"), "run", ".")
}

// rewriteShaders cuts the template and what runs it out of the original source
// and adds the table and a plain lookup.
func rewriteShaders(original, table []byte) ([]byte, error) {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, "shader.go", original, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	cuts := obsolete(file)
	if len(cuts) != 4 {
		return nil, fmt.Errorf("expected imports, template, cache and ShaderSource, found %d of the 4", len(cuts))
	}
	var b bytes.Buffer
	at := fset.Position(file.Package).Offset
	b.Write(original[:at])
	b.WriteString(changeNotice)
	for _, cut := range cuts {
		from, to := fset.Position(cut[0]).Offset, fset.Position(cut[1]).Offset
		if from < at {
			return nil, errors.New("declarations overlap")
		}
		b.Write(original[at:from])
		at = to
	}
	b.Write(original[at:])
	b.WriteString("\n// shaderSources holds the results of the template by filter, address mode and\n// use of a colour matrix.\n")
	b.Write(table)
	b.WriteString(lookupSource)
	return format.Source(b.Bytes())
}

// obsolete finds the declarations to cut, in the order of the source: the
// imports, the variables tmpl and shaders, and the function ShaderSource.
func obsolete(file *ast.File) [][2]token.Pos {
	var cuts [][2]token.Pos
	for _, decl := range file.Decls {
		from := decl.Pos()
		switch d := decl.(type) {
		case *ast.GenDecl:
			if d.Tok != token.IMPORT && !declares(d, "tmpl") && !declares(d, "shaders") {
				continue
			}
			if d.Doc != nil {
				from = d.Doc.Pos()
			}
		case *ast.FuncDecl:
			if d.Name.Name != "ShaderSource" {
				continue
			}
			if d.Doc != nil {
				from = d.Doc.Pos()
			}
		}
		cuts = append(cuts, [2]token.Pos{from, decl.End()})
	}
	sort.Slice(cuts, func(i, j int) bool { return cuts[i][0] < cuts[j][0] })
	return cuts
}

// declares tells whether the declaration has a variable of that name.
func declares(d *ast.GenDecl, name string) bool {
	for _, spec := range d.Specs {
		if v, ok := spec.(*ast.ValueSpec); ok && d.Tok == token.VAR {
			for _, id := range v.Names {
				if id.Name == name {
					return true
				}
			}
		}
	}
	return false
}
