package quilt

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// inches says a length in inches with decimals, which hides nothing.
func inches(mm float64) string { return fmt.Sprintf("%.4g in", mm/inch) }

// A worked example: 4 blocks of 12 in with 3 strips of 2 1/2 in and borders of
// 1 1/2 in add up to 48 + 7 1/2 + 3 = 58 1/2 in, 1 1/2 in less than 60. That is 3/4 in
// more of border on each side, or a strip of 3 in, or blocks of 12 3/8 in.
func TestMessageOfAWorkedExample(t *testing.T) {
	q := plain(Straight, 4, 4)
	q.BlockMM, q.Sashing.WidthMM, q.Borders = 12*inch, 2.5*inch, []Border{{WidthMM: 1.5 * inch}}
	got := q.FitTo(Size{60 * inch, 60 * inch}).Message(inches)
	want := "Both ways the rows add up to 58.5 in, 1.5 in less than 60 in." +
		" An outer border 0.75 in wider on each side, 2.25 in in all, would make it so." +
		" Sashing of 3 in instead of 2.5 in would make it so. Blocks of 12.38 in instead of 12 in would make it so."
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got := q.FitTo(q.Size()).Message(inches); got != "The top adds up to 58.5 in x 58.5 in, as wanted." {
		t.Error(got)
	}
	q.Cols, q.Borders = 3, nil
	got = q.FitTo(Size{42 * inch, 55.5 * inch}).Message(inches)
	want = "Across the rows add up to 41 in, 1 in less than 42 in. Down it is 55.5 in, as wanted." +
		" A border of 0.5 in on each side would make the width right and the height 56.5 in."
	if !strings.HasPrefix(got, want) {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	got = q.FitTo(Size{10, 10}).Message(inches)
	if !strings.HasSuffix(got, "change the number of rows.") {
		t.Error(got)
	}
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
		if f.Fits() != (sameLength(have.W, want.W) && sameLength(have.H, want.H)) || f.Message(inches) == "" {
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
