package game_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/place"
	"unthreaded/game/place/draw"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/synth"
	"unthreaded/game/work"
	"unthreaded/game/worktest"
	"unthreaded/scoring"
	"unthreaded/scoring/trace"
)

// downloads returns the files handed out so far.
func (tb *table) downloads() (out []game.Download) {
	for _, e := range tb.effects {
		if d, ok := e.(game.Download); ok {
			out = append(out, d)
		}
	}
	return out
}

// A trace that was saved as a file comes back to another browser with its motif, its
// date and its needle speed, whatever lies on the cloth there; a second time it is
// recognised.
func TestAnInkFileBringsItsOwnLine(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Control{Name: "motif", Value: "ruler-zigzag"}, game.Control{Name: "spm", Value: "800"})
	tb.draw(synth.Hand{Hz: 120, Speed: synth.Steady(30)}, trace.Pen, 7)
	was := tb.m.Rehearsal().Open.Rec
	tb.send(game.Control{Name: "download"})
	file := string(tb.downloads()[0].Data)

	other := newTable(t)
	other.send(game.Control{Name: "import", Value: file})
	got := other.m.Rehearsal().Open.Rec
	if got.Motif != "ruler-zigzag" || got.SPM != 800 || got.Started != was.Started || got.ID != was.ID || got.Repeats != was.Repeats {
		t.Errorf("came back as %s at %v spm of %d (%s)", got.Motif, got.SPM, got.Started, got.ID)
	}
	if d := got.Measures.Figures[scoring.SpacingCV] - was.Measures.Figures[scoring.SpacingCV]; d != 0 {
		t.Errorf("its stitches vary otherwise by %v", d)
	}
	if other.m.Rehearsal().Motif.ID != "ruler-zigzag" || len(other.saves()) != 1 {
		t.Errorf("the cloth has %s, %d traces were kept", other.m.Rehearsal().Motif.ID, len(other.saves()))
	}
	other.send(game.Control{Name: "import", Value: file})
	if n := len(other.saves()); n != 1 || !strings.Contains(other.m.Notice.In(other.m.Book()), "here already") {
		t.Errorf("%d traces are kept after the second time; the page says %q", n, other.m.Notice.In(other.m.Book()))
	}
}

// A file of another program goes onto the line on the cloth, and its traces are
// recognised by their samples when it comes again with one more.
func TestAForeignInkFileIsRecognised(t *testing.T) {
	tb := newTable(t)
	const head = `<ink xmlns="http://www.w3.org/2003/InkML"><context><inkSource><traceFormat><channel name="X" type="decimal" units="mm"/>` +
		`<channel name="Y" type="decimal" units="mm"/></traceFormat><sampleRate value="100"/></inkSource></context>`
	two := `<trace>0 0, 1 0, 2 0, 3 0, 4 1, 5 1, 6 1</trace><trace>9 0, 8 0, 7 0, 6 0, 5 1, 4 1, 3 1, 2 2</trace>`
	tb.send(game.Control{Name: "import", Value: head + two + `<trace>1 1</trace></ink>`})
	if n := len(tb.saves()); n != 2 || !strings.HasPrefix(tb.m.Notice.In(tb.m.Book()), "2 traces were read") {
		t.Fatalf("%d traces kept: %q", n, tb.m.Notice.In(tb.m.Book()))
	}
	tb.send(game.Control{Name: "import", Value: head + two + `<trace>5 0, 5 1, 5 2, 5 3, 5 4, 5 5, 5 6</trace></ink>`})
	if n := len(tb.saves()); n != 3 || !strings.HasPrefix(tb.m.Notice.In(tb.m.Book()), "3 traces, 2 were here already.") {
		t.Errorf("%d traces kept: %q", n, tb.m.Notice.In(tb.m.Book()))
	}
}

// A wrong file is called what it is, and she is told where it belongs.
func TestOtherFilesAreNoInk(t *testing.T) {
	for _, c := range []struct{ doc, want string }{
		{"", "is empty"},
		{"\ufffdPNG\r\n\x1a\n\x00\x00\x00\rIHDR", "is a picture"},
		{`{"backup":{"of":"unthreaded","form":1}}`, "under Settings"},
		{`<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"/>`, "Draw opens it"},
		{`<ink xmlns="http://www.w3.org/2003/InkML"><trace>1 2, x</trace></ink>`, "no traces that can be read"},
		{"Dear diary, é" + strings.Repeat("é", 4096), "no traces that can be read"},
	} {
		tb := newTable(t)
		tb.send(game.Control{Name: "import", Value: c.doc})
		if n := tb.m.Notice.In(tb.m.Book()); !strings.Contains(n, c.want) || !strings.Contains(n, "Nothing was changed.") || len(tb.saves()) > 0 {
			t.Errorf("%.20q: %q, want %q", c.doc, n, c.want)
		}
	}
}

