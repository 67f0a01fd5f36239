package page_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// after returns the program on a laptop after some controls were used.
func after(pairs ...string) game.Model {
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), laptop)
	for i := 0; i < len(pairs); i += 2 {
		m, _ = worktest.Update(m, game.Control{Name: pairs[i], Value: pairs[i+1]})
	}
	return m
}

// What to do first depends on how she moves and what she sees.
func TestTheFirstSentence(t *testing.T) {
	for want, m := range map[string]game.Model{
		"follow the chalk line":    after(),
		"push the cloth":           after("rehearse.way", "cloth"),
		"from dot to dot":          after("motif", "ruler-zigzag"),
		"sew the line from memory": after("rehearse.marks", "none"),
		"to its end from memory":   after("rehearse.marks", "ends"),
		"over its dots":            after("rehearse.marks", "dots"),
	} {
		if got := page.Of(m).Sentence; !strings.Contains(got, want) {
			t.Errorf("%q, want %q in it", got, want)
		}
	}
}

// While she sews from dot to dot she is told what she left out, went through or had
// already, by number unless the dots have none.
func TestWordsOnDots(t *testing.T) {
	for name, c := range map[string]struct {
		dots []int
		rest bool
		want string
		hide string
	}{
		"left out":   {[]int{0, 2}, true, "Left out: dot 2.", "A dot was left out."},
		"gone on":    {[]int{0, 1, 2}, false, "You went through dot 3.", "You went through that dot."},
		"back again": {[]int{0, 1, 2, 0}, true, "You had dot 1 already. Next is dot 4.", "You had that dot already."},
		"well":       {[]int{0, 1, 2}, true, "Keep going", "Keep going"},
	} {
		for _, unnumbered := range []string{"off", "on"} {
			m := sewn(after("motif", "ruler-zigzag", "rehearse.unnumbered", unnumbered), c.dots, c.rest)
			want := c.want
			if unnumbered == "on" {
				want = c.hide
			}
			if got := page.Of(m).Sentence; !strings.HasPrefix(got, want) {
				t.Errorf("%s, unnumbered %s: %q, want %q", name, unnumbered, got, want)
			}
		}
	}
}

// sewn goes from dot to dot at 60 Hz, resting half a second on each if it is to.
func sewn(m game.Model, dots []int, rest bool) game.Model {
	now, at := 1.0, m.Sight().ToScreen(m.Rehearsal().Line.At(0))
	send := func(kind game.PointerKind) {
		m, _ = worktest.Update(m, game.Pointer{Kind: kind, ID: 1, Device: trace.Pen, T: now, X: at.X, Y: at.Y})
		m, _ = worktest.Update(m, game.Frame{Now: now})
		now += 1.0 / 60
	}
	send(game.Down)
	for _, k := range dots {
		from, to := at, m.Sight().ToScreen(m.Rehearsal().Line.At(m.Rehearsal().Line.Dots[k]))
		for i := 1.0; i <= 40; i++ {
			at = geom.Lerp(from, to, i/40)
			send(game.Move)
		}
		for i := 0; rest && i < 30; i++ {
			m, _ = worktest.Update(m, game.Frame{Now: now})
			now += 1.0 / 60
		}
	}
	if !rest { // off the last dot
		at = geom.Pt(at.X+30, at.Y-30)
		send(game.Move)
	}
	return m
}

// The size is called a guess until the screen was measured; a scale is stated either
// way.
func TestTheSizeIsStated(t *testing.T) {
	measured := []string{"rehearse.screen", "", "rehearse.card-keep", ""}
	small := game.Resized{W: 390, H: 430, Strip: 92, DPR: 1}
	for _, c := range []struct {
		m        game.Model
		is, isnt string
	}{
		{after(), "Shown at true size. That is a guess", "%"},
		{after(measured...), "Shown at true size.", "guess"},
	} {
		shrunk, _ := worktest.Update(c.m, game.Control{Name: "repeats", Value: "4"})
		shrunk, _ = worktest.Update(shrunk, small)
		for _, m := range []game.Model{c.m, shrunk} {
			note := in(m).SizeNote
			if m.Sight().Zoom == 1 && (!strings.HasPrefix(note, c.is) || strings.Contains(note, c.isnt)) {
				t.Errorf("%q, want %q and no %q", note, c.is, c.isnt)
			}
			if m.Sight().Zoom < 1 && (!strings.Contains(note, "% of true size") || strings.Contains(note, "guess") == m.Screen.SizeKnown) {
				t.Errorf("at a smaller scale: %q", note)
			}
		}
	}
}

