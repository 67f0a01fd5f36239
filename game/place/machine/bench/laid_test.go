package bench

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/plan"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

const in = machine.MMPerInch

// onQuilts is a bench with the route of a design of the demo, which lies in a quilt.
func onQuilts(t testing.TB, q quilt.Quilt, design string) Bench {
	t.Helper()
	_, designs := quilt.Demo()
	d := designs[design]
	k := plan.Open(plan.DrawingOf(d.ID, d.Name, words.Msg{}, func() []motif.Piece { p, _ := d.Pieces(); return p }))
	p, err := PlanOf(k)
	if err != nil {
		t.Fatal(err)
	}
	b := New()
	if on, ok := QuiltOf(top.Open(q, designs), design); ok {
		b = b.Among([]Quilted{on})
	}
	b.Known = true
	return b.Sew(p, nil, usual)
}

func close(a, b float64) bool { return math.Abs(a-b) < 0.01 }

// The cot quilt by hand. Blocks of 7 in, four across and five down, sashing of 1 in and
// a border of 3 1/2 in: row k begins 3 1/2 + 8 (k-1) in from the edge. Every other block
// is a lily: two in each row. There are 3 x 5 upright strips and 4 x 4 level ones. The
// border's upper and lower side are 4 x 7 + 3 = 31 in long, as it was drawn, the others
// 39 in.
func TestTheCotQuiltByHand(t *testing.T) {
	q, _ := quilt.Demo()
	for design, want := range map[string]struct{ rows, times, most, other int }{
		"demo-lily": {5, 10, 2, 0}, "demo-ripples": {5, 10, 2, 0}, "demo-reeds": {9, 31, 4, 0},
		"demo-bank": {2, 2, 1, 2}, "demo-stones": {2, 4, 2, 0},
	} {
		l := onQuilts(t, q, design).Layout()
		most, _ := l.Fullest()
		if len(l.Rows) != want.rows || l.Times() != want.times || most != want.most || l.Other != want.other {
			t.Errorf("%s: %d rows, %d times, %d at most, %d others; want %+v", design, len(l.Rows), l.Times(), most, l.Other, want)
		}
		if !close(l.Along, 38*in) || !close(l.Across, 46*in) {
			t.Errorf("%s: the top is %v x %v mm", design, l.Along, l.Across)
		}
	}
	l := onQuilts(t, q, "demo-lily").Layout()
	for i, r := range l.Rows {
		from := (3.5 + 8*float64(i)) * in
		if !close(r.From, from) || !close(r.To, from+7*in) || r.Name != fmt.Sprintf("row %d", i+1) {
			t.Errorf("%s from %v to %v mm, want %v and 7 in more", r.Name, r.From, r.To, from)
		}
	}
	if first, second := l.Rows[0], l.Rows[1]; !close(first.Begin, 3.5*in) || !close(first.End, 26.5*in) || !close(second.Begin, 11.5*in) {
		t.Errorf("row 1 from %v to %v mm, row 2 from %v", first.Begin, first.End, second.Begin)
	}
}

// What follows, by hand: ten blocks take ten times the thread of one and a tenth for
// reserve, to the whole stitch, and ten times the time; the
// middle row leaves 26 1/2 in of 46 in in the throat, a roll of sqrt(4 w t / pi).
func TestWhatFollowsFromTheQuilt(t *testing.T) {
	q, _ := quilt.Demo()
	b := onQuilts(t, q, "demo-lily")
	parts, err := b.Parts(25.4, 2.54)
	if err != nil {
		t.Fatal(err)
	}
	one, row, all := parts[0], parts[1], parts[2]
	if row.Times != 2 || all.Times != 10 || math.Abs(all.Time.Total-10*one.Time.Total) > 1e-6*all.Time.Total {
		t.Errorf("%d in a row, %d in all, %v s of %v s", row.Times, all.Times, all.Time.Total, one.Time.Total)
	}
	perBlock := b.Plan.Work.Length()*(1+2.5/2.54) + 200*float64(len(b.Plan.Work.Pieces))
	f, err := b.Bobbins(2.54)
	if err != nil || math.Abs(f.PerTime-perBlock) > 1e-6 || math.Abs(all.Thread.Bobbin-11*perBlock) > 6 {
		t.Errorf("a block takes %v mm (%v), want %v; ten take %v, want a tenth more than ten times that", f.PerTime, err, perBlock, all.Thread.Bobbin)
	}
	orders, err := b.Orders()
	if want := math.Sqrt(4 * 26.5 * in * 2.5 * machine.LooseRoll.Usual / math.Pi); err != nil || !close(orders[0].WorstRoll, want) {
		t.Errorf("the thickest roll is %v mm (%v), want %v", orders[0].WorstRoll, err, want)
	}
}

