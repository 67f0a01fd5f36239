package browser_test

import (
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"unthreaded/wasm/e2e/browser"
)

var small = browser.View{Width: 480, Height: 360}

// witness stands in for a test, to see whether the harness fails it.
type witness struct {
	testing.TB
	errors   []string
	cleanups []func()
}

func (w *witness) Cleanup(f func()) { w.cleanups = append(w.cleanups, f) }
func (w *witness) Errorf(format string, args ...any) {
	w.errors = append(w.errors, strings.TrimSpace(format+" "+joined(args)))
}

func joined(args []any) string {
	var parts []string
	for _, a := range args {
		if s, ok := a.(string); ok {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, " ")
}

func (w *witness) end() {
	slices.Reverse(w.cleanups)
	for _, f := range w.cleanups {
		f()
	}
}

// step is what a page does and what it says then on its console.
type step struct{ name, statements, says string }

// complaint lets a page take the steps, ends its test and gives the failures.
func complaint(t *testing.T, expect []string, steps ...step) []string {
	t.Helper()
	w := &witness{TB: t}
	p := shared.Open(w, small)
	p.Go(site + "/recorder.html")
	for _, text := range expect {
		p.Expect(text)
	}
	for _, s := range steps {
		p.Do("void setTimeout(() => {" + s.statements + "})")
		deadline := time.Now().Add(20 * time.Second)
		for !strings.Contains(strings.Join(p.Console(), "\n"), s.says) {
			if time.Now().After(deadline) {
				t.Fatalf("%s: waited in vain for %q, got %q", s.name, s.says, p.Console())
			}
			time.Sleep(10 * time.Millisecond)
		}
	}
	w.end()
	return w.errors
}

// TestComplaintsFail lets a page go wrong in each way that must fail a test.
func TestComplaintsFail(t *testing.T) {
	wrong := []step{
		{"error", "console.error('torn thread')", "torn thread"},
		{"exception", "throw new Error('knot')", "knot"},
		{"rejection", "void Promise.reject(new Error('no cloth'))", "no cloth"},
		{"failed assertion", "console.assert(false, 'uneven')", "uneven"},
		{"other origin", "void fetch('https://example.org/').catch(() => {})", "connect-src"},
		{"eval of text", "try { eval('1') } catch {}", "script-src"},
		{"not found", "void fetch('absent.txt')", "404"},
	}
	got := complaint(t, nil, wrong...)
	for _, c := range wrong {
		if !slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, c.says) }) {
			t.Errorf("%s: expected a failure with %q, got %q", c.name, c.says, got)
		}
	}
}

func TestNoComplaint(t *testing.T) {
	harmless := []step{
		{"warning", "console.warn('mind the step')", "mind the step"},
		{"message", "console.log('on we go')", "on we go"},
		{"expected", "console.error('torn thread')", "torn thread"},
	}
	if got := complaint(t, []string{"torn"}, harmless...); len(got) > 0 {
		t.Errorf("expected no failure, got %q", got)
	}
	if got := complaint(t, []string{"torn"}); len(got) != 1 || !strings.Contains(got[0], "torn") {
		t.Errorf("expected a failure for what was expected in vain, got %q", got)
	}
}

// TestStorage: a page opened anew must find nothing of another, and a second tab
// of the same page everything.
func TestStorage(t *testing.T) {
	const stored = "localStorage.getItem('motif') || ''"
	first := openRecorder(t, small)
	first.Do("localStorage.setItem('motif', 'swirl')")
	first.Reload()
	if got := browser.Eval[string](first, stored); got != "swirl" {
		t.Errorf("after a reload: expected swirl, got %q", got)
	}
	tab := first.Another(small)
	tab.Go(site + "/recorder.html")
	if got := browser.Eval[string](tab, stored); got != "swirl" {
		t.Errorf("in a second tab: expected swirl, got %q", got)
	}
	if got := browser.Eval[string](openRecorder(t, small), stored); got != "" {
		t.Errorf("in a fresh page: expected nothing, got %q", got)
	}
}

