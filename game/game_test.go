package game_test

import (
	"math"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

// origin is an arbitrary moment: 2026-11-25 06:00 UTC in ms since 1970.
const origin = 1795586400000

var laptop = game.Resized{W: 1026, H: 656, Strip: 112, DPR: 1}

// table is a program under test: it takes messages and remembers the effects.
type table struct {
	t       testing.TB
	m       game.Model
	effects []game.Effect
}

func newTable(t testing.TB) *table {
	tb := &table{t: t, m: game.New(game.DefaultSettings(), origin)}
	tb.send(laptop)
	return tb
}

func (tb *table) send(msgs ...game.Msg) {
	for _, msg := range msgs {
		var e []game.Effect
		tb.m, e = worktest.Update(tb.m, msg)
		tb.effects = append(tb.effects, e...)
	}
}

// pointer turns a sample on the cloth into a report of the pointer.
func (tb *table) pointer(kind game.PointerKind, id int, d trace.Device, s trace.Sample, t0 float64) game.Pointer {
	p := tb.m.Sight().ToScreen(s.P)
	return game.Pointer{Kind: kind, ID: id, Device: d, T: t0 + s.T, X: p.X, Y: p.Y, Pressure: s.Pressure}
}

// draw has the hand trace the line with a device, from down to up.
func (tb *table) draw(h synth.Hand, d trace.Device, t0 float64) []trace.Sample {
	samples := h.Samples(tb.m.Rehearsal().Line)
	for i, s := range samples {
		kind := game.Move
		if i == 0 {
			kind = game.Down
		}
		tb.send(tb.pointer(kind, 1, d, s, t0))
	}
	tb.send(tb.pointer(game.Up, 1, d, samples[len(samples)-1], t0))
	return samples
}

func (tb *table) saves() []game.Save {
	var out []game.Save
	for _, e := range tb.effects {
		if s, ok := e.(game.Save); ok {
			out = append(out, s)
		}
	}
	return out
}

func even() synth.Hand { return synth.Hand{Hz: 240, Speed: synth.Steady(25.4)} }

// 10 stitches per inch at 600 stitches a minute is one inch a second (25.4 mm
// exactly): a hand at that speed makes stitches of 2.54 mm.
func TestAnEvenHandMakesEvenStitches(t *testing.T) {
	tb := newTable(t)
	tb.draw(even(), trace.Pen, 3)
	sh := tb.m.Rehearsal().Open
	if sh == nil || sh.Unmeasured != nil {
		t.Fatalf("no measured trace on the cloth: %+v", sh)
	}
	e := sh.Report.Evenness
	if !e.SpacingCV.Defined || e.SpacingCV.Value > 0.01 || math.Abs(e.StitchMM.Value-2.54) > 0.02 {
		t.Errorf("stitches of %v mm vary by %v, want 2.54 and under 0.01", e.StitchMM, e.SpacingCV)
	}
	if want := int(sh.Duration()*10) + 1; len(sh.Falls) != want {
		t.Errorf("the needle went down %d times in %.2f s at 600 a minute, want %d", len(sh.Falls), sh.Duration(), want)
	}
	if !tb.m.Rehearsal().Replay.AtEnd() || tb.m.Rehearsal().Replay.Playing {
		t.Error("the whole trace should lie on the cloth, at rest")
	}
}

// What is saved comes back as it was: same samples, line and measures.
func TestASavedTraceComesBack(t *testing.T) {
	tb := newTable(t)
	tb.draw(synth.Hand{Hz: 125, Speed: synth.Steady(31), Beside: math.Sin}, trace.Mouse, 3)
	saves := tb.saves()
	if len(saves) != 1 {
		t.Fatalf("%d saves, want 1", len(saves))
	}
	before := tb.m.Rehearsal().Open.Report
	second := newTable(t)
	sum, err := keep.DecodeSummary(saves[0].Summary)
	if err != nil {
		t.Fatal(err)
	}
	second.send(game.Listed{Past: []keep.Summary{sum}}, game.Control{Name: "open", Item: sum.ID})
	if f, ok := second.effects[len(second.effects)-1].(game.Fetch); !ok || f.ID != saves[0].ID {
		t.Fatalf("opening asks for %+v", second.effects)
	}
	second.send(game.Fetched{ID: sum.ID, Doc: saves[0].Doc})
	after := second.m.Rehearsal().Open.Report
	if after.Evenness.SpacingCV != before.Evenness.SpacingCV || math.Abs(after.Lateral.P95.Value-before.Lateral.P95.Value) > 1e-3 {
		t.Errorf("measures were %+v and came back as %+v", before.Evenness, after.Evenness)
	}
	if got, want := len(second.m.Rehearsal().Open.Falls), len(tb.m.Rehearsal().Open.Falls); got != want {
		t.Errorf("%d falls of the needle came back, there were %d", got, want)
	}
	if math.Abs(*sum.StitchCV-before.Evenness.SpacingCV.Value) > 1e-6 {
		t.Errorf("the list says %v, the trace %v", *sum.StitchCV, before.Evenness.SpacingCV.Value)
	}
	if sum.Started != origin+3000 {
		t.Errorf("started at %d, want 3 s after the origin", sum.Started)
	}
}

func TestInterruptionsKeepTheTrace(t *testing.T) {
	for name, end := range map[string]game.Msg{
		"cancelled pointer": game.Pointer{Kind: game.Cancel, ID: 1, Device: trace.Touch},
		"page hidden":       game.Interrupt{},
		"lifting lost":      game.Pointer{Kind: game.Down, ID: 1, Device: trace.Touch, T: 99, X: 50, Y: 50},
	} {
		tb := newTable(t)
		h := even()
		h.Stop = 60
		for i, s := range h.Samples(tb.m.Rehearsal().Line) {
			kind := game.Move
			if i == 0 {
				kind = game.Down
			}
			tb.send(tb.pointer(kind, 1, trace.Touch, s, 1))
		}
		tb.send(end)
		saves := tb.saves()
		if len(saves) != 1 {
			t.Errorf("%s: %d saves, want 1", name, len(saves))
			continue
		}
		rec, err := keep.Decode(saves[0].Doc)
		if err != nil || rec.Ending != trace.Interrupted || rec.Trace().Duration() < 2.3 {
			t.Errorf("%s: kept %v of %.2f s (%v), want interrupted after 60 mm at 25.4 mm/s", name, rec.Ending, rec.Trace().Duration(), err)
		}
	}
}

// A second finger changes nothing; a pen takes over from the palm.
func TestOtherPointers(t *testing.T) {
	tb := newTable(t)
	samples := even().Samples(tb.m.Rehearsal().Line)
	tb.send(tb.pointer(game.Down, 1, trace.Touch, samples[0], 1))
	for i, s := range samples[1:400] {
		tb.send(tb.pointer(game.Move, 1, trace.Touch, s, 1))
		if i == 100 {
			far := game.Pointer{Kind: game.Down, ID: 2, Device: trace.Touch, T: 1 + s.T, X: 900, Y: 10}
			tb.send(far)
			far.Kind = game.Up
			tb.send(far)
		}
	}
	if n := len(tb.m.Rehearsal().Live.Samples); n != 400 {
		t.Errorf("%d samples beside a second finger, want 400", n)
	}
	tb.send(tb.pointer(game.Down, 7, trace.Pen, samples[0], 5))
	if n := len(tb.m.Rehearsal().Live.Samples); n != 1 || len(tb.saves()) != 1 {
		t.Errorf("after the pen came down: %d samples in hand and %d saved, want 1 and 1", n, len(tb.saves()))
	}
}

func TestATapIsNotATrace(t *testing.T) {
	tb := newTable(t)
	p := game.Pointer{Kind: game.Down, ID: 1, Device: trace.Mouse, T: 1, X: 500, Y: 300}
	tb.send(p)
	p.Kind, p.X = game.Up, 503
	tb.send(p)
	if tb.m.Rehearsal().Open != nil || len(tb.saves()) > 0 || !strings.Contains(tb.m.Notice.In(tb.m.Book()), "tap") {
		t.Errorf("a tap left %v and the notice %q", tb.m.Rehearsal().Open, tb.m.Notice.In(tb.m.Book()))
	}
}

// The cloth does not move under a hand that is tracing.
func TestResizingWaitsForTheTrace(t *testing.T) {
	tb := newTable(t)
	before := tb.m.Sight()
	samples := even().Samples(tb.m.Rehearsal().Line)
	tb.send(tb.pointer(game.Down, 1, trace.Mouse, samples[0], 1))
	tb.send(game.Resized{W: 400, H: 700, Strip: 92, DPR: 2})
	if tb.m.Sight() != before {
		t.Error("the view changed in mid-trace")
	}
	for _, s := range samples[1:300] {
		p := before.ToScreen(s.P)
		tb.send(game.Pointer{Kind: game.Move, ID: 1, Device: trace.Mouse, T: 1 + s.T, X: p.X, Y: p.Y})
	}
	tb.send(game.Pointer{Kind: game.Up, ID: 1, Device: trace.Mouse, T: 9})
	if tb.m.Sight() == before || tb.m.Sight().Zoom >= 1 {
		t.Errorf("after the trace the row of 4 should be shown smaller on a cloth of 400 px, view %+v", tb.m.Sight())
	}
}

func TestDeleteAndUndo(t *testing.T) {
	tb := newTable(t)
	tb.draw(even(), trace.Pen, 3)
	id := tb.m.Rehearsal().Past[0].ID
	tb.send(game.Control{Name: "delete", Item: id})
	if len(tb.m.Rehearsal().Past) != 0 || tb.m.Rehearsal().Open != nil || tb.m.Notice.Action != "undo" {
		t.Errorf("after deleting: %d traces, notice %+v", len(tb.m.Rehearsal().Past), tb.m.Notice)
	}
	tb.send(game.Control{Name: "undo"})
	if r, ok := tb.effects[len(tb.effects)-1].(game.Restore); !ok || r.ID != id {
		t.Errorf("undo asks for %+v", tb.effects[len(tb.effects)-1])
	}
	tb.send(game.Control{Name: "delete", Item: "no such trace"})
	if len(tb.m.Rehearsal().Past) != 0 {
		t.Error("a trace appeared")
	}
}

func TestReplayAndScrub(t *testing.T) {
	tb := newTable(t)
	tb.draw(even(), trace.Pen, 3)
	length := tb.m.Rehearsal().Line.Length()
	tb.send(game.Control{Name: "scrub", Value: "100"})
	if got := tb.m.Rehearsal().PlaceNow(); math.Abs(got-100) > 0.5 {
		t.Errorf("scrubbed to 100 mm, the needle is at %v", got)
	}
	if want := 100 / 25.4; math.Abs(tb.m.Rehearsal().Replay.T-want) > 0.05 {
		t.Errorf("100 mm at an inch a second is %.2f s, the replay says %.2f", want, tb.m.Rehearsal().Replay.T)
	}
	tb.send(game.Frame{Now: 50}, game.Control{Name: "rate", Value: "2"}, game.Control{Name: "play"})
	for i := 1; i <= 60; i++ {
		tb.send(game.Frame{Now: 50 + float64(i)/60})
	}
	if got, want := tb.m.Rehearsal().PlaceNow(), 100+2*25.4; math.Abs(got-want) > 1 {
		t.Errorf("a second at double speed brought the needle to %.1f mm, want %.1f", got, want)
	}
	tb.send(game.Control{Name: "scrub", Value: "99999"})
	if end := tb.m.Rehearsal().PlaceNow(); math.Abs(end-length) > 0.5 || !tb.m.Rehearsal().Replay.AtEnd() {
		t.Errorf("the replay ends at %.1f of %.1f mm", end, length)
	}
	last := tb.m.Rehearsal().Open.Prep.At(math.Inf(1))
	if d := math.Hypot(last.X-tb.m.Rehearsal().Line.At(length).X, last.Y-tb.m.Rehearsal().Line.At(length).Y); d > 0.3 {
		t.Errorf("the last place of the replay is %.2f mm from where the trace ended", d)
	}
}

// A new needle speed lays the trace out anew: half the speed, half the stitches,
// twice as long (length = 60 v / spm).
func TestNeedleSpeedChangesTheStitches(t *testing.T) {
	tb := newTable(t)
	tb.draw(even(), trace.Pen, 3)
	n := len(tb.m.Rehearsal().Open.Falls)
	tb.send(game.Control{Name: "spm", Value: "300"})
	if got := len(tb.m.Rehearsal().Open.Falls); got < n/2 || got > n/2+1 {
		t.Errorf("%d falls at 300 a minute, %d at 600", got, n)
	}
	if got := tb.m.Rehearsal().Open.Report.Evenness.StitchMM.Value; math.Abs(got-5.08) > 0.05 {
		t.Errorf("stitches of %v mm at 300 a minute, want 5.08", got)
	}
}

// A control that changes the line under the hand first keeps what was drawn, with
// the line it was drawn on.
func TestANewMotifInMidTraceKeepsTheTrace(t *testing.T) {
	tb := newTable(t)
	h := even()
	h.Stop = 90
	for i, s := range h.Samples(tb.m.Rehearsal().Line) {
		kind := game.Move
		if i == 0 {
			kind = game.Down
		}
		tb.send(tb.pointer(kind, 1, trace.Mouse, s, 1))
	}
	tb.send(game.Control{Name: "motif", Value: "ruler-zigzag"})
	saves := tb.saves()
	if len(saves) != 1 {
		t.Fatalf("%d saves, want 1", len(saves))
	}
	rec, err := keep.Decode(saves[0].Doc)
	if err != nil || rec.Motif != "linked-swirls" || len(rec.Line.Dots) != 0 {
		t.Errorf("kept with motif %q and %d dots (%v), want the swirls it was drawn on", rec.Motif, len(rec.Line.Dots), err)
	}
	if tb.m.Rehearsal().Motif.ID != "ruler-zigzag" || tb.m.Rehearsal().Open != nil || len(tb.m.Rehearsal().Line.Dots) == 0 {
		t.Errorf("the cloth shows %q", tb.m.Rehearsal().Motif.ID)
	}
}
