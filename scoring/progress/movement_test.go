package progress

import (
	"math"
	"testing"

	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/trace"
)

// track is a line of arcs and straights: mm along and curvature in 1/mm, positive
// clockwise, y down.
func track(t *testing.T, pieces ...[2]float64) geom.Line {
	t.Helper()
	p, heading := geom.Pt(0, 0), 0.0
	pl := geom.Polyline{p}
	for _, q := range pieces {
		if q[0] == 0 { // a corner, turning by q[1]
			heading += q[1]
			continue
		}
		const step = 0.25
		for range int(math.Round(q[0] / step)) {
			heading += q[1] * step / 2
			p = geom.Pt(p.X+step*math.Cos(heading), p.Y+step*math.Sin(heading))
			heading += q[1] * step / 2
			pl = append(pl, p)
		}
	}
	l, err := geom.NewLine(pl)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// course is a line with every movement, and its length in mm of each by construction.
func course(t *testing.T) (geom.Line, map[Movement]float64) {
	const r = 2 * math.Pi * 10
	return track(t,
			[2]float64{100, 0}, [2]float64{0, math.Pi / 2}, [2]float64{60, 0}, // straight, corner to the right, straight
			[2]float64{60, 1. / 30}, [2]float64{60, -1. / 30}, // wide curves
			[2]float64{20, 1. / 8}, [2]float64{20, -1. / 8}, // tight ones
			[2]float64{20, 0}, // too short to be a straight
			[2]float64{62.75, 1. / 10},
			[2]float64{80, 0}),
		map[Movement]float64{
			Straight: 95 + 55 + 80, Corner: 10, Right: 60, Left: 60, TightRight: 20, TightLeft: 20, Loop: r,
		}
}

func score(t *testing.T, l geom.Line, h synth.Hand) scoring.Report {
	t.Helper()
	rep, err := scoring.Score(l, trace.Trace{Samples: h.Samples(l), Device: trace.Pen, Ending: trace.Lifted}, scoring.Settings{SPM: 600, TargetMM: 2.5})
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

func lengths(rep scoring.Report) map[Movement]float64 {
	out := map[Movement]float64{}
	for _, m := range Classify(rep.Profile, cornersOf(rep)) {
		out[m] += rep.Profile.Step
	}
	return out
}

// The lengths of the movements are those that the line was made of, but for their ends:
// curvature is measured over up to 8 mm to either side, so that a curve reaches up to 8 mm
// into the straight before and after it.
func TestClassifyAgainstConstruction(t *testing.T) {
	l, want := course(t)
	rep := score(t, l, synth.Hand{Hz: 120, Speed: synth.Steady(25)})
	got := lengths(rep)
	for _, m := range Movements {
		near(t, "mm of "+string(m), got[m], want[m], 14)
	}
}

// A mirrored line and one run the other way swap left and right, but for a piece at
// either end of them.
func TestMirrorAndReverseSwapSides(t *testing.T) {
	l, _ := course(t)
	steady := synth.Hand{Hz: 120, Speed: synth.Steady(25)}
	want := lengths(score(t, l, steady))
	for name, pl := range map[string]geom.Polyline{
		"mirrored": l.Path().Map(func(p geom.Point) geom.Point { return geom.Pt(-p.X, p.Y) }),
		"reversed": l.Path().Reversed(),
	} {
		other, err := geom.NewLine(pl)
		if err != nil {
			t.Fatal(err)
		}
		got := lengths(score(t, other, steady))
		got[Left], got[Right], got[TightLeft], got[TightRight] = got[Right], got[Left], got[TightRight], got[TightLeft]
		for _, m := range Movements {
			near(t, name+": mm of "+string(m), got[m], want[m], 4)
		}
	}
}

// A spiral of more than one and a half turns is no loop, and a circle of 30 mm none
// either; both bend to the right.
func TestWhatIsNoLoop(t *testing.T) {
	for name, l := range map[string]geom.Line{
		"spiral": track(t, [2]float64{60, 1. / 10}, [2]float64{60, 1. / 11}, [2]float64{60, 1. / 11.5}),
		"circle": track(t, [2]float64{188, 1. / 30}),
	} {
		got := lengths(score(t, l, synth.Hand{Hz: 120, Speed: synth.Steady(25)}))
		if got[Loop] != 0 || got[Right]+got[TightRight] < 0.95*l.Length() {
			t.Errorf("%s of %v mm: %v", name, l.Length(), got)
		}
	}
}

// A hand that slows by a third in tight curves to the left and strays 1.5 mm in wide ones
// to the right is uneven and beside the line there, by as much, and nowhere else.
func TestPlacesFindTheFault(t *testing.T) {
	l, _ := course(t)
	steady := score(t, l, synth.Hand{Hz: 120, Speed: synth.Steady(25)})
	classes := Classify(steady.Profile, cornersOf(steady))
	at := func(s float64) Movement { return classes[max(0, min(len(classes)-1, int(s/steady.Profile.Step)))] }
	got := Places(score(t, l, synth.Hand{
		Hz: 120,
		Speed: func(s float64) float64 {
			if at(s) == TightLeft {
				return 25 * 2 / 3.0
			}
			return 25
		},
		Beside: func(s float64) float64 { // comes and goes over 10 mm
			const from, to = 170, 210 // within the wide curve to the right
			return 1.5 * max(0, min(1, min((s-from)/10, (to-s)/10)))
		},
	}))
	near(t, "uneven in tight curves to the left", got[TightLeft][Uneven], math.Log(1.5), 0.1)
	near(t, "beside the line in wide curves to the right", got[Right][Beside], 1.5*30/60, 0.15)
	for _, m := range []Movement{Straight, Loop, TightRight, Left} {
		if got[m][Uneven] > 0.12 || got[m][Beside] > 0.25 {
			t.Errorf("%s: %v, the hand was even and on the line there", m, got[m])
		}
	}
	if _, ok := got[Corner][Uneven]; ok {
		t.Error("there is an evenness of the corner")
	}
	if len(Places(scoring.Report{})) != 0 {
		t.Error("places of an empty report")
	}
}

// A hand that starts and ends at a quarter of its speed, for a fifth of a second, is even.
func TestEndsAreLeftOut(t *testing.T) {
	l := track(t, [2]float64{100, 0})
	got := Places(score(t, l, synth.Hand{Hz: 120, Speed: func(s float64) float64 {
		if min(s, l.Length()-s) < 1.25 {
			return 6.25
		}
		return 25
	}}))
	if u, ok := got[Straight][Uneven]; !ok || u > 0.03 {
		t.Errorf("a straight line with slow ends: uneven by %v, want 0.03 at most", u)
	}
}

// The figures of a report are those that it defines, the exponent by its size.
func TestFiguresOfReport(t *testing.T) {
	l, _ := course(t)
	rep := score(t, l, synth.Hand{Hz: 120, Speed: synth.Steady(25)})
	rep.Slowing.Exponent = scoring.Figure{Value: -0.2, Defined: true}
	rep.SPARC = scoring.Figure{Why: "no"}
	got := Figures(rep)
	if _, ok := got[Flow]; ok || got[Slowing] != 0.2 || got[Covered] != rep.Coverage.Value || got[Corners] != rep.Turns.MeanOvershoot.Value || len(got) != 7 {
		t.Errorf("figures %v", got)
	}
	if Flow.Better() != 1 || Covered.Better() != 1 || Spacing.Better() != -1 || Uneven.Better() != -1 {
		t.Error("the ways in which measures get better")
	}
}
