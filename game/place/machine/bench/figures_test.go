package bench

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/plan"
	"unthreaded/path/machine"
)

// Each mm of seam takes on either side its own length and the thickness of the
// layers once a stitch (path/machine/thread.go); 60 m less a tenth last for the
// blocks worked out here by hand.
func TestWhenTheBobbinIsDue(t *testing.T) {
	b := benchFor(t, "orange-peel")
	l := b.Plan.Work.Length()
	perBlock := l*(1+2.5/2.54) + 200
	if f, err := b.Bobbins(2.54); err != nil || math.Abs(f.PerTime-perBlock) > 1e-6 {
		t.Fatalf("a block takes %v mm of bobbin thread (%v), want %v", f.PerTime, err, perBlock)
	} else if want := int(54000 / perBlock); f.Due[0].Time != want || math.Abs(f.Due[0].At-l) > 1e-6 {
		t.Errorf("due in block %d at %v mm, want at the end of block %d", f.Due[0].Time, f.Due[0].At, want)
	}
	b, _ = b.Type("first", "25", true)
	f, err := b.Bobbins(2.54)
	// A quarter of 60 m, less 6 m.
	if err != nil || f.Due[0].Time != int(9000/perBlock)+1 && f.Due[0].Time != int(9000/perBlock) {
		t.Errorf("a quarter full, it is due in block %d (%v), want about %v", f.Due[0].Time, err, 9000/perBlock)
	}
	if f.Due[0].RunsTime < f.Due[0].Time {
		t.Error("it runs out before it is due")
	}
}

// The changes told lie in order, at good places, and never past where the bobbin
// runs low.
func TestChangesOfTheBobbinAreInOrder(t *testing.T) {
	drawings := plan.Drawings()
	all := make([]Bench, len(drawings))
	for i, d := range drawings {
		all[i] = benchFor(t, d.ID)
	}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(all).Draw(t, "bench")
		b.Mine.FullMM = rapid.Float64Range(machine.BobbinLength.Min, machine.BobbinLength.Max).Draw(t, "full")
		b.Job.First = rapid.Float64Range(0, 1).Draw(t, "first")
		f, err := b.Bobbins(rapid.Float64Range(1, 6).Draw(t, "stitch"))
		if err != nil {
			t.Fatal(err)
		}
		last := -1.0
		for _, d := range f.Due {
			at := float64(d.Time-1)*b.Plan.Work.Length() + d.At
			runs := float64(d.RunsTime-1)*b.Plan.Work.Length() + d.RunsOut
			if at < last || at > runs+1e-6 && at > 0 || d.Time > b.Times() || d.At > b.Plan.Work.Length()+1e-6 {
				t.Fatalf("due %+v after %v mm", d, last)
			}
			last = at
		}
	})
}

// Her own speed is the middle of the last five along this plan; other lines count
// only where there are none.
func TestOwnPace(t *testing.T) {
	p := Plan{ID: "orange-peel"}
	here := "route-orange-peel-0a1b2c3d"
	for name, c := range map[string]struct {
		traces []Trace
		want   OwnPace
	}{
		"none":             {nil, OwnPace{}},
		"not noted":        {[]Trace{{here, 0}, {"linked-swirls", 0}}, OwnPace{Unnoted: 2}},
		"other lines only": {[]Trace{{"linked-swirls", 20}, {"route-orange-peel-row-0a1b2c3d", 30}}, OwnPace{Hand: 25, Traces: 2}},
		"this plan first":  {[]Trace{{"linked-swirls", 90}, {here, 20}, {"orange-peel", 24}, {here, 22}}, OwnPace{Hand: 22, Traces: 3, Here: true}},
		"the last five":    {[]Trace{{here, 5}, {here, 1}, {here, 4}, {here, 2}, {here, 3}, {here, 99}}, OwnPace{Hand: 3, Traces: 5, Here: true}},
	} {
		if got := p.Pace(c.traces); got != c.want {
			t.Errorf("%s: got %+v, want %+v", name, got, c.want)
		}
	}
}

// Rows that are typed are as many as she says, and as high as the quilt allows.
func TestTypedRows(t *testing.T) {
	b := benchFor(t, "orange-peel-row")
	b, _ = b.Type("along", "60", true)
	b, _ = b.Type("across", "80", true)
	b, _ = b.Type("rows", "8", true)
	bands := b.Layout().Bands()
	if times := b.Layout().Rows[0].Times; len(bands) != 8 || math.Abs(bands[7].To-2032) > 1e-9 || times != int(1524/b.Plan.Work.BlockW) {
		t.Errorf("%d rows up to %v mm, %d a row", len(bands), bands[len(bands)-1].To, times)
	}
	if orders, err := b.Orders(); err != nil || len(orders) != 5 {
		t.Errorf("%d orders (%v)", len(orders), err)
	}
	b, _ = b.Type("rows", "100", true)
	if b.Overfull() == 0 {
		t.Error("100 rows of 4 3/4 in fit on 80 in, it says")
	}
}

// The tightest place of the orange peel is on an arc of the radius that Figures
// names, away from its ends.
func TestTightestPlace(t *testing.T) {
	b := benchFor(t, "orange-peel")
	bend, ok := b.Plan.Tightest()
	if !ok || math.Abs(math.Hypot(bend.Along.X, bend.Along.Y)-1) > 1e-6 {
		t.Fatalf("found %v: %+v", ok, bend)
	}
	nearest := math.Inf(1)
	for _, p := range b.Plan.Work.Pieces {
		for s := 0.0; s < p.Line.Length(); s += 0.5 {
			q := p.Line.At(s)
			nearest = math.Min(nearest, math.Hypot(q.X-bend.At.X, q.Y-bend.At.Y))
		}
	}
	if nearest > 0.5 {
		t.Errorf("the place lies %v mm off the line", nearest)
	}
	if _, ok := benchFor(t, "crosshatch").Plan.Tightest(); ok {
		t.Error("the crosshatch bends")
	}
}
