package bench

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/top"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

const in = machine.MMPerInch

// laidOn is a bench with a quilt of the demo's designs on the table.
func laidOn(t testing.TB, q quilt.Quilt, designs quilt.Designs, c order.Choices) Bench {
	t.Helper()
	l, ok := LaidOn(top.Open(q, designs).WithPlan(c, order.Sewn{}).Planned())
	if !ok {
		t.Fatal("the quilt has no order")
	}
	b := New().OnTable(&l)
	b.Known = true
	return b.Sew(benchFor(t, "diamonds").Plan, nil, usual)
}

func close(a, b float64) bool { return math.Abs(a-b) < 0.01 }

// The cot quilt by hand. Blocks of 7 in, four across and five down, sashing of 1 in and
// a border of 3 1/2 in: row k begins 3 1/2 + 8 (k-1) in from the edge, the strip under it
// 7 in on. From the middle out, turned half way, the strips and rows below the middle at
// 23 in come first, with the quilt turned: the third row, from 19 1/2 to 26 1/2 in, has
// its middle there.
func TestTheCotQuiltByHand(t *testing.T) {
	q, designs := quilt.Demo()
	l := laidOn(t, q, designs, order.Choices{}).Layout()
	if len(l.Rows) != 9 || !close(l.Along, 38*in) || !close(l.Across, 46*in) {
		t.Fatalf("%d rows on %v x %v mm", len(l.Rows), l.Along, l.Across)
	}
	for i, r := range l.Rows {
		kind, number, from, high := order.RowOf, i/2+1, 3.5+8*float64(i/2), 7.0
		if i%2 == 1 {
			kind, from, high = order.Sashing, from+7, 1
		}
		if r.Kind != kind || r.Number != number || !close(r.From, from*in) || !close(r.To, (from+high)*in) || !close(r.Begin, 3.5*in) || !close(r.End, 34.5*in) {
			t.Errorf("row %d is %+v, want %s %d from %v in", i, r, kind, number, from)
		}
	}
	if want := []int{5, 6, 7, 8, 4, 3, 2, 1, 0}; !slices.Equal(l.Sewn, want) {
		t.Errorf("sewn in the order %v, want %v", l.Sewn, want)
	}
	for i, turned := range l.Turned {
		if turned != (i < 4) {
			t.Errorf("at place %d the quilt lies turned: %v", i, turned)
		}
	}
}

// What follows, by hand: sewn from the middle out, the middle row leaves 26 1/2 of 46 in
// right of the needle, a roll of sqrt(4 w t / pi) with the sandwich as loose as she says.
func TestTheRollFollowsTheOrder(t *testing.T) {
	q, designs := quilt.Demo()
	b := laidOn(t, q, designs, order.Choices{})
	roll := func(right, loose float64) float64 { return math.Sqrt(4 * right * in * 2.5 * loose / math.Pi) }
	orders, err := b.Orders()
	if err != nil || orders[0].Kind != machine.MiddleOut || !close(orders[0].WorstRoll, roll(26.5, machine.LooseRoll.Usual)) {
		t.Errorf("%s: the thickest roll is %v mm (%v)", orders[0].Kind, orders[0].WorstRoll, err)
	}
	if len(orders) != 5 {
		t.Errorf("%d orders are compared, want 5", len(orders))
	}
	b, _ = b.Type("loose", "4", true)
	if orders, _ = b.Orders(); !close(orders[0].WorstRoll, roll(26.5, 4)) {
		t.Errorf("rolled more loosely the thickest roll is %v mm", orders[0].WorstRoll)
	}
	// From the first edge to the last the last row leaves 42 1/2 in.
	b = laidOn(t, q, designs, order.Choices{Rows: machine.FirstToLast})
	if orders, _ = b.Orders(); orders[0].Kind != machine.FirstToLast || !close(orders[0].WorstRoll, roll(42.5, machine.LooseRoll.Usual)) {
		t.Errorf("%s: the thickest roll is %v mm", orders[0].Kind, orders[0].WorstRoll)
	}
	// An order of her own has no name, and comes first all the same.
	b = laidOn(t, q, designs, order.Choices{Stages: []string{"row-9", "row-1"}})
	if orders, _ = b.Orders(); orders[0].Kind != "" || orders[0].Fits[0].Row != 8 || orders[0].Fits[1].Row != 0 || len(orders) != 6 {
		t.Errorf("an order of her own: %q, %+v", orders[0].Kind, orders[0].Fits[:2])
	}
}

