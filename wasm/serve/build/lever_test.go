package build

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// comparison runs the original package, template and all, beside the changed one
// and compares every source that they give.
const comparison = `package main

import (
	"bytes"
	"fmt"

	changed "comparison/changed"
	original "comparison/original"
)

func main() {
	same := 0
	for f := range original.FilterCount {
		for a := range original.AddressCount {
			for _, colorM := range []bool{false, true} {
				want := original.ShaderSource(original.Filter(f), original.Address(a), colorM)
				got := changed.ShaderSource(changed.Filter(f), changed.Address(a), colorM)
				if !bytes.Equal(got, want) {
					fmt.Printf("filter %d, address %d, colour matrix %t: expected %q, got %q\n", f, a, colorM, want, got)
					continue
				}
				same++
			}
		}
	}
	all := len(original.AppendShaderSources(nil))
	for i, want := range original.AppendShaderSources(nil) {
		if got := changed.AppendShaderSources(nil)[i]; !bytes.Equal(got, want) {
			fmt.Printf("source %d of %d: expected %q, got %q\n", i, all, want, got)
		}
	}
	fmt.Printf("%d by parameters and %d in all\n", same, all)
}
`

// TestShadersUnchanged holds the strings made beforehand against what the template
// of the pinned engine answers now.
func TestShadersUnchanged(t *testing.T) {
	root, err := ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	lever, err := NewLever(t.Context(), root, filepath.Join(t.TempDir(), "not yet there"))
	if err != nil {
		t.Fatal(err)
	}
	stock, err := downloadModule(t.Context(), root, ebitengine)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	shader := filepath.Join(filepath.FromSlash(shaderPackage), "shader.go")
	changed := read(t, lever.Dir, shader)
	for name, data := range map[string][]byte{
		"go.mod":               []byte("module comparison\n\ngo 1.22\n"),
		"main.go":              []byte(comparison),
		"original/original.go": read(t, stock.Dir, shader),
		"changed/changed.go":   changed,
	} {
		if err := writeFile(filepath.Join(dir, filepath.FromSlash(name)), data); err != nil {
			t.Fatal(err)
		}
	}
	out, err := goTool(t.Context(), dir, []string{"GOWORK=off"}, "run", ".")
	if err != nil {
		t.Fatal(err)
	}
	// Two filters, three address modes, with and without a colour matrix; the
	// engine adds one source for the screen and one for clearing.
	if got := strings.TrimSpace(string(out)); got != "12 by parameters and 14 in all" {
		t.Error(got)
	}
	for _, text := range []string{"Apache License, Version 2.0", "Changed for Unthreaded"} {
		if !bytes.Contains(changed, []byte(text)) {
			t.Errorf("the changed file lacks %q", text)
		}
	}
	if _, err := os.Stat(filepath.Join(lever.Dir, "LICENSE")); err != nil {
		t.Errorf("the changed module lacks its licence: %v", err)
	}
}

// TestDeadMethodsGo asks the linker whether anything in the program looks methods
// up by name, which would make it keep every exported method of all types.
func TestDeadMethodsGo(t *testing.T) {
	root, err := ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	lever, err := NewLever(t.Context(), root, filepath.Join(root, ".build"))
	if err != nil {
		t.Fatal(err)
	}
	dump := func(l Lever) []string {
		args := append([]string{"build", "-trimpath", "-ldflags=-s -w -dumpdep", "-o", filepath.Join(t.TempDir(), "program")}, l.Flags()...)
		_, text, err := goToolBoth(t.Context(), root, wasmTarget(), append(args, "./wasm")...)
		if err != nil {
			t.Fatal(err)
		}
		return culprits(text)
	}
	if found := dump(lever); len(found) > 0 {
		t.Errorf("dead methods are kept, since these look methods up by name:\n%s", strings.Join(found, "\n"))
	}
	if found := dump(Lever{}); len(found) == 0 {
		t.Error("the stock engine looks no methods up by name any more: the changed copy has become needless")
	}
}

// culprits lists the functions that the linker marks in its dump.
func culprits(dump []byte) []string {
	var found []string
	for line := range strings.Lines(string(dump)) {
		from, _, _ := strings.Cut(line, " -> ")
		if name, ok := strings.CutSuffix(from, " <ReflectMethod>"); ok && !slices.Contains(found, name) {
			found = append(found, name)
		}
	}
	return found
}

// TestWithoutLever: a module whose engine cannot be changed is built all the same,
// and its builder is told.
func TestWithoutLever(t *testing.T) {
	root := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":  "module plain\n\ngo 1.26\n",
		"main.go": "package main\n\nfunc main() { println(\"plain\") }\n",
	} {
		if err := os.WriteFile(filepath.Join(root, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var notices strings.Builder
	o := Options{
		Root: root, Main: root, Work: filepath.Join(root, ".build"), Out: filepath.Join(root, ".build", "site"),
		Quality: QuickQuality, Notices: &notices,
	}
	if r := mustBuild(t, o); r.Slim || r.WasmBytes == 0 {
		t.Errorf("expected a stock program, got %+v", r)
	}
	if !strings.HasPrefix(notices.String(), "notice: Ebitengine is built unchanged") {
		t.Errorf("expected a notice, got %q", notices.String())
	}
}

// TestRewriteRefuses: an engine whose file looks otherwise is left alone.
func TestRewriteRefuses(t *testing.T) {
	for name, source := range map[string]string{
		"no template":   "package builtinshader\n\nimport \"sync\"\n\nvar shaders sync.Map\n\nfunc ShaderSource() {}\n",
		"no function":   "package builtinshader\n\nimport \"sync\"\n\nvar shaders sync.Map\n\nvar tmpl int\n",
		"no Go":         "shader",
		"nothing in it": "package builtinshader\n",
	} {
		if out, err := rewriteShaders([]byte(source), []byte("var shaderSources = 1\n")); err == nil {
			t.Errorf("%s: expected a refusal, got %s", name, out)
		}
	}
}
