package game_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/handtest"
	"unthreaded/game/record"
	"unthreaded/game/weeks"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

// practised returns the summaries of n sessions a day apart, five traces each, without the
// line, whose stitches vary by cv(session); the last was the day before origin.
func practised(n int, cv func(int) float64) []record.Summary {
	var out []record.Summary
	for k := range n {
		for i := range 5 {
			doc, err := json.Marshal(record.Measured{
				Form: 1, Seconds: 25, SPM: 600, StitchMM: 2.5,
				Figures: map[progress.Measure]float64{progress.Spacing: cv(k) * (1 + 0.02*float64(i)), progress.Beside: 0.5},
			})
			if err != nil {
				panic(err)
			}
			out = append(out, record.Summary{
				ID: fmt.Sprintf("%02d-%d", k, i), Started: origin - int64(n-k)*86400000 + int64(i)*120000,
				Motif: "linked-swirls", Name: "Linked swirls", Repeats: 3, Device: trace.Pen, Ending: trace.Lifted,
				Way: record.Pencil, Zoom: 1, Guide: &record.Guide{Marks: record.NoMarks}, Measured: doc,
			})
		}
	}
	return out
}

// look opens the place and lets frames pass until all is worked out.
func (tb *table) look() {
	tb.t.Helper()
	tb.send(game.Control{Name: "place", Value: "back"})
	tb.frames()
}

func (tb *table) frames() {
	tb.t.Helper()
	for i := 0; i == 0 || tb.m.Back.Book.Busy(); i++ {
		if i > 1000 {
			tb.t.Fatal("the book is never done")
		}
		tb.send(game.Frame{Now: 100 + float64(i)/60})
	}
}

// taken returns the effects so far of one kind and forgets all.
func taken[E game.Effect](tb *table) []E {
	var out []E
	for _, e := range tb.effects {
		if e, ok := e.(E); ok {
			out = append(out, e)
		}
	}
	tb.effects = nil
	return out
}

// Opening the place looks at the motif in hand; a trace made afterwards is in.
func TestLookingBack(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Listed{Past: practised(14, func(k int) float64 { return 0.15 + 0.4*math.Exp(-float64(k)/3) + 0.01*float64(k%3) })})
	tb.look()
	f := tb.m.Back.Book.Found()
	if f.Motif != "linked-swirls" || len(f.Scores) != 14 || f.Judged.Verdict != progress.ReallyBetter {
		t.Fatalf("%s: %d sessions, %s", f.Motif, len(f.Scores), f.Judged.Verdict)
	}
	tb.send(game.Control{Name: "place", Value: "rehearse"})
	tb.draw(handtest.Hand{Hz: 60, Speed: handtest.Steady(25), Stop: 200}, trace.Mouse, 200)
	tb.look()
	if got := len(tb.m.Back.Book.Sessions()); got != 15 {
		t.Errorf("after one more trace there are %d sessions, want 15", got)
	}
	if older := tb.m.Back.Book.Older(); len(older) != 0 {
		t.Errorf("a trace just made has to be measured again: %v", older)
	}
}

// A pointer on the chart picks the session under it, the arrows the ones beside it.
func TestPickASession(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Listed{Past: practised(8, func(k int) float64 { return 0.3 })})
	tb.look()
	scores := tb.m.Back.Book.Found().Scores
	tb.send(game.Pointer{Kind: game.Down, ID: 1, X: tb.m.Chart().X(scores[2].At) + 3, Y: 300})
	if s, _ := tb.m.Back.Picked(); s.Session != 2 {
		t.Errorf("picked session %d, want 2", s.Session)
	}
	tb.send(game.Control{Name: "key", Value: "ArrowLeft"}, game.Control{Name: "key", Value: "ArrowLeft"}, game.Control{Name: "key", Value: "ArrowLeft"})
	if s, _ := tb.m.Back.Picked(); s.Session != 0 {
		t.Errorf("three to the left of session 2 is %d, want the first", s.Session)
	}
}

