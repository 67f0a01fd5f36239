package game_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/back"
	"unthreaded/game/scene"
	"unthreaded/game/synth"
	"unthreaded/scoring"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

// practised returns the summaries of n sessions a day apart, five traces each, without the
// line, whose stitches vary by cv(session); the last was the day before origin.
func practised(n int, cv func(int) float64) []keep.Summary {
	var out []keep.Summary
	for k := range n {
		for i := range 5 {
			doc, err := json.Marshal(keep.Measured{
				Version: scoring.Version, Seconds: 25, SPM: 600, StitchMM: 2.5,
				Figures: map[progress.Measure]float64{progress.Spacing: cv(k) * (1 + 0.02*float64(i)), progress.Beside: 0.5},
			})
			if err != nil {
				panic(err)
			}
			out = append(out, keep.Summary{
				ID: fmt.Sprintf("%02d-%d", k, i), Started: origin - int64(n-k)*86400000 + int64(i)*120000,
				Motif: "linked-swirls", Name: "Linked swirls", Repeats: 3, Device: trace.Pen, Ending: trace.Lifted,
				Way: keep.Pencil, Zoom: 1, Guide: &keep.Guide{Marks: keep.NoMarks}, Measured: doc, Print: "a",
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
	for i := 0; i == 0 || atBack(tb.m).Weeks.Busy(); i++ {
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
	f := atBack(tb.m).Weeks.Found()
	if f.Motif != "linked-swirls" || len(f.Scores) != 14 || f.Judged.Verdict != progress.ReallyBetter {
		t.Fatalf("%s: %d sessions, %s", f.Motif, len(f.Scores), f.Judged.Verdict)
	}
	tb.send(game.Control{Name: "place", Value: "rehearse"})
	tb.draw(synth.Hand{Hz: 60, Speed: synth.Steady(25), Stop: 200}, trace.Mouse, 200)
	tb.look()
	if got := len(atBack(tb.m).Weeks.Sessions()); got != 15 {
		t.Errorf("after one more trace there are %d sessions, want 15", got)
	}
	if older := atBack(tb.m).Weeks.Older(); len(older) != 0 {
		t.Errorf("a trace just made has to be measured again: %v", older)
	}
}

// A pointer on the chart picks the session under it, the arrows the ones beside it.
func TestPickASession(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Listed{Past: practised(8, func(k int) float64 { return 0.3 })})
	tb.look()
	scores := atBack(tb.m).Weeks.Found().Scores
	tb.send(game.Pointer{Kind: game.Down, ID: 1, X: atBack(tb.m).Chart().X(scores[2].At) + 3, Y: 300})
	if s, _ := atBack(tb.m).Picked(); s.Session != 2 {
		t.Errorf("picked session %d, want 2", s.Session)
	}
	tb.send(game.Control{Name: "key", Value: "ArrowLeft"}, game.Control{Name: "key", Value: "ArrowLeft"}, game.Control{Name: "key", Value: "ArrowLeft"})
	if s, _ := atBack(tb.m).Picked(); s.Session != 0 {
		t.Errorf("three to the left of session 2 is %d, want the first", s.Session)
	}
}

// Traces kept before all this are fetched one at a time, measured and their summaries kept;
// what is damaged or gone is left as it is and counted.
func TestOlderTracesAreMeasured(t *testing.T) {
	tb := newTable(t)
	docs := map[string][]byte{}
	for i := range 3 {
		tb.draw(synth.Hand{Hz: 60, Speed: synth.Steady(20 + 3*float64(i)), Stop: 300}, trace.Pen, 10+100*float64(i))
	}
	var older []keep.Summary
	for i, s := range taken[game.Save](tb) {
		docs[s.ID] = s.Doc
		sum, err := keep.DecodeSummary(s.Summary)
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
		if len(asked) != 1 || asked[0].For != place.ToMeasure {
			t.Fatalf("asked for %v at once", asked)
		}
		tb.send(game.Fetched{ID: asked[0].ID, For: place.ToMeasure, Doc: docs[asked[0].ID]})
		for _, e := range tb.effects {
			if p, ok := e.(back.PutSummary); ok {
				sum, err := keep.DecodeSummary(p.Doc)
				if _, bad := sum.ReadMeasured(); err != nil || bad != nil {
					t.Errorf("kept as its summary: %s (%v, %v)", p.Doc, err, bad)
				}
				renewed++
			}
		}
		tb.frames()
	}
	if renewed != 2 || atBack(tb.m).Unreadable() != 1 {
		t.Errorf("%d summaries renewed and %d left, want 2 and 1", renewed, atBack(tb.m).Unreadable())
	}
	n := 0
	for _, s := range atBack(tb.m).Weeks.Sessions() {
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
	tb.draw(synth.Hand{Hz: 60, Speed: synth.Steady(30), Stop: 300}, trace.Pen, 10)
	tb.draw(synth.Hand{Hz: 60, Speed: synth.Steady(15), Stop: 300}, trace.Pen, 100)
	saves := taken[game.Save](tb)
	tb.look()
	for _, s := range saves {
		tb.send(game.Control{Name: "back.choose", Item: s.ID})
		for _, f := range taken[game.Fetch](tb) {
			tb.send(game.Fetched{ID: f.ID, For: f.For, Doc: s.Doc})
		}
	}
	b := atBack(tb.m)
	if b.View != back.TwoTraces || b.Pair.Second == nil || math.Abs(b.Pair.Clock.Length-20) > 0.1 {
		t.Fatalf("view %s, clock %+v", b.View, b.Clock)
	}
	tb.send(game.Control{Name: "play"}, game.Frame{Now: 1}, game.Frame{Now: 1.2})
	pair := atBack(tb.m).Pair
	if !pair.Clock.Playing || !tb.m.Playing() || pair.First != b.Pair.First || pair.Second != b.Pair.Second || tb.m.Place != game.LookBack {
		t.Errorf("clock %+v in %s", pair.Clock, tb.m.Place)
	}
	tb.send(game.Control{Name: "back.choose", Item: saves[0].ID})
	if f := atBack(tb.m).Pair.First; f == nil || f.Rec.ID != saves[1].ID || atBack(tb.m).Pair.Second != nil {
		t.Error("taking the first away does not leave the second as the first")
	}
}

// Under the weeks stand the first trace and the best as pictures: each is fetched once, and
// one that cannot be read leaves the other.
func TestFirstAndBestArePictured(t *testing.T) {
	tb := newTable(t)
	for i, wobble := range []float64{0.5, 0.4, 0.4, 0.1, 0.3} {
		speed := func(s float64) float64 { return 25 * (1 + wobble*math.Sin(s/9)) }
		tb.draw(synth.Hand{Hz: 60, Speed: speed, Stop: 300}, trace.Pen, 10+60*float64(i))
	}
	docs := map[string][]byte{}
	var ids []string
	for _, s := range taken[game.Save](tb) {
		docs[s.ID], ids = s.Doc, append(ids, s.ID)
	}
	tb.look()
	asked := map[string]int{}
	drawn := func() int {
		var layers scene.Layers
		return tb.m.Scene(&layers).Items()
	}
	without := drawn()
	for range 9 {
		for _, f := range taken[game.Fetch](tb) {
			if asked[f.ID]++; f.For != place.ToPicture {
				t.Fatalf("asked for %+v", f)
			}
			doc := docs[f.ID]
			if f.ID == ids[0] {
				doc = doc[:len(doc)/2]
			}
			tb.send(game.Fetched{ID: f.ID, For: f.For, Doc: doc})
		}
		tb.frames()
	}
	if len(asked) != 2 || asked[ids[0]] != 1 || asked[ids[3]] != 1 {
		t.Errorf("fetched were %v of %v, want the first and the fourth once", asked, ids)
	}
	if with := drawn(); with < without+50 {
		t.Errorf("the cloth has %d items with the picture, %d without", with, without)
	}
}

// A trace listed in Look back opens in Rehearse.
func TestATraceOfTheWeeksOpens(t *testing.T) {
	tb := newTable(t)
	tb.draw(even(), trace.Pen, 10)
	save := taken[game.Save](tb)[0]
	tb.send(game.Control{Name: "again"})
	tb.look()
	tb.send(game.Control{Name: "back.open", Item: save.ID})
	for _, f := range taken[game.Fetch](tb) {
		tb.send(game.Fetched{ID: f.ID, Over: f.Over, Top: f.Top, For: f.For, Doc: save.Doc})
	}
	if open := tb.m.Rehearsal().Open; tb.m.Place != game.Rehearse || open == nil || open.Rec.ID != save.ID {
		t.Errorf("in %s lies %+v", tb.m.Place, open)
	}
}

// atBack is the place Look back, which is in front.
func atBack(m game.Model) back.Room { return m.Front().(back.Room) }

func shown(m game.Model) back.Shown { return atBack(m).Page().In.(back.Shown) }
