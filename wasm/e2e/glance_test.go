package e2e

import (
	"flag"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
	"unthreaded/wasm/e2e/browser"
)

var glances = flag.String("glances", "", "the folder into which what is seen after each hand is written, to be looked at")

// did is what a hand does on a line, and how what is said of it first begins.
type did struct {
	name, motif string
	hand        synth.Hand
	// move is what becomes of its places, from the corner of the line; nil for nothing.
	move func(p geom.Point) geom.Point
	// path is another line than the one on the cloth, from the same corner.
	path string
	back bool // from the end to the start
	says string
}

var even = synth.Hand{Hz: 120, Speed: synth.Steady(inchPerSecond)}

// dids are one hand of each kind that is told apart.
var dids = []did{
	{name: "even", hand: even, says: "Very even stitches"},
	{name: "slows", hand: synth.Hand{Hz: 120, Speed: func(s float64) float64 {
		if s > 120 && s < 160 {
			return inchPerSecond / 2
		}
		return inchPerSecond
	}}, says: "Inside swirl "},
	{name: "uneven", hand: synth.Hand{Hz: 120, Speed: func(s float64) float64 { return inchPerSecond * (1 + 0.45*math.Sin(s/7)) }}, says: "You sped up and slowed down"},
	{name: "half", hand: synth.Hand{Hz: 120, Speed: synth.Steady(inchPerSecond), Stop: 120}, says: "You stopped "},
	{name: "backwards", hand: even, back: true, says: "The line was sewn from its end to its start"},
	{name: "aside", hand: even, move: func(p geom.Point) geom.Point { return geom.Pt(p.X+3, p.Y-5) }, says: "You went 5.8 mm to the left"},
	{name: "larger", hand: even, move: func(p geom.Point) geom.Point { return geom.Pt(1.2*p.X, 1.2*p.Y) }, says: "You kept the shape, but made it 120 %"},
	{name: "another figure", hand: even, path: "M 0 0 L 70 0 L 0 12 L 70 24 L 0 36 L 70 48 L 0 48 L 0 0", says: "That was another figure"},
	{name: "overshot", motif: "ruler-zigzag", hand: synth.Hand{Hz: 120, Speed: synth.Steady(20), Overshoot: 4}, says: "At corner "},
}

// of returns the places of the hand on the page.
func (h did) of(d *table) []browser.Sample {
	l := d.m.Rehearsal().Line
	if h.back {
		back, err := geom.NewLine(l.Path().Reversed())
		if err != nil {
			d.t.Fatal(err)
		}
		l = back
	}
	lo, _ := l.Path().Bounds()
	if h.path != "" {
		other, err := geom.NewLine(geom.MustParse(h.path).Map(func(p geom.Point) geom.Point { return geom.Pt(p.X+lo.X, p.Y+lo.Y) }))
		if err != nil {
			d.t.Fatal(err)
		}
		l = other
	}
	var out []browser.Sample
	samples := h.hand.Samples(l)
	if h.name == "stood still" {
		samples = standing(samples)
	}
	for _, s := range samples {
		p := s.P
		if h.move != nil {
			q := h.move(geom.Pt(p.X-lo.X, p.Y-lo.Y))
			p = geom.Pt(q.X+lo.X, q.Y+lo.Y)
		}
		at := d.at(p)
		out = append(out, browser.Sample{T: s.T, X: at.X, Y: at.Y, Pressure: 0.5})
	}
	return out
}

// standing stops a movement for a second half way.
func standing(s []trace.Sample) []trace.Sample {
	n := len(s) / 2
	out := append([]trace.Sample(nil), s[:n]...)
	for k := range 60 {
		out = append(out, trace.Sample{T: s[n].T + float64(k)/60, P: s[n].P, Pressure: 0.5})
	}
	for _, p := range s[n:] {
		p.T++
		out = append(out, p)
	}
	return out
}

// inSight tells that an element lies inside the window and is not covered; its text fits in.
const inSight = `(e => { const r = e.getBoundingClientRect();
	const at = document.elementFromPoint(r.left + Math.min(r.width / 2, 40), r.top + r.height / 2);
	return r.width > 0 && r.top >= 0 && r.left >= 0 && r.bottom <= innerHeight && r.right <= innerWidth && e.contains(at) && e.scrollWidth <= e.clientWidth + 1; })`

