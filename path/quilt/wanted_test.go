package quilt

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// A worked example: 4 blocks of 12 in with 3 strips of 2 1/2 in and borders of
// 1 1/2 in add up to 48 + 7 1/2 + 3 = 58 1/2 in, 1 1/2 in less than 60. That is 3/4 in
// more of border on each side, or a strip of 3 in, or blocks of 12 3/8 in.
func TestFitOfAWorkedExample(t *testing.T) {
	q := plain(Straight, 4, 4)
	q.BlockMM, q.Sashing.WidthMM, q.Borders = 12*inch, 2.5*inch, []Border{{WidthMM: 1.5 * inch}}
	f := q.FitTo(Size{60 * inch, 60 * inch})
	want := []Change{{Part: OuterBorder, From: 1.5, To: 2.25}, {Part: AllSashing, From: 2.5, To: 3}, {Part: AllBlocks, From: 12, To: 12.375}}
	if f.Fits() || math.Abs(f.Have.W-58.5*inch) > 1e-9 || !sameChanges(f.Both, want) || len(f.Across)+len(f.Down) > 0 {
		t.Errorf("%+v", f)
	}
	if f := q.FitTo(q.Size()); !f.Fits() || len(f.Both) > 0 {
		t.Errorf("%+v", f)
	}
	q.Cols, q.Borders = 3, nil
	f = q.FitTo(Size{42 * inch, 55.5 * inch})
	if f.FitsAcross() || !f.FitsDown() || !sameChanges(f.Across[:1], []Change{{Part: OuterBorder, To: 0.5}}) || math.Abs(f.Across[0].After.H-56.5*inch) > 1e-9 {
		t.Errorf("%+v", f)
	}
	if f := q.FitTo(Size{10, 10}); len(f.Both)+len(f.Across)+len(f.Down) > 0 {
		t.Errorf("a top of 10 mm is offered: %+v", f)
	}
}

// sameChanges compares parts and measures with those in inches.
func sameChanges(got, want []Change) bool {
	return slices.EqualFunc(got, want, func(a, b Change) bool {
		return a.Part == b.Part && math.Abs(a.From-b.From*inch) < 1e-6 && math.Abs(a.To-b.To*inch) < 1e-6
	})
}

// Every change that is offered is a valid layout and does what it says.
func TestChangesMakeItSo(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q := drawQuilt(rt)
		have := q.Size()
		more := rapid.Float64Range(-200, 200)
		want := Size{have.W + more.Draw(rt, "across"), have.H + more.Draw(rt, "down")}
		if rapid.Bool().Draw(rt, "alike") {
			want.H = have.H + (want.W - have.W)
		}
		f := q.FitTo(want)
		check := func(list []Change, across, down bool) {
			for _, c := range list {
				changed := applied(rt, q, c)
				if err := changed.Validate(); err != nil {
					rt.Fatalf("%+v: %v", c, err)
				}
				got := changed.Size()
				if !sameLength(got.W, c.After.W) || !sameLength(got.H, c.After.H) ||
					sameLength(got.W, want.W) != across || sameLength(got.H, want.H) != down {
					rt.Fatalf("%+v makes it %v, wanted %v", c, got, want)
				}
			}
		}
		check(f.Both, true, true)
		check(f.Across, true, false)
		check(f.Down, false, true)
		if f.Fits() != (sameLength(have.W, want.W) && sameLength(have.H, want.H)) {
			rt.Fatalf("fits: %v", f)
		}
		if !f.Fits() && q.BlockMM > 100 && math.Abs(want.W-have.W) < 20 && len(f.Both)+len(f.Across)+len(f.Down) == 0 {
			rt.Fatalf("no change is offered for %v to %v", have, want)
		}
	})
}

func applied(rt *rapid.T, q Quilt, c Change) Quilt {
	to := c.To
	if math.Abs(to) < 1e-6 {
		to = 0
	}
	switch c.Part {
	case AllBlocks:
		q.BlockMM = to
	case AllSashing:
		q.Sashing.WidthMM = to
	case OuterBorder:
		borders := append([]Border(nil), q.Borders...)
		switch {
		case c.From == 0:
			borders = append(borders, Border{WidthMM: to})
		case to == 0:
			borders = borders[:len(borders)-1]
		default:
			borders[len(borders)-1].WidthMM = to
		}
		q.Borders = borders
	default:
		rt.Fatalf("a change of %q", c.Part)
	}
	return q
}