// On point by hand: blocks of 12 in, two by two and one between them, fill a square of
// two diagonals; from corner to corner that is 48 in. Its diagonal rows hold one, three
// and one block, the middle one from 18 to 30 in. The square is half of its box.
func TestOnPointByHand(t *testing.T) {
	q, _ := quilt.Demo()
	q.Setting, q.Rows, q.Cols, q.BlockMM, q.Alternate = quilt.OnPoint, 2, 2, 12*in, quilt.AllAlike
	q.Sashing, q.Borders = quilt.Sashing{}, nil
	_, designs := quilt.Demo()
	lily := designs["demo-lily"]
	lily.Shape.W = 12 * in
	designs[lily.ID] = lily
	on, ok := QuiltOf(top.Open(q, designs), lily.ID)
	l := on.Layout
	if !ok || !l.Slant || !close(l.Along, 48*in) || !close(l.Across, 48*in) || !close(l.share(), 0.5) {
		t.Fatalf("%v: %v x %v mm, share %v", ok, l.Along, l.Across, l.share())
	}
	for i, want := range []struct {
		times            int
		from, begin, end float64
	}{{1, 6, 18, 30}, {3, 18, 6, 42}, {1, 30, 18, 30}} {
		if r := l.Rows[i]; r.Times != want.times || !close(r.From, want.from*in) || !close(r.To, (want.from+12)*in) ||
			!close(r.Begin, want.begin*in) || !close(r.End, want.end*in) {
			t.Errorf("row %d is %+v, want %+v in", i, r, want)
		}
	}
}

// A row of the quilt is sewn as often as there are rows like it: on a chequerboard of
// five rows the first, the third and the fifth.
func TestARowCountsTheRowsLikeIt(t *testing.T) {
	q, designs := quilt.Demo()
	laid := top.Open(q, designs)
	d, _ := laid.RowDrawing(0, "")
	on, ok := QuiltOf(laid, d.ID)
	var names []string
	for _, r := range on.Layout.Rows {
		names = append(names, r.Name)
	}
	if !ok || fmt.Sprint(names) != "[row 1 row 3 row 5]" || on.Layout.Times() != 3 {
		t.Errorf("%v: %v, %d times", ok, names, on.Layout.Times())
	}
	if _, ok := QuiltOf(laid, q.ID+"-row-99"); ok {
		t.Error("a row that is not there lies in the quilt")
	}
	if _, ok := QuiltOf(laid, "orange-peel"); ok {
		t.Error("a ready drawing lies in the quilt")
	}
}

