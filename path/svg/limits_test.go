package svg

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
)

// lots repeats text n times.
func lots(text string, n int) string { return strings.Repeat(text, n) }

// uses is a file in which n groups each use the one before twice: 2^n shapes.
func uses(n int, shape string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<defs><g id="g0">%s</g>`, shape)
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&b, "\n<g id=\"g%d\"><use href=\"#g%d\"/><use href=\"#g%d\"/></g>", i, i-1, i-1)
	}
	fmt.Fprintf(&b, "</defs>\n<use href=\"#g%d\"/>", n)
	return page(b.String())
}

// TestAttacks: files made to fill memory or time, or to reach outside, end in an
// error that names the place.
func TestAttacks(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of a short run: it takes long")
	}
	const entities = `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c SYSTEM "file:///etc/hostname">]>` + "\n"
	leaf := `<path d="M0 0h1"/>`
	for name, c := range map[string]struct{ text, want string }{
		"entities within entities": {entities + page("<title>&b;</title>"), "line 2: the file is no plain XML: invalid character entity &b;; entities of a file's own are not expanded"},
		"an entity from outside":   {entities + page(`<path d="&c;"/>`), "line 2: the file is no plain XML"},
		"deep groups":              {page(lots("<g>\n", 100_000)), "line 100: <g>: elements stand deeper than 100"},
		"deep notes":               {page(lots(`<n xmlns="urn:x">`, 100_000)), "<n>: elements stand deeper than 100"},
		"use of uses":              {uses(30, leaf), `: more than 100000 elements are to be drawn`},
		"use of uses of nothing":   {uses(30, ""), `: more than 100000 elements are to be drawn`},
		"long chain of uses":       {chain(120), "elements and uses stand deeper than 100 within each other"},
		"use of long attributes":   {uses(12, `<path id="long" d="M0 0h1`+lots(" ", 50_000)+`"/>`), `<path id="long">, line 1: more than 64 MB of attributes`},
		"use of long paths":        {uses(12, `<path id="long" d="M0 0h1`+lots(" 1", 200)+`"/>`), `<path id="long">, line 1: the lines have more than 200000 curves`},
		"use of many lines":        {uses(14, lots(leaf, 3)), "there are more than 20000 lines"},
		"curves":                   {page("\n" + `<path id="p" d="M0 0` + lots("l1 1-1-1", 150_000) + `"/>`), `<path id="p">, line 2: the lines have more than 200000 curves`},
		"corners":                  {page(`<polyline points="` + lots("1 2 ", 300_000) + `"/>`), "<polyline>, line 1: the lines have more than 200000 curves"},
		"subpaths":                 {page(`<path d="` + lots("M1 1h1", 30_000) + `"/>`), "<path>, line 1: there are more than 20000 lines"},
		"elements":                 {page(lots("<g/>\n", 150_000)), "line 100000: the file has more than 100000 elements"},
		"attributes":               {page("<g" + lots(` a=""`, 2000) + "/>"), "<g>, line 1 has more than 1000 attributes"},
		"millions of attributes":   {page("<g" + lots(` a=""`, 3_000_000) + "/>"), "line 1: a tag has more than 4000 attributes"},
		"a wide page":              {`<svg width="1e9mm" height="1mm"/>`, "<svg>, line 1: the page of 1e+09 x 1 mm is larger than 100000 mm"},
		"a page of no number":      {`<svg width="1e999mm" height="1mm"/>`, `the number "1e999" is larger`},
		"a file of 20 MB":          {page(`<path d="M0 0h1` + lots(" ", 20<<20) + `"/>`), "the file is larger than 16 MB"},
		"a comment of 20 MB":       {page("<!--" + lots("x", 20<<20) + "-->"), "the file is larger than 16 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			d, err := Read(strings.NewReader(c.text))
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q", err, c.want)
			}
			if len(d.Lines) > 0 || len(d.Unread) > 0 {
				t.Errorf("an error and %d lines", len(d.Lines))
			}
		})
	}
}

// chain is a file of n groups, each of which uses the next.
func chain(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `<g id="g%d"><use href="#g%d"/></g>`, i, i+1)
	}
	return page(b.String())
}

// endless gives a beginning and then the same text for ever, and counts.
type endless struct {
	left, more string
	given      int
}

func (e *endless) Read(p []byte) (int, error) {
	if e.left == "" {
		e.left = e.more
	}
	n := copy(p, e.left)
	e.left = e.left[n:]
	e.given += n
	return n, nil
}

// TestEndlessFiles: no more is taken in than MaxBytes and one buffer.
func TestEndlessFiles(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of a short run: it takes long")
	}
	for _, more := range []string{"x", "<!-- -->", `<n xmlns="urn:x"/>`} {
		e := &endless{left: `<svg xmlns="http://www.w3.org/2000/svg"><style>`, more: more}
		if _, err := Read(e); err == nil {
			t.Errorf("%q for ever: no error", more)
		}
		if e.given > MaxBytes+1<<16 {
			t.Errorf("%q for ever: %d bytes taken in", more, e.given)
		}
	}
}

// TestLargeButFair: what is within the limits is read whole.
func TestLargeButFair(t *testing.T) {
	d := read(t, page(`<path d="M0 0`+lots("l.1.1c0 0 1 1 .1 0", 25_000)+`"/>`))
	if n := d.Lines[0].Path.Pieces(); n != 50_000 {
		t.Errorf("%d curves, want 50000", n)
	}
	d = read(t, page(lots(`<path d="M0 0h1"/>`, 20_000)))
	if len(d.Lines) != 20_000 {
		t.Errorf("%d lines, want 20000", len(d.Lines))
	}
	d = read(t, page(lots("<text/>\n", 5_000)))
	if n := len(d.Unread); n != MaxUnread+1 || d.Unread[n-1].What != "4500 more things are not read" {
		t.Errorf("%d things unread, the last %v", n, d.Unread[n-1])
	}
	d = read(t, uses(10, "<text/>"))
	if len(d.Unread) != 1 {
		t.Errorf("one text drawn 1024 times is unread %d times", len(d.Unread))
	}
}

// TestOddOnes: a fault within one element leaves the others in peace.
func TestOddOnes(t *testing.T) {
	for body, want := range map[string]string{
		`<g id="a"><use href="#a"/></g>`:                               `left out: it refers to "a", which holds it`,
		`<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>`: `which holds it`,
		`<use id="a" href="#a"/>`:                                      `which holds it`,
		`<symbol id="a"><use href="#a"/></symbol><use href="#a"/>`:     `which holds it`,
		`<use href="#t"/><title id="t">x</title>`:                      "it refers to a title, which draws nothing",
		`<use/>`:                                    "it refers to nothing",
		`<path d="M0 0L1e13 0"/>`:                   `the number "1e13" is larger than 1e+12`,
		`<path d="M0 0L1e999 0"/>`:                  "larger than 1e+12",
		`<path d="M0 0L1e12 0"/>`:                   "command at character 5: a place lies farther than 100000 mm",
		`<path d="M0 0A1e12 1e12 0 1 1 10 10"/>`:    "farther than 100000 mm",
		`<path d="M1e-300 0A1e12 1e12 0 1 1 0 0"/>`: "no length",
		`<g transform="` + lots("scale(1e12)", 40) + `"><path d="M1 1h1"/></g>`:    "farther than 100000 mm",
		`<g transform="` + lots("scale(1)", 2000) + `"><path d="M1 1h1"/></g>`:     "more than 1000 functions",
		`<g transform="scale(0)"><path d="M1 1h1"/></g>`:                           "no length",
		`<g transform="scale(0 1)"><path data-dots="1" d="M1 1h1v1"/></g>`:         "collapsed",
		`<path data-dots="` + lots("1 ", 20_000) + `" d="M1 1h1"/>`:                "more than 10000 values",
		`<path data-dots="1" d="M0 0` + lots("h90000h-90000", 10) + `"/>`:          "longer than 1000 m",
		`<path data-dots="a" d="M0 0h1"/>`:                                         "data-dots: value 1",
		`<svg viewBox="0 0 0 5"><path d="M0 0h1"/></svg>`:                          "must be greater than 0",
		`<svg viewBox="0 0 5"><path d="M0 0h1"/></svg>`:                            "it has 3 numbers and needs 4",
		`<svg viewBox="0 0 5 5" preserveAspectRatio="xMid"><path d="M0 0"/></svg>`: `preserveAspectRatio "xMid" is not one of SVG's`,
		`<svg width="0"/>`: "its size is 0",
		`<style>.b{` + lots("x<!-- -->", 1000) + `;display:none}</style>`: "style rules for display",
		`<switch><path systemLanguage="de" d="M0 0h1"/></switch>`:         "nothing in it is without a condition",
		`<path requiredExtensions="urn:x" d="M0 0h1"/>`:                   "it asks for an extension",
	} {
		d := read(t, page(body+`<path id="fair" d="M5 5h5"/>`))
		if len(d.Unread) == 0 || !strings.Contains(d.Unread[0].What, want) {
			t.Errorf("%.90s: unread %v, want %q", body, d.Unread, want)
		}
		if n := len(d.Lines); n == 0 || d.Lines[n-1].Name != "fair" {
			t.Errorf("%.90s: the line after it is not read", body)
		}
	}
}

