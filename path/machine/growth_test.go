package machine

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A longer route with more starts and halts never takes less time, thread or
// bobbins, and n blocks take n times the time of one.
func TestTimeThreadAndBobbinsGrow(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		of := func(r Range) float64 { return rapid.Float64Range(r.Min, r.Max).Draw(rt, r.Name) }
		few := func(name string) int { return rapid.IntRange(0, 50).Draw(rt, name) }
		a := Load{of(Range{"length", "mm", 1, 1e5, 0}), few("stops"), few("halts")}
		b := a.Plus(Load{of(Range{"more", "mm", 0, 1e5, 0}), few("more stops"), few("more halts")})
		pace := Pace{of(HandSpeed), of(StopTime), of(HaltTime)}
		ta, errA := a.Time(pace)
		tb, errB := b.Time(pace)
		tn, errN := a.Times(7).Time(pace)
		if errA != nil || errB != nil || errN != nil {
			rt.Fatal(errA, errB, errN)
		}
		if tb.Total < ta.Total || tn.Total > 7*ta.Total*(1+1e-9) || tn.Total < 7*ta.Total*(1-1e-9) {
			rt.Fatalf("%v s, longer %v s, seven %v s", ta, tb, tn)
		}
		s := UsualSeam(a.Length)
		s.Stitch, s.Thickness, s.Starts = of(StitchLength), of(Thickness), a.Stops
		long := s
		long.Length, long.Starts = b.Length, b.Stops
		sa, errA := s.Thread()
		sb, errB := long.Thread()
		if errA != nil || errB != nil || sb.Bobbin < sa.Bobbin || sb.Top < sa.Top || sb.Stitches < sa.Stitches {
			rt.Fatalf("%+v (%v), longer %+v (%v)", sa, errA, sb, errB)
		}
		if sa.Bobbin < s.Length {
			rt.Fatalf("%v mm of thread for %v mm of line", sa.Bobbin, s.Length)
		}
		full := of(BobbinLength)
		na, errA := Bobbins(sa.Bobbin, full, 0.1)
		nb, errB := Bobbins(sb.Bobbin, full, 0.1)
		if errA != nil || errB != nil || nb < na {
			rt.Fatalf("%d bobbins (%v), longer %d (%v)", na, errA, nb, errB)
		}
	})
}

// Joined loads: a block entered without a stop costs none.
func TestLoadOfARow(t *testing.T) {
	block := must[Load](t)(workOf(t, false, "M 0 0 L 100 0 L 100 100").Load())
	if block != (Load{200, 1, 1}) {
		t.Errorf("block %+v, want 200 mm, 1 stop, 1 halt", block)
	}
	row := block.Plus(block.Joined().Times(3))
	if row != (Load{800, 1, 4}) {
		t.Errorf("row %+v, want 800 mm, 1 stop, 4 halts", row)
	}
}

// A seam in thin cloth takes about 2.5 times its length in thread, half of it on
// each side: the ratio of the clothing trade's hand-books for stitch type 301 of ISO
// 4915 (from memory). Thin cloth: two layers of shirting, 0.5 to 0.8 mm together
// (from memory), at a stitch of 2.5 mm.
func TestThreadAgainstHandbookRatio(t *testing.T) {
	for _, thickness := range []float64{0.5, 0.625, 0.8} {
		s := UsualSeam(1000)
		s.Stitch, s.Thickness, s.Waste, s.Reserve = 2.5, thickness, 0, 0
		th := must[Thread](t)(s.Thread())
		if ratio := (th.Top + th.Bobbin) / s.Length; ratio < 2.3 || ratio > 2.7 || th.Top != th.Bobbin {
			t.Errorf("%v mm: %v lengths of thread, want about 2.5, half on each side", thickness, ratio)
		}
	}
}

// Either remedy by itself brings the needle speed to the machine's limit; it says
// the right way, and whether the stitch is one of 8 to 12 per inch.
func TestRemediesBringThePedalWithinReach(t *testing.T) {
	n := NeedleRange{300, 900}
	for _, c := range []struct {
		hand, stitch float64
		faster       bool
		usual        bool
	}{
		{60, 2.5, false, false},   // 4 mm at 900 spm
		{40, 2.54, false, true},   // 2.67 mm
		{10, 2.54, true, false},   // 2 mm at 300 spm
		{10.8, 2.54, true, true},  // 2.16 mm
		{100, 2.54, false, false}, // 6.67 mm
	} {
		p := must[Pedal](t)(PedalFor(c.hand, c.stitch, n))
		if p.Fits || len(p.Remedies) != 2 {
			t.Fatalf("%+v: %+v, want two remedies", c, p)
		}
		for _, r := range p.Remedies {
			hand, stitch := c.hand, c.stitch
			if r.Change == ChangeHand {
				hand = r.To
			} else {
				stitch = r.To
			}
			near(t, "needle speed after "+string(r.Change), 60*hand/stitch, p.Set, exact)
			if r.More != (c.faster == (r.Change == ChangeHand)) || (r.Change == ChangeStitch && r.Usual != c.usual) {
				t.Errorf("%+v: remedy %+v", c, r)
			}
		}
	}
}

// 250 mm/s in stitches of 0.5 mm take 60 x 250 / 0.5 = 30000 stitches a minute.
func TestWhatDoesNotGoTogether(t *testing.T) {
	for _, c := range []struct {
		t    Triangle
		p    Part
		v    float64
		want string
	}{
		{Triangle{600, 2.5, HandPart}, NeedlePart, 5000, "needle-speed 5000 spm is not from 50 to 2000 spm"},
		{Triangle{600, 0.5, NeedlePart}, HandPart, 250, "hand-speed 250 mm/s is not from 0.41"},
		{Triangle{600, 2.5, StitchPart}, NeedlePart, 100, "needle-speed 100 spm is not from 214."}, // 60 x 25 / 7
	} {
		if _, err := c.t.With(c.p, c.v); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: error %v, want one with %q", c, err, c.want)
		}
	}
}

func TestRowsOfSpeeds(t *testing.T) {
	rows := must[[]SpeedRow](t)(SpeedTable(NeedleRange{200, 850}, 200, []float64{2, 3}))
	want := []float64{200, 400, 600, 800, 850}
	for i, r := range rows {
		if len(rows) != len(want) || r.SPM != want[i] || len(r.Hand) != 2 {
			t.Fatalf("rows %+v, want needle speeds %v", rows, want)
		}
	}
}
