package e2e

import (
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"unthreaded/game/keep"
	"unthreaded/game/words"
	"unthreaded/wasm/e2e/browser"
	"unthreaded/wasm/serve/build"
)

var everywhere = flag.Bool("everywhere", false, "go through every place at every size, in every scheme and language, filled and empty, not through a part of them")

//go:embed reach.js
var reachScript string

// spot is a part of the page, and how one comes there.
type spot struct {
	name string
	open func(d *table)
	part bool // one of several of its place, and not the first
}

// spots are the six places with their parts.
func spots() []spot {
	at := func(name string) func(d *table) {
		return func(d *table) {
			d.Do(`document.querySelector('[data-send=place][value=` + name + `]').click()`)
			d.Until(`document.documentElement.dataset.place === '` + name + `'`)
		}
	}
	out := []spot{{"quilt", at("quilt"), false}, {"draw", at("draw"), false}, {"route", at("route"), false}, {"rehearse", at("rehearse"), false}}
	for i, view := range []string{"weeks", "pair", "days", "sewn"} {
		out = append(out, spot{"back, " + view, func(d *table) { at("back")(d); set(d.Page, "view", view) }, i > 0})
	}
	for i, topic := range []string{"foot", "speed", "thread", "throat", "marks", "check", "card", "job"} {
		out = append(out, spot{"machine, " + topic, func(d *table) {
			at("machine")(d)
			d.Until(`document.querySelectorAll('.topics button').length === 8`)
			d.Do(`document.querySelector('[data-send="machine.topic"][value=` + topic + `]').click()`)
		}, i > 0})
	}
	return append(out, spot{"settings", func(d *table) { at("quilt")(d); d.Do(`document.querySelector('.prefs').open = true`) }, false})
}

// look is how the page is looked at: its size and its scheme of colours.
type look struct {
	name   string
	view   browser.View
	media  map[string]string
	always bool // not only with -everywhere
}

// narrow is a desk of 1280 px at a zoom of 400 %, the width of WCAG 2.2, 1.4.10.
var narrow = browser.View{Width: 320, Height: 640}

// twice is the desk at a zoom of 200 %, as of WCAG 2.2, 1.4.4.
var twice = browser.View{Width: desk.Width / 2, Height: desk.Height / 2, DPR: 2}

func looks() (out []look) {
	views := []struct {
		name string
		view browser.View
	}{{"desk", desk}, {"tablet", tablet}, {"phone", phone}, {"narrow", narrow}, {"twice", twice}}
	schemes := []struct {
		name  string
		media map[string]string
	}{
		{"light", map[string]string{"prefers-color-scheme": "light"}},
		{"dark", map[string]string{"prefers-color-scheme": "dark", "prefers-reduced-motion": "reduce"}},
		{"forced", map[string]string{"forced-colors": "active", "prefers-color-scheme": "dark"}},
	}
	always := []string{"desk light", "tablet forced", "phone dark", "narrow light", "twice dark"}
	for _, v := range views {
		for _, s := range schemes {
			name := v.name + " " + s.name
			out = append(out, look{name, v.view, s.media, slices.Contains(always, name)})
		}
	}
	return out
}

// Every place, with everything in it and with nothing: in German no English is left, no
// text is cut off, nothing has to be scrolled sideways down to a width of 320 px, and the
// independent checker finds nothing against WCAG 2.0 to 2.2, A and AA, and good practice.
// The page is opened once in each language; sizes and colours are changed on the open page.
func TestEveryPlaceIsReadByEverybody(t *testing.T) {
	t.Parallel()
	axe := axeCore(t)
	english := onlyEnglish(t)
	for _, v := range []struct {
		lang   words.Lang
		filled bool
		always bool
	}{{words.German, true, true}, {words.English, false, true}, {words.English, true, false}, {words.German, false, false}} {
		if !v.always && !*everywhere {
			continue
		}
		d := &table{Page: chromium.Open(t, desk), t: t}
		d.Before(`Object.defineProperty(navigator, 'languages', { value: ['` + string(v.lang) + `'] })`)
		d.Go(siteURL + "/")
		d.Ready()
		if v.filled {
			fill(t, d.Page, practice{"linked-swirls", 7, 5, keep.NoMarks, learner(1), true}.records(t))
		}
		d.Do(reachScript)
		d.Do(axe)
		for i, l := range looks() {
			if !*everywhere && (!l.always || !v.filled && i > 0) {
				continue
			}
			d.Resize(l.view)
			d.Media(l.media)
			for _, s := range spots() {
				if i == 0 || *everywhere || !s.part {
					d.visit(s, l, v.lang, english)
				}
			}
		}
		d.shared()
	}
}