// What other programs write (testdata/ink, after the W3C Recommendation of 2011): each file
// is taken in, asked about, or offered to Draw, and nothing is lost or measured that has no
// times.
func TestInkOfOtherPrograms(t *testing.T) {
	files, err := filepath.Glob("../testdata/ink/*.inkml")
	if err != nil || len(files) == 0 {
		t.Fatal(err, len(files))
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			unsized := errors.As(func() error { _, err := trace.ReadInk(strings.NewReader(string(text)), 0); return err }(), new(*trace.UnitError))
			tb := newTable(t)
			tb.send(game.Control{Name: "import", Value: string(text)})
			asked := tb.m.Rehearsal().Page().In.(rehearse.Page).Ink
			if asked.Sizing != unsized {
				t.Fatalf("asked for a size: %v, want %v", asked.Sizing, unsized)
			}
			if unsized {
				tb.send(game.Control{Name: "rehearse.ink-width", Value: "-3"})
				if wrong := tb.m.Rehearsal().Page().In.(rehearse.Page).Ink.Wrong; wrong == "" {
					t.Error("ink of a width below nothing is taken")
				}
				tb.send(game.Control{Name: "rehearse.ink-width", Value: "120 mm"}, game.Control{Name: "rehearse.ink-take"})
			}
			inks, err := trace.ReadInk(strings.NewReader(string(text)), 1)
			if err != nil {
				t.Fatal(err)
			}
			movements := 0
			for _, k := range inks {
				if !k.Timeless && k.Duration() > 0 {
					movements++
				}
			}
			drawn := tb.m.Rehearsal().Page().In.(rehearse.Page).Ink.Drawn != ""
			if drawn != inks[0].Timeless || len(tb.saves()) > movements || inks[0].Timeless && len(tb.saves()) > 0 {
				t.Fatalf("offered to Draw: %v; %d traces kept of %d", drawn, len(tb.saves()), movements)
			}
			if !drawn {
				return
			}
			tb.send(game.Control{Name: "rehearse.ink-draw"})
			if tb.m.Place != place.Draw {
				t.Fatalf("the lines came to %s", tb.m.Place)
			}
			n := 0
			for _, l := range tb.m.Front().(draw.Room).Board.Design.Lines {
				if strings.HasPrefix(l.Name, "line from the file") {
					n++
				}
			}
			if n != len(inks) {
				t.Errorf("%d lines came to Draw, want %d", n, len(inks))
			}
		})
	}
}

// The reading of a file can be stopped, with nothing kept of it, and asked for again; where she
// has gone elsewhere meanwhile all of it is kept at once. Traces of one moment, and one that is
// in the file twice, are each kept once.
func TestTheReadingOfInkIsStopped(t *testing.T) {
	var file strings.Builder
	file.WriteString(`<ink xmlns="http://www.w3.org/2003/InkML"><context><timestamp time="1700000000000"/>` +
		`<inkSource><traceFormat><channel name="X" type="decimal" units="mm"/><channel name="Y" type="decimal" units="mm"/></traceFormat><sampleRate value="100"/></inkSource></context>`)
	const n = 40
	for k := range n + 1 {
		fmt.Fprintf(&file, "<trace>0 %[1]d, 2 %[1]d, 4 %[1]d, 6 %[1]d, 8 %[1]d, 10 %[1]d</trace>", min(k, n-1))
	}
	asked := func(effects []game.Effect) (out []work.Ask) {
		for _, e := range effects {
			if a, ok := e.(work.Ask); ok && a.Kind == work.Ink {
				out = append(out, a)
			}
		}
		return out
	}
	tb := newTable(t)
	m, effects := game.Update(tb.m, game.Control{Name: "import", Value: file.String() + "</ink>"})
	first := asked(effects)
	if len(first) != 1 || !m.Working.Busy(work.Ink) {
		t.Fatalf("%d jobs were asked for", len(first))
	}
	m, effects = game.Update(m, game.Control{Name: "work-stop"})
	if len(asked(effects)) > 0 || m.Working.Busy(work.Ink) {
		t.Fatal("it is not stopped")
	}
	if m, effects = game.Update(m, worktest.Answer(first[0])); len(effects) > 0 || m.Rehearsal().Open != nil {
		t.Fatal("what was stopped is kept")
	}
	m, effects = game.Update(m, game.Control{Name: "work-again"})
	again := asked(effects)
	for now := 1.0; len(again) == 0 && now < 3; now++ {
		m, effects = game.Update(m, game.Frame{Now: m.LastFrame + 0.02})
		again = asked(effects)
	}
	if len(again) != 1 {
		t.Fatalf("%d jobs were asked for again", len(again))
	}
	done := worktest.Answer(again[0])
	here, few := game.Update(m, done)
	saved := savesOf(few)
	if saved == 0 || saved >= n || !strings.Contains(here.Notice.In(here.Book()), "41 traces, 1 were here already") {
		t.Errorf("%d of %d traces kept in one frame: %q", saved, n, here.Notice.In(here.Book()))
	}
	for here.Playing() && saved < n {
		here, few = game.Update(here, game.Frame{Now: here.LastFrame + 0.02})
		saved += savesOf(few)
	}
	if saved != n || len(here.Records) != n {
		t.Errorf("%d traces kept, %d listed of %d", saved, len(here.Records), n)
	}
	for _, s := range here.Records {
		if s.Started != 1_700_000_000_000 {
			t.Fatalf("a trace began at %d, as the file does not say", s.Started)
		}
	}
	away, _ := game.Update(m, game.Control{Name: "place", Value: string(place.LookBack)})
	away, effects = game.Update(away, done)
	if got := savesOf(effects); got != n || len(away.Records) != n {
		t.Errorf("%d traces kept elsewhere, %d listed of %d", got, len(away.Records), n)
	}
}

// savesOf counts the traces that effects keep.
func savesOf(effects []game.Effect) (n int) {
	for _, e := range effects {
		if _, ok := e.(game.Save); ok {
			n++
		}
	}
	return n
}
