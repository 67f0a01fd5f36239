package board

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"unthreaded/game/words"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// waveStroke is a wave of half circles of radius r mm, sampled each step mm.
func waveStroke(r, step float64) []geom.Point {
	var pts []geom.Point
	for i := range 6 {
		for a := 0.0; a < math.Pi; a += step / r {
			up := float64(1 - 2*(i%2))
			pts = append(pts, geom.Pt(30+r*(2*float64(i)+1-math.Cos(a)), 75-up*r*math.Sin(a)))
		}
	}
	return append(pts, geom.Pt(30+12*r, 75))
}

// A wave of half circles of 1.5 mm, bends of less than 3 mm, has no corner. Fitted as
// closely as can be it lies within a quarter of the usual tolerance of half a mm from
// the circles, and nearer to them than by the usual fit. Each step is taken back by one undo.
func TestCloserKeepsSmallBends(t *testing.T) {
	const r = 1.5
	b := press(fresh(motif.Square, 150), waveStroke(r, 0.5)...)
	off := func(b Board) float64 {
		worst := 0.0
		for _, p := range b.Design.Lines[0].Path.Flatten() {
			i := math.Max(0, math.Min(5, math.Floor((p.X-30)/(2*r))))
			centre := geom.Pt(30+r*(2*i+1), 75)
			worst = math.Max(worst, math.Abs(geom.Dist(p, centre)-r))
		}
		return worst
	}
	usual, was := off(b), doc(t, b)
	for b.CanRefit(-1) {
		b = b.Refit(-1)
	}
	if close := off(b); !(close < 0.125 && close < usual) || len(b.Fitted.Corners) > 0 {
		t.Errorf("the closest fit is %.2f mm off with %d corners, the usual one %.2f mm", close, len(b.Fitted.Corners), usual)
	}
	b = b.Undo().Undo()
	if string(doc(t, b)) != string(was) || !b.CanRefit(1) || !b.CanRefit(-1) {
		t.Error("two steps back do not lead to the usual fit")
	}
}

// Whatever is asked in whatever order, undo leads back; a line that was bent by hand
// since is left alone.
func TestRefitIsTakenBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := press(fresh(motif.Square, 150), waveStroke(rapid.Float64Range(1, 12).Draw(rt, "radius"), 0.7)...)
		states := []string{string(doc(rt, b))}
		for _, by := range rapid.SliceOfN(rapid.SampledFrom([]int{-1, 1}), 1, 8).Draw(rt, "steps") {
			n := b.Steps()
			if b = b.Refit(by); b.Steps() > n {
				states = append(states, string(doc(rt, b)))
			}
		}
		for _, want := range slices.Backward(states[:len(states)-1]) {
			if b = b.Undo(); string(doc(rt, b)) != want {
				rt.Fatal("a step back does not lead to where it was")
			}
		}
		bent := b.ChooseLine(0).NextNode(1).Key("ArrowDown", false)
		if bent.CanRefit(1) || bent.CanRefit(-1) {
			rt.Fatal("a line bent by hand would be fitted over")
		}
	})
}

// Copies that leave the block are counted. A line from 10 to 60 mm, every 40 mm, in
// 150 mm: 10-60, 50-100, 90-140 lie in it, 130-180 does not. So it is downwards.
func TestARowSaysWhatFits(t *testing.T) {
	for _, c := range []struct {
		n    int
		way  geom.Point
		want string
	}{
		{3, geom.Pt(40, 0), ""}, {4, geom.Pt(40, 0), "Only 3 of the 4"}, {3, geom.Pt(0, 40), ""}, {5, geom.Pt(0, 40), "Only 3 of the 5"},
		{3, geom.Pt(0, -40), "Only 1 of the 3"},
	} {
		b := fresh(motif.Square, 150)
		b = press(b.SetTool(Ruler), geom.Pt(10, 10), geom.Pt(60, 60)).Finish().Repeat(c.n, c.way)
		if said := (words.Book{}).Write(b.Said); said != c.want && (c.want == "" || !strings.HasPrefix(said, c.want)) {
			t.Errorf("%d copies by %v: %q, want %q", c.n, c.way, said, c.want)
		}
		lo, hi := b.Design.Lines[len(b.Design.Lines)-1].Path.Bounds()
		by := float64(c.n - 1)
		want := fmt.Sprintf("%.0f %.0f", 10+by*c.way.X, 10+by*c.way.Y)
		if got := fmt.Sprintf("%.0f %.0f", lo.X, lo.Y); got != want || math.Abs(hi.X-lo.X-50) > 1e-9 {
			t.Errorf("the last copy begins at %s, want %s", got, want)
		}
	}
}