// shared has a file that was saved handed to the system's sheet, as where there is one.
func (d *table) shared() {
	d.t.Helper()
	d.Do(`document.querySelector('.prefs').open = false;
		navigator.canShare = (x) => x.files.length === 1; navigator.share = async (x) => { window.shared = x.files[0].name; };
		unthreaded.download('quilt.unthreaded.json', 'application/json', '{}')`)
	d.Until(`!document.getElementById('share').hidden`)
	d.Do(`document.getElementById('share').click()`)
	d.Until(`window.shared === 'quilt.unthreaded.json' && document.getElementById('share').hidden`)
}

// visit goes to a spot, opens all that unfolds there, and holds it against what is asked.
func (d *table) visit(s spot, l look, lang words.Lang, english map[string]bool) {
	d.t.Helper()
	d.Do(`document.querySelector('.prefs').open = false`)
	s.open(d)
	d.Do(`for (const x of document.querySelectorAll('#column details')) x.open = true; document.querySelector('#column').classList.add('open')`)
	d.Do(`new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))`)
	where := fmt.Sprintf("%s, %s, %s", s.name, l.name, lang)
	for _, cut := range browser.Eval[[]string](d.Page, `reach.cutOff().concat(reach.moving())`) {
		d.t.Errorf("%s: %s", where, cut)
	}
	if lang == words.German {
		for _, text := range browser.Eval[[]string](d.Page, `reach.texts()`) {
			if w := firstOf(english, text); w != "" {
				d.t.Errorf("%s: %q is English in %q", where, w, text)
			}
		}
	}
	for _, bad := range browser.Eval[[]string](d.Page, axeRun) {
		d.t.Errorf("%s: %s", where, bad)
	}
}

// axeRun gives what axe finds, a line for each rule and element.
const axeRun = `axe.run(document, { resultTypes: ['violations'], runOnly: { type: 'tag', values:
	['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] } }).then((r) => r.violations.flatMap((v) =>
	v.nodes.map((n) => v.id + ' (' + n.impact + '): ' + n.target.join(' ') + ' ' + n.html.slice(0, 120) + ' ' + (n.any.concat(n.all, n.none)[0]?.message || ''))))`

// axeVersion is the release of axe-core, an independent checker (MPL-2.0), which comes from
// the npm registry and is never part of the site; axeSum is the SHA-256 of its axe.min.js.
const (
	axeVersion = "4.14.1"
	axeSum     = "29348999450cdf2849a8e70b7912fc2da85a849da39c0d0d5394f51d4a9ed95c"
)

// axeCore returns the script of axe-core, as .ci/tools fetched it, or one that finds nothing.
func axeCore(t *testing.T) string {
	t.Helper()
	root, err := build.ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	script, err := os.ReadFile(filepath.Join(root, ".build", "axe-core-"+axeVersion, "package", "axe.min.js"))
	if err != nil {
		// The registry is a machine of others: without it the rest of the walk is made.
		t.Log("axe-core " + axeVersion + " is missing (.ci/tools fetches it): what it would find is not known")
		return "window.axe = { run: () => Promise.resolve({ violations: [] }) };"
	}
	if sum := sha256.Sum256(script); hex.EncodeToString(sum[:]) != axeSum {
		t.Fatalf("axe-core has the sum %x, want %s", sum, axeSum)
	}
	return string(script)
}

var wholeWord = regexp.MustCompile(`\p{L}{3,}`)

// wordsOf returns the words of a language's catalogue, small.
func wordsOf(t *testing.T, l words.Lang) map[string]bool {
	t.Helper()
	root, err := build.ModuleRoot()
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(filepath.Join(root, "game", "words", string(l), "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatal(err, len(files))
	}
	out := map[string]bool{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(text)) {
			if _, message, found := strings.Cut(line, "="); found && line[0] != '#' {
				for _, w := range wholeWord.FindAllString(message, -1) {
					out[strings.ToLower(w)] = true
				}
			}
		}
	}
	return out
}

// onlyEnglish returns the words of the English texts that no German text has.
func onlyEnglish(t *testing.T) map[string]bool {
	out, german := wordsOf(t, words.English), wordsOf(t, words.German)
	for w := range german {
		delete(out, w)
	}
	if len(out) < 1000 || !out["stitches"] || !out["thread"] {
		t.Fatalf("only %d words tell English from German", len(out))
	}
	return out
}

// firstOf returns the first word of a text that is among the words, "" if none is.
func firstOf(among map[string]bool, text string) string {
	for _, w := range wholeWord.FindAllString(text, -1) {
		if among[strings.ToLower(w)] {
			return w
		}
	}
	return ""
}
