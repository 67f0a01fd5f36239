package game_test

import (
	"fmt"
	"math"
	"testing"

	"unthreaded/game"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

// A card of 85.60 mm (ISO/IEC 7810, ID-1) that measures 428 px on the screen makes
// it 5 px to the millimetre: the line is then drawn at that size, on this screen
// only, also after a restart, and turned round.
func TestAScreenIsMeasuredWithACard(t *testing.T) {
	big := game.Resized{W: 1600, H: 900, DPR: 2, ScreenW: 1920, ScreenH: 1080}
	other := game.Resized{W: 1600, H: 900, DPR: 1, ScreenW: 1920, ScreenH: 1080}
	turned := game.Resized{W: 900, H: 1600, DPR: 2, ScreenW: 1080, ScreenH: 1920}
	tb := newTable(t)
	tb.send(big)
	if got := tb.m.Sight().TrueSize; math.Abs(got-96/25.4) > 1e-12 || tb.m.Screen.SizeKnown {
		t.Errorf("before it is measured, %v px to the mm, want 96 to the inch, as a guess", got)
	}
	tb.send(set("screen", ""))
	if math.Abs(tb.m.Rehearsal().Card-85.60*96/25.4) > 1e-9 {
		t.Errorf("the outline begins with %v px", tb.m.Rehearsal().Card)
	}
	tb.send(set("card", "428"), set("card-more", ""), set("card-less", ""), set("card-keep", ""))
	if v := tb.m.Sight(); v.Scale != 5 || v.TrueSize != 5 || !v.SizeKnown || tb.m.Rehearsal().Card != 0 {
		t.Errorf("after measuring: view %+v, card %v", v, tb.m.Rehearsal().Card)
	}
	var doc []byte
	for _, e := range tb.effects {
		if s, ok := e.(game.SaveSettings); ok {
			doc = s.Doc
		}
	}
	again := game.New(game.DecodeSettings(doc), origin)
	for i, c := range []struct {
		screen game.Resized
		want   float64
	}{{big, 5}, {turned, 5}, {other, 96 / 25.4}} {
		m, _ := worktest.Update(again, c.screen)
		if m.Sight().TrueSize != c.want || m.Screen.SizeKnown != (c.want == 5) {
			t.Errorf("screen %d after a restart: %v px to the mm (%v), want %v", i, m.Sight().TrueSize, m.Screen.SizeKnown, c.want)
		}
	}
	tb.send(set("screen", ""), set("card-forget", ""))
	if tb.m.Screen.SizeKnown || tb.m.Sight().TrueSize != 96/25.4 {
		t.Errorf("forgotten, yet %+v", tb.m.Sight())
	}
}

// Many screens are remembered, the latest first, and the oldest gives way.
func TestSeveralScreensAreRemembered(t *testing.T) {
	tb := newTable(t)
	screen := func(k int) game.Resized {
		return game.Resized{W: 800, H: 600, DPR: 1, ScreenW: 1000 + float64(k), ScreenH: 800}
	}
	for k := range 9 {
		tb.send(screen(k), set("screen", ""), set("card", fmt.Sprint(400+10*k)), set("card-keep", ""))
	}
	tb.send(screen(3), set("screen", ""), set("card", "300"), set("card-keep", ""))
	for k := range 9 {
		tb.send(screen(k))
		want := (400 + 10*float64(k)) / 85.60
		switch k {
		case 0:
			want = 96 / 25.4
		case 3:
			want = 300 / 85.60
		}
		if got := tb.m.Screen.PxPerMM; math.Abs(got-want) > 1e-9 {
			t.Errorf("screen %d: %v px to the mm, want %v", k, got, want)
		}
	}
}

// A trace keeps the millimetres it was made with, whatever the screen is found to
// be afterwards.
func TestTracesKeepTheirMillimetres(t *testing.T) {
	tb := newTable(t)
	samples := tb.draw(even(), trace.Pen, 3)
	before := tb.m.Rehearsal().Open.Report
	save := tb.saves()[0]
	tb.send(set("screen", ""), set("card", "500"), set("card-keep", ""))
	tb.send(game.Control{Name: "again"}, game.Fetched{ID: save.ID, Doc: save.Doc})
	sh := tb.m.Rehearsal().Open
	if sh.Rec.PxPerMM != 96/25.4 || sh.Rec.SizeKnown {
		t.Errorf("the record says %v px to the mm (%v)", sh.Rec.PxPerMM, sh.Rec.SizeKnown)
	}
	if got := sh.Rec.Trace().Samples[100].P; math.Abs(got.X-samples[100].P.X) > 1e-4 {
		t.Errorf("sample 100 is at %v, was at %v", got, samples[100].P)
	}
	if got := sh.Report.TraceMM; got != before.TraceMM {
		t.Errorf("the trace is %v mm long, was %v", got, before.TraceMM)
	}
	tb.send(game.Control{Name: "again"})
	tb.draw(even(), trace.Pen, 90)
	if rec := tb.m.Rehearsal().Open.Rec; math.Abs(rec.PxPerMM-500/85.60) > 1e-9 || !rec.SizeKnown {
		t.Errorf("the next trace says %v px to the mm (%v), want %v", rec.PxPerMM, rec.SizeKnown, 500/85.60)
	}
}

// Settings with screens that cannot be keep all the rest.
func TestDamagedScreensAreLeftOut(t *testing.T) {
	for _, doc := range []string{
		`{"spm":700,"screens":7}`,
		`{"spm":700,"screens":[{"px_per_mm":-1},{"px_per_mm":1e9},{"px_per_mm":"x"}]}`,
		`{"spm":700,"screens":[{"px_per_mm":0.1},{"px_per_mm":500}]}`,
	} {
		if s := game.DecodeSettings([]byte(doc)); s.SPM != 700 || s.Screens != (game.Screens{}) {
			t.Errorf("%s gives %v spm and %v", doc, s.SPM, s.Screens)
		}
	}
}
