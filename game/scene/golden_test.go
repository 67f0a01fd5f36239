package scene_test

import (
	"flag"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/softdraw"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

var update = flag.Bool("update", false, "write the pictures anew; look at each one before committing it")

// pictures are the states of the program that are kept as pictures.
var pictures = map[string]func(t *testing.T) game.Model{
	"start": func(t *testing.T) game.Model {
		return traced(t, laptop, synth.Hand{Hz: 240, Speed: synth.Steady(25), Stop: 0.01}, false)
	},
	"tracing": func(t *testing.T) game.Model {
		return traced(t, laptop, synth.Hand{Hz: 240, Speed: synth.Steady(25), Beside: wobble, Stop: 300}, false)
	},
	"stitches": func(t *testing.T) game.Model { return traced(t, laptop, uneven, true) },
	"replay": func(t *testing.T) game.Model {
		m := traced(t, laptop, uneven, true)
		m, _ = worktest.Update(m, game.Control{Name: "scrub", Value: "260"})
		return m
	},
	"route-why": func(t *testing.T) game.Model {
		return routing(game.Control{Name: "rule", Value: "fixed"}, game.Control{Name: "why"})
	},
	"route-ditch-played": func(t *testing.T) game.Model {
		return routing(game.Control{Name: "drawing", Value: "crosshatch"}, game.Control{Name: "scrub", Value: "500"})
	},
	"route-own": func(t *testing.T) game.Model {
		m := routing(game.Control{Name: "own"})
		for _, p := range []geom.Point{geom.Pt(20, 8), geom.Pt(60, 8), geom.Pt(60, 112), geom.Pt(20, 8)} {
			q := m.Sight().ToScreen(p)
			tap := game.Pointer{Kind: game.Down, ID: 1, Device: trace.Mouse, X: q.X, Y: q.Y}
			m, _ = worktest.Update(m, tap)
			tap.Kind = game.Up
			m, _ = worktest.Update(m, tap)
		}
		return m
	},
	"cloth-start": func(t *testing.T) game.Model {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), small)
		return chosen(m, "way", "cloth")
	},
	"cloth-moved": func(t *testing.T) game.Model {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), small)
		m = chosen(m, "way", "cloth", "strip", "on", "lead", "ahead")
		return pushed(m, synth.Hand{Hz: 240, Speed: synth.Steady(25), Beside: wobble, Stop: 100})
	},
	"dots-by-heart": func(t *testing.T) game.Model {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), small)
		m, _ = worktest.Update(m, game.Control{Name: "motif", Value: "ruler-zigzag"})
		return sewnWithASkip(chosen(m, "marks", "dots", "unnumbered", "on"))
	},
	"counting": func(t *testing.T) game.Model {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), small)
		m = drawn(chosen(m, "countin", "on", "marks", "ends"), synth.Hand{Hz: 60, Speed: synth.Steady(25), Stop: 0.01}, false)
		m, _ = worktest.Update(m, game.Frame{Now: 2})
		return m
	},
	"look-back":      pictured,
	"look-back-days": func(t *testing.T) game.Model { return lookedBack(t, game.Control{Name: "back.view", Value: "days"}) },
	"look-back-sewn": func(t *testing.T) game.Model {
		m := lookedBack(t, game.Control{Name: "back.view", Value: "sewn"})
		for _, f := range [][2]string{{"day", "2026-01-15"}, {"stitches", "32"}, {"length", "4"}, {"spm", "600"}, {"keep", ""}} {
			m, _ = worktest.Update(m, game.Control{Name: "back.sewn-" + f[0], Value: f[1]})
		}
		return m
	},
	"two-traces": func(t *testing.T) game.Model {
		m := traced(t, laptop, uneven, true)
		first := m.Rehearsal().Open.Rec
		m = drawn(m, synth.Hand{Hz: 240, Speed: synth.Steady(25), Beside: wobble, Stop: 400}, true)
		second := m.Rehearsal().Open.Rec
		m, _ = worktest.Update(m, game.Control{Name: "place", Value: "back"})
		for _, rec := range []keep.Record{first, second} {
			doc, err := keep.Encode(rec)
			if err != nil {
				t.Fatal(err)
			}
			m, _ = worktest.Update(m, game.Fetched{ID: rec.ID, For: game.ToCompare, Doc: doc})
		}
		m, _ = worktest.Update(m, game.Control{Name: "scrub", Value: "260"})
		return m
	},
	"ruler-dark": func(t *testing.T) game.Model {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), small)
		m, _ = worktest.Update(m, game.SystemDark{Dark: true})
		m, _ = worktest.Update(m, game.Control{Name: "motif", Value: "ruler-zigzag"})
		h := uneven
		h.Overshoot = 3
		return drawn(m, h, true)
	},
}