// After each kind of hand, at each size, what is said first is what the hand did, and lies
// in sight in large type though the column had been scrolled to its end; what to do next
// stands under it.
func TestEachHandIsToldAtAGlance(t *testing.T) {
	hands := append([]did{{name: "stood still", hand: even, says: "Inside swirl "}}, dids...)
	for name, view := range map[string]browser.View{"desk": desk, "tablet": tablet, "phone": phone} {
		t.Run(name, func(t *testing.T) {
			d := sit(t, view, "")
			motif := ""
			for _, h := range hands {
				if h.motif != motif {
					d.choose("motif", "ruler-zigzag")
					motif = h.motif
				}
				d.measure()
				d.Do(`for (const id of ['column', 'column-body']) { const e = document.getElementById(id); e.scrollTop = e.scrollHeight; }`)
				d.TraceAtOnce(browser.Pen, h.of(d))
				d.Until(`document.documentElement.dataset.trace === 'yes' && document.documentElement.dataset.tracing === 'no'`)
				if got := d.sentence(); !strings.HasPrefix(got, h.says) {
					t.Errorf("%s: it says %q, want %q first", h.name, got, h.says)
				}
				for _, el := range []string{".sentence", ".next"} {
					if !browser.Eval[bool](d.Page, inSight+`(document.querySelector('`+el+`'))`) {
						t.Errorf("%s: %s is not in sight", h.name, el)
					}
				}
				if px := browser.Eval[float64](d.Page, `parseFloat(getComputedStyle(document.querySelector('.sentence')).fontSize)`); px < 28 {
					t.Errorf("%s: the sentence is set in %v px, want 28", h.name, px)
				}
				d.look(fmt.Sprintf("%s-%s", name, strings.ReplaceAll(h.name, " ", "-")))
				d.again()
			}
		})
	}
}

// look writes what is seen, where that is asked for.
func (d *table) look(name string) {
	d.t.Helper()
	if *glances != "" {
		d.Steady()
		d.Screenshot(filepath.Join(*glances, name+".png"))
	}
}

// Before a trace the ideal movement goes round a stretch; in the cloth way, while the needle
// is down, what is said and the button that finishes lie in sight, at each size and whatever
// was opened and scrolled. A phone asks for its true size first.
func TestAStretchAndTheNeedleDownAreInSight(t *testing.T) {
	for name, view := range map[string]browser.View{"desk": desk, "tablet": tablet, "phone": phone} {
		t.Run(name, func(t *testing.T) {
			d := sit(t, view, "")
			if asks := browser.Eval[bool](d.Page, `!document.querySelector('.ask').hidden`); asks != (view == phone) {
				t.Errorf("the true size is asked for: %v", asks)
			}
			d.look(name + "-start")
			d.Do(`document.querySelector('[data-send="rehearse.size-later"]').click()`)
			d.choose("rehearse.stretch", "2")
			if !browser.Eval[bool](d.Page, inSight+`(document.getElementById('play'))`) {
				t.Error("what plays the ideal movement is not in sight")
			}
			d.Do(`document.getElementById('play').click()`)
			d.Until(`document.getElementById('play').textContent === 'Pause' && +document.getElementById('scrub').value > 60`)
			d.look(name + "-stretch")
			d.Do(`document.getElementById('play').click()`)
			d.choose("rehearse.stretch", "line")
			d.rehearsing("way", "cloth")
			d.look(name + "-cloth")
			d.measure()
			d.rehearsing("way", "cloth")
			hold := d.m.Rehearsal().Hold()
			s := d.Stroke(browser.Pen)
			l := d.m.Rehearsal().Line
			var way []browser.Sample
			for k := range 90 {
				p, o := d.m.Sight().ToScreen(l.At(float64(k))), d.m.Sight().ToScreen(l.At(0))
				way = append(way, browser.Sample{T: float64(k) / 30, X: d.left + hold.X - (p.X - o.X), Y: d.top + hold.Y - (p.Y - o.Y), Pressure: 0.5})
			}
			s.Down(way[0])
			s.Move(way[1:]...)
			s.Up(way[len(way)-1])
			d.Until(`document.querySelector('.sentence').textContent.startsWith('Needle down.')`)
			d.look(name + "-needle-down")
			d.Do(`{ const t = document.getElementById('column-toggle'); if (t.offsetParent) t.click(); }
				for (const id of ['column', 'column-body']) { const e = document.getElementById(id); e.scrollTop = e.scrollHeight; }`)
			for _, el := range []string{`.sentence`, `[data-send="rehearse.finish"]`} {
				if !browser.Eval[bool](d.Page, inSight+`(document.querySelector('`+el+`'))`) {
					t.Errorf("with the needle down %s is not in sight", el)
				}
			}
			d.look(name + "-needle-down-open")
			d.Do(`document.querySelector('[data-send="rehearse.finish"]').click()`)
			d.Until(`document.documentElement.dataset.trace === 'yes'`)
			if !browser.Eval[bool](d.Page, inSight+`(document.querySelector('.sentence'))`) {
				t.Error("what is said of the trace is not in sight")
			}
			d.look(name + "-finished")
		})
	}
}
