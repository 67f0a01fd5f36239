package page_test

import (
	"fmt"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/place/back"
	"unthreaded/game/worktest"
)

// sewed returns the page after pieces over 4 in at 600 stitches a minute, where 10 to the
// inch are planned, and its model.
func sewed(counts ...int) (page.Page, game.Model) { return sewedAt("600", counts...) }

func sewedAt(spm string, counts ...int) (page.Page, game.Model) {
	m := lookedBack(0, nil, game.Control{Name: "back.view", Value: "sewn"})
	for i, n := range counts {
		for _, f := range [][2]string{{"day", "2027-01-15"}, {"stitches", fmt.Sprint(n)}, {"length", "4 in"}, {"spm", spm}, {"anyway", ""}} {
			m, _ = worktest.Update(m, game.Control{Name: "back.sewn-" + f[0], Value: f[1]})
		}
		m, _ = worktest.Update(m, game.Frame{Now: 100 + float64(i)})
	}
	return page.Of(m), m
}

// What came out is said first, and what to do agrees with it: nothing from one piece or
// two, nothing where it came out as planned or cannot be told, else both speeds. 32
// stitches in 4 in are 8 to the inch: hands 10/8 times as fast, a needle of 750.
func TestPiecesInWords(t *testing.T) {
	for _, c := range []struct {
		counts                 []int
		sentence, next, needle string
	}{
		{nil, "Sew a practice sample", "", ""},
		{[]int{3200}, "Nothing can be told from these samples", "", ""},
		{[]int{40}, "You sewed 10 per inch, as planned. It is early: change nothing yet, and note 2 more practice samples first.", "", ""},
		{[]int{32}, "You sewed 8 per inch; the plan is 10 per inch. It is early", "750 stitches a minute would suit", ""},
		{[]int{32, 32}, "You sew about 8 per inch at 600 a minute; the plan is 10 per inch. It is early: change nothing yet, and note 1 more practice sample first.", "", ""},
		{[]int{40, 41, 40}, "You sew about 10 per inch at 600 a minute, as planned. That is right: change nothing.", "", ""},
		{[]int{34, 40, 35}, "You sew about 9 per inch at 600 a minute; the plan is 10 per inch. Your samples differ too much", "", ""},
		{[]int{32, 33, 32}, "Your stitches come out longer than planned: about 8 per inch at 600 a minute; the plan is 10 per inch.", "", "about 740 stitches a minute, if it goes so fast: that makes 10 per inch"},
		{[]int{32, 3200, 33, 32}, "Your stitches come out longer", "", "740"},
		{[]int{60, 60, 60}, "Your stitches come out shorter than planned: about 15 per inch", "", "400"},
	} {
		p, _ := sewed(c.counts...)
		r := p.Room.(back.Shown).Machine
		if !strings.Contains(p.Sentence, c.sentence) || !strings.Contains(r.Next, c.next) || (r.Next == "") != (c.next == "") || !strings.Contains(r.Needle, c.needle) {
			t.Errorf("%v: %q, then %q, then %q", c.counts, p.Sentence, r.Next, r.Needle)
		}
		if (c.needle != "") != r.Advised || !r.Advised && (r.Needle+r.Hand != "" || r.CanNeedle || r.HasHand) {
			t.Errorf("%v: advised %v, %q, %q", c.counts, r.Advised, r.Needle, r.Hand)
		}
	}
	// 14 stitches in 4 in at 800 a minute want a needle of 800 x 10 / 3.5 = 2286.
	if p, _ := sewedAt("800", 14, 14, 14, 14); !strings.Contains(p.Room.(back.Shown).Machine.Needle, "No needle speed that can be set here") {
		t.Errorf("beyond all machines: %q", p.Room.(back.Shown).Machine.Needle)
	}
}

// A length comes back as it was typed, pieces of one day by their time, and a piece that is
// not believed says so.
func TestPieceRows(t *testing.T) {
	_, m := sewed(40, 3200)
	for _, f := range [][2]string{{"stitches", "38"}, {"length", " 10 cm"}, {"keep", ""}} {
		m, _ = worktest.Update(m, game.Control{Name: "back.sewn-" + f[0], Value: f[1]})
	}
	rows := shown(m).Machine.Pieces
	if len(rows) != 3 {
		t.Fatalf("%d rows: %v", len(rows), atBack(m).Sewn.Trouble)
	}
	// 1.8e9 s after 1970 began is 2027-01-15 08:00 UTC, as date -u -d @1800000000 says; the
	// pieces were noted 1, 100 and 101 s later.
	for i, want := range []string{"15 Jan 2027, 08:01", "15 Jan 2027, 08:01", "15 Jan 2027, 08:00"} {
		if rows[i].Day != want {
			t.Errorf("piece %d is of %q, want %q", i, rows[i].Day, want)
		}
	}
	if !strings.Contains(rows[0].Text, "38 stitches in 10 cm:") || !strings.Contains(rows[1].Text, "Left out") || strings.Contains(rows[2].Text, "Left out") {
		t.Errorf("the rows say %v", rows)
	}
}

// In millimetres it is said of the stitches: 40 in 10 cm are 2.5 mm, where 2.54 are planned.
func TestPiecesInMillimetres(t *testing.T) {
	_, m := sewed(40)
	m, _ = worktest.Update(m, game.Control{Name: "units", Value: "mm"})
	if got := page.Of(m).Sentence; !strings.HasPrefix(got, "You sewed stitches of 2.5 mm, as planned.") {
		t.Errorf("one piece: %q", got)
	}
	m, _ = worktest.Update(m, game.Control{Name: "back.sewn-stitches", Value: "40"})
	m, _ = worktest.Update(m, game.Control{Name: "back.sewn-keep"})
	if got := page.Of(m).Sentence; !strings.HasPrefix(got, "You sew stitches of about 2.5 mm at 600 a minute, as planned.") {
		t.Errorf("two pieces: %q", got)
	}
}

// Trouble stands at its field alone.
func TestTroubleAtItsField(t *testing.T) {
	_, m := sewed()
	m, _ = worktest.Update(m, game.Control{Name: "back.sewn-stitches", Value: "3200"})
	m, _ = worktest.Update(m, game.Control{Name: "back.sewn-keep"})
	r := shown(m).Machine
	if !r.Ask || r.Trouble.Stitches == "" || r.Bad != (back.PerField{Stitches: "true"}) {
		t.Errorf("asked %v, %+v, %+v", r.Ask, r.Trouble, r.Bad)
	}
}

// Without traces to choose from the view offers to make one, and shows no empty table.
func TestTooFewForAPair(t *testing.T) {
	view := game.Control{Name: "back.view", Value: "pair"}
	if b := shown(lookedBack(0, nil, view)); !b.Few || b.FewAct != "Make the first trace" || b.HasPair {
		t.Errorf("with no trace: %v %q %v", b.Few, b.FewAct, b.HasPair)
	}
	if b := shown(lookedBack(3, evenness(func(int) float64 { return 0.3 }), view)); b.Few || b.HasPair || len(b.Traces) == 0 || b.Traces[0].Closes {
		t.Errorf("with three sessions: %v, %d traces", b.Few, len(b.Traces))
	}
}
