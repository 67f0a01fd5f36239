// Package browser drives a real Chromium for tests of the page: fresh storage for
// each test, every error of the page a failure of the test, and pointers of all
// kinds whose samples arrive in order and with their own times.
//
// Methods of Page fail the test themselves, so that tests read as a list of what
// a person does and sees.
package browser

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/remote"
)

// Browser is one running Chromium without a window.
type Browser struct {
	// Renderer is what draws WebGL, as the driver names itself.
	Renderer string

	ctx    context.Context // of chromedp; holds the process
	cancel func()
	wire   *wire
}

// drawing is one way to draw WebGL without a graphics card or a display.
type drawing struct {
	name  string
	flags []chromedp.ExecAllocatorOption
}

// drawings lists the ways, the fastest first. Mesa's software driver gave 1.1 to
// 1.6 times the frames of SwiftShader, yet needs the package libgl1-mesa-dri;
// SwiftShader comes with the browser. Since release 137 Chromium has to be asked
// for SwiftShader explicitly.
var drawings = []drawing{
	{"Mesa", []chromedp.ExecAllocatorOption{
		chromedp.Env("EGL_PLATFORM=surfaceless"),
		chromedp.Flag("ozone-platform", "headless"),
		chromedp.Flag("use-angle", "gl-egl"),
		chromedp.Flag("ignore-gpu-blocklist", true), // which holds all software drivers
	}},
	{"SwiftShader", []chromedp.ExecAllocatorOption{
		chromedp.Flag("use-gl", "angle"),
		chromedp.Flag("use-angle", "swiftshader"),
		chromedp.Flag("enable-unsafe-swiftshader", true),
	}},
}

// Code tells how Chromium shall compile WebAssembly.
type Code int

const (
	// Usual is as for users: compiled quickly, and what runs often a second time
	// with more care.
	Usual Code = iota
	// Quick leaves the second time out. A page of 10 MB of program opened in half
	// the processor time, and ran slower: right for tests of what a page does.
	Quick
)

// Start runs Chromium with the first way of drawing that works.
func Start(code Code) (*Browser, error) { return startIn("", code) }

// StartIn runs Chromium with the profile in a folder, so that a later one finds what was
// kept there; see Page.Kill. Its pages are opened by OpenKept.
func StartIn(folder string, code Code) (*Browser, error) { return startIn(folder, code) }

func startIn(folder string, code Code) (*Browser, error) {
	path, err := Find()
	if err != nil {
		return nil, err
	}
	var failures []error
	for _, d := range drawings {
		b, err := start(path, folder, d, code)
		if err == nil {
			return b, nil
		}
		failures = append(failures, fmt.Errorf("with %s: %w", d.name, err))
	}
	return nil, fmt.Errorf("start %s: %w", path, errors.Join(failures...))
}

func start(path, folder string, d drawing, code Code) (*Browser, error) {
	b := &Browser{wire: &wire{}}
	options := append(chromedp.DefaultExecAllocatorOptions[:], d.flags...)
	if code == Quick {
		options = append(options, chromedp.Flag("js-flags", "--liftoff-only"))
	}
	if folder != "" {
		options = append(options, chromedp.UserDataDir(folder))
	}
	options = append(options, chromedp.ExecPath(path), remote.WebSocket, chromedp.WithDialer(b.wire.dial))
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stop := chromedp.NewContext(allocator)
	b.ctx = ctx
	b.cancel = func() {
		stop()
		stopAllocator()
	}
	renderer, err := chromedp.Run(ctx, chromedp.Evaluate[string](rendererScript))
	switch {
	case err != nil:
		b.cancel()
		return nil, err
	case renderer == "":
		b.cancel()
		return nil, errors.New("no WebGL 2")
	}
	b.Renderer = strings.TrimSpace(renderer)
	return b, nil
}

// rendererScript gives the name of the driver, or nothing without WebGL 2.
const rendererScript = `(() => {
	const gl = document.createElement('canvas').getContext('webgl2');
	const info = gl && gl.getExtension('WEBGL_debug_renderer_info');
	return info ? gl.getParameter(info.UNMASKED_RENDERER_WEBGL) : '';
})()`

// Close ends Chromium and deletes its files.
func (b *Browser) Close() { b.cancel() }
