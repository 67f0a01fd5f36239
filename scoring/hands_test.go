package scoring

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// sew moves a hand along a path at the speed in mm/s that pace gives for a time
// and a place, getting under way and stopping within a fifth of a second, and
// samples it at rate Hz. wait gives how long it stands still on reaching a place.
func sew(path geom.Line, rate float64, pace func(t, s float64) float64, wait map[float64]float64) trace.Trace {
	return sewFinely(path, rate, 4800, pace, wait)
}

// sewFinely is sew in so many steps a second.
func sewFinely(path geom.Line, rate, steps float64, pace func(t, s float64) float64, wait map[float64]float64) trace.Trace {
	fine := 1 / steps
	tr := trace.Trace{Device: trace.Pen, Ending: trace.Lifted}
	left := map[float64]float64{}
	for s, w := range wait {
		left[s] = w
	}
	every := int(math.Round(1 / fine / rate))
	s, t := 0.0, 0.0
	for k := 0; ; k++ {
		if k%every == 0 {
			tr.Samples = append(tr.Samples, trace.Sample{T: t, P: path.At(s), Pressure: 0.5})
		}
		if s >= path.Length()-1e-3 {
			return tr
		}
		t += fine
		v := pace(t, s)
		step := v * fine * min(1, 0.05+t/0.2, 0.05+(path.Length()-s)/(0.1*v))
		for at, w := range left {
			if s <= at && at < s+step {
				if w > 0 {
					left[at] -= fine
					step = 0
				}
			}
		}
		s += step
	}
}

func steadily(v float64) func(t, s float64) float64 { return func(_, _ float64) float64 { return v } }

// waver moves a path sideways by a slow wave of so many mm, as every hand does.
func waver(t testing.TB, l geom.Line, amount float64) geom.Line {
	t.Helper()
	var out geom.Polyline
	for s := 0.0; s < l.Length(); s += 0.25 {
		p, d := l.At(s), l.Tangent(s)
		if k := nearest(l.Corners, s); k >= 0 && math.Abs(s-l.Corners[k]) < 8 {
			out = append(out, p) // the corners have tests of their own
			continue
		}
		e := amount * math.Sin(s/23) * math.Min(1, distance(l.Corners, s)/8-1)
		out = append(out, r2.Add(p, geom.Pt(-e*d.Y, e*d.X)))
	}
	return mustLine(t, append(out, l.At(l.Length())))
}

// loops is a row of loops (prolate trochoid), a line in one flow.
func loops(t testing.TB) geom.Line {
	return mustLine(t, geom.Flatten(func(u float64) geom.Point {
		return geom.Pt(12*u-20*math.Sin(u), -20*math.Cos(u))
	}, 0, 8*math.Pi, 64))
}

