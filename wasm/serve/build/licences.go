package build

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// licenceNames are the files which modules keep their terms in.
var licenceNames = []string{"LICENSE", "LICENSE.txt", "LICENSE.md", "LICENCE", "COPYING", "NOTICE", "NOTICE.txt", "PATENTS", filepath.FromSlash(fontLicence)}

// fontLicence is where the project keeps the terms of its typeface.
const fontLicence = "game/glyph/sans/OFL.txt"

// linkedModule is a module that the program holds code of.
type linkedModule struct {
	Path, Version, Dir string
	Main               bool
	Replace            *struct{ Dir string }
}

// writeLicences collects the terms of all that is linked into the program. Most
// of them ask that their text goes along with copies in compiled form.
func writeLicences(ctx context.Context, o Options, lever Lever) error {
	modules, err := linkedModules(ctx, o, lever)
	if err != nil {
		return err
	}
	goroot, err := goTool(ctx, "", nil, "env", "GOROOT", "GOVERSION")
	if err != nil {
		return err
	}
	place := strings.Split(strings.TrimSpace(string(goroot)), "\n")
	modules = append(modules, linkedModule{Path: "The Go programming language", Version: place[1], Dir: place[0]})
	var b bytes.Buffer
	b.WriteString("This program holds code of the following works.\n")
	for _, m := range modules {
		fmt.Fprintf(&b, "\n%s\n%s %s\n", strings.Repeat("=", 72), m.Path, m.Version)
		if m.Path == ebitengine && lever.ModFile != "" {
			fmt.Fprintf(&b, "Changed: shaders are compiled beforehand; their templates and their compiler are left out.\n")
		}
		for _, name := range licenceNames {
			if text, err := os.ReadFile(filepath.Join(m.Dir, name)); err == nil {
				fmt.Fprintf(&b, "\n%s\n", bytes.TrimSpace(text))
			}
		}
	}
	return writeFile(filepath.Join(o.Out, LicencesFile), b.Bytes())
}

// linkedModules lists the modules of the packages which the program needs, in
// alphabetical order, the project itself first.
func linkedModules(ctx context.Context, o Options, lever Lever) ([]linkedModule, error) {
	args := append([]string{"list", "-deps", "-json=Module"}, lever.Flags()...)
	for _, p := range o.programs() {
		folder, err := filepath.Abs(p.folder)
		if err != nil {
			return nil, err
		}
		args = append(args, folder)
	}
	out, err := goTool(ctx, o.Root, wasmTarget(), args...)
	if err != nil {
		return nil, err
	}
	byPath, err := decodeModules(out)
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	var all []linkedModule
	for _, m := range byPath {
		all = append(all, m)
	}
	slices.SortFunc(all, func(a, b linkedModule) int {
		if a.Main != b.Main {
			if a.Main {
				return -1
			}
			return 1
		}
		return strings.Compare(a.Path, b.Path)
	})
	return all, nil
}

// decodeModules reads the answer of go list, a JSON value for each package. Those
// of the standard library have no module.
func decodeModules(out []byte) (map[string]linkedModule, error) {
	byPath := map[string]linkedModule{}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p struct{ Module *linkedModule }
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return byPath, nil
		} else if err != nil {
			return nil, err
		}
		if p.Module == nil {
			continue
		}
		if r := p.Module.Replace; r != nil {
			p.Module.Dir = r.Dir
		}
		byPath[p.Module.Path] = *p.Module
	}
}
