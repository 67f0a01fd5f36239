package build

import (
	"bytes"
	"context"
	_ "embed"
	"fmt"
	"go/format"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// The engine compiles its shaders, and the page's, at each start from text: a third of a
// second, and a parser of Go, regular expressions and numbers of any size in the program.
// Here that is done beforehand by the engine's own compiler. What takes the compiler's place
// looks the compiled form up by a hash of the text; its parts stand in the folder engine.
var (
	//go:embed engine/encode.go.txt
	encodeShaders string
	//go:embed engine/decode.go.txt
	decodeShaders string
	//go:embed engine/constant.go.txt
	shaderConstants string
)

const (
	generatorImports = `package main

import (
	"encoding/binary"
	"fmt"
	"go/constant"
	"math"
	"os"
	"reflect"

	"` + ebitengine + `/internal/builtinshader"
	"` + ebitengine + `/internal/graphics"
	"` + ebitengine + `/internal/shaderir"
	"` + ebitengine + `/internal/shaderir/glsl"
)
`
	lookupShader = `
// Changed for Unthreaded: shaders were compiled beforehand, by this very package in its
// original form; only those can be had.

package graphics

import (
	"encoding/binary"
	"errors"
	"math"

	"` + ebitengine + `/internal/shaderir"
	"` + ebitengine + `/internal/shaderir/constant"
)

// CompileShader returns the compiled form of a shader by its source.
func CompileShader(fragmentSrc []byte) (*shaderir.Program, error) {
	text, ok := preparedShaders[shaderir.CalcSourceHash(fragmentSrc)]
	if !ok {
		return nil, errors.New("graphics: the shader was not compiled beforehand")
	}
	return decodeShader(text), nil
}
`
)

// edit is a change in a file of the engine: each old text, which stands there once, by its new.
type edit struct {
	file  string
	texts []string // old, new, old, new
}

// edits let the rest of the engine do without its compiler.
var edits = []edit{
	{"internal/shaderir/program.go", []string{`"go/constant"`, `"` + ebitengine + `/internal/shaderir/constant"`}},
	{"internal/shaderir/glsl/glsl.go", []string{
		`"go/constant"`, `"` + ebitengine + `/internal/shaderir/constant"`,
		"\t\"regexp\"\n", "",
		"	nls := regexp.MustCompile(`\\n\\n+`)\n", `	fewer := func(s string) string {
		for strings.Contains(s, "\n\n\n") {
			s = strings.ReplaceAll(s, "\n\n\n", "\n\n")
		}
		return s
	}
`,
		`nls.ReplaceAllString(vs, "\n\n")`, `fewer(vs)`,
		`nls.ReplaceAllString(fs, "\n\n")`, `fewer(fs)`,
	}},
}

// shaderFiles are the shaders of the project, which lie beside what draws with them.
func shaderFiles(root string) ([]string, error) {
	files, err := filepath.Glob(filepath.Join(root, "game", "view", "*.kage"))
	slices.Sort(files)
	return files, err
}

// prepareShaders compiles all shaders in the copy of the engine at dir and takes its compiler
// out. It fails, and leaves the copy half changed, on an engine that it does not understand.
func prepareShaders(ctx context.Context, dir string, own []string) error {
	table, err := compiledShaders(ctx, dir, own)
	if err != nil {
		return err
	}
	file := filepath.Join(dir, "internal", "graphics", "shader.go")
	original, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	head, _, found := bytes.Cut(original, []byte("\npackage graphics\n"))
	if !found {
		return fmt.Errorf("%s does not begin as it did", file)
	}
	text, err := format.Source(slices.Concat(head, []byte(lookupShader), []byte(decodeShaders), table))
	if err != nil {
		return err
	}
	if err := os.WriteFile(file, text, 0o644); err != nil {
		return err
	}
	if err := writeFile(filepath.Join(dir, "internal", "shaderir", "constant", "constant.go"), []byte(shaderConstants)); err != nil {
		return err
	}
	if err := os.Remove(filepath.Join(dir, "internal", "shaderir", "check.go")); err != nil {
		return err
	}
	for _, e := range edits {
		if err := e.apply(dir); err != nil {
			return err
		}
	}
	_, err = goTool(ctx, dir, append(wasmTarget(), "GOFLAGS=-mod=mod", "GOWORK=off"), "build", "./internal/graphics", "./internal/shaderir/glsl")
	return err
}

// compiledShaders runs the engine's compiler on this machine.
func compiledShaders(ctx context.Context, dir string, own []string) ([]byte, error) {
	native, err := nativeTarget(ctx)
	if err != nil {
		return nil, err
	}
	generator := filepath.Join(dir, "internal", "prepare")
	defer os.RemoveAll(generator)
	if err := writeFile(filepath.Join(generator, "main.go"), []byte(generatorImports+decodeShaders+encodeShaders)); err != nil {
		return nil, err
	}
	return goTool(ctx, dir, append(native, "GOFLAGS=-mod=mod", "GOWORK=off"), append([]string{"run", "./internal/prepare"}, own...)...)
}

func (e edit) apply(dir string) error {
	file := filepath.Join(dir, filepath.FromSlash(e.file))
	text, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	changed := string(text)
	for i := 0; i < len(e.texts); i += 2 {
		if n := strings.Count(changed, e.texts[i]); n != 1 {
			return fmt.Errorf("%s holds %q %d times", e.file, e.texts[i], n)
		}
		changed = strings.Replace(changed, e.texts[i], e.texts[i+1], 1)
	}
	_, body, found := strings.Cut(changed, "\npackage ")
	if !found {
		return fmt.Errorf("%s does not begin as it did", e.file)
	}
	head := strings.TrimSuffix(changed, "\npackage "+body)
	notice := "\n// Changed for Unthreaded: the compiler of shaders and what it needs are left out.\n"
	out, err := format.Source([]byte(head + notice + "\npackage " + body))
	if err != nil {
		return err
	}
	return os.WriteFile(file, out, 0o644)
}