// pictured is the place Look back with the first trace and the best, and a piece that was
// sewn.
func pictured(t *testing.T) game.Model {
	m := lookedBack(t, game.Control{Name: "back.view", Value: "sewn"})
	for _, f := range [][2]string{{"day", "2026-01-05"}, {"motif", "linked-swirls"}, {"stitches", "32"}, {"length", "4"}, {"spm", "600"}, {"keep", ""}} {
		m, _ = game.Update(m, game.Control{Name: "back.sewn-" + f[0], Value: f[1]})
	}
	m, _ = game.Update(m, game.Control{Name: "back.view", Value: "weeks"})
	m, _ = game.Update(m, game.Control{Name: "close"})
	id := "0-0"
	for _, h := range []synth.Hand{uneven, {Hz: 240, Speed: synth.Steady(25)}} {
		doc, err := keep.Encode(traced(t, laptop, h, true).Rehearsal().Open.Rec)
		if err != nil {
			t.Fatal(err)
		}
		m, _ = game.Update(m, game.Fetched{ID: id, For: game.ToPicture, Doc: doc})
		var effects []game.Effect
		m, effects = game.Update(m, game.Frame{Now: 2000})
		for _, e := range effects {
			if f, ok := e.(game.Fetch); ok {
				id = f.ID
			}
		}
	}
	return m
}

var laptop = game.Resized{W: 1026, H: 656, Strip: 112, DPR: 1}

// routing returns the place Route after some controls were used.
func routing(controls ...game.Control) game.Model {
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), laptop)
	m, _ = worktest.Update(m, game.Control{Name: "place", Value: "route"})
	for _, c := range controls {
		m, _ = worktest.Update(m, c)
	}
	return m
}

// chosen returns the program after choices in the place Rehearse, by name and value.
func chosen(m game.Model, pairs ...string) game.Model {
	for i := 0; i < len(pairs); i += 2 {
		m, _ = worktest.Update(m, game.Control{Name: "rehearse." + pairs[i], Value: pairs[i+1]})
	}
	return m
}

// pushed returns the model while the cloth is moved under the needle.
func pushed(m game.Model, h synth.Hand) game.Model {
	hold, samples := m.Rehearsal().Hold(), h.Samples(m.Rehearsal().Line)
	for i, s := range samples {
		p := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, T: 1 + s.T}
		p.X, p.Y = hold.X-(s.P.X-samples[0].P.X)*m.Sight().Scale, hold.Y-(s.P.Y-samples[0].P.Y)*m.Sight().Scale
		if i == 0 {
			p.Kind = game.Down
		}
		m, _ = worktest.Update(m, p)
		m, _ = worktest.Update(m, game.Frame{Now: p.T})
	}
	return m
}

// sewnWithASkip returns the model while the dots are sewn: a stop on the second, then
// straight to the fourth.
func sewnWithASkip(m game.Model) game.Model {
	now := 1.0
	for i, k := range []int{0, 1, 3} {
		q := m.Sight().ToScreen(m.Rehearsal().Line.At(m.Rehearsal().Line.Dots[k]))
		p := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, T: now, X: q.X, Y: q.Y}
		if i == 0 {
			p.Kind = game.Down
		}
		m, _ = worktest.Update(m, p)
		for range 30 {
			now += 1.0 / 60
			m, _ = worktest.Update(m, game.Frame{Now: now})
		}
	}
	return m
}

func wobble(s float64) float64 { return 0.8 * math.Sin(s/9) }

// uneven is a hand that swings between half and one and a half times an inch a
// second every 80 mm.
var uneven = synth.Hand{
	Hz: 240, Beside: wobble,
	Speed: func(s float64) float64 { return 25.4 * (1 + 0.5*math.Sin(2*math.Pi*s/80)) },
}

// The pictures are of the display list through softdraw; a change of more than a
// few soft edges fails and leaves the new picture beside the old one's folder.
func TestPictures(t *testing.T) {
	for name, make := range pictures {
		t.Run(name, func(t *testing.T) {
			var st stage
			compare(t, name, softdraw.Draw(st.Of(make(t)), 1))
		})
	}
}

// compare holds a picture against the kept one of that name, or writes it anew.
func compare(t *testing.T, name string, got image.Image) {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "golden", name+".png")
	if *update {
		write(t, path, got)
		return
	}
	want := read(t, path)
	if got.Bounds() != want.Bounds() {
		t.Fatalf("the picture is %v, was %v", got.Bounds(), want.Bounds())
	}
	if share := differing(got, want); share > 0.0005 {
		failed := filepath.Join(t.ArtifactDir(), name+".png")
		write(t, failed, got)
		t.Errorf("%.2f %% of the pixels differ; compare %s with %s", 100*share, failed, path)
	}
}

// differing returns the share of pixels that differ by more than a sixth of the
// range in some channel.
func differing(a, b image.Image) float64 {
	n := 0
	r := a.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			r1, g1, b1, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			if far(r1, r2) || far(g1, g2) || far(b1, b2) {
				n++
			}
		}
	}
	return float64(n) / float64(r.Dx()*r.Dy())
}

func far(a, b uint32) bool { return math.Abs(float64(a)-float64(b)) > 65535/6 }

func read(t *testing.T, path string) image.Image {
	f, err := os.Open(path)
	if err != nil {
		t.Fatalf("%v (go test -update writes it)", err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return img
}

func write(t *testing.T, path string, img image.Image) {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}
