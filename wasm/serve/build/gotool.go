package build

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// goTool runs the go command in dir and returns its standard output. env is
// added to the environment of this process.
func goTool(ctx context.Context, dir string, env []string, args ...string) ([]byte, error) {
	stdout, _, err := goToolBoth(ctx, dir, env, args...)
	return stdout, err
}

// goToolBoth returns the standard error too.
func goToolBoth(ctx context.Context, dir string, env []string, args ...string) (out, errOut []byte, err error) {
	cmd := exec.CommandContext(ctx, "go", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), env...)
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if err := cmd.Run(); err != nil {
		return nil, nil, fmt.Errorf("go %s: %w\n%s", args[0], err, strings.TrimSpace(stderr.String()))
	}
	return stdout.Bytes(), stderr.Bytes(), nil
}

// wasmTarget is the environment that makes the go command build for the browser.
func wasmTarget() []string { return []string{"GOOS=js", "GOARCH=wasm"} }

// nativeTarget undoes a GOOS or GOARCH that is set for this process, for programs
// which the build runs itself.
func nativeTarget(ctx context.Context) ([]string, error) {
	out, err := goTool(ctx, "", nil, "env", "GOHOSTOS", "GOHOSTARCH")
	if err != nil {
		return nil, err
	}
	host := strings.Fields(string(out))
	return []string{"GOOS=" + host[0], "GOARCH=" + host[1]}, nil
}

// ModuleRoot is the folder of the go.mod that governs the working directory.
func ModuleRoot() (string, error) {
	out, err := goTool(context.Background(), "", nil, "env", "GOMOD")
	if err != nil {
		return "", err
	}
	file := strings.TrimSpace(string(out))
	if file == "" || file == os.DevNull {
		return "", errors.New("no go.mod in this folder or above it")
	}
	return filepath.Dir(file), nil
}

// unhurried are packages that work while the program starts or for a moment when she
// asks for something: compilers of shaders, readers and writers of documents, texts of
// the page. Without inlining they take less to transfer; together 4.6 % of the program
// (gzip), at no cost where speed counts: in geometry, measures and drawing.
var unhurried = []string{
	ebitengine + "/internal/shader", ebitengine + "/internal/shaderir/...",
	"go/...", "math/big", "regexp/...", "encoding/...", "fmt", "time", "reflect", "archive/zip", "compress/...", "image/gif",
	"github.com/golang/freetype/truetype", "codeberg.org/go-pdf/fpdf", "image/png", "crypto/...",
	"unthreaded/game", "unthreaded/game/page", "unthreaded/game/place/...", "unthreaded/game/words", "unthreaded/game/keep",
	"unthreaded/game/plan", "unthreaded/game/top", "unthreaded/game/sewing", "unthreaded/game/work", "unthreaded/game/control",
}

// compile links a program of o into the site. The build carries no paths and no
// revision, so that equal sources give equal bytes.
func compile(ctx context.Context, o Options, lever Lever, p program) error {
	return link(ctx, o, lever, p, filepath.Join(o.Out, p.file), "-ldflags=-s -w")
}

func link(ctx context.Context, o Options, lever Lever, p program, file, flags string) error {
	target, err := filepath.Abs(file)
	if err != nil {
		return err
	}
	pkg, err := filepath.Abs(p.folder)
	if err != nil {
		return err
	}
	args := []string{"build", "-trimpath", "-buildvcs=false", flags, "-o", target}
	for _, p := range unhurried {
		args = append(args, "-gcflags="+p+"=-l")
	}
	args = append(append(args, lever.Flags()...), pkg)
	_, err = goTool(ctx, o.Root, wasmTarget(), args...)
	return err
}

// NamedProgram is a program linked with the names of its functions, and the packages that it
// is made of.
type NamedProgram struct {
	Name, File string
	Packages   []string
}

// Named links the programs of o into Work with the names of their functions, which those of
// a site do not carry.
func Named(ctx context.Context, o Options) ([]NamedProgram, error) {
	lever := pullLever(ctx, o)
	var out []NamedProgram
	for _, p := range o.programs() {
		n := NamedProgram{Name: p.file, File: filepath.Join(o.Work, "named-"+p.file)}
		if err := link(ctx, o, lever, p, n.File, "-ldflags=-w"); err != nil {
			return nil, fmt.Errorf("link %s: %w", p.file, err)
		}
		list, err := goTool(ctx, o.Root, wasmTarget(), append(append([]string{"list", "-deps"}, lever.Flags()...), p.folder)...)
		if err != nil {
			return nil, err
		}
		n.Packages = append(strings.Fields(string(list)), "main")
		out = append(out, n)
	}
	return out, nil
}
