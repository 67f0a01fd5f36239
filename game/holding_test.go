package game_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// grip is one hold: the hand presses at the place at, after it was away for so long,
// and pushes the cloth until the sample with the number to.
type grip struct {
	at   geom.Point
	away float64
	to   int
}

// pushed has the hand move the cloth over several holds; each presses anywhere on the
// cloth with the pointer of that number. It returns how far the cloth jumped at a press.
func (tb *table) pushed(samples []trace.Sample, d trace.Device, t0 float64, grips ...grip) (jump float64) {
	from, away := 0, 0.0
	for id, g := range grips {
		away += g.away
		at := func(kind game.PointerKind, i int) game.Pointer {
			s, first := samples[i], samples[from]
			return game.Pointer{Kind: kind, ID: id, Device: d, T: t0 + away + s.T, Pressure: s.Pressure,
				X: g.at.X - (s.P.X-first.P.X)*tb.m.Sight().Scale, Y: g.at.Y - (s.P.Y-first.P.Y)*tb.m.Sight().Scale}
		}
		before := tb.m.Rehearsal().Shift()
		tb.send(at(game.Down, from))
		jump = math.Max(jump, geom.Dist(before, tb.m.Rehearsal().Shift()))
		for i := from + 1; i <= g.to; i++ {
			tb.send(at(game.Move, i))
		}
		tb.send(at(game.Up, g.to))
		from = g.to
	}
	return jump
}

// moving is a hand that quivers beside the line and in its speed.
func moving() synth.Hand {
	return synth.Hand{
		Hz: 120, Beside: func(s float64) float64 { return math.Sin(s / 9) },
		Speed: func(s float64) float64 { return 25 + 9*math.Sin(s/20) },
	}
}

// The same movement of the needle is the same trace whether the cloth is held once or
// several times, wherever it is pressed and with whatever device, and the same as with
// the pencil: all samples to 1e-9, and the cloth never jumps. Its stitches are as even as
// those in one hold, but for a quarter of a second on both sides of a pause, to 0.005.
func TestTheClothMayBeHeldAnew(t *testing.T) {
	pencil := newTable(t)
	pencil.send(game.Control{Name: "repeats", Value: "1"})
	samples := pencil.draw(moving(), trace.Pen, 3)
	want := pencil.m.Rehearsal().Open.Rec.Trace()
	rapid.Check(t, func(rt *rapid.T) {
		tb := newTable(t)
		tb.send(game.Control{Name: "repeats", Value: "1"}, set("way", "cloth"))
		var grips []grip
		place := func() geom.Point {
			return geom.Pt(rapid.Float64Range(0, 1000).Draw(rt, "x"), rapid.Float64Range(0, 600).Draw(rt, "y"))
		}
		for to := 0; len(grips) < 3 && to < len(samples)-250; {
			to += rapid.IntRange(60, 200).Draw(rt, "samples")
			grips = append(grips, grip{place(), rapid.Float64Range(0.05, 4000).Draw(rt, "away"), to})
		}
		grips[0].away = 0
		grips = append(grips, grip{place(), rapid.Float64Range(0.05, 4000).Draw(rt, "away"), len(samples) - 1})
		d := rapid.SampledFrom([]trace.Device{trace.Mouse, trace.Pen, trace.Touch}).Draw(rt, "device")
		if jump := tb.pushed(samples, d, 3, grips...); jump > 1e-9 {
			rt.Errorf("the cloth jumped by %v px", jump)
		}
		saves := tb.saves()
		if len(saves) != 1 || tb.m.Rehearsal().Live != nil {
			rt.Fatalf("%d saves, want one trace", len(saves))
		}
		rec, err := keep.Decode(saves[0].Doc)
		if err != nil || len(rec.Holds) != len(grips)-1 {
			rt.Fatalf("kept with %d holds (%v), want %d", len(rec.Holds), err, len(grips)-1)
		}
		sameMovement(rt, rec, want, grips)
		a, b := variation(pencil.m.Rehearsal().Open, rec.Holds), tb.m.Rehearsal().Open.Report.Evenness.SpacingCV.Value
		if math.Abs(a-b) > 0.005 {
			rt.Errorf("stitches vary by %.4f over %d holds, %.4f in one but for what lies by a pause", b, len(grips), a)
		}
	})
}

// variation works out how the stitches of a sheet vary that lie a quarter of a second and
// more from its ends and from the holds.
func variation(sh *game.Sheet, holds []trace.Hold) float64 {
	var n, sum, squares float64
	for k := 1; k < len(sh.Falls); k++ {
		from, to := sh.Falls[k-1].T, sh.Falls[k].T
		counts := from >= 0.25 && to <= sh.Duration()-0.25
		for _, h := range holds {
			counts = counts && (to < h.T-0.25 || from >= h.T+0.25)
		}
		if l := sh.Falls[k].Length; counts {
			n, sum, squares = n+1, sum+l, squares+l*l
		}
	}
	mean := sum / n
	return math.Sqrt(squares/n-mean*mean) / mean
}

