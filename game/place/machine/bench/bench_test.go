package bench

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/plan"
	"unthreaded/path/machine"
	"unthreaded/path/plane"
)

// benchFor is a bench with the route of a ready drawing.
func benchFor(t testing.TB, id string) Bench {
	t.Helper()
	if b, ok := benches[id]; ok {
		return b
	}
	d, ok := plan.Find(plan.Drawings(), id)
	if !ok {
		t.Fatalf("no drawing is called %q", id)
	}
	k := plan.Open(d)
	p, err := PlanOf(k)
	if err != nil {
		t.Fatalf("%s: %v", id, err)
	}
	benches[id] = New().Sew(p, nil, usual)
	return benches[id]
}

// benches are those made so far: to plan a route takes its time.
var benches = map[string]Bench{}

// Every ready drawing can be set up: its figures are finite, and each stretch of the
// route is told.
func TestEveryDrawingCanBeSetUp(t *testing.T) {
	for _, d := range plan.Drawings() {
		b := benchFor(t, d.ID)
		p := b.Plan
		if err := p.Work.Validate(); err != nil {
			t.Errorf("%s: %v", d.ID, err)
		}
		if f := p.Figures; !(f.Length > 0) || math.IsInf(f.Length, 0) || f.Travel > f.Length {
			t.Errorf("%s: length %v mm, of it travel %v", d.ID, f.Length, f.Travel)
		}
		ruled := slices.ContainsFunc(d.Strokes(), func(s plane.Stroke) bool { return s.Kind == plane.Ruler })
		if p.Ruled() != ruled {
			t.Errorf("%s: %d ruler lines, drawn with a ruler is %v", d.ID, p.Figures.RulerLines, ruled)
		}
		for _, step := range []func() error{
			func() error { _, err := b.Parts(25.4, 2.54); return err },
			func() error { _, err := b.Bobbins(2.54); return err },
			func() error { _, err := b.Orders(); return err },
			func() error { _, err := b.Marks(); return err },
		} {
			if err := step(); err != nil {
				t.Errorf("%s: %v", d.ID, err)
			}
		}
	}
}

// 10 stitches per inch at 600 a minute are one inch a second, which is 25.4 mm
// exactly (international yard and pound agreement, 1959).
// usual is 10 stitches per inch at 600 a minute.
var usual = machine.Triangle{SPM: 600, Stitch: machine.StitchOf(10)}

func TestTwoGiveTheThird(t *testing.T) {
	for _, c := range []struct {
		inches   bool
		steps    [][2]string
		spm      float64
		hand, st float64
	}{
		{true, [][2]string{{"stitch", "12"}, {"needle", "720"}}, 720, 25.4, 25.4 / 12},
		{true, [][2]string{{"hand", "2"}}, 1200, 50.8, 2.54},
		{false, [][2]string{{"stitch", "3"}, {"needle", "800"}}, 800, 40, 3},
		{true, [][2]string{{"hand", "1 1/2"}, {"stitch", "8"}}, 720, 38.1, 3.175},
	} {
		b := benchFor(t, "orange-peel")
		for _, s := range c.steps {
			b, _ = b.Type(s[0], s[1], c.inches)
			if b.Refused.Why != "" {
				t.Errorf("%v: %s", s, b.Refused.Why)
			}
		}
		if x := b.Trio; math.Abs(x.SPM-c.spm) > 1e-6 || math.Abs(x.Hand()-c.hand) > 1e-6 || math.Abs(x.Stitch-c.st) > 1e-6 {
			t.Errorf("%v give %.2f spm, %.3f mm/s, %.3f mm; want %v, %v, %v", c.steps, x.SPM, x.Hand(), x.Stitch, c.spm, c.hand, c.st)
		}
	}
}

// Asked for a part, that part is worked out.
func TestTheAskedPartFollows(t *testing.T) {
	b := benchFor(t, "orange-peel").Find("stitch")
	b, _ = b.Type("hand", "25.4", false)
	b, _ = b.Type("needle", "500", false)
	if want := 60 * 25.4 / 500; math.Abs(b.Trio.Stitch-want) > 1e-9 || b.Trio.Follows != "stitch" {
		t.Errorf("the stitch is %v mm and %q is sought, want %v mm", b.Trio.Stitch, b.Trio.Follows, want)
	}
}

