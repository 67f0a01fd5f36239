// Package build makes the site: the WebAssembly program, the files of the page
// and the runtime script of the Go release that compiled the program, each with
// its compressed forms beside it, ready for package host or any static server.
package build

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// Names of the files which the build adds to those of the page.
const (
	// ProgramFile is the WebAssembly program.
	ProgramFile = "app.wasm"
	// SecondFile is the program that works beside it.
	SecondFile = "work.wasm"
	// RuntimeFile is Go's own script that runs the program.
	RuntimeFile = "wasm_exec.js"
	// InfoFile describes the build; see Info.
	InfoFile = "build.json"
	// WorkerFile is the service worker, which keeps the site on the device; the
	// build tells it the version and the files.
	WorkerFile = "sw.js"
	// LicencesFile holds the licences of everything linked into the program.
	LicencesFile = "licences.txt"
)

// Brotli qualities for the two uses of a build. Measured on a program of 6.8 MB
// with andybalholm/brotli v1.2.8 on one core: 5 takes 0.4 s for 1.52 MB, 11
// takes 16 s for 1.30 MB. Qualities 6 to 9 gain 2.6 % at most for up to 1.1 s.
const (
	QuickQuality = 5
	BestQuality  = 11
)

// Options says what to build and where to put it. Paths are absolute or relative
// to the working directory, Root excepted.
type Options struct {
	// Root is the folder of go.mod; ModuleRoot finds it.
	Root string
	// Main is the folder of the main package, compiled for js/wasm.
	Main string
	// Second is that of the program which works beside the page; empty for none.
	Second string
	// Pages is the folder of the static files; empty for none.
	Pages string
	// Work keeps what later builds use again: the changed copy of Ebitengine and
	// compressed files by content.
	Work string
	// Out receives the site. Files in it which no longer belong are deleted.
	Out string
	// Quality is that of brotli, from 0 to 11.
	Quality int
	// Notices receives what the builder should know, a line each.
	Notices io.Writer
}

// program is one of the programs of a site: the folder of its main package and its file.
type program struct{ folder, file string }

func (o Options) programs() []program {
	out := []program{{o.Main, ProgramFile}}
	if o.Second != "" {
		out = append(out, program{o.Second, SecondFile})
	}
	return out
}

// Info is the content of InfoFile.
type Info struct {
	// WasmBytes is the size of the program before compression, against which a
	// page can show the progress of the transfer.
	WasmBytes int64 `json:"wasmBytes"`
	// Version is a hash over names and contents of all other files of the site:
	// the same sources give the same version.
	Version string `json:"version"`
}

// Report is what a build has made.
type Report struct {
	Info
	// Slim tells that the program was linked without text/template; see Lever.
	Slim bool
	// Files lists the site by name, in alphabetical order.
	Files []File
}

// File is one file of the site with its sizes in bytes. A compressed size of 0
// means that there is no such form, since it would not have been smaller.
type File struct {
	Name              string
	Raw, Gzip, Brotli int64
}

// Site builds the site of o. Its errors name the step that failed.
func Site(ctx context.Context, o Options) (Report, error) {
	var r Report
	for _, dir := range []string{o.Work, o.Out} {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return r, fmt.Errorf("make a folder: %w", err)
		}
	}
	names, err := copyPages(o)
	if err != nil {
		return r, fmt.Errorf("copy the files of the page: %w", err)
	}
	if err := copyRuntime(ctx, o.Out); err != nil {
		return r, fmt.Errorf("copy %s: %w", RuntimeFile, err)
	}
	lever := pullLever(ctx, o)
	programs := o.programs()
	for _, p := range programs {
		if err := compile(ctx, o, lever, p); err != nil {
			return r, fmt.Errorf("compile %s: %w", p.file, err)
		}
		names = append(names, p.file)
	}
	if err := writeLicences(ctx, o, lever); err != nil {
		return r, fmt.Errorf("collect licences: %w", err)
	}
	names = append(names, RuntimeFile, LicencesFile)
	r.Slim = lever.ModFile != ""
	if r.Info, err = writeInfo(o.Out, names); err != nil {
		return r, fmt.Errorf("write %s: %w", InfoFile, err)
	}
	if err := stampWorker(o.Out, r.Version, names); err != nil {
		return r, fmt.Errorf("write %s: %w", WorkerFile, err)
	}
	r.Files, err = compressAll(o, append(names, InfoFile))
	if err != nil {
		return r, fmt.Errorf("compress: %w", err)
	}
	if err := writeHeaders(o.Out); err != nil {
		return r, fmt.Errorf("write %s: %w", HeadersFile, err)
	}
	return r, removeStrangers(o.Out, r.Files)
}

// pullLever prepares the slimmer Ebitengine. A build must not fail for want of
// it, so a failure becomes a notice and the stock module is used.
func pullLever(ctx context.Context, o Options) Lever {
	lever, err := NewLever(ctx, o.Root, o.Work)
	if err != nil {
		fmt.Fprintf(o.Notices, "notice: Ebitengine is built unchanged, so the program is about 3 MB larger: %v\n", err)
		return Lever{}
	}
	return lever
}

func writeInfo(out string, names []string) (Info, error) {
	var info Info
	program, err := os.Stat(filepath.Join(out, ProgramFile))
	if err != nil {
		return info, err
	}
	info.WasmBytes = program.Size()
	if info.Version, err = contentVersion(out, names); err != nil {
		return info, err
	}
	text, err := json.Marshal(info)
	if err != nil {
		return info, err
	}
	return info, os.WriteFile(filepath.Join(out, InfoFile), append(text, '\n'), 0o644)
}