// Traces kept before all this are fetched one at a time, measured and their summaries kept;
// what is damaged or gone is left as it is and counted.
func TestOlderTracesAreMeasured(t *testing.T) {
	tb := newTable(t)
	docs := map[string][]byte{}
	for i := range 3 {
		tb.draw(handtest.Hand{Hz: 60, Speed: handtest.Steady(20 + 3*float64(i)), Stop: 300}, trace.Pen, 10+100*float64(i))
	}
	var older []record.Summary
	for i, s := range taken[game.Save](tb) {
		docs[s.ID] = s.Doc
		sum, err := record.DecodeSummary(s.Summary)
		if err != nil {
			t.Fatal(err)
		}
		sum.Measured = nil
		older = append(older, sum)
		if i == 1 {
			docs[s.ID] = s.Doc[:len(s.Doc)/2]
		}
	}
	tb = newTable(t)
	tb.send(game.Listed{Past: older})
	tb.look()
	renewed := 0
	for asked := taken[game.Fetch](tb); len(asked) > 0; asked = taken[game.Fetch](tb) {
		if len(asked) != 1 || asked[0].For != game.ToMeasure {
			t.Fatalf("asked for %v at once", asked)
		}
		tb.send(game.Fetched{ID: asked[0].ID, For: game.ToMeasure, Doc: docs[asked[0].ID]})
		for _, e := range tb.effects {
			if p, ok := e.(game.PutSummary); ok {
				sum, err := record.DecodeSummary(p.Doc)
				if _, bad := sum.ReadMeasured(); err != nil || bad != nil {
					t.Errorf("kept as its summary: %s (%v, %v)", p.Doc, err, bad)
				}
				renewed++
			}
		}
		tb.frames()
	}
	if renewed != 2 || tb.m.Back.Unreadable() != 1 {
		t.Errorf("%d summaries renewed and %d left, want 2 and 1", renewed, tb.m.Back.Unreadable())
	}
	n := 0
	for _, s := range tb.m.Back.Book.Sessions() {
		n += len(s.Traces)
	}
	if len(tb.m.Kept()) != 3 || n != 2 {
		t.Errorf("%d traces are kept and %d in sessions, want 3 and 2", len(tb.m.Kept()), n)
	}
}

// Two traces start together; the clock runs for the longer one, and each needle stops where
// its trace ends.
func TestTwoTracesPlayTogether(t *testing.T) {
	tb := newTable(t)
	tb.draw(handtest.Hand{Hz: 60, Speed: handtest.Steady(30), Stop: 300}, trace.Pen, 10)
	tb.draw(handtest.Hand{Hz: 60, Speed: handtest.Steady(15), Stop: 300}, trace.Pen, 100)
	saves := taken[game.Save](tb)
	tb.look()
	for _, s := range saves {
		tb.send(game.Control{Name: "back.choose", Item: s.ID})
		for _, f := range taken[game.Fetch](tb) {
			tb.send(game.Fetched{ID: f.ID, For: f.For, Doc: s.Doc})
		}
	}
	b := tb.m.Back
	if b.View != game.TwoTraces || b.Second == nil || math.Abs(b.Clock.Length-20) > 0.1 {
		t.Fatalf("view %s, clock %+v", b.View, b.Clock)
	}
	tb.send(game.Control{Name: "play"}, game.Frame{Now: 1}, game.Frame{Now: 1.2})
	pair, _ := tb.m.Pair()
	if !pair.Replay.Playing || !tb.m.Playing() || pair.Open != b.First || pair.Over != b.Second || tb.m.Place != game.LookBack {
		t.Errorf("clock %+v in %s", pair.Replay, tb.m.Place)
	}
	tb.send(game.Control{Name: "back.choose", Item: saves[0].ID})
	if f := tb.m.Back.First; f == nil || f.Rec.ID != saves[1].ID || tb.m.Back.Second != nil {
		t.Error("taking the first away does not leave the second as the first")
	}
}