// steps is a line of ruler work with a dot at each of its 7 vertices.
func steps(t testing.TB) geom.Line {
	l := mustLine(t, geom.MustParse("M 0 0 L 40 40 L 80 0 L 120 40 L 160 0 L 200 40 L 240 0"))
	leg := math.Hypot(40, 40)
	l, err := l.WithDots([]float64{0, leg, 2 * leg, 3 * leg, 4 * leg, 5 * leg, 6 * leg})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func spiral(t testing.TB) geom.Line {
	return mustLine(t, geom.Flatten(func(th float64) geom.Point {
		return geom.Pt(1.6*th*math.Cos(th), 1.6*th*math.Sin(th))
	}, 2, 8*math.Pi, 60))
}

// doubleSpirals is a row of two spirals, in by one arm and out by the other, whose
// lines lie 7 mm apart.
func doubleSpirals(t testing.TB) geom.Line {
	var pl geom.Polyline
	for _, cx := range []float64{0, 66} {
		arm := func(sign float64) geom.Polyline {
			return geom.Flatten(func(th float64) geom.Point {
				r := sign * th * 14 / (2 * math.Pi)
				return geom.Pt(cx+r*math.Cos(th), r*math.Sin(th))
			}, 0.3, 4*math.Pi, 32)
		}
		pl = append(append(pl, arm(1).Reversed()...), arm(-1)...)
	}
	return mustLine(t, pl)
}

type want struct {
	kind        FaultKind
	size, place float64
}

const cruise = 25.0 // mm/s, 2.5 mm at 600 spm

func plan() Settings { return Settings{SPM: 600, TargetMM: 2.5} }

// check compares the faults found with those made: each kind once, its size
// within 10 %, its place within 3 mm, and no others.
func check(t *testing.T, line geom.Line, tr trace.Trace, wants ...want) {
	t.Helper()
	rep, err := Score(line, tr, plan())
	if err != nil {
		t.Fatal(err)
	}
	var text []string
	for _, f := range rep.Faults {
		text = append(text, fmt.Sprintf("%s of %.3g at %.1f (%.1f to %.1f) mm", f.Kind, f.Size, f.At, f.From, f.To))
	}
	found := strings.Join(text, "; ")
	if len(rep.Faults) != len(wants) {
		t.Errorf("found %d faults, want %d: %s", len(rep.Faults), len(wants), found)
	}
	for _, w := range wants {
		ok := false
		for _, f := range rep.Faults {
			ok = ok || f.Kind == w.kind && math.Abs(f.Size-w.size) <= 0.1*w.size && math.Abs(f.At-w.place) <= 3
		}
		if !ok {
			t.Errorf("no %s of %.3g at %.1f mm among: %s", w.kind, w.size, w.place, found)
		}
	}
	for _, a := range rep.Advice {
		t.Logf("%+v", a)
	}
}

func TestHandsWithoutFault(t *testing.T) {
	t.Run("none, loops", func(t *testing.T) {
		check(t, loops(t), sew(waver(t, loops(t), 0.5), 240, steadily(cruise), nil))
	})
	t.Run("none, spiral", func(t *testing.T) {
		check(t, spiral(t), sew(waver(t, spiral(t), 0.5), 240, steadily(cruise), nil))
	})
	t.Run("none, double spirals with lines 7 mm apart, by mouse", func(t *testing.T) {
		l := doubleSpirals(t)
		pace := func(t, _ float64) float64 { return cruise * (1 + 0.06*math.Sin(1.3*t) + 0.05*math.Sin(5*t+1)) }
		check(t, l, moved(sew(waver(t, l, 1.5), 60, pace, nil), func(p geom.Point) geom.Point { return p }, 0.26))
	})
	t.Run("none, ruler line with stops on dots", func(t *testing.T) {
		l := steps(t)
		wait := map[float64]float64{}
		for _, s := range l.Dots {
			wait[s] = 0.5
		}
		check(t, l, sew(l, 240, steadily(cruise), wait))
	})
}

func TestFaultsOfTheRoute(t *testing.T) {
	t.Run("skips dot 3 of 7", func(t *testing.T) {
		l := steps(t)
		hand := mustLine(t, geom.MustParse("M 0 0 L 40 40 L 120 40 L 160 0 L 200 40 L 240 0"))
		check(t, l, sew(hand, 240, steadily(cruise), nil), want{MissedDot, 40, l.Dots[2]})
	})
	t.Run("swaps dots 4 and 5 of 7", func(t *testing.T) {
		l := steps(t)
		hand := mustLine(t, geom.MustParse("M 0 0 L 40 40 L 80 0 L 160 0 L 120 40 L 200 40 L 240 0"))
		check(t, l, sew(hand, 240, steadily(cruise), nil), want{EarlyDot, 5, l.Dots[4]})
	})
	t.Run("goes over a line twice", func(t *testing.T) {
		l := loops(t)
		there, back := l.Section(0, 260), l.Section(200, 260).Reversed()
		hand := mustLine(t, append(append(there, back...), l.Section(200, l.Length())...))
		check(t, l, sew(hand, 240, steadily(cruise), nil), want{SewnTwice, 60, 230})
	})
	t.Run("leaves out a loop", func(t *testing.T) {
		l := loops(t)
		apex, a := l.Length()/2, 20.0
		for l.At(apex-a).X > l.At(apex).X {
			a += 0.01 // the loop closes where the line crosses itself
		}
		hand := mustLine(t, append(l.Section(0, apex-a), l.Section(apex+a, l.Length())...))
		check(t, l, sew(hand, 240, steadily(cruise), nil), want{MissedLine, 2 * a, apex})
	})
}

func TestFaultsOfPlace(t *testing.T) {
	t.Run("overshoots a corner by 2 mm", func(t *testing.T) {
		l := mustLine(t, geom.MustParse("M 0 0 L 80 0 L 80 80 L 160 80 L 160 0"))
		hand := mustLine(t, geom.MustParse("M 0 0 L 80 0 L 80 82 L 80 80 L 160 80 L 160 0"))
		check(t, l, sew(hand, 240, steadily(cruise), nil), want{Overshot, 2, 160})
	})
	t.Run("cuts a corner by 3 mm", func(t *testing.T) {
		l := mustLine(t, geom.MustParse("M 0 0 L 80 0 L 80 80 L 160 80 L 160 0"))
		c := 3 * math.Sqrt2
		hand := mustLine(t, geom.Polyline{{X: 0, Y: 0}, {X: 80, Y: 0}, {X: 80, Y: 80 - c}, {X: 80 + c, Y: 80}, {X: 160, Y: 80}, {X: 160, Y: 0}})
		check(t, l, sew(hand, 240, steadily(cruise), nil), want{CutCorner, 3, 160})
	})
	t.Run("strays 4 mm to the left", func(t *testing.T) {
		l := loops(t)
		check(t, l, sew(bulge(t, l, 300, -4, 20), 240, steadily(cruise), nil), want{Aside, 4, 300})
	})
}

func TestFaultsOfSpeed(t *testing.T) {
	t.Run("dwells 0.4 s", func(t *testing.T) {
		l := loops(t)
		check(t, l, sew(waver(t, l, 0.5), 240, steadily(cruise), map[float64]float64{150: 0.4}), want{KnotHere, 0.4, 150})
	})
	t.Run("wobbles at 2 Hz by 20 %", func(t *testing.T) {
		l := loops(t)
		pace := func(t, _ float64) float64 { return cruise * (1 + 0.2*math.Sin(4*math.Pi*t)) }
		check(t, l, sew(waver(t, l, 0.5), 240, pace, nil), want{Unsteady, 0.2, 0})
	})
	t.Run("slows as curvature^-1/3 on a spiral", func(t *testing.T) {
		l := spiral(t)
		check(t, l, sew(l, 240, thirdPower(l, 17), nil), want{SlowCurves, 1.0 / 3, 3})
	})
	t.Run("slows as curvature^-1/3 in loops", func(t *testing.T) {
		l := loops(t)
		check(t, l, sew(l, 240, thirdPower(l, 23), nil), want{SlowCurves, 1.0 / 3, l.Length() / 4})
	})
	t.Run("slows to half for 40 mm", func(t *testing.T) {
		l := loops(t)
		pace := func(_, s float64) float64 {
			if s > 200 && s < 240 {
				return cruise / 2
			}
			return cruise
		}
		check(t, l, sew(waver(t, l, 0.5), 240, pace, nil), want{TooSlow, 0.5, 220})
	})
}

// thirdPower is a hand that slows as v = K curvature^-1/3, K such that its mean
// speed is about v at the curvature 1/radius.
func thirdPower(l geom.Line, radius float64) func(t, s float64) float64 {
	b := newBends(l)
	return func(_, s float64) float64 {
		return cruise * math.Pow(radius*math.Abs(b.at(s)), -1.0/3)
	}
}

// bulge moves a path sideways by amount mm around a place, over about 2*width mm.
func bulge(t testing.TB, l geom.Line, at, amount, width float64) geom.Line {
	var out geom.Polyline
	for s := 0.0; s < l.Length(); s += 0.25 {
		e := amount * math.Exp(-math.Pow((s-at)/width, 4))
		d := l.Tangent(s)
		out = append(out, r2.Add(l.At(s), geom.Pt(-e*d.Y, e*d.X)))
	}
	return mustLine(t, out)
}

// A corner that is cut by 1.8 mm is spoken of, one cut by 1.2 mm is what hands do.
func TestLeastCutOfACorner(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 80 0 L 80 80"))
	for cut, told := range map[float64]bool{1.8: true, 1.2: false} {
		c := cut * math.Sqrt2
		hand := mustLine(t, geom.Polyline{{X: 0, Y: 0}, {X: 80 - c, Y: 0}, {X: 80, Y: c}, {X: 80, Y: 80}})
		wants := []want{{CutCorner, cut, 80}}
		if !told {
			wants = nil
		}
		check(t, l, sew(hand, 240, steadily(cruise), nil), wants...)
	}
}
