package weigh

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// The functions of a module weigh what its code section does, but for their sizes and counts;
// those of the runtime are in every program of Go, and a function stands under its package.
func TestAProgramIsWeighed(t *testing.T) {
	dir := t.TempDir()
	source := "package main\n\nimport \"strings\"\n\nfunc main() { println(strings.Repeat(\"a\", 3)) }\n"
	for name, text := range map[string]string{"go.mod": "module tiny\n\ngo 1.26\n", "main.go": source} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.CommandContext(t.Context(), "go", "build", "-trimpath", "-ldflags=-w", "-o", "tiny.wasm", ".")
	cmd.Dir, cmd.Env = dir, append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOWORK=off")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	module, err := os.ReadFile(filepath.Join(dir, "tiny.wasm"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := Read(module)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0
	for _, f := range p.Functions {
		sum += f.Bytes
	}
	// Each body has its size before it, in at most five bytes (LEB128 of 32 bits).
	if n := len(p.Functions); sum > p.Code || p.Code-sum > 5*(n+1) {
		t.Errorf("%d functions of %d bytes in a section of %d", n, sum, p.Code)
	}
	all := p.Packages([]string{"runtime", "strings", "main", "internal/runtime/maps"})
	found := map[string]int{}
	for i, k := range all {
		found[k.Path] = k.Bytes
		if i > 0 && k.Bytes > all[i-1].Bytes {
			t.Error("the packages are not in order")
		}
	}
	if all[0].Path != "runtime" || found["strings"] == 0 || found["main"] == 0 || found["internal/runtime/maps"] == 0 {
		t.Errorf("the packages are %v", found)
	}
}

func TestNoModule(t *testing.T) {
	for _, text := range []string{"", "text", "\x00asm\x01\x00\x00\x00", "\x00asm\x01\x00\x00\x00\x0a\x7f"} {
		if _, err := Read([]byte(text)); !errors.Is(err, errModule) {
			t.Errorf("%q: %v", text, err)
		}
	}
}
