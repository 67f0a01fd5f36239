package e2e

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// atMachine opens the place Machine at a topic, by the keyboard.
func atMachine(t *testing.T, v browser.View, topic string) *table {
	t.Helper()
	d := &table{Page: open(t, v), t: t}
	d.press(`[data-send=place][value=machine]`)
	d.Until(`document.querySelectorAll('.topics button').length === 8`)
	d.topic(topic)
	return d
}

// press gives the focus to what a person reaches with Tab, and presses Enter.
func (d *table) press(selector string) {
	d.t.Helper()
	d.Until(`(el => el && !el.disabled && el.tabIndex >= 0 && el.getClientRects().length > 0)(document.querySelector('` + selector + `'))`)
	d.Do(`document.querySelector('` + selector + `').focus()`)
	d.Key("Enter")
}

func (d *table) topic(name string) {
	d.t.Helper()
	d.press(`[data-send="machine.topic"][value=` + name + `]`)
	d.Until(`document.querySelector('.topics [aria-current]')?.value === '` + name + `'`)
}

// From a block to its route card by keyboard alone: the drawing is chosen, the card
// is asked for, and a PDF document comes down.
func TestARouteCardByKeyboard(t *testing.T) {
	t.Parallel()
	d := &table{Page: open(t, desk), t: t}
	d.press(`[data-send=place][value=route]`)
	d.Until(`document.querySelectorAll('[data-list="route.choices"] li').length > 1`)
	d.Do(`document.querySelector('[data-send=drawing]').focus()`)
	for range 2 {
		d.Key("ArrowDown")
	}
	d.Until(`document.querySelector('[data-send=drawing]').value === 'crosshatch'`)
	d.press(`[data-send=place][value=machine]`)
	d.Until(`document.querySelector('.sentence').textContent.startsWith('Ruler foot.')`)
	d.topic("card")
	d.Until(`document.querySelectorAll('[data-list="machine.cards"] [data-send="machine.look"]')[0].getAttribute('aria-pressed') === 'true'`)
	d.Do(`document.querySelectorAll('[data-list="machine.cards"] [data-send="machine.look"]')[1].focus()`)
	d.Key("Enter")
	d.Until(`document.querySelectorAll('[data-list="machine.cards"] [data-send="machine.look"]')[1].getAttribute('aria-pressed') === 'true'`)
	d.Do(`{ const real = unthreaded.download;
		unthreaded.download = (name, type, bytes) => { window.file = { name, type, size: bytes.length, head: new TextDecoder('latin1').decode(bytes.slice(0, 8)) }; real(name, type, bytes); }; }`)
	d.press(`[data-list="machine.cards"] [value=pdf]`)
	d.Until(`window.file`)
	file := browser.Eval[map[string]any](d.Page, `window.file`)
	if file["name"] != "crosshatch-in-a-block-route.pdf" || file["type"] != "application/pdf" || !strings.HasPrefix(file["head"].(string), "%PDF-1.") {
		t.Errorf("the file is %v", file)
	}
	d.Until(`document.querySelector('.notice').innerText.includes('Saved as crosshatch-in-a-block-route.pdf: 1 page')`)
}

// The list and the figures of the machine are there tomorrow, each plan with its own
// list; a tick is taken back with undo.
func TestTheChecklistIsThereTomorrow(t *testing.T) {
	t.Parallel()
	d := atMachine(t, desk, "check")
	box := func(i string) string { return `document.querySelectorAll('.checks input')[` + i + `]` }
	for _, i := range []string{"0", "3"} {
		d.Do(box(i) + `.focus()`)
		d.Key("Space")
		d.Until(box(i) + `.checked`)
	}
	d.Until(`document.querySelector('.sentence').textContent.startsWith('2 of ')`)
	d.Key("Control+z")
	d.Until(`document.querySelector('.sentence').textContent.startsWith('1 of ')`)
	d.topic("throat")
	d.fillThroat("3")
	d.Until(`document.querySelector('.refused:not([hidden])')?.textContent.includes('It can be 3.15 to 31.496 in.')`)
	d.fillThroat("9 1/2")
	d.Until(`document.querySelectorAll('.refused:not([hidden])').length === 0`)
	d.Until(`unthreaded.store.things().then(all => { window.kept = all.filter(x => x[0] === 'machine').map(x => x[1] + x[2]).join(); })
		&& (window.kept || '').includes('"throat_width_mm":241.') && window.kept.includes('"ticks":["power"]')`)

	d.Reload()
	d.Ready()
	d.press(`[data-send=place][value=machine]`)
	d.Until(`document.querySelectorAll('.topics button').length === 8`)
	d.topic("check")
	d.Until(box("0") + `.checked && !` + box("3") + `.checked`)
	d.topic("throat")
	if got := browser.Eval[string](d.Page, throatField+`.value`); got != "9 1/2" {
		t.Errorf("the throat is %q tomorrow, want 9 1/2", got)
	}
}

// throatField is the field for the throat's width, the fourth of the topic.
const throatField = `document.querySelectorAll('[data-list="machine.fields"] input')[3]`

// fillThroat types a text into that field and leaves it with Enter.
func (d *table) fillThroat(text string) {
	d.t.Helper()
	d.Do(throatField + `.focus(); ` + throatField + `.select()`)
	for _, r := range text {
		if r == ' ' {
			d.Key("Space")
			continue
		}
		d.Key(string(r))
	}
	d.Key("Enter")
}

