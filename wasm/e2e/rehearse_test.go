package e2e

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/wasm/e2e/browser"
)

const inchPerSecond = 25.4 // mm/s; at 600 stitches a minute 10 stitches per inch

// An even hand, with each kind of pointer: the figures shown are right.
func TestAnEvenTraceIsShownAsEven(t *testing.T) {
	for _, c := range []struct {
		kind browser.Kind
		view browser.View
		hz   float64
	}{
		{browser.Mouse, desk, 125},
		{browser.Pen, tablet, 240},
		{browser.Touch, phone, 120},
	} {
		t.Run(string(c.kind), func(t *testing.T) {
			d := sit(t, c.view, "")
			d.draw(c.kind, synth.Hand{Hz: c.hz, Speed: synth.Steady(inchPerSecond), Stop: 200})
			if cv, note := d.figure("Stitch length varies by"); cv > 3 {
				t.Errorf("an even hand's stitches vary by %v %% (%s), want at most 3", cv, note)
			}
			if off, note := d.figure("Beside the line"); off > 0.2 {
				t.Errorf("a hand on the line is shown %v mm beside it (%s), want at most 0.2", off, note)
			}
		})
	}
}

// A hand that slows to half and speeds up again every 60 mm. What to expect comes
// from the movement itself, taken at the moments when the needle falls (10 times a
// second at 600 stitches a minute), without any of the program's measuring.
func TestAHandThatSlowsInCurves(t *testing.T) {
	d := sit(t, desk, "")
	h := synth.Hand{Hz: 240, Speed: func(s float64) float64 {
		return inchPerSecond * (0.75 + 0.25*math.Cos(2*math.Pi*s/60))
	}, Stop: 400}
	d.draw(browser.Pen, h)
	h.Hz = 10
	falls := h.Samples(d.m.Rehearsal().Line)
	var lengths []float64
	for i := 4; i < len(falls)-4; i++ {
		lengths = append(lengths, geom.Dist(falls[i-1].P, falls[i].P))
	}
	mean, sd := stat.PopMeanStdDev(lengths, nil)
	if cv, note := d.figure("Stitch length varies by"); math.Abs(cv-100*sd/mean) > 2 {
		t.Errorf("the stitches vary by %v %% (%s), want %.1f", cv, note, 100*sd/mean)
	}
}

// A hand that goes 3 mm past each corner of the ruler lines.
func TestOvershootIsShownInMillimetres(t *testing.T) {
	d := sit(t, desk, "ruler-zigzag")
	d.draw(browser.Mouse, synth.Hand{Hz: 125, Speed: synth.Steady(20), Overshoot: 3})
	if over, note := d.figure("Past the corners"); math.Abs(over-3) > 0.3 {
		t.Errorf("3 mm past each corner is shown as %v mm (%s)", over, note)
	}
	if got := d.sentence(); got == "" {
		t.Error("no sentence after a trace")
	}
}

// While she traces, the thread is under the pointer in the same frame: in the
// frame after each move the canvas shows thread at the place of the move.
func TestTheThreadFollowsWithinAFrame(t *testing.T) {
	d := sit(t, brief, "")
	d.Do(`window.seen = { moves: 0, inked: 0 };
		const pick = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
		addEventListener('pointermove', (e) => requestAnimationFrame(() => {
			if (document.documentElement.dataset.tracing !== 'yes') return;
			const canvas = document.querySelector('#cloth canvas'), r = canvas.getBoundingClientRect();
			pick.drawImage(canvas, e.clientX - r.left - 2, e.clientY - r.top - 2, 5, 5, 0, 0, 5, 5);
			const px = pick.getImageData(0, 0, 5, 5).data;
			let thread = false;
			for (let i = 0; i < px.length; i += 4) thread ||= px[i] > 90 && px[i + 1] < 80 && px[i + 2] < 110;
			window.seen.moves++;
			if (thread) window.seen.inked++;
		}))`)
	samples := d.samples(synth.Hand{Hz: 60, Speed: synth.Steady(inchPerSecond), Stop: 60})
	var seen map[string]int
	for tries := 0; tries < 6 && seen["moves"] < 20; tries++ { // a busy machine makes few frames
		d.Trace(browser.Pen, samples)
		seen = browser.Eval[map[string]int](d.Page, "window.seen")
	}
	if seen["moves"] < 20 {
		t.Fatalf("only %d frames with a move were seen in 6 traces", seen["moves"])
	}
	if seen["inked"] < seen["moves"]*95/100 {
		t.Errorf("thread was under the pointer in %d of %d frames", seen["inked"], seen["moves"])
	}
}

// Every sample of a pen at 240 Hz is kept, with its own time and fractions.
func TestEverySampleIsKept(t *testing.T) {
	d := sit(t, brief, "")
	samples := d.samples(synth.Hand{Hz: 240, Speed: synth.Steady(inchPerSecond), Stop: 50})
	d.Trace(browser.Pen, samples)
	d.saved(1)
	kept := browser.Eval[map[string]any](d.Page, `unthreaded.store.newest(1e6).then(([l]) => l)
		.then(l => unthreaded.store.get(JSON.parse(l[0]).id)).then(JSON.parse)
		.then(r => ({ n: r.samples.t_s.length, device: r.device, pressure: r.samples.pressure[5], interval: r.interval_s,
			whole: r.samples.x_mm.filter(x => Number.isInteger(x * r.px_per_mm * r.zoom)).length }))`)
	if n := int(kept["n"].(float64)); n < len(samples) || n > len(samples)+1 {
		t.Errorf("%d samples were kept of %d and the lifting", n, len(samples))
	}
	if kept["device"] != "pen" || kept["pressure"] != 0.5 {
		t.Errorf("kept as %v with pressure %v, want pen and 0.5", kept["device"], kept["pressure"])
	}
	if dt := kept["interval"].(float64); math.Abs(dt-1.0/240) > 0.0005 {
		t.Errorf("the samples lie %v s apart, want 1/240", dt)
	}
}