func (tb *table) typed(fields ...string) {
	for i := 0; i < len(fields); i += 2 {
		tb.send(game.Control{Name: "back.sewn-" + fields[i], Value: fields[i+1]})
	}
}

// A piece is noted as typed, kept, deleted, brought back; its speed is used when asked, and
// taken back.
func TestWhatTheMachineSaid(t *testing.T) {
	tb := newTable(t)
	tb.look()
	tb.send(game.Control{Name: "back.view", Value: "sewn"})
	tb.typed("day", "2026-11-20", "stitches", "thirty", "length", "4", "spm", "600")
	tb.send(game.Control{Name: "back.sewn-keep"})
	if len(taken[game.Keep](tb)) != 0 || !strings.Contains(tb.m.Back.Sewn.Trouble, "how many stitches") {
		t.Errorf("a count in words is answered with %q", tb.m.Back.Sewn.Trouble)
	}
	tb.typed("stitches", "32", "note", " ok ")
	tb.send(game.Control{Name: "back.sewn-keep"})
	keeps := taken[game.Keep](tb)
	if len(keeps) != 1 || keeps[0].Thing.Kind != game.SewnThing {
		t.Fatalf("kept %v: %s", keeps, tb.m.Back.Sewn.Trouble)
	}
	s, err := weeks.DecodeSewn(keeps[0].Thing.Doc)
	if err != nil || s.Stitches != 32 || math.Abs(s.LengthMM-101.6) > 1e-9 || s.Note != "ok" || s.RehearsedMM != 2.54 {
		t.Errorf("kept %+v (%v)", s, err)
	}
	// 8 to the inch where 10 were planned: hands go 1.25 times as fast.
	if p, ok := tb.m.Proposed(); !ok || math.Abs(p.Factor.Ratio-1.25) > 1e-9 || p.NeedleSPM != 750 || p.RehearseSPM != 480 {
		t.Errorf("proposed %+v", p)
	}
	tb.send(game.Control{Name: "back.use-needle"})
	if tb.m.Settings.SPM != 750 || len(taken[game.SaveSettings](tb)) != 1 {
		t.Errorf("the needle goes at %v", tb.m.Settings.SPM)
	}
	tb.send(game.Control{Name: "undo"}, game.Control{Name: "back.sewn-delete", Item: s.ID})
	if tb.m.Settings.SPM != 600 || len(tb.m.Back.Sewn.Pieces) != 0 || len(taken[game.Discard](tb)) != 1 {
		t.Errorf("after undoing the needle goes at %v, %d pieces", tb.m.Settings.SPM, len(tb.m.Back.Sewn.Pieces))
	}
	tb.send(game.Control{Name: "undo"})
	if again := taken[game.Keep](tb); len(again) != 1 || string(again[0].Thing.Doc) != string(keeps[0].Thing.Doc) {
		t.Error("what was deleted is not kept again as it was")
	}
}

// Notes of an earlier visit are there; a damaged one is counted and left.
func TestKeptNotesComeBack(t *testing.T) {
	tb := newTable(t)
	doc, err := weeks.EncodeSewn(weeks.Sewn{ID: "a", Day: "2026-01-02", Stitches: 40, LengthMM: 100, SPM: 600, RehearsedMM: 2.5, RehearsedSPM: 600})
	if err != nil {
		t.Fatal(err)
	}
	tb.send(game.Shelf{Things: []game.Thing{{Kind: game.SewnThing, ID: "a", Doc: doc}, {Kind: game.SewnThing, ID: "b", Doc: []byte("{")}}})
	if s := tb.m.Back.Sewn; len(s.Pieces) != 1 || s.Damaged != 1 {
		t.Errorf("%d pieces, %d damaged", len(s.Pieces), s.Damaged)
	}
}