// On point by hand: blocks of 12 in, two by two and one between them, fill a square of
// two diagonals; from corner to corner that is 48 in. Its diagonal rows lie from 6, 18
// and 30 in on; before the first lies the corner's triangle, a row of its own without
// anything sewn. The square is half of its box.
func TestOnPointByHand(t *testing.T) {
	q, designs := quilt.Demo()
	q.Setting, q.Rows, q.Cols, q.BlockMM, q.Alternate = quilt.OnPoint, 2, 2, 12*in, quilt.AllAlike
	q.Sashing, q.Borders = quilt.Sashing{}, nil
	l := laidOn(t, q, designs, order.Choices{}).Layout()
	if !l.Slant || len(l.Rows) != 3 || !close(l.Along, 48*in) || !close(l.Across, 48*in) || !close(l.share(), 0.5) {
		t.Fatalf("%d rows on %v x %v mm, share %v", len(l.Rows), l.Along, l.Across, l.share())
	}
	for i, from := range []float64{6, 18, 30} {
		if r := l.Rows[i]; r.From > (from+0.01)*in || r.To < (from+11.99)*in || r.Number != i+2 {
			t.Errorf("row %d is %+v, want it to hold %v to %v in", i, r, from, from+12)
		}
	}
}

// Whatever the quilt: the rows ascend within the box and can go through a throat, each is
// sewn once, in the order of the stages, and the quilt weighs what its true area weighs.
func TestLayoutsOfAnyQuilt(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q, designs := quilt.Demo()
		q.Setting = rapid.SampledFrom([]quilt.Setting{quilt.Straight, quilt.OnPoint}).Draw(rt, "setting")
		q.Rows, q.Cols = rapid.IntRange(1, 3).Draw(rt, "rows"), rapid.IntRange(1, 3).Draw(rt, "cols")
		q.Alternate = rapid.SampledFrom([]quilt.Alternation{quilt.AllAlike, quilt.Checkerboard, quilt.ByRow}).Draw(rt, "alternate")
		q.Sashing.Round = rapid.Bool().Draw(rt, "round")
		q.Sashing.Cornerstones = rapid.Bool().Draw(rt, "stones")
		rows := rapid.SampledFrom([]machine.OrderKind{machine.MiddleOut, machine.EdgesIn, machine.LastToFirst}).Draw(rt, "order")
		b := laidOn(t, q, designs, order.Choices{Rows: rows})
		laid, _ := b.Laid()
		l := b.Layout()
		orders, err := b.Orders()
		if err != nil {
			rt.Fatal(err)
		}
		var stages []int
		for _, f := range orders[0].Fits {
			stages = append(stages, l.Rows[f.Row].Stage)
		}
		if !slices.IsSorted(stages) || len(stages) != len(l.Rows) {
			rt.Fatalf("the rows are sewn in the order of stages %v", stages)
		}
		for _, r := range l.Rows {
			s := laid.Order.Stages[r.Stage]
			if r.Begin < -0.01 || r.End > l.Along+0.01 || r.End <= r.Begin || s.Kind != r.Kind || s.Number != r.Number {
				rt.Fatalf("%+v in a box of %v mm is %s", r, l.Along, s.ID)
			}
		}
		size := q.Size()
		hangs, err := b.Top().Support(b.Mine.Table(), orders[0].Fits)
		if want := size.W * size.H * 400e-6; err != nil || l.share() > 0.25 && math.Abs(hangs[0].Total-want) > 1e-6*want {
			rt.Fatalf("it weighs %+v, want %v g (%v)", hangs[0], want, err)
		}
	})
}

