package scoring

import (
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// On a ruler line a stop on a dot is right and one between dots is a knot, with as
// many stitches as the needle made: 10 a second at 600 a minute. Dots are reached
// in order, and the strokes between stops are the pieces of line between them.
func TestStopsOnDotsAndBetween(t *testing.T) {
	l := steps(t)
	wait := map[float64]float64{l.Dots[1]: 0.5, l.Dots[3]: 0.6, l.Dots[4] + 25: 0.5}
	rep := score(t, l, sew(l, 240, steadily(cruise), wait), plan())
	want := []struct {
		at, seconds float64
		kind        StopKind
	}{{l.Dots[1], 0.5, AtDot}, {l.Dots[3], 0.6, AtDot}, {l.Dots[4] + 25, 0.5, Knot}}
	if n := len(rep.Stops); n != len(want)+1 || rep.Stops[n-1].Kind != AtDot {
		t.Fatalf("stops %+v, want %d and that of arriving at the last dot", rep.Stops, len(want))
	}
	for k, w := range want {
		s := rep.Stops[k]
		near(t, "place", s.At, w.at, 0.5)
		near(t, "seconds", s.Seconds, w.seconds, 0.06)
		near(t, "stitches", s.Stitches, 10*w.seconds, 0.6)
		if s.Kind != w.kind {
			t.Errorf("the stop at %.0f mm is %q, want %q", s.At, s.Kind, w.kind)
		}
	}
	near(t, "stop on dot 4", rep.Dots[3].Stop, 0.6, 0.06)
	for k, d := range rep.Dots {
		if !d.Reached || d.Early || d.Distance.Value > 1 {
			t.Errorf("dot %d: %+v", k+1, d)
		}
	}
	if len(rep.Strokes) != 4 {
		t.Fatalf("%d strokes, want 4", len(rep.Strokes))
	}
	for k, at := range []float64{l.Dots[1], l.Dots[3], l.Dots[4] + 25, l.Length()} {
		near(t, "end of the stroke", rep.Strokes[k].To, at, 0.5)
		if s := rep.Strokes[k].SPARC; !s.Defined || s.Value > -1.3 || s.Value < -3 {
			t.Errorf("stroke %d: SPARC %+v", k, s)
		}
	}
}

// A hand that rests before it begins and after it ends makes no knot.
func TestRestsAtTheEndsAreNoKnots(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 200 0"))
	rep := score(t, l, hand(func(t float64) geom.Point { return geom.Pt(25*min(8, max(0, t-1)), 0) }, 10, 120), plan())
	if len(rep.Stops) != 2 || rep.Stops[0].Kind != AtStart || rep.Stops[1].Kind != AtEnd || len(rep.Faults) != 0 {
		t.Errorf("stops %+v, faults %+v", rep.Stops, rep.Faults)
	}
}

// Straight pieces of ruler work: one that bows by 1 mm, one that runs off at an
// angle of 0.02, and one that is straight.
func TestLegsOfRulerWork(t *testing.T) {
	l, err := mustLine(t, geom.MustParse("M 0 0 L 100 0 L 100 100 L 200 100")).WithDots([]float64{0, 100, 200, 300})
	if err != nil {
		t.Fatal(err)
	}
	bow := geom.Flatten(func(u float64) geom.Point { return geom.Pt(u, u*(100-u)/2500) }, 0, 100, 4)
	path := append(bow, geom.MustParse("M 100 0 L 98 100 L 98 100 L 200 100")...)
	rep := score(t, l, sew(mustLine(t, path), 240, steadily(cruise), nil), plan())
	if len(rep.Legs) != 3 {
		t.Fatalf("%d legs, want 3", len(rep.Legs))
	}
	near(t, "bow of the first", rep.Legs[0].Bow.Value, 0.92, 0.1) // 2 mm are left out at each end
	near(t, "tilt of the second", rep.Legs[1].Tilt.Value, 0.02, 0.003)
	near(t, "bow of the second", rep.Legs[1].Bow.Value, 0, 0.1)
	near(t, "bow of the third", rep.Legs[2].Bow.Value, 0, 0.1)
}

// A gap in the recording is told, and the line under it is not missed; nor do the
// measures use what nobody saw.
func TestGapIsNoFault(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 250 0"))
	tr := hand(func(t float64) geom.Point { return geom.Pt(25*t, 0.4) }, 10, 120)
	tr.Samples = append(tr.Samples[:500:500], tr.Samples[560:]...) // half a second, 12.5 mm
	rep := score(t, l, tr, plan())
	near(t, "time not recorded", rep.Unrecorded, 0.5, 0.02)
	near(t, "coverage", rep.Coverage.Value, 1, 0)
	near(t, "spacing CV", rep.Evenness.SpacingCV.Value, 0, 1e-3)
	if len(rep.Faults) > 0 || len(rep.Strokes) != 2 {
		t.Errorf("faults %+v, %d strokes; want none and 2", rep.Faults, len(rep.Strokes))
	}
}

// A hand recorded so sparsely that it passes a dot by within one step is told how far
// from the dot its way led.
func TestDotPassedByInOneStep(t *testing.T) {
	l, err := mustLine(t, geom.MustParse("M 0 0 L 40 0 L 40 40 L 42 40 L 42 0 L 82 0")).WithDots([]float64{0, 81, 162})
	if err != nil {
		t.Fatal(err)
	}
	tr := hand(func(t float64) geom.Point { return geom.Pt(8000*t, 0) }, 82.0/8000, 8000.0/41)
	rep := score(t, l, tr, plan())
	if d := rep.Dots[1]; d.Reached || !d.Distance.Defined || d.Distance.Value < 30 {
		t.Errorf("the dot 40 mm away from the way: %+v", d)
	}
}

// Stitches over which nothing was recorded do not count: a hand that races through a gap is
// as even as where it was seen.
func TestStitchesInAGapDoNotCount(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 300 0"))
	way := func(t float64) float64 {
		if t > 5.05 { // within the gap, between two falls of the needle, it went 9 mm further
			return 25*t + 9
		}
		return 25 * t
	}
	tr := hand(func(t float64) geom.Point { return geom.Pt(way(t), 0) }, 10, 120)
	var seen []trace.Sample
	for _, s := range tr.Samples {
		if s.T <= 5.012 || s.T >= 5.088 {
			seen = append(seen, s)
		}
	}
	tr.Samples = seen
	e := score(t, l, tr, plan()).Evenness
	near(t, "spacing CV", e.SpacingCV.Value, 0, 0.01)
	near(t, "mean stitch", e.StitchMM.Value, 2.5, 0.01)
}