func TestBefore(t *testing.T) {
	p := shared.Open(t, small)
	p.Before("delete window.WebAssembly")
	for range 2 {
		p.Go(site + "/recorder.html")
		if got := browser.Eval[string](p, "typeof WebAssembly"); got != "undefined" {
			t.Errorf("expected no WebAssembly, got %s", got)
		}
	}
}

func TestResize(t *testing.T) {
	p := openRecorder(t, small)
	for _, v := range []browser.View{{Width: 480, Height: 360}, {Width: 1280, Height: 800, DPR: 1.25}, {Width: 390, Height: 844, DPR: 3, Touch: true}} {
		p.Resize(v)
		want := []float64{float64(v.Width), float64(v.Height), max(v.DPR, 1), 0}
		if v.Touch {
			want[3] = 5
		}
		got := browser.Eval[[]float64](p, "[innerWidth, innerHeight, devicePixelRatio, navigator.maxTouchPoints]")
		if !slices.Equal(got, want) {
			t.Errorf("%+v: expected width, height, ratio and touch points %v, got %v", v, want, got)
		}
	}
}

func TestControls(t *testing.T) {
	p := openRecorder(t, small)
	p.Click("#press")
	if got := browser.Eval[string](p, "press.textContent"); got != "Pressed" {
		t.Errorf("after a click: expected Pressed, got %q", got)
	}
	p.Key("Tab")
	if got := browser.Eval[string](p, "document.activeElement.id"); got != "word" {
		t.Errorf("after Tab: expected the focus on word, got %q", got)
	}
	p.Type("#word", "ruler")
	p.Key("Backspace")
	if got := browser.Eval[string](p, "word.value"); got != "rule" {
		t.Errorf("after typing: expected rule, got %q", got)
	}
	p.Key("Shift+Tab")
	if got := browser.Eval[string](p, "document.activeElement.id"); got != "press" {
		t.Errorf("after Shift+Tab: expected the focus on press, got %q", got)
	}
	p.Do("addEventListener('wheel', e => { window.wheeled = [e.deltaY, +e.ctrlKey] })")
	p.Wheel(200, 200, 120, true)
	p.Until("window.wheeled")
	if got := browser.Eval[[]float64](p, "wheeled"); !slices.Equal(got, []float64{120, 1}) {
		t.Errorf("after the wheel: expected 120 with Control, got %v", got)
	}
}

// A page that is still moving does not lose a click.
func TestClickWaitsForRest(t *testing.T) {
	p := shared.Open(t, small)
	p.Go(site + "/recorder.html")
	p.Do(`
		const button = document.createElement('button');
		button.id = 'runs';
		button.textContent = 'here';
		button.style = 'position:fixed;top:0;left:0;width:40px;height:20px';
		button.onclick = () => { window.hit = true; };
		document.body.append(button);
		let frames = 0;
		const run = () => { button.style.top = 60 * (frames % 5) + 'px'; if (frames++ < 80) setTimeout(run, 4); };
		run();`)
	p.Click("#runs")
	if !browser.Eval[bool](p, "window.hit === true") {
		t.Error("the click went to where the button had been")
	}
}

func TestScreenshot(t *testing.T) {
	p := openRecorder(t, browser.View{Width: 480, Height: 360, DPR: 2})
	file := filepath.Join(t.TempDir(), "pictures", "recorder.png")
	p.Screenshot(file)
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	if b := m.Bounds(); b.Dx() != 960 || b.Dy() != 720 {
		t.Errorf("expected 960 by 720 pixels, got %d by %d", b.Dx(), b.Dy())
	}
	if r, g, b, _ := m.At(480, 400).RGBA(); r>>8 != 0xdd || g>>8 != 0xee || b>>8 != 0xff {
		t.Errorf("expected the colour #ddeeff of the pad, got #%02x%02x%02x", r>>8, g>>8, b>>8)
	}
}