// The quilt on the table brings its rows along, in the order in which it is sewn: five
// rows and four strips between them of a top of 38 x 46 in. Typed instead, it stays typed
// tomorrow.
func TestTheRowsComeFromTheQuilt(t *testing.T) {
	d := layTop(t, desk)
	d.Do(`unthreaded.send('quilt.choose', '', 'block-1-1'); unthreaded.send('quilt.draw', '', ''); unthreaded.send('draw.route', '', '')`)
	d.Until(`document.querySelectorAll('[data-list="route.choices"] li').length > 0`)
	d.press(`[data-send=place][value=machine]`)
	d.Until(`document.querySelectorAll('.topics button').length === 8`)
	d.topic("throat")
	d.Until(`document.querySelector('[data-text="machine.laid.text"]').textContent.startsWith('38 in along the rows, 46 in across. 9 rows and strips')`)
	d.Until(`document.querySelectorAll('[data-list="machine.fields"] input').length === 2`)
	d.Do(`document.querySelector('[data-send="machine.quilt"]').focus()`)
	d.Key("ArrowDown")
	d.Until(`document.querySelectorAll('[data-list="machine.fields"] input').length === 5`)
	d.Until(`unthreaded.store.things().then(all => { window.kept = all.filter(x => x[0] === 'machine').map(x => x[2]).join(); }) && (window.kept || '').includes('"plan":"demo-lily"') && !window.kept.includes('"quilt"')`)
}

// From a laid-out quilt to its job: the stages are added up, the first is ticked off by
// keyboard, and is there after a reload; the card that comes down as a PDF document says
// in words that a reader of PDF finds what the screen says, ticked where it is ticked.
func TestTheJobAndItsCard(t *testing.T) {
	d := layTop(t, desk)
	d.press(`[data-send=place][value=machine]`)
	d.Until(`document.querySelectorAll('.topics button').length === 8`)
	d.topic("job")
	const box = `document.querySelectorAll('[data-list="machine.job.stages"] input')[0]`
	d.Until(`document.querySelectorAll('[data-list="machine.job.stages"] input').length === 12`)
	d.Do(box + `.focus()`)
	d.Key("Space")
	d.Until(box + `.checked && document.querySelector('.sentence').textContent.includes('are left')`)
	d.Until(`unthreaded.store.things().then(all => { window.kept = all.filter(x => x[0] === 'sewn').map(x => x[2]).join(); }) && (window.kept || '').includes('ditch-across')`)
	d.Reload()
	d.Ready()
	d.press(`[data-send=place][value=machine]`)
	d.Until(`document.querySelectorAll('.topics button').length === 8`)
	d.topic("job")
	d.Until(`(b => b && b.checked)(` + box + `)`)
	type stage struct{ Name, Time, Note string }
	stages := browser.Eval[[]stage](d.Page, `[...document.querySelectorAll('[data-list="machine.job.stages"] li')].map(li => ({
		Name: li.querySelector('[data-text=name]').textContent, Time: li.querySelector('[data-text=time]').textContent, Note: li.querySelector('[data-text=note]').textContent }))`)
	type figure struct{ Name, Value string }
	sums := browser.Eval[[]figure](d.Page, `[...document.querySelectorAll('[data-list="machine.job.sums"] tr, [data-list="machine.job.hand"] tr, [data-list="machine.job.left"] tr')].map(r => ({
		Name: r.querySelector('th').textContent, Value: r.querySelector('td').textContent }))`)
	bobbins := browser.Eval[[]string](d.Page, `[...document.querySelectorAll('[data-list="machine.job.bobbins"] [data-text=name]')].map(b => b.textContent)`)
	d.topic("card")
	d.Do(`{ const real = unthreaded.download;
		unthreaded.download = (name, type, bytes) => { window.file = { Name: name, Data: btoa(Array.from(bytes, b => String.fromCharCode(b)).join('')) }; unthreaded.download = real; }; }`)
	d.press(`[data-list="machine.cards"] [value=pdf]`)
	d.Until(`window.file`)
	file := browser.Eval[struct {
		Name string
		Data []byte
	}](d.Page, `window.file`)
	if file.Name != "cot-quilt-pond-and-reeds-job.pdf" {
		t.Errorf("the file is called %q", file.Name)
	}
	text := pdfText(t, file.Data)
	for i, s := range stages {
		_, name, _ := strings.Cut(s.Name, ". ")
		length, _, _ := strings.Cut(s.Note, ",")
		if i == 0 {
			length = "sewn on "
			if day, sewn := strings.CutPrefix(s.Note, length); !sewn || !strings.Contains(text, name+", "+day) {
				t.Errorf("on paper %q is not ticked as on the screen: %q", name, s.Note)
			}
			length = ""
		}
		if !strings.Contains(text, name) || !strings.Contains(text, s.Time) || !strings.Contains(text, length) {
			t.Errorf("the card lacks %q, %q or %q", name, s.Time, length)
		}
	}
	for _, f := range sums {
		if !strings.Contains(text, f.Name+" "+f.Value) {
			t.Errorf("the card lacks %q of %q", f.Name, f.Value)
		}
	}
	for _, b := range bobbins {
		if !strings.Contains(text, b) {
			t.Errorf("the card lacks %q", b)
		}
	}
	if len(sums) < 12 || len(bobbins) == 0 || !strings.Contains(text, "Fingers stay outside the foot") {
		t.Errorf("%d figures and %d changes of the bobbin are shown", len(sums), len(bobbins))
	}
}

// pdfText returns what a reader of PDF (poppler) finds written in a document, line by line
// with single spaces.
func pdfText(t *testing.T, doc []byte) string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		message := "pdftotext is missing (on Debian: apt-get install poppler-utils)"
		if os.Getenv("CI") != "" {
			t.Fatal(message)
		}
		t.Skip("SKIPPED: " + message + ", the card was not read")
	}
	file := filepath.Join(t.TempDir(), "card.pdf")
	if err := os.WriteFile(file, doc, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return regexp.MustCompile(`[ \t]+`).ReplaceAllString(string(out), " ")
}
