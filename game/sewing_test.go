package game_test

import (
	"math"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/place"
	"unthreaded/game/place/back"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
)

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
	tb.typed("day", "2026-11-20", "stitches", "32", "length", "4", "spm", "600", "note", " ok ")
	for range 2 {
		tb.typed("stitches", "32")
		tb.send(game.Control{Name: "back.sewn-keep"}, game.Frame{Now: 200})
	}
	if p, ok := atBack(tb.m).Proposed(); !ok || p.Advised() {
		t.Errorf("two pieces advise %+v", p)
	}
	tb.send(game.Control{Name: "back.use-needle"})
	if tb.m.Settings.SPM != 600 {
		t.Errorf("two pieces set the needle to %v", tb.m.Settings.SPM)
	}
	taken[game.Keep](tb)
	tb.typed("stitches", "32", "note", " ok ")
	tb.send(game.Frame{Now: 300}, game.Control{Name: "back.sewn-keep"})
	keeps := taken[game.Keep](tb)
	if len(keeps) != 1 || keeps[0].Thing.Kind != back.SewnThing {
		t.Fatalf("kept %v: %v", keeps, atBack(tb.m).Sewn.Trouble)
	}
	s, err := weeks.DecodeSewn(keeps[0].Thing.Doc)
	if err != nil || s.Stitches != 32 || math.Abs(s.LengthMM-101.6) > 1e-9 || s.Note != "ok" || s.RehearsedMM != 2.54 {
		t.Errorf("kept %+v (%v)", s, err)
	}
	// 8 to the inch where 10 were planned: hands go 1.25 times as fast.
	if p, ok := atBack(tb.m).Proposed(); !ok || !p.Advised() || math.Abs(p.Off.Ratio-1.25) > 1e-9 || p.NeedleSPM != 750 || p.RehearseSPM != 480 {
		t.Errorf("proposed %+v", p)
	}
	tb.send(game.Control{Name: "back.use-needle"})
	if tb.m.Settings.SPM != 750 || len(taken[game.SaveSettings](tb)) != 1 {
		t.Errorf("the needle goes at %v", tb.m.Settings.SPM)
	}
	tb.send(game.Control{Name: "undo"}, game.Control{Name: "back.sewn-delete", Item: s.ID})
	if tb.m.Settings.SPM != 600 || len(atBack(tb.m).Sewn.Pieces) != 2 || len(taken[game.Discard](tb)) != 1 {
		t.Errorf("after undoing the needle goes at %v, %d pieces", tb.m.Settings.SPM, len(atBack(tb.m).Sewn.Pieces))
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
	tb.send(game.Shelf{Things: []game.Thing{{Kind: back.SewnThing, ID: "a", Doc: doc}, {Kind: back.SewnThing, ID: "b", Doc: []byte("{")}}})
	tb.look()
	if s := atBack(tb.m).Sewn; len(s.Pieces) != 1 || s.Damaged != 1 {
		t.Errorf("%d pieces, %d damaged", len(s.Pieces), s.Damaged)
	}
}

