package e2e

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/path/geom"
	"unthreaded/wasm/e2e/browser"
)

// drawBlock opens the place Draw on a new block of 6 in.
func drawBlock(t *testing.T, v browser.View) *table {
	t.Helper()
	d := &table{Page: open(t, v), t: t}
	d.Click(`[data-send=place][value=draw]`)
	d.Until(`document.querySelectorAll('.motifs li').length > 20`)
	d.Do(`document.querySelector('[data-send="draw.new"]').click();
		for (const x of document.querySelectorAll('#column details')) x.open = true`)
	d.Until(`document.querySelector('[data-send="draw.name"]').value.startsWith('My block')`)
	d.measure()
	d.m, _ = game.Update(d.m, game.Control{Name: "place", Value: "draw"})
	d.m, _ = game.Update(d.m, game.Control{Name: "draw.new"})
	return d
}

// tell does the same on the page and in the native program.
func (d *table) tell(name, value, item string) {
	d.t.Helper()
	d.Do(fmt.Sprintf(`unthreaded.send(%q, %q, %q)`, name, value, item))
	d.m, _ = game.Update(d.m, game.Control{Name: name, Value: value, Item: item})
	d.Steady()
}

// stroke draws on the cloth through places in mm.
func (d *table) stroke(k browser.Kind, pts ...geom.Point) {
	d.t.Helper()
	var all []browser.Sample
	for i, p := range pts {
		q := d.at(p)
		all = append(all, browser.Sample{T: 0.02 * float64(i), X: q.X, Y: q.Y, Pressure: 0.5})
	}
	s := d.Stroke(k)
	s.Down(all[0])
	if len(all) > 1 {
		s.Move(all[1:]...)
	}
	s.Up(all[len(all)-1])
}

const rows = `document.querySelectorAll('[data-list="draw.lines.rows"] li')`

// A block of one's own with a pen: a curve by hand and a ruler line between dots,
// on to the route, and from there to the rehearsal.
func TestOwnBlockByPenToRouteAndRehearsal(t *testing.T) {
	t.Parallel()
	d := drawBlock(t, desk)
	d.tell("draw.mark-count", "3", "")
	var wave []geom.Point
	for i := 0; i <= 40; i++ {
		wave = append(wave, geom.Pt(76.2+float64(i), 76.2-float64(i)*float64(40-i)/15))
	}
	d.stroke(browser.Pen, wave...)
	d.Until(rows + `.length === 1`)
	d.Until(`document.querySelector('[data-text="draw.fitted"]').textContent.startsWith('Smoothed')`)
	d.tell("draw.tool", "ruler", "")
	d.stroke(browser.Pen, geom.Pt(0, 0))
	d.stroke(browser.Pen, geom.Pt(76.2, 76.2))
	d.stroke(browser.Pen, geom.Pt(152.4, 152.4))
	d.Do(`document.querySelector('#cloth canvas').focus()`)
	d.Key("Escape") // finishes the ruler line in hand, loses none of it
	d.Until(rows + `.length === 2`)
	if text := browser.Eval[string](d.Page, rows+`[1].innerText`); !strings.Contains(text, "8½ in, sewn along the ruler") {
		t.Errorf("the ruler line from corner to corner of 6 in reads %q, want 6 x sqrt2 = 8½ in", text)
	}
	d.Click(`[data-send="draw.route"]`)
	d.Until(`!document.querySelector('[data-list="route.choices"]').closest('[hidden]') && document.querySelectorAll('[data-list="route.choices"] li').length > 0`)
	if name := browser.Eval[string](d.Page, `document.querySelector('[data-send=drawing]').selectedOptions[0].textContent`); !strings.HasPrefix(name, "My block") {
		t.Errorf("the desk shows %q", name)
	}
	d.Click(`[data-send=rehearse-route]`)
	d.Until(`document.querySelector('[data-send=motif]').value.startsWith('route-block-')`)
}

