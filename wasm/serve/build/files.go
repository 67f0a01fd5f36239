package build

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// partsFolder holds parts of pages, which are put together at build time.
const partsFolder = "parts"

// copyPages copies the static files into the site and returns their names,
// slash-separated. Files whose name starts with a dot are left out; a page takes in
// its parts.
func copyPages(o Options) ([]string, error) {
	if o.Pages == "" {
		return nil, nil
	}
	var names []string
	pages := os.DirFS(o.Pages)
	err := fs.WalkDir(pages, ".", func(name string, entry fs.DirEntry, err error) error {
		if err == nil && entry.IsDir() && name == partsFolder {
			return fs.SkipDir
		}
		if err != nil || entry.IsDir() || strings.HasPrefix(entry.Name(), ".") {
			return err
		}
		data, err := fs.ReadFile(pages, name)
		if err != nil {
			return err
		}
		if path.Ext(name) == ".html" {
			if data, err = assemble(pages, data); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			if data, err = fillWords(data); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
			if data, err = withPolicy(data); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
		if name == TextsFile {
			if data, err = stampTexts(data); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
		names = append(names, name)
		return writeFile(filepath.Join(o.Out, filepath.FromSlash(name)), data)
	})
	return names, err
}

var partLine = regexp.MustCompile(`(?m)^[ \t]*<!-- part (\S+) -->\n`)

// assemble replaces each line "<!-- part NAME -->" of a page by the file NAME.html
// of the folder of parts. It fails on a part that is not there.
func assemble(pages fs.FS, page []byte) ([]byte, error) {
	var missing error
	whole := partLine.ReplaceAllFunc(page, func(line []byte) []byte {
		name := path.Join(partsFolder, string(partLine.FindSubmatch(line)[1])+".html")
		part, err := fs.ReadFile(pages, name)
		if err != nil {
			missing = errors.Join(missing, err)
		}
		return part
	})
	return whole, missing
}

// copyRuntime takes the script that belongs to the Go release in use: a script of
// another release fails to link with the program.
func copyRuntime(ctx context.Context, out string) error {
	goroot, err := goTool(ctx, "", nil, "env", "GOROOT")
	if err != nil {
		return err
	}
	data, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(goroot)), "lib", "wasm", RuntimeFile))
	if err != nil {
		return err
	}
	return writeFile(filepath.Join(out, RuntimeFile), data)
}

func writeFile(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, data, 0o644)
}

// contentVersion hashes names and contents, in alphabetical order of the names.
// 12 hex digits are 48 bits: ample to tell the builds of one project apart.
func contentVersion(dir string, names []string) (string, error) {
	names = slices.Sorted(slices.Values(names))
	sum := sha256.New()
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		if err != nil {
			return "", err
		}
		fmt.Fprintf(sum, "%s %d\n", name, len(data))
		sum.Write(data)
	}
	return hex.EncodeToString(sum.Sum(nil))[:12], nil
}

// removeStrangers deletes what an earlier build left in dir, so that a file gone
// from the sources is gone from the site.
func removeStrangers(dir string, files []File) error {
	keep := map[string]bool{HeadersFile: true}
	for _, f := range files {
		keep[f.Name] = true
		keep[f.Name+GzipSuffix] = f.Gzip > 0
		keep[f.Name+BrotliSuffix] = f.Brotli > 0
	}
	return fs.WalkDir(os.DirFS(dir), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || keep[name] {
			return err
		}
		return os.Remove(filepath.Join(dir, filepath.FromSlash(name)))
	})
}