// What is wrong is said at its field once the note was to be kept, and gone when it is
// mended; a count that no machine sews is asked back, and kept on her word.
func TestSewnFieldsAreAsked(t *testing.T) {
	tb := newTable(t)
	tb.look()
	tb.send(game.Control{Name: "back.view", Value: "sewn"})
	good := []string{"day", "2026-11-20", "stitches", "32", "length", "4 in", "spm", "600"}
	for _, c := range []struct{ field, value, want string }{
		{"day", "", "the day"}, {"stitches", "thirty", "how many"}, {"stitches", "3", "5 or more"}, {"stitches", "99999999999999999999", "mistyped"},
		{"length", "far", "no length"}, {"length", "0", "such as 4 in"}, {"spm", "40", "50 to 2000"}, {"stitches", "3200", "would be 800 to the inch"}, {"stitches", "8", "would be 2.0"},
	} {
		tb.typed(good...)
		tb.typed(c.field, c.value)
		if !atBack(tb.m).Sewn.Trouble.None() {
			t.Errorf("%s %q is called wrong while it is typed", c.field, c.value)
		}
		tb.send(game.Control{Name: "back.sewn-keep"})
		if got := atBack(tb.m).Sewn.Trouble; len(taken[game.Keep](tb)) != 0 || got.At != c.field || !strings.Contains(words.Book{Inches: true}.Write(got.Said), c.want) {
			t.Errorf("%s %q is answered at %q with %v", c.field, c.value, got.At, got.Said)
		}
		if want := "back-sewn-" + c.field; tb.m.Focus.To != want {
			t.Errorf("the keyboard is led to %s, want %s", tb.m.Focus.To, want)
		}
		tb.typed("note", "x")
		if atBack(tb.m).Sewn.Trouble.None() {
			t.Errorf("%s %q is taken for mended by another field", c.field, c.value)
		}
		tb.typed(good...)
		if got := atBack(tb.m).Sewn.Trouble; !got.None() {
			t.Errorf("%s is right and still called wrong: %v", c.field, got)
		}
	}
	tb.typed("stitches", "thirty")
	tb.send(game.Control{Name: "back.sewn-anyway"})
	tb.typed("stitches", "3200")
	if len(taken[game.Keep](tb)) != 0 {
		t.Error("words are kept on her word")
	}
	tb.send(game.Control{Name: "back.sewn-keep"}, game.Control{Name: "back.sewn-anyway"})
	if len(taken[game.Keep](tb)) != 1 || len(atBack(tb.m).Sewn.Pieces) != 1 {
		t.Error("a count she stands by is not kept")
	}
	if p, ok := atBack(tb.m).Proposed(); ok || p.Left != 1 {
		t.Errorf("800 to the inch say %+v", p)
	}
}

// A kept note goes back into the form and is kept under its ID with what it was compared
// with; undo brings the one before back, what was being typed waits meanwhile, and what is
// deleted is named and leads to the next.
func TestANoteIsChanged(t *testing.T) {
	tb := newTable(t)
	tb.look()
	tb.send(game.Control{Name: "back.view", Value: "sewn"})
	for i, n := range []string{"30", "40", "50"} {
		tb.typed("day", "2026-11-2"+string(rune('0'+i)), "stitches", n, "length", "10 cm", "spm", "600")
		tb.send(game.Photo{Name: "back.photo", ID: "p" + n}, game.Frame{Now: 200 + float64(i)}, game.Control{Name: "back.sewn-keep"})
	}
	docs := taken[game.Keep](tb)
	if len(docs) != 3 {
		t.Fatalf("%d kept: %v", len(docs), atBack(tb.m).Sewn.Trouble)
	}
	id := docs[1].Thing.ID
	tb.typed("stitches", "7")
	tb.send(game.Control{Name: "spm", Value: "700"}, game.Control{Name: "back.sewn-change", Item: id})
	d := atBack(tb.m).Sewn.Draft
	if d.ID != id || d.Day != "2026-11-21" || d.Stitches != "40" || d.Length != "10 cm" || d.SPM != "600" || d.Photo != "p40" {
		t.Errorf("in the form stands %+v", d)
	}
	tb.typed("stitches", "42")
	tb.send(game.Frame{Now: 300}, game.Control{Name: "back.sewn-keep"})
	keeps := taken[game.Keep](tb)
	if len(keeps) != 1 || keeps[0].Thing.ID != id || len(atBack(tb.m).Sewn.Pieces) != 3 {
		t.Fatalf("kept %v, %d pieces", keeps, len(atBack(tb.m).Sewn.Pieces))
	}
	if s, err := weeks.DecodeSewn(keeps[0].Thing.Doc); err != nil || s.Stitches != 42 || s.Photo != "p40" || s.RehearsedSPM != 600 || s.Typed != "10 cm" {
		t.Errorf("kept %+v (%v)", s, err)
	}
	if d := atBack(tb.m).Sewn.Draft; d.ID != "" || d.Stitches != "7" {
		t.Errorf("what was being typed is %+v", d)
	}
	if want := "back-piece-" + id; tb.m.Focus.To != want {
		t.Errorf("the keyboard is at %s, want %s", tb.m.Focus.To, want)
	}
	tb.send(game.Control{Name: "undo"})
	if again := taken[game.Keep](tb); len(again) != 1 || string(again[0].Thing.Doc) != string(docs[1].Thing.Doc) {
		t.Error("undoing the change does not keep the note as it was")
	}
	tb.send(game.Control{Name: "back.sewn-change", Item: id}, game.Control{Name: "back.sewn-delete", Item: id})
	if d := atBack(tb.m).Sewn.Draft; d.ID != "" || !strings.Contains(tb.m.Notice.In(tb.m.Book()), "40 stitches, of 21 Nov 2026") || tb.m.Focus.To != "back-piece-"+atBack(tb.m).Sewn.Pieces[1].ID {
		t.Errorf("deleted while it was changed: %+v, %q, focus %s", d, tb.m.Notice.In(tb.m.Book()), tb.m.Focus.To)
	}
}