func sameMovement(rt *rapid.T, rec keep.Record, want trace.Trace, grips []grip) {
	got := rec.Trace()
	at := map[float64]geom.Point{}
	for _, s := range got.Samples {
		at[s.T] = s.P
	}
	for _, s := range want.Samples {
		if p, ok := at[s.T]; !ok || geom.Dist(p, s.P) > 1e-9 {
			rt.Fatalf("the sample at %v s is at %v, with the pencil at %v", s.T, p, s.P)
		}
	}
	for i, h := range got.Holds {
		if math.Abs(h.Pause-grips[i+1].away) > 2e-5 || h.T != want.Samples[grips[i].to].T {
			rt.Errorf("hold %d is kept as %+v, want sample %d after %v s", i, h, grips[i].to, grips[i+1].away)
		}
	}
}

// resting returns a table with a trace in the cloth way whose needle is down after 90 mm.
func resting(t *testing.T, d trace.Device) *table {
	t.Helper()
	tb := newTable(t)
	tb.send(set("way", "cloth"))
	samples := moving().Samples(tb.m.Rehearsal().Line)
	to := 0
	for to < len(samples) && samples[to].T < 3 {
		to++
	}
	tb.pushed(samples, d, 3, grip{tb.m.Rehearsal().Hold(), 0, to})
	if !tb.m.Rehearsal().Live.Rests() || tb.m.Tracing() || len(tb.saves()) > 0 {
		t.Fatalf("let go before the end: rests %v, tracing %v, %d saves", tb.m.Rehearsal().Live.Rests(), tb.m.Tracing(), len(tb.saves()))
	}
	return tb
}

// However she leaves a trace whose needle is down, it is kept, once, and as one that
// was lifted; what she asked for is done.
func TestAnOpenTraceIsNeverLost(t *testing.T) {
	for name, c := range map[string]struct {
		msg  game.Msg
		open bool
	}{
		"finish":        {set("finish", ""), true},
		"escape":        {game.Control{Name: "cancel"}, true},
		"hidden page":   {game.Interrupt{}, true},
		"another place": {game.Control{Name: "place", Value: "quilt"}, true},
		"another motif": {game.Control{Name: "motif", Value: "ruler-zigzag"}, false},
		"again":         {game.Control{Name: "again"}, false},
		"pencil":        {set("way", "pencil"), false},
		"course":        {set("learn", ""), false},
		"warm-up":       {set("warm-up", "3"), false},
		"another kind":  {game.Pointer{Kind: game.Down, ID: 9, Device: trace.Mouse, T: 60, X: 500, Y: 300}, true},
	} {
		tb := resting(t, trace.Touch)
		tb.send(c.msg)
		saves := tb.saves()
		if len(saves) != 1 {
			t.Errorf("%s: %d saves, want 1", name, len(saves))
			continue
		}
		rec, err := keep.Decode(saves[0].Doc)
		if err != nil || rec.Ending != trace.Lifted || rec.Device != trace.Touch || math.Abs(rec.Trace().Duration()-3) > 0.02 || rec.Way != keep.Cloth {
			t.Errorf("%s: kept %v, %v, %.2f s (%v)", name, rec.Ending, rec.Device, rec.Trace().Duration(), err)
		}
		if (tb.m.Rehearsal().Open != nil) != c.open || tb.m.Rehearsal().Live.Rests() {
			t.Errorf("%s: a trace on the cloth %v, want %v", name, tb.m.Rehearsal().Open != nil, c.open)
		}
	}
}

// What goes on while the hand is away changes nothing of the trace: time, moves of a
// pointer that is up, settings, a palm beside the pen, a window of another size.
func TestAnOpenTraceWaits(t *testing.T) {
	tb := resting(t, trace.Pen)
	tb.send(game.Frame{Now: 8}) // it is written down
	before := *tb.m.Rehearsal().Live
	tb.send(game.Frame{Now: 500},
		game.Pointer{Kind: game.Move, ID: 0, Device: trace.Pen, T: 9, X: 1, Y: 1},
		game.Pointer{Kind: game.Up, ID: 0, Device: trace.Pen, T: 9, X: 1, Y: 1},
		game.Pointer{Kind: game.Down, ID: 5, Device: trace.Touch, T: 10, X: 700, Y: 500},
		game.Control{Name: "units", Value: "mm"}, game.Control{Name: "play"})
	if !reflect.DeepEqual(*tb.m.Rehearsal().Live, before) || tb.m.Rehearsal().Replay.Playing {
		t.Errorf("the open trace changed from %+v to %+v", before, *tb.m.Rehearsal().Live)
	}
	tb.send(game.Resized{W: 400, H: 700, Strip: 92, DPR: 2})
	if n := tb.m.Rehearsal().Needle(); n != geom.Pt(200, 304) {
		t.Errorf("the needle stands at %v in the new window, want its middle", n)
	}
	q, s := tb.m.Sight().ToScreen(before.Samples[len(before.Samples)-1].P), tb.m.Rehearsal().Shift()
	if d := geom.Dist(geom.Pt(q.X+s.X, q.Y+s.Y), tb.m.Rehearsal().Needle()); d > 1e-9 {
		t.Errorf("the place being sewn lies %v px beside the needle", d)
	}
}