// Whatever the quilt: the rows ascend within the box and can go through a throat, every
// place that holds the design at its size counts once, and the quilt weighs what its
// true area weighs.
func TestLayoutsOfAnyQuilt(t *testing.T) {
	ids := []string{"demo-lily", "demo-ripples", "demo-reeds", "demo-bank", "demo-stones"}
	rapid.Check(t, func(t *rapid.T) {
		q, designs := quilt.Demo()
		q.Setting = rapid.SampledFrom([]quilt.Setting{quilt.Straight, quilt.OnPoint}).Draw(t, "setting")
		q.Rows, q.Cols = rapid.IntRange(1, 6).Draw(t, "rows"), rapid.IntRange(1, 6).Draw(t, "cols")
		q.Alternate = rapid.SampledFrom([]quilt.Alternation{quilt.AllAlike, quilt.Checkerboard, quilt.ByRow}).Draw(t, "alternate")
		q.Sashing.Round = rapid.Bool().Draw(t, "round")
		q.Sashing.Cornerstones = rapid.Bool().Draw(t, "stones")
		q.Borders = append(q.Borders, quilt.Border{WidthMM: 50, Corners: rapid.Bool().Draw(t, "corners")})
		q.ByKind[quilt.BorderKind(1)] = quilt.Choice{Design: rapid.SampledFrom(ids).Draw(t, "outer")}
		laid := top.Open(q, designs)
		id := rapid.SampledFrom(ids).Draw(t, "design")
		on, ok := QuiltOf(laid, id)
		if !ok {
			return
		}
		own, l := 0, on.Layout
		for _, p := range laid.Laying.Placements(id) {
			if math.Abs(p.Where.Scale-1) < 1e-6 {
				own++
			}
		}
		if l.Times() != own {
			t.Fatalf("%s is sewn %d times, lies in %d places", id, l.Times(), own)
		}
		b := Bench{State: State{Mine: Usual(), Job: Job{Quilt: q.ID, Thickness: 2.5}}, Quilts: []Quilted{on}}
		orders, err := b.Orders()
		if err != nil {
			t.Fatal(err)
		}
		size := q.Size()
		hangs, err := b.Top().Support(b.Mine.Table(), orders[0].Fits)
		if want := size.W * size.H * 400e-6; err != nil || l.share() > 0.25 && math.Abs(hangs[0].Total-want) > 1e-6*want {
			t.Fatalf("it weighs %+v, want %v g (%v)", hangs[0], want, err)
		}
		for _, r := range l.Rows {
			if r.Begin < -0.01 || r.End > l.Along+0.01 || r.End <= r.Begin || r.Times < 1 {
				t.Fatalf("%+v in a box of %v mm", r, l.Along)
			}
		}
	})
}

// A document from before rows could be taken from a quilt keeps what was typed; the
// choice is kept, taken back, and where the quilt is gone what was typed counts.
func TestTypedRowsStayTyped(t *testing.T) {
	q, _ := quilt.Demo()
	old := `{"schema":1,"plan":"demo-lily","along_mm":1500,"across_mm":2000,"rows":8,"thickness_mm":2.5,"first_bobbin_share":1,"dot_spacing_mm":50.8,"ticks":["power"]}`
	fresh := onQuilts(t, q, "demo-lily")
	b, err := New().Among(fresh.Quilts).Load("plan-demo-lily", []byte(old))
	if err != nil {
		t.Fatal(err)
	}
	b = b.Sew(fresh.Plan, nil, usual)
	if l := b.Layout(); len(l.Rows) != 8 || l.Across != 2000 || !b.Job.Ticked("power") || b.QuiltLost() {
		t.Errorf("an old document gives %d rows, %v mm across", len(l.Rows), l.Across)
	}
	b, c := b.Pick("quilt", q.ID)
	b, docs := b.Docs(c)
	again, err := New().Among(fresh.Quilts).Load(docs[0].ID, docs[0].Body)
	if again = again.Sew(fresh.Plan, nil, usual); err != nil || len(again.Layout().Rows) != 5 || again.Job.Rows != 8 {
		t.Errorf("%v: tomorrow there are %d rows, %d typed", err, len(again.Layout().Rows), again.Job.Rows)
	}
	if again = again.Among(nil); len(again.Layout().Rows) != 8 || !again.QuiltLost() {
		t.Error("without its quilt it does not go by what was typed")
	}
	if b, _ = b.Back(); len(b.Layout().Rows) != 8 {
		t.Error("undo does not lead back to what was typed")
	}
	if l := fresh.Layout(); len(l.Rows) != 5 {
		t.Errorf("a new plan begins with %d rows, want those of the quilt", len(l.Rows))
	}
}
