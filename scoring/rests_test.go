package scoring

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// part returns the line from one place to another, in mm.
func part(t testing.TB, l geom.Line, from, to float64) geom.Line {
	var pl geom.Polyline
	for s := from; s < to-0.05; s += 0.1 {
		pl = append(pl, l.At(s))
	}
	return mustLine(t, append(pl, l.At(to)))
}

// inHolds sews the line in several holds, parted at the places cuts: each from rest to
// rest, the hand away for so many seconds between, at a speed that the place gives.
func inHolds(t testing.TB, l geom.Line, rate, away float64, pace func(s float64) float64, cuts ...float64) trace.Trace {
	whole := trace.Trace{Device: trace.Pen, Ending: trace.Lifted}
	from, began := 0.0, 0.0
	for _, to := range append(cuts, l.Length()) {
		tr := sew(part(t, l, from, to), rate, func(_, s float64) float64 { return pace(from + s) }, nil)
		if from > 0 {
			whole.Holds = append(whole.Holds, trace.Hold{T: began, Pause: away})
			tr.Samples = tr.Samples[1:] // it lies where the hold before ended
		}
		for _, s := range tr.Samples {
			s.T += began
			whole.Samples = append(whole.Samples, s)
		}
		from, began = to, whole.Samples[len(whole.Samples)-1].T
	}
	return whole
}

// quiver is a hand that goes faster and slower along the line.
func quiver(s float64) float64 { return cruise * (1 + 0.15*math.Sin(s/9)) }

// A movement made in several holds is as even as in one, within the noise of the
// figures, however long the hand was away, and the pauses are no faults: no knot, no
// hesitation. Without the marks of the holds they would be (the control).
func TestHoldsAreAsEvenAsOneMovement(t *testing.T) {
	l := loops(t)
	base := score(t, l, inHolds(t, l, 240, 0, quiver), plan())
	rapid.Check(t, func(rt *rapid.T) {
		rate := rapid.SampledFrom([]float64{60, 120, 240}).Draw(rt, "rate")
		a := rapid.Float64Range(40, 150).Draw(rt, "first")
		b := rapid.Float64Range(a+60, l.Length()-60).Draw(rt, "second")
		tr := inHolds(t, l, rate, rapid.Float64Range(0.07, 5000).Draw(rt, "away"), quiver, a, b)
		rep := score(t, l, tr, plan())
		for i, f := range figures(rep)[:4] {
			want := figures(base)[i].f
			if f.f.Defined != want.Defined || math.Abs(f.f.Value-want.Value) > f.noise {
				rt.Errorf("%s is %.4f in three holds, %.4f in one; its noise is %v", f.name, f.f.Value, want.Value, f.noise)
			}
		}
		if kinds(rep) != kinds(base) || knots(rep) != 0 || hesitationCount(rep) > hesitationCount(base) {
			rt.Errorf("faults %q, %v knots, %v hesitations; in one hold %q, %v", kinds(rep), knots(rep), hesitationCount(rep), kinds(base), hesitationCount(base))
		}
		if rep.Unrecorded != 0 || rep.Merged != 0 {
			rt.Errorf("%v s are said to be unrecorded, %d samples merged", rep.Unrecorded, rep.Merged)
		}
	})
	unmarked := inHolds(t, l, 120, 3, quiver, 120)
	for i := range unmarked.Samples {
		if unmarked.Samples[i].T > unmarked.Holds[0].T {
			unmarked.Samples[i].T += 3
		}
	}
	unmarked.Holds = nil
	if rep := score(t, l, unmarked, plan()); knots(rep) != 1 {
		t.Errorf("%v knots where a hand rests for 3 s on the cloth, want 1", knots(rep))
	}
}

// How long the hand was away changes no figure at all; on a dot it is a stop there.
func TestTheLengthOfAPauseIsNoMeasure(t *testing.T) {
	for name, l := range map[string]geom.Line{"loops": loops(t), "steps": steps(t)} {
		brief := score(t, l, inHolds(t, l, 120, 0.1, quiver, math.Hypot(40, 40)), plan())
		long := score(t, l, inHolds(t, l, 120, 900, quiver, math.Hypot(40, 40)), plan())
		for k := range long.Dots {
			want := brief.Dots[k].Stop
			if k == 1 {
				want += 899.9
			}
			near(t, name+": stop", long.Dots[k].Stop, want, 1e-9)
			long.Dots[k].Stop = brief.Dots[k].Stop
		}
		if !reflect.DeepEqual(brief, long) {
			t.Errorf("%s: a pause of 900 s gives another report than one of 0.1 s", name)
		}
	}
}

// Both ways of moving give the same figures over several holds, too.
func TestHoldsPencilAndClothAlike(t *testing.T) {
	l := loops(t)
	pencil := inHolds(t, l, 120, 2, quiver, 120, 200)
	cloth := moved(pencil, func(p geom.Point) geom.Point { return geom.Pt(300-p.X, 200-p.Y) }, 0)
	a := score(t, l, pencil, plan())
	b := score(t, l, onCloth(cloth, pencil.Samples[0].P), plan())
	for i, got := range figures(b) {
		tol := 1e-6
		if got.name == "Frechet distance, mm" {
			tol = 2 * thinning // it is found by halving
		}
		near(t, got.name, got.f.Value, figures(a)[i].f.Value, tol)
	}
}

// A hand that runs on past the end of the line is told so, wherever it heads, and not
// that it was beside the line; one that keeps within the end is told nothing.
func TestRunningPastTheEnd(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 150 0"))
	rapid.Check(t, func(rt *rapid.T) {
		run, angle := rapid.Float64Range(0, 30).Draw(rt, "run"), rapid.Float64Range(-1.7, 1.7).Draw(rt, "angle")
		path := mustLine(t, geom.Polyline{geom.Pt(0, 0), geom.Pt(150, 0), geom.Pt(150+(run+1e-3)*math.Cos(angle), (run+1e-3)*math.Sin(angle))})
		rep := score(t, l, sew(path, 120, steadily(cruise), nil), plan())
		var past float64
		for _, f := range rep.Faults {
			switch f.Kind {
			case PastEnd:
				past = f.Size
			case Aside:
				rt.Errorf("%.1f mm past the end at %.2f rad: told as %.1f mm beside the line", run, angle, f.Size)
			}
		}
		if run > leastPast+0.5 && math.Abs(past-run) > 0.5 || run < leastPast-0.5 && past != 0 {
			rt.Errorf("%.1f mm past the end told as %.1f", run, past)
		}
		if rep.Lateral.Max.Value > pastMM+0.5 {
			rt.Errorf("%.1f mm past the end counts as %.1f mm beside the line", run, rep.Lateral.Max.Value)
		}
	})
	aside := mustLine(t, geom.MustParse("M 0 0 L 20 6 L 150 6"))
	if rep := score(t, l, sew(aside, 120, steadily(cruise), nil), plan()); strings.Contains(kinds(rep), string(PastEnd)) || !strings.Contains(kinds(rep), string(Aside)) {
		t.Errorf("a hand 6 mm beside the line to its end: %q", kinds(rep))
	}
}
