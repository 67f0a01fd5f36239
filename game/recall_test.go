package game_test

import (
	"fmt"
	"math"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/page"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

// The trace that lay on the cloth when it was deleted lies there again when that is
// taken back, unless she has begun another.
func TestADeletedTraceComesBackOntoTheCloth(t *testing.T) {
	tb := newTable(t)
	h := even()
	h.Stop = 80
	tb.draw(h, trace.Pen, 1)
	first := tb.m.Rehearsal().Open.Rec.ID
	tb.send(game.Control{Name: "delete", Item: first})
	if tb.m.Rehearsal().Open != nil {
		t.Fatal("a deleted trace still lies on the cloth")
	}
	tb.send(game.Control{Name: "undo"})
	if tb.m.Rehearsal().Open == nil || tb.m.Rehearsal().Open.Rec.ID != first || tb.m.Notice.In(tb.m.Book()) != "The trace is back." {
		t.Errorf("after undo the cloth has %+v; the page says %q", tb.m.Rehearsal().Open, tb.m.Notice.In(tb.m.Book()))
	}
	tb.send(game.Control{Name: "delete", Item: first})
	tb.draw(h, trace.Pen, 100)
	second := tb.m.Rehearsal().Open.Rec.ID
	tb.send(game.Control{Name: "undo"})
	if tb.m.Rehearsal().Open.Rec.ID != second {
		t.Error("undo took the trace that was made since off the cloth")
	}
}

// Compared traces play together for as long as the longer one lasts: 100 mm at 25.4
// mm/s take 3.9 s, at 12.7 mm/s 7.9 s.
func TestComparedTracesPlayTogether(t *testing.T) {
	tb := newTable(t)
	tb.draw(synth.Hand{Hz: 120, Speed: synth.Steady(12.7), Stop: 100}, trace.Pen, 1)
	slow := tb.saves()[0]
	tb.draw(synth.Hand{Hz: 120, Speed: synth.Steady(25.4), Stop: 100}, trace.Pen, 100)
	quick := tb.m.Rehearsal().Replay.Length
	tb.send(game.Fetched{ID: slow.ID, Over: true, Doc: slow.Doc})
	if got := tb.m.Rehearsal().Replay.Length; math.Abs(got-tb.m.Rehearsal().Over.Duration()) > 1e-9 || got < 1.8*quick || !tb.m.Rehearsal().Replay.AtEnd() {
		t.Errorf("the replay lasts %.2f s, at %.2f; alone %.2f", got, tb.m.Rehearsal().Replay.T, quick)
	}
	tb.send(game.Control{Name: "over", Item: slow.ID})
	if got := tb.m.Rehearsal().Replay.Length; got != quick || tb.m.Rehearsal().Replay.T != quick {
		t.Errorf("alone again the replay lasts %.2f s, at %.2f, want %.2f", got, tb.m.Rehearsal().Replay.T, quick)
	}
}

// summaries returns n summaries of a motif, a minute apart, ending at a time in ms.
func summaries(n int, end int64) []keep.Summary {
	cv := 0.2
	out := make([]keep.Summary, n)
	for i := range out {
		out[i] = keep.Summary{
			ID: fmt.Sprintf("%d", i), Started: end - int64(i)*60000, Motif: "linked-swirls", Name: "Linked swirls",
			Repeats: 4, Zoom: 1, Device: trace.Pen, Ending: trace.Lifted, StitchCV: &cv, Within: &cv, P95MM: &cv, Coverage: &cv, Digest: "cbf29ce484222325",
		}
	}
	return out
}

// The page lists the newest fifty and more when asked.
func TestTheListShowsTheNewest(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Listed{Past: summaries(120, origin)})
	for i, want := range []int{50, 100, 120, 120} {
		p := in(tb.m)
		rows := append(p.Past, p.PastOther...)
		if len(rows) != want || rows[0].ID != "0" || (p.PastMore == "") != (want == 120) {
			t.Errorf("after %d times: %d rows, more %q; want %d, the newest first", i, len(rows), p.PastMore, want)
		}
		tb.send(game.Control{Name: "past-more"})
	}
}

// BenchmarkSummaries decodes 10,000 summaries and puts them in order, as opening the
// page does.
func BenchmarkSummaries(b *testing.B) {
	var docs [][]byte
	for _, s := range summaries(10000, origin) {
		doc, err := keep.EncodeSummary(s)
		if err != nil {
			b.Fatal(err)
		}
		docs = append(docs, doc)
	}
	b.ReportAllocs()
	for b.Loop() {
		msg := game.Listed{}
		for _, doc := range docs {
			s, err := keep.DecodeSummary(doc)
			if err != nil {
				b.Fatal(err)
			}
			msg.Past = append(msg.Past, s)
		}
		m, _ := worktest.Update(game.New(game.DefaultSettings(), origin), msg)
		page.Of(m)
	}
}