// Near the end of the line the lifting ends the trace, as it does with the pencil
// anywhere; a tap is none.
func TestWhereALiftEndsTheTrace(t *testing.T) {
	for _, c := range []struct {
		way   string
		share float64
		rests bool
	}{{"cloth", 0.5, true}, {"cloth", 0.9, true}, {"cloth", 0.985, false}, {"cloth", 1, false}, {"pencil", 0.5, false}} {
		tb := newTable(t)
		tb.send(set("way", c.way))
		samples := even().Samples(tb.m.Rehearsal().Line)
		if c.way == "pencil" {
			h := even()
			h.Stop = c.share * tb.m.Rehearsal().Line.Length()
			tb.draw(h, trace.Mouse, 3)
		} else {
			tb.pushed(samples, trace.Mouse, 3, grip{tb.m.Rehearsal().Hold(), 0, int(c.share * float64(len(samples)-1))})
		}
		if tb.m.Rehearsal().Live.Rests() != c.rests || (len(tb.saves()) == 0) != c.rests {
			t.Errorf("%s, lifted after %v of the line: rests %v, %d saves; want rests %v", c.way, c.share, tb.m.Rehearsal().Live.Rests(), len(tb.saves()), c.rests)
		}
	}
}

// A movement that follows nothing of the line is not kept, and says where to begin; a
// short one along it, one beside it and one from its end are.
func TestBesideTheLineIsNoTrace(t *testing.T) {
	for name, c := range map[string]struct {
		place func(l geom.Line, u float64) geom.Point
		kept  bool
	}{
		"far off":       {func(_ geom.Line, u float64) geom.Point { return geom.Pt(60*u, -60) }, false},
		"across":        {func(l geom.Line, u float64) geom.Point { return geom.Pt(l.At(200).X, 120*u-60) }, false},
		"a short start": {func(l geom.Line, u float64) geom.Point { return l.At(9 * u) }, true},
		"a middle part": {func(l geom.Line, u float64) geom.Point { return l.At(200 + 60*u) }, true},
		"backwards":     {func(l geom.Line, u float64) geom.Point { return l.At(l.Length() * (1 - u)) }, true},
		"5 mm beside": {func(l geom.Line, u float64) geom.Point {
			p := l.At(u * l.Length())
			return geom.Pt(p.X, p.Y+5)
		}, true},
	} {
		tb := newTable(t)
		for i := 0; i <= 600; i++ {
			kind := game.Move
			if i == 0 {
				kind = game.Down
			}
			s := trace.Sample{T: float64(i) / 60, P: c.place(tb.m.Rehearsal().Line, float64(i)/600), Pressure: 0.5}
			tb.send(tb.pointer(kind, 1, trace.Mouse, s, 3))
		}
		tb.send(tb.pointer(game.Up, 1, trace.Mouse, trace.Sample{T: 10, P: c.place(tb.m.Rehearsal().Line, 1)}, 3))
		kept := len(tb.saves()) == 1 && tb.m.Rehearsal().Open != nil
		if kept != c.kept || kept == strings.Contains(tb.m.Notice.In(tb.m.Book()), "beside the line") {
			t.Errorf("%s: kept %v with the notice %q, want %v", name, kept, tb.m.Notice.In(tb.m.Book()), c.kept)
		}
	}
}

// What the page said before stays while she traces, so that the cloth is not laid out
// anew under the hand, and is gone afterwards; what comes meanwhile stays.
func TestANoticeWaitsForTheTrace(t *testing.T) {
	for _, meanwhile := range []place.Why{"", "full"} {
		tb := newTable(t)
		tb.send(game.Pointer{Kind: game.Down, ID: 1, Device: trace.Mouse, T: 1, X: 500, Y: 300}, game.Pointer{Kind: game.Up, ID: 1, Device: trace.Mouse, T: 1.1, X: 500, Y: 300})
		said := tb.m.Notice
		samples := even().Samples(tb.m.Rehearsal().Line)
		tb.send(tb.pointer(game.Down, 1, trace.Mouse, samples[0], 2))
		if said.None() || !tb.m.Notice.Is(said) {
			t.Errorf("after %q the page says %q when the pointer goes down", said.In(tb.m.Book()), tb.m.Notice.In(tb.m.Book()))
		}
		if meanwhile != "" {
			tb.send(game.Saved{Err: meanwhile})
		}
		for _, s := range samples[1:] {
			tb.send(tb.pointer(game.Move, 1, trace.Mouse, s, 2))
		}
		tb.send(tb.pointer(game.Up, 1, trace.Mouse, samples[len(samples)-1], 2))
		if got := tb.m.Notice.In(tb.m.Book()); !strings.Contains(got, string(meanwhile)) || (got == "") != (meanwhile == "") {
			t.Errorf("after the trace the page says %q", got)
		}
	}
}
