package build

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// ebitengine is the module whose copy is changed.
const ebitengine = "github.com/hajimehoshi/ebiten/v2"

// shaderPackage is the folder in it that makes shader sources by text/template.
const shaderPackage = "internal/builtinshader"

// Lever builds the program against a copy of Ebitengine without text/template and without
// its compiler of shaders (see prepareShaders).
//
// About text/template:
// That package looks methods up by name through reflection, which makes the
// linker keep every exported method of every type in the whole program. The
// engine needs it for 12 fixed strings only. With the strings made beforehand
// the linker drops dead methods again: on an empty program of Ebitengine v2.8.8
// that saves 31 % of the raw size and 26 % of the compressed one. golang/go
// issue 62024 describes the effect.
//
// The zero Lever builds against the stock module.
type Lever struct {
	// Dir is the changed copy of the module.
	Dir string
	// ModFile is a copy of go.mod in which Dir replaces the module.
	ModFile string
}

// Flags are the arguments that a go command needs to see the changed module.
func (l Lever) Flags() []string {
	if l.ModFile == "" {
		return nil
	}
	return []string{"-modfile=" + l.ModFile}
}

// NewLever makes the changed copy for the module in root, or finds it in work
// from an earlier build. The copy is named by its content, so that another
// version of the engine or of this package gets a new one.
func NewLever(ctx context.Context, root, work string) (Lever, error) {
	work, err := filepath.Abs(work)
	if err != nil {
		return Lever{}, err
	}
	if err := os.MkdirAll(work, 0o755); err != nil {
		return Lever{}, err
	}
	stock, err := downloadModule(ctx, root, ebitengine)
	if err != nil {
		return Lever{}, err
	}
	own, err := shaderFiles(root)
	if err != nil {
		return Lever{}, err
	}
	key, err := leverKey(stock, own)
	if err != nil {
		return Lever{}, err
	}
	l := Lever{Dir: filepath.Join(work, "ebiten-"+stock.Version+"-"+key)}
	if _, err := os.Stat(l.Dir); err != nil {
		if err := makeCopy(ctx, stock.Dir, l.Dir, own); err != nil {
			return Lever{}, err
		}
	}
	l.ModFile, err = writeModFile(ctx, root, work, l.Dir)
	return l, err
}

type moduleInfo struct{ Path, Version, Dir string }

// downloadModule finds the module at the version that go.mod in root asks for and
// fetches it if need be.
func downloadModule(ctx context.Context, root, path string) (moduleInfo, error) {
	var m moduleInfo
	out, err := goTool(ctx, root, nil, "mod", "download", "-json", path)
	if err != nil {
		return m, err
	}
	if err := json.Unmarshal(out, &m); err != nil {
		return m, fmt.Errorf("go mod download: %w", err)
	}
	if m.Dir == "" {
		return m, fmt.Errorf("go mod download gave no folder for %s", path)
	}
	return m, nil
}

// leverKey tells one pair of original and change from another.
func leverKey(stock moduleInfo, own []string) (string, error) {
	original, err := os.ReadFile(filepath.Join(stock.Dir, shaderPackage, "shader.go"))
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	parts := []string{string(original), generatorSource, changeNotice, encodeShaders, decodeShaders, shaderConstants, lookupShader, fmt.Sprint(edits)}
	for _, file := range own {
		text, err := os.ReadFile(file)
		if err != nil {
			return "", err
		}
		parts = append(parts, string(text))
	}
	for _, part := range parts {
		fmt.Fprintf(sum, "%d\n%s", len(part), part)
	}
	return hex.EncodeToString(sum.Sum(nil))[:8], nil
}

// makeCopy copies the module from one folder to the other and changes the copy.
// The copy appears under its name only when it is complete.
func makeCopy(ctx context.Context, from, to string, own []string) error {
	tmp, err := os.MkdirTemp(filepath.Dir(to), unfinished+"ebiten-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(tmp)
	if err := copyModule(from, tmp); err != nil {
		return fmt.Errorf("copy the module: %w", err)
	}
	if err := slimShaders(ctx, tmp); err != nil {
		return fmt.Errorf("replace the templates of %s: %w", shaderPackage, err)
	}
	if err := prepareShaders(ctx, tmp, own); err != nil {
		return fmt.Errorf("compile the shaders: %w", err)
	}
	if err := os.Rename(tmp, to); err != nil {
		if _, there := os.Stat(to); there == nil {
			return nil // another build was faster
		}
		return err
	}
	return nil
}

// copyModule copies what a build of the engine may need, licences included, and
// leaves out its examples and tests.
func copyModule(from, to string) error {
	return fs.WalkDir(os.DirFS(from), ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && (name == "examples" || entry.Name() == "testdata"):
			return fs.SkipDir
		case entry.IsDir() || strings.HasSuffix(name, "_test.go"):
			return nil
		}
		data, err := os.ReadFile(filepath.Join(from, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		return writeFile(filepath.Join(to, filepath.FromSlash(name)), data)
	})
}

// writeModFile writes copies of go.mod and go.sum for the -modfile flag. Inside
// the module the replacement is given by a relative path, which keeps the place
// of the sources on this machine out of the program.
func writeModFile(ctx context.Context, root, work, dir string) (string, error) {
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		return "", err
	}
	sum, err := os.ReadFile(filepath.Join(root, "go.sum"))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", err
	}
	target := dir
	if rel, err := filepath.Rel(root, dir); err == nil && filepath.IsLocal(rel) {
		target = "./" + filepath.ToSlash(rel)
	}
	mod = fmt.Appendf(bytes.TrimRight(mod, "\n"), "\n\nreplace %s => %s\n", ebitengine, target)
	file := filepath.Join(work, "slim.mod")
	if err := writeWhole(filepath.Join(work, "slim.sum"), sum); err != nil {
		return "", err
	}
	return file, writeWhole(file, mod)
}