// Whatever is typed: the state stays valid, and what is refused says what may be
// typed, with numbers, and changes nothing.
func TestTypingAnything(t *testing.T) {
	start := benchFor(t, "diamonds")
	rapid.Check(t, func(t *rapid.T) {
		b := start
		for range rapid.IntRange(1, 12).Draw(t, "typed") {
			f := rapid.SampledFrom(fields).Draw(t, "field")
			text := rapid.OneOf(
				rapid.Map(rapid.Float64Range(-10, 5000), func(v float64) string { return fmt.Sprintf("%.2f", v) }),
				rapid.SampledFrom([]string{"", "0", "1/0", "1 1/2", "NaN", "1e9", "inf", "12 cm", "3 %", "50wt", "-1", "9999999999"}),
				rapid.String(),
			).Draw(t, "text")
			before := b.State
			inches := rapid.Bool().Draw(t, "inches")
			b, _ = b.Type(f.ID, text, inches)
			if b.Refused.Why != "" {
				if difference(before, b.State) != (Change{}) || before.Trio != b.Trio {
					t.Fatalf("%s: %q was refused but changed something", f.ID, text)
				}
				if lo, hi := f.Range(before, inches); lo == "" || hi == "" {
					t.Fatalf("%s: %q is refused, and the range is %q to %q", f.ID, text, lo, hi)
				}
			}
			sound(t, b)
		}
	})
}

// sound checks that everything that follows from the state can be told.
func sound(t *rapid.T, b Bench) {
	if err := b.Mine.Validate(); err != nil {
		t.Fatal(err)
	}
	if err := b.Job.Validate(); err != nil {
		t.Fatal(err)
	}
	for _, f := range fields {
		for _, inches := range []bool{true, false} {
			if v := f.Value(b.State, inches); strings.Contains(v, "NaN") || strings.Contains(v, "Inf") {
				t.Fatalf("%s reads %q", f.ID, v)
			}
		}
	}
	if _, err := b.Orders(); err != nil {
		t.Fatalf("orders: %v", err)
	}
	if f, err := b.Bobbins(2.54); err != nil {
		t.Fatalf("bobbins: %v", err)
	} else if math.IsNaN(f.PerTime) || f.Needed < 1 {
		t.Fatalf("bobbins: %+v", f)
	}
	if !b.Trio.Valid() {
		t.Fatalf("%+v is out of its limits", b.Trio)
	}
}

// What a field shows is taken when it is typed back, and means the same to the
// precision shown.
func TestFieldsReadBack(t *testing.T) {
	start := benchFor(t, "diamonds")
	start.Mine.Ruler, start.Mine.FullMM = 6, 64000
	for _, f := range fields {
		for _, inches := range []bool{true, false} {
			text := f.Value(start.State, inches)
			b, _ := start.Type(f.ID, text+" ", inches)
			if got, want := f.get(b.State), f.get(start.State); b.Refused.Why != "" || math.Abs(got-want) > 0.005*math.Abs(want) {
				t.Errorf("%s: %q means %v, want %v (%s)", f.ID, text, got, want, b.Refused.Why)
			}
		}
	}
}

// Undo and redo lead through all changes, and tell what is to be kept anew.
func TestUndoAndRedo(t *testing.T) {
	b := benchFor(t, "orange-peel")
	first := b.State
	b, c := b.Type("throat-width", "10", true)
	if !c.Mine || c.Job || math.Abs(b.Mine.ThroatW-254) > 1e-9 {
		t.Errorf("a throat of 10 in is %v mm, to be kept: %+v", b.Mine.ThroatW, c)
	}
	b, c = b.Choose(machine.WalkingFoot)
	if c.Mine || !c.Job || b.Method() != machine.WalkingFoot || len(b.Against()) == 0 {
		t.Errorf("overruled to %q with %d reasons against, to be kept: %+v", b.Method(), len(b.Against()), c)
	}
	b, _ = b.Tick("power", true)
	b, c = b.Tick("power", true)
	if c != (Change{}) || !b.Job.Ticked("power") {
		t.Errorf("ticking twice changes %+v", c)
	}
	last := b.State
	for range 3 {
		b, _ = b.Back()
	}
	if difference(b.State, first) != (Change{}) {
		t.Errorf("undo of all leads to %+v, want %+v", b.State, first)
	}
	if b, c = b.Back(); c != (Change{}) {
		t.Error("there is more to undo than was done")
	}
	for range 3 {
		b, c = b.Again()
	}
	if difference(b.State, last) != (Change{}) || !c.Job {
		t.Errorf("redo of all leads to %+v, want %+v", b.State, last)
	}
	if b, c = b.Tick("no such item", true); c != (Change{}) {
		t.Error("an item that is not on the list was ticked")
	}
}
