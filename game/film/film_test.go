package film

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"math"
	"testing"

	"unthreaded/game"
	"unthreaded/game/film/reel"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/scene"
	"unthreaded/game/softdraw"
	"unthreaded/game/synth"
	"unthreaded/scoring/trace"
)

// traced returns the program with a trace of so many mm at a speed in mm/s on the
// cloth.
func traced(t testing.TB, theme string, speed, stop, rate float64) rehearse.Room {
	s := game.DefaultSettings()
	s.Theme = theme
	m := game.New(s, 0)
	send := func(msg game.Msg) { m, _ = game.Update(m, msg) }
	send(game.Resized{W: 900, H: 500, Strip: 112, DPR: 1})
	samples := synth.Hand{Hz: 60, Speed: synth.Steady(speed), Stop: stop}.Samples(m.Rehearsal().Line)
	for i, s := range samples {
		kind := game.Move
		if i == 0 {
			kind = game.Down
		}
		p := m.Sight().ToScreen(s.P)
		send(game.Pointer{Kind: kind, ID: 1, Device: trace.Pen, T: s.T, X: p.X, Y: p.Y, Pressure: 0.5})
	}
	p := m.Sight().ToScreen(samples[len(samples)-1].P)
	send(game.Pointer{Kind: game.Up, ID: 1, Device: trace.Pen, T: samples[len(samples)-1].T, X: p.X, Y: p.Y})
	if m.Rehearsal().Open == nil {
		t.Fatal("no trace on the cloth")
	}
	r := m.Rehearsal()
	r.Replay.Rate = rate
	return r
}

// drawn draws a room anew.
func drawn(r rehearse.Room) scene.List {
	var l scene.Layers
	l.Begin(r.Screen, 0, r.Theme())
	return r.Scene(&l)
}

// recorded takes a replay down.
func recorded(m rehearse.Room) reel.Reel {
	r := m.Film()
	for r.Step() {
	}
	return r.Reel
}

// made makes the whole film and reads it back with the standard library's decoder.
func made(t testing.TB, m rehearse.Room) (*Film, *gif.GIF) {
	t.Helper()
	f := Of(recorded(m))
	for f.Step() {
	}
	doc, err := f.Encode()
	if err != nil {
		t.Fatal(err)
	}
	g, err := gif.DecodeAll(bytes.NewReader(doc))
	if err != nil {
		t.Fatal(err)
	}
	return f, g
}

// The delays sum to the time of the replay at its rate, which is the length of the
// way over the speed of the hand; the film has the frames that this takes.
func TestTheFilmLastsAsLongAsTheReplay(t *testing.T) {
	for _, c := range []struct{ speed, stop, rate, seconds, fast float64 }{
		{25, 100, 1, 4, 1},
		{25, 100, 2, 2, 2},
		{25, 50, 0.5, 4, 0.5},
		{10, 300, 1, 20, 1.5}, // 30 s would be too long
	} {
		f, g := made(t, traced(t, "light", c.speed, c.stop, c.rate))
		sum := 0
		for _, d := range g.Delay {
			if d < 2 {
				t.Errorf("a frame of %d hundredths, which browsers do not show so briefly", d)
			}
			sum += d
		}
		// The hand eases in and out, which takes part of a second at each end.
		if got := float64(sum-Hold) / 100; math.Abs(got-c.seconds) > 0.05*c.seconds || math.Abs(f.reel.Speed-c.fast) > 0.05*c.fast {
			t.Errorf("%v mm at %v mm/s, rate %v: %v s at speed %v, want %v s at %v", c.stop, c.speed, c.rate, got, f.reel.Speed, c.seconds, c.fast)
		}
		if want := (sum-Hold)/8 + 1; len(g.Image) < want || len(g.Image) > want+1 {
			t.Errorf("%d frames for %d hundredths of a second, want about %d", len(g.Image), sum-Hold, want)
		}
	}
}

// Put on top of each other as the format says, the frames end in the still of the
// finished trace, and each is the still of its own moment.
func TestFramesAreTheStills(t *testing.T) {
	for _, theme := range []string{"light", "dark"} {
		m := traced(t, theme, 25.4, 100, 1)
		f, g := made(t, m)
		screen := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
		for k, frame := range g.Image {
			draw.Draw(screen, frame.Rect, frame, frame.Rect.Min, draw.Src)
			if k%9 != 0 && k != len(g.Image)-1 {
				continue
			}
			at := m
			at.Replay = at.Replay.At(float64(f.reel.Times[k]) / 100)
			if k == len(g.Image)-1 {
				at.Replay = at.Replay.At(math.Inf(1))
			}
			still := softdraw.Draw(drawn(at), f.scale)
			mean, worst := apart(screen, still)
			if mean > 0.5 || worst > 60 {
				t.Errorf("%s: frame %d of %d differs from the still by %.2f on average and %.0f at worst (of 255)", theme, k, len(g.Image), mean, worst)
			}
		}
	}
}

// apart returns how far two pictures are apart: per pixel the largest difference of a
// channel.
func apart(a, b *image.RGBA) (mean, worst float64) {
	if a.Rect != b.Rect {
		return 255, 255
	}
	var sum float64
	for i := 0; i < len(a.Pix); i += 4 {
		d := 0.0
		for j := 0; j < 3; j++ {
			d = math.Max(d, math.Abs(float64(a.Pix[i+j])-float64(b.Pix[i+j])))
		}
		sum, worst = sum+d, math.Max(worst, d)
	}
	return sum / float64(len(a.Pix)/4), worst
}

// What does not change is not in the file again.
func TestFramesHoldWhatChanged(t *testing.T) {
	m := traced(t, "light", 25.4, 150, 1)
	_, g := made(t, m)
	var all, whole float64
	for _, frame := range g.Image[1 : len(g.Image)-1] {
		all += float64(frame.Rect.Dx() * frame.Rect.Dy())
		whole += float64(g.Config.Width * g.Config.Height)
	}
	if all > whole/10 {
		t.Errorf("the frames hold %.0f %% of all pixels, want less than a tenth", 100*all/whole)
	}
	if g.Config.Width != maxWidth {
		t.Errorf("the film is %d px wide, want %d", g.Config.Width, maxWidth)
	}
}

// The colours of the theme come out exactly.
func TestThePaletteHoldsTheTheme(t *testing.T) {
	m := traced(t, "light", 25.4, 100, 1)
	_, g := made(t, m)
	pal, ok := g.Config.ColorModel.(color.Palette)
	if !ok || len(pal) > 256 {
		t.Fatalf("the film has no palette of its own: %T", g.Config.ColorModel)
	}
	for _, want := range []color.RGBA{{0xED, 0xE4, 0xD3, 255}, {0x3E, 0x6A, 0x92, 255}, {0x7A, 0x1F, 0x3D, 255}} {
		if got := pal.Convert(want); got != want {
			t.Errorf("%v comes out as %v", want, got)
		}
	}
}

func TestNoTraceNoFilm(t *testing.T) {
	if game.New(game.DefaultSettings(), 0).Rehearsal().Film() != nil {
		t.Error("a film of nothing")
	}
}

func BenchmarkFilm(b *testing.B) {
	m := traced(b, "light", 25.4, 250, 1)
	for b.Loop() {
		f := Of(recorded(m))
		for f.Step() {
		}
		doc, err := f.Encode()
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(doc)), "bytes")
		b.ReportMetric(float64(len(f.reel.Times)), "frames")
	}
}