// A note that is taken back can be brought back as it was, with its photo, as often as
// she likes: nothing she wrote is lost to one undo too many.
func TestANoteTakenBackIsNotLost(t *testing.T) {
	tb := newTable(t)
	tb.look()
	tb.send(game.Control{Name: "back.view", Value: "sewn"})
	tb.typed("day", "2026-11-20", "stitches", "40", "length", "4 in", "spm", "600")
	tb.send(game.Photo{Name: "back.photo", ID: "p1"}, game.Frame{Now: 200}, game.Control{Name: "back.sewn-keep"})
	doc := string(taken[game.Keep](tb)[0].Thing.Doc)
	for range 2 {
		tb.send(game.Control{Name: "undo"}, game.Control{Name: "undo"})
		if n := taken[game.Discard](tb); len(n) != 1 || len(atBack(tb.m).Sewn.Pieces) != 0 || tb.m.Notice.Action != "redo" {
			t.Fatalf("taken back: %v, %d pieces, %+v", n, len(atBack(tb.m).Sewn.Pieces), tb.m.Notice)
		}
		tb.send(game.Control{Name: "redo"}, game.Control{Name: "redo"})
		if k := taken[game.Keep](tb); len(k) != 1 || string(k[0].Thing.Doc) != doc || len(atBack(tb.m).Sewn.Pieces) != 1 {
			t.Fatalf("brought back: %v, %d pieces", k, len(atBack(tb.m).Sewn.Pieces))
		}
	}
}

// A visit that finds a noted piece and ticks of a quilt has nothing to complain of.
func TestAPieceAndTicksAreBothRead(t *testing.T) {
	m, _ := plans(twoRows())
	m, effects := plans(m, game.Control{Name: "quilt.stage-sewn", Item: m.Top.Plan.Order.Stages[0].ID, Value: "on"})
	things, _ := shelve(nil, effects)
	doc, err := weeks.EncodeSewn(weeks.Sewn{
		Schema: weeks.SewnSchema, ID: weeks.SewnID(1e9), Day: "2001-09-09", Stitches: 50, LengthMM: 127, SPM: 600, RehearsedMM: 2.5, RehearsedSPM: 600,
	})
	if err != nil {
		t.Fatal(err)
	}
	things = append(things, game.Thing{Kind: place.SewnThing, ID: weeks.SewnID(1e9), Doc: doc})
	again, _ := worked(m.Settings.Encode(), things)
	if said := again.Notice; !said.None() {
		t.Errorf("it says %q", said.In(again.Book()))
	}
	again, _ = plans(again, game.Control{Name: "place", Value: "back"}, game.Control{Name: "back.view", Value: "sewn"})
	if b := atBack(again); b.Sewn.Damaged != 0 || len(b.Sewn.Pieces) != 1 || len(again.Plans[m.Top.Quilt.ID].Sewn.Ticks) != 1 {
		t.Errorf("%d notes damaged, %d pieces, plans %+v", b.Sewn.Damaged, len(b.Sewn.Pieces), again.Plans)
	}
}