// A block by keyboard alone: dots, a ruler line from dot to dot, undone and done
// again, kept over a reload.
func TestOwnBlockByKeyboard(t *testing.T) {
	t.Parallel()
	d := drawBlock(t, desk)
	focus := func(selector string) { d.Do(`document.querySelector('` + selector + `').focus()`) }
	focus(`[data-send="draw.mark-count"]`)
	d.Key("Control+a")
	d.Key("4")
	focus(`[data-send="draw.tool"][value=ruler]`)
	d.Key("Enter")
	d.Until(`document.querySelector('[data-send="draw.tool"][value=ruler]').getAttribute('aria-pressed') === 'true'`)
	focus(`#cloth canvas`)
	for _, k := range []string{"Enter", "Enter", "ArrowRight", "ArrowDown", "Enter", "Enter"} {
		d.Key(k)
	}
	d.Until(rows + `.length === 1`)
	d.Key("Control+z")
	d.Until(rows + `.length === 0`)
	d.Key("Control+Shift+z")
	d.Until(rows + `.length === 1`)
	name := browser.Eval[string](d.Page, `document.querySelector('[data-send="draw.name"]').value`)
	d.Until(`unthreaded.store.things().then(all => { window.kept = all.some(x => x[2].includes('ruler line')); }) && window.kept`)
	d.Reload()
	d.Ready()
	d.Click(`[data-send=place][value=draw]`)
	d.Until(`document.querySelector('[data-send="draw.name"]').value === '` + name + `' && ` + rows + `.length === 1`)
}

// Ten steps back lead to the empty block, and ten forward to where it was.
func TestTenStepsBack(t *testing.T) {
	t.Parallel()
	d := drawBlock(t, tablet)
	for i, id := range []string{"spiral", "waves", "crosshatch", "feather", "clamshell", "loops", "stipple", "pebbles", "diamonds", "ribbon"} {
		d.tell("draw.pattern", id, "")
		d.Until(fmt.Sprintf(`document.querySelector('.motifs button[value=%s]').getAttribute('aria-pressed') === 'true'`, id))
		if i == 9 && browser.Eval[string](d.Page, `document.querySelector('[data-text="draw.motifFigure"]').textContent`) == "" {
			t.Error("nothing is said of the length of the ribbon")
		}
	}
	for range 10 {
		d.Click(`.hold [data-send=undo]`)
	}
	d.Until(`document.querySelector('[data-text="draw.motifName"]').textContent === 'none' && document.querySelector('.hold [data-send=undo]').disabled`)
	for range 10 {
		d.Click(`.hold [data-send=redo]`)
	}
	d.Until(`document.querySelector('.motifs button[value=ribbon]').getAttribute('aria-pressed') === 'true'`)
}

// An SVG file's lines come in at true size; what is no line is named; a file that
// is none changes nothing.
func TestSVGFileComesIn(t *testing.T) {
	t.Parallel()
	d := drawBlock(t, desk)
	file := filepath.Join(t.TempDir(), "leaf.svg")
	write := func(text string) {
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		d.Upload(`[data-file="draw.open-svg"]`, file)
	}
	write(`<svg xmlns="http://www.w3.org/2000/svg" width="4in" height="4in" viewBox="0 0 96 96">
		<title>leaf</title><path id="leaf" d="M 24 48 Q 48 0 72 48 T 24 48"/><text x="5" y="90">not a line</text></svg>`)
	d.Until(rows + `.length === 1`)
	said := browser.Eval[string](d.Page, `document.querySelector('[data-text="draw.said"]').textContent`)
	if !strings.Contains(said, "Lines read: 1") || !strings.Contains(said, "<text>, line 2") {
		t.Errorf("the page says %q, want one line read and the text left out by name", said)
	}
	write("a shopping list")
	d.Until(`document.querySelector('[data-text="draw.said"]').textContent.includes('Nothing was changed')`)
	if n := browser.Eval[int](d.Page, rows+`.length`); n != 1 {
		t.Errorf("%d lines after a file that is none, want 1", n)
	}
}

// A photo is laid under the block, its corner dragged, squared up, and is there
// again after a reload.
func TestPhotoUnderTheBlock(t *testing.T) {
	t.Parallel()
	d := drawBlock(t, desk)
	img := image.NewRGBA(image.Rect(0, 0, 320, 240))
	for i := range img.Pix {
		img.Pix[i] = 0xff
	}
	for y := 60; y < 180; y++ {
		for x := 80; x < 240; x++ {
			img.Set(x, y, color.RGBA{180, 40, 60, 255})
		}
	}
	file := filepath.Join(t.TempDir(), "block.png")
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	f.Close()
	d.Upload(`[data-photo="draw.photo"]`, file)
	d.Until(`document.querySelector('.sentence').textContent.includes('four rings')`)
	d.Click(`[data-send="draw.photo-square"]`)
	d.Until(`!document.querySelector('[data-send="draw.photo-corners"]').hidden`)
	d.Until(`unthreaded.store.things().then(all => { window.kept = all.some(x => x[2].includes('"squared":true')); }) && window.kept`)
	d.Reload()
	d.Ready()
	d.Click(`[data-send=place][value=draw]`)
	d.Until(`!document.querySelector('[data-send="draw.photo-corners"]').hidden && document.querySelector('[data-text="draw.photo.trouble"]').textContent === ''`)
}