// The list puts like with like, and a comparison of others says what differs.
func TestThePastIsComparedLikeWithLike(t *testing.T) {
	m := traced("linked-swirls", synth.Hand{Hz: 240, Speed: synth.Steady(25.4), Stop: 60})
	first := m.Rehearsal().Open.Rec
	m, _ = worktest.Update(m, game.Control{Name: "again"})
	if p := in(m); len(p.Past) != 1 || p.Other != "" {
		t.Errorf("%d alike, %d others; want the one alike", len(p.Past), len(p.PastOther))
	}
	m, _ = worktest.Update(m, game.Control{Name: "rehearse.way", Value: "cloth"})
	p := in(m)
	if len(p.Past) != 0 || len(p.PastOther) != 1 || p.Other != "Made another way (1)" {
		t.Errorf("after choosing the cloth: %d alike, %d others (%q)", len(p.Past), len(p.PastOther), p.Other)
	}
	for i, s := range (synth.Hand{Hz: 120, Speed: synth.Steady(25.4), Stop: 60}).Samples(m.Rehearsal().Line) {
		msg := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Mouse, T: 9 + s.T, X: 500 - s.P.X, Y: 300 - s.P.Y}
		if i == 0 {
			msg.Kind = game.Down
		}
		m, _ = worktest.Update(m, msg)
	}
	m, _ = worktest.Update(m, game.Interrupt{})
	over := *m.Rehearsal().Open
	over.Rec = first
	r := m.Rehearsal()
	r.Over = &over
	if text := r.Page().In.(rehearse.Page).Compared; !strings.Contains(text, "Not like with like. Different: the way of moving, the pointer.") {
		t.Errorf("compared: %q", text)
	}
}

// What the page says of a needle that is down, of a trace that began late, and of one
// that ran on past the end: 12.7 mm are half an inch (1 in = 25.4 mm exactly).
func TestWordsOnBeginningAndEnd(t *testing.T) {
	straight := func(way string, from, to geom.Point) game.Model {
		m := after("motif", "ruler-zigzag", "rehearse.way", way)
		for i := 0; i <= 240; i++ {
			s := m.Sight().ToScreen(geom.Lerp(from, to, float64(i)/240))
			p := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, T: 1 + float64(i)/60, X: s.X, Y: s.Y}
			if i == 0 {
				p.Kind = game.Down
			}
			m, _ = worktest.Update(m, p)
		}
		s := m.Sight().ToScreen(to)
		m, _ = worktest.Update(m, game.Pointer{Kind: game.Up, ID: 1, Device: trace.Pen, T: 6, X: s.X, Y: s.Y})
		return m
	}
	l := after("motif", "ruler-zigzag").Rehearsal().Line
	last := l.Dots[len(l.Dots)-2]
	down := straight("cloth", l.At(0), geom.Pt(2*l.At(0).X-l.At(40).X, 2*l.At(0).Y-l.At(40).Y))
	if p := page.Of(down); p.Sentence != "Needle down. Take hold of the cloth again, or finish." || !in(down).Rests || p.Tracing || p.Replay.Enabled {
		t.Errorf("needle down: %q, rests %v, tracing %v, replay %v", p.Sentence, in(down).Rests, p.Tracing, p.Replay.Enabled)
	}
	if p := page.Of(straight("pencil", l.At(last), l.At(l.Length()))); !strings.Contains(p.Next, "Begin on the start dot") {
		t.Errorf("begun at the last dot but one: %q", p.Next)
	}
	if p := page.Of(straight("pencil", l.At(0), l.At(40))); strings.Contains(p.Next, "Begin on the start dot") {
		t.Errorf("begun at the start: %q", p.Next)
	}
	end, d := l.At(l.Length()), l.Tangent(l.Length())
	past := in(straight("pencil", l.At(last), geom.Pt(end.X+12.7*d.X, end.Y+12.7*d.Y)))
	found := false
	for _, a := range past.Advice {
		found = found || strings.HasPrefix(a.Text, "You ran ½ in past the end.")
	}
	if !found {
		t.Errorf("half an inch past the end: %+v", past.Advice)
	}
}

// in returns what the page shows of the rehearsal.
func in(m game.Model) rehearse.Page { return m.Rehearsal().Page().In.(rehearse.Page) }