// A document from before rows could be taken from a quilt keeps what was typed; the
// choice is kept, taken back, and without a quilt on the table what was typed counts.
func TestTypedRowsStayTyped(t *testing.T) {
	q, designs := quilt.Demo()
	old := `{"schema":1,"plan":"diamonds","along_mm":1500,"across_mm":2000,"rows":8,"thickness_mm":2.5,"first_bobbin_share":1,"dot_spacing_mm":50.8,"ticks":["power"]}`
	fresh := laidOn(t, q, designs, order.Choices{})
	laid, _ := fresh.Laid()
	b, err := New().OnTable(&laid).Load("plan-diamonds", []byte(old))
	if err != nil {
		t.Fatal(err)
	}
	b = b.Sew(fresh.Plan, nil, usual)
	if l := b.Layout(); len(l.Rows) != 8 || l.Across != 2000 || !b.Job.Ticked("power") || b.QuiltLost() {
		t.Errorf("an old document gives %d rows, %v mm across", len(l.Rows), l.Across)
	}
	b, c := b.Pick("quilt", q.ID)
	b, docs := b.Docs(c)
	again, err := New().OnTable(&laid).Load(docs[0].ID, docs[0].Body)
	if again = again.Sew(fresh.Plan, nil, usual); err != nil || len(again.Layout().Rows) != 9 || again.Job.Rows != 8 {
		t.Errorf("%v: tomorrow there are %d rows, %d typed", err, len(again.Layout().Rows), again.Job.Rows)
	}
	if again = again.OnTable(nil); len(again.Layout().Rows) != 8 || !again.QuiltLost() {
		t.Error("without its quilt it does not go by what was typed")
	}
	if b, _ = b.Back(); len(b.Layout().Rows) != 8 {
		t.Error("undo does not lead back to what was typed")
	}
	if l := fresh.Layout(); len(l.Rows) != 9 {
		t.Errorf("a new plan begins with %d rows, want those of the quilt", len(l.Rows))
	}
}

// The figures of a machine that were kept before there were assumptions have the usual
// ones; what is set is kept, nothing for none too.
func TestAssumptionsOfOldDocuments(t *testing.T) {
	old := `{"schema":1,"min_spm":100,"max_spm":900,"throat_width_mm":241.3,"throat_height_mm":120,"hand_room_mm":50,"bobbin":"15","thread_wt":40,"table_left_mm":600,"table_behind_mm":600,"table_front_mm":150,"ruler_offset_mm":6.35,"paper":"letter"}`
	m, err := DecodeMine([]byte(old))
	if err != nil || m.Assumed != UsualAssumed() || m.ThroatW != 241.3 || m.Paper != Letter {
		t.Fatalf("%+v (%v)", m, err)
	}
	b := benchFor(t, "diamonds")
	for id, text := range map[string]string{"stop": "60", "marked": "0", "evening": "45", "waste": "10", "reserve": "20", "loose": "3"} {
		if b, _ = b.Type(id, text, true); b.Refused.Why != "" {
			t.Fatalf("%s: %+v", id, b.Refused)
		}
	}
	got, err := DecodeMine(encode(b.Mine))
	want := UsualAssumed()
	want.Stop, want.Marked, want.Evening, want.Waste, want.Reserve, want.Loose = 60, 0, 2700, 254, 0.2, 3
	if err != nil || got.Assumed != want {
		t.Errorf("kept %+v (%v), want %+v", got.Assumed, err, want)
	}
	a := b.Assumptions(25.4, 2.54)
	if err := a.Validate(); err != nil || a.Marked.High != 0 || a.Stop.Low != 45 || a.Stop.High != 90 {
		t.Errorf("%+v (%v)", a, err)
	}
}

// Whatever is typed within the ranges, a job can rest on it.
func TestAnyAssumptionsHold(t *testing.T) {
	b := benchFor(t, "diamonds")
	rapid.Check(t, func(t *rapid.T) {
		b := b
		for _, f := range fields {
			if f.at == nil || f.part != "" || rapid.Bool().Draw(t, f.ID) {
				continue
			}
			s := b.State
			r := f.within(s)
			if f.set(&s, rapid.Float64Range(r.Min, r.Max).Draw(t, f.ID+" is")) == nil && s.Mine.Validate() == nil && s.Job.Validate() == nil {
				b.State = s
			}
		}
		a := b.Assumptions(machine.HandSpeed.Usual, machine.StitchLength.Usual)
		if err := a.Validate(); err != nil {
			t.Fatalf("%+v: %v", a, err)
		}
	})
}

// The order of a quilt is planned beside the page, and may come after the plan: a new job takes
// its rows from it all the same; one in which they were typed stays as it is.
func TestTheQuiltMayComeLater(t *testing.T) {
	l := &Laid{Quilt: quilt.Quilt{ID: "late"}}
	b := benchFor(t, "diamonds")
	if got := b.OnTable(l).Job.Quilt; got != "late" {
		t.Errorf("a new job takes its rows from %q", got)
	}
	typed, _ := b.OnTable(l).Pick("quilt", "typed")
	if got := typed.OnTable(nil).OnTable(l).Job.Quilt; got != "" {
		t.Errorf("a job with typed rows takes them from %q", got)
	}
}
