package browser

import (
	"fmt"
	"strings"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// Click presses and releases the mouse in the middle of the first element that
// the CSS selector finds, once it is visible and at rest.
func (p *Page) Click(selector string) {
	p.tb.Helper()
	p.rest(selector)
	p.run("click "+selector, chromedp.Click(chromedp.CSS(selector), chromedp.NodeVisible))
}

// Tap does the same with a finger.
func (p *Page) Tap(selector string) {
	p.tb.Helper()
	p.rest(selector)
	p.run("tap "+selector, chromedp.Tap(chromedp.CSS(selector), chromedp.NodeVisible))
}

// rest waits until the element has stood where it stands for some frames, scrolled into
// view: on a page that is still moving, a click goes to what came to lie there. What never
// rests is not waited for longer than a second or two; a tab in the background has no frames.
func (p *Page) rest(selector string) {
	p.tb.Helper()
	p.Do(fmt.Sprintf(`(async () => {
		const frame = () => new Promise(next => { requestAnimationFrame(next); setTimeout(next, 100); });
		let last = '';
		for (let still = 0, n = 0; still < 3 && n < 100; n++) {
			const el = document.querySelector(%q);
			el?.scrollIntoViewIfNeeded();
			const box = el ? JSON.stringify(el.getBoundingClientRect()) : '';
			still = box && box === last ? still + 1 : 0;
			last = box;
			await frame();
		}
	})()`, selector))
}

// Type gives the focus to the element and types the text into it.
func (p *Page) Type(selector, text string) {
	p.tb.Helper()
	p.run("type into "+selector, chromedp.SendKeys(chromedp.CSS(selector), text))
}

// Upload chooses files, by their paths, for an input of type file.
func (p *Page) Upload(selector string, files ...string) {
	p.tb.Helper()
	p.run("upload to "+selector, chromedp.SetUploadFiles(chromedp.CSS(selector), files))
}

// keyNames are the keys that do not write a character, by KeyboardEvent.key.
var keyNames = map[string]string{
	"ArrowDown": kb.ArrowDown, "ArrowLeft": kb.ArrowLeft, "ArrowRight": kb.ArrowRight, "ArrowUp": kb.ArrowUp,
	"Backspace": kb.Backspace, "Delete": kb.Delete, "End": kb.End, "Enter": kb.Enter, "Escape": kb.Escape,
	"F1": kb.F1, "F5": kb.F5, "Home": kb.Home, "Plus": "+", "PageDown": kb.PageDown, "PageUp": kb.PageUp, "Space": " ", "Tab": kb.Tab,
}

var modifierNames = map[string]chromedp.Modifier{
	"Alt": chromedp.ModifierAlt, "Control": chromedp.ModifierCtrl, "Meta": chromedp.ModifierMeta, "Shift": chromedp.ModifierShift,
}

// Key presses and releases a key on whatever has the focus, such as "a", "Tab",
// "Shift+Tab" or "Control+z".
func (p *Page) Key(combination string) {
	p.tb.Helper()
	parts := strings.Split(combination, "+")
	key := parts[len(parts)-1]
	if code, ok := keyNames[key]; ok {
		key = code
	} else if len(key) != 1 {
		p.tb.Fatalf("unknown key %q", key)
	}
	var modifiers []chromedp.Modifier
	for _, name := range parts[:len(parts)-1] {
		m, ok := modifierNames[name]
		if !ok {
			p.tb.Fatalf("unknown modifier %q", name)
		}
		modifiers = append(modifiers, m)
	}
	p.run("press "+combination, chromedp.KeyEvent(key, chromedp.KeyModifiers(modifiers...)))
}

// Wheel turns the wheel of the mouse over a place by CSS pixels; positive is
// towards the reader, which scrolls down. control tells whether the Control key is
// held, which asks for zoom.
func (p *Page) Wheel(x, y, dy float64, control bool) {
	p.tb.Helper()
	params := input.DispatchMouseEventParams{
		Type: chromedp.MouseWheel, X: x, Y: y,
		DeltaX: 0.01, // 0 would be left out of the command, which Chromium refuses
		DeltaY: dy,
	}
	if control {
		params.Modifiers = int64(chromedp.ModifierCtrl)
	}
	_, err := call(p, input.DispatchMouseEvent, params)
	p.must("turn the wheel", err)
}