// TestNoSVG: what is no SVG is refused with its line.
func TestNoSVG(t *testing.T) {
	for text, want := range map[string]string{
		"":                     "line 1: there is no element svg",
		"\n\nnothing":          "line 3: there is no element svg",
		"<html/>":              "line 1: the file is no SVG: it begins with <html>",
		`<svg xmlns="urn:x"/>`: "the file is no SVG",
		"<svg>\n<g>\n</svg>":   "line 3: the file is no well-formed XML",
		"<svg>":                "unexpected EOF",
		"<svg/>\n<svg/>":       "line 2: there is a second element",
		"\x1f\x8b\x08":         "the file is compressed (.svgz)",
		"\xff\xfe<\x00s\x00":   "line 1: the file is no well-formed XML",
		`<?xml version="1.0" encoding="shift_jis"?><svg/>`: `the encoding "shift_jis" is not read`,
		`<svg width="-1"/>`:   "<svg>, line 1: width must be greater than 0",
		`<svg height="2em"/>`: `unit "em" is not read`,
		`<svg viewBox="a"/>`:  `viewBox "a": value 1`,
	} {
		if _, err := Read(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v, want %q", text, err, want)
		}
	}
}

// TestEncodings: Latin 1 and UTF-8, with and without a mark.
func TestEncodings(t *testing.T) {
	for _, text := range []string{
		"<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>\n<svg><title>\xe9toile</title></svg>",
		"\ufeff<?xml version=\"1.0\" encoding=\"utf-8\"?><svg><title>étoile</title></svg>",
		"<svg><title> é<!-- -->x</title></svg>",
	} {
		if d := read(t, text); !strings.HasPrefix(d.Title, "é") {
			t.Errorf("%q: title %q", text, d.Title)
		}
	}
	long, err := io.ReadAll(&latin1{r: bytes.NewReader(bytes.Repeat([]byte{0xe9}, 10_000))})
	if err != nil || string(long) != lots("é", 10_000) {
		t.Errorf("%d bytes of Latin 1 read, %v", len(long), err)
	}
}
