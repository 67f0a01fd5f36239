package scoring

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// waves is a line in one flow of sines, 200 mm long.
func waves(t testing.TB) geom.Line {
	return mustLine(t, geom.Flatten(func(x float64) geom.Point { return geom.Pt(x, 10*math.Sin(x/12)) }, 0, 200, 64))
}

// moves is sew at a coarser step: quick enough for hundreds of hands.
func moves(l geom.Line, pace func(t, s float64) float64, wait map[float64]float64) trace.Trace {
	return sewFinely(l, 240, 960, pace, wait)
}

// recording is how a device and a body spoil a movement: whole pixels, clock jitter, tremor.
type recording struct {
	rate, pixel, jitter, tremor, hz float64
	phase                           int
}

func drawRecording(rt *rapid.T) recording {
	r := recording{
		rate: rapid.SampledFrom([]float64{120, 160, 240}).Draw(rt, "rate"), phase: rapid.IntRange(0, 1000).Draw(rt, "phase"),
		hz: rapid.Float64Range(7.5, 11).Draw(rt, "Hz"),
	}
	switch rapid.IntRange(0, 2).Draw(rt, "spoilt by") {
	case 0:
		r.pixel = cssPixel
	case 1:
		r.tremor = rapid.Float64Range(0, 0.06).Draw(rt, "tremor")
	}
	r.jitter = rapid.Float64Range(0, 0.0015).Draw(rt, "jitter")
	return r
}

// of spoils a clean movement.
func (r recording) of(tr trace.Trace) trace.Trace {
	out := tr
	out.PixelMM, out.Samples = r.pixel, nil
	for i, s := range tr.Samples {
		w := 2 * math.Pi * r.hz * (s.T + float64(r.phase))
		p := geom.Pt(s.P.X+r.tremor*math.Sin(w), s.P.Y+r.tremor*math.Cos(1.1*w))
		if d := r.pixel; d > 0 {
			p = geom.Pt(math.Round(p.X/d)*d, math.Round(p.Y/d)*d)
		}
		out.Samples = append(out.Samples, trace.Sample{T: s.T + r.jitter*chance(i+r.phase), P: p, Pressure: s.Pressure})
	}
	return out
}

// draw picks one of the lines in one flow.
func drawLine(t testing.TB, rt *rapid.T) geom.Line {
	return map[string]func(testing.TB) geom.Line{"loops": loops, "spiral": spiral, "double spirals": doubleSpirals, "waves": waves}[rapid.SampledFrom(
		[]string{"loops", "spiral", "double spirals", "waves"}).Draw(rt, "line")](t)
}

// within checks that a figure lies in a range.
func within(rt *rapid.T, name string, got, low, high float64) {
	if !(got >= low && got <= high) {
		rt.Errorf("%s %.4g, want %.4g to %.4g", name, got, low, high)
	}
}

func said(rt *rapid.T, rep Report, want ...Word) {
	for _, w := range want {
		if rep.First.Word == w {
			return
		}
	}
	rt.Errorf("said %+v, want one of %q; lies %+v", rep.First, want, rep.Order.Lies)
}

// An even hand is fine, however it was recorded: tremor, whole pixels and jitter are no
// slowdowns.
func TestEvenHandsAreFine(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := drawLine(t, rt)
		rep := score(t, l, drawRecording(rt).of(moves(l, steadily(cruise), nil)), plan())
		within(rt, "sewn", rep.Sewn.Value, 0.97, 1)
		within(rt, "mm beside", rep.Lateral.MeanError.Value, 0, 0.2)
		within(rt, "slowdowns", hesitationCount(rep), 0, 1)
		within(rt, "stops", stopCount(rep), 0, 0)
		said(rt, rep, SaidFine)
	})
}

// A hand that keeps the shape elsewhere, in whatever direction, sewed all of the line
// beside it; from the end to the start it went backwards all the same.
func TestShiftedHandsAreAside(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := drawLine(t, rt)
		far, angle := rapid.Float64Range(3.5, 12).Draw(rt, "mm"), rapid.Float64Range(-3, 3).Draw(rt, "angle")
		way := l
		backwards := rapid.IntRange(0, 3).Draw(rt, "backwards in one of four") == 0
		if backwards {
			way = mustLine(t, l.Path().Reversed())
		}
		d := geom.Pt(far*math.Cos(angle), far*math.Sin(angle))
		tr := moved(moves(way, steadily(cruise), nil), func(p geom.Point) geom.Point { return r2.Add(p, d) }, 0)
		rep := score(t, l, drawRecording(rt).of(tr), plan())
		within(rt, "sewn", rep.Sewn.Value, 0.93, 1)
		within(rt, "mm beside", rep.Lateral.MeanError.Value, 0.45*far, 1.05*far)
		within(rt, "stops", stopCount(rep), 0, 0)
		if backwards {
			said(rt, rep, SaidBackwards)
		} else {
			said(rt, rep, SaidAside)
		}
	})
}

// A hand that keeps the shape from the start dot at another size is told so.
func TestResizedHandsAreAnotherSize(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := drawLine(t, rt)
		size := rapid.Float64Range(1.12, 1.3).Draw(rt, "size")
		if rapid.Bool().Draw(rt, "smaller") {
			size = 1 / size
		}
		o := l.At(0)
		tr := moved(moves(l, steadily(cruise), nil), func(p geom.Point) geom.Point { return r2.Add(o, r2.Scale(size, r2.Sub(p, o))) }, 0)
		rep := score(t, l, drawRecording(rt).of(tr), plan())
		within(rt, "sewn", rep.Sewn.Value, 0.9, 1)
		within(rt, "size", rep.Order.Lies.Size, 0.97*size, 1.03*size)
		said(rt, rep, SaidAnotherSize)
	})
}

// A hand that goes along a part of the line only missed the rest, also where it lies
// beside it.
func TestPartsLeftOutAreMissed(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := drawLine(t, rt)
		from := rapid.SampledFrom([]float64{0, 0, 0.15, 0.3}).Draw(rt, "from")
		share := rapid.Float64Range(0.4, 0.65).Draw(rt, "share")
		d := rapid.SampledFrom([]geom.Point{{}, {}, geom.Pt(3, -2)}).Draw(rt, "shift")
		part := mustLine(t, l.Section(from*l.Length(), (from+share)*l.Length()).Map(func(p geom.Point) geom.Point { return r2.Add(p, d) }))
		rep := score(t, l, drawRecording(rt).of(moves(part, steadily(cruise), nil)), plan())
		within(rt, "sewn", rep.Sewn.Value, share-0.04, share+0.04)
		said(rt, rep, SaidMissed)
	})
}

// Slowdowns are counted one by one, wherever they are, and so are stops.
func TestDipsAndStopsAreCounted(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := rapid.SampledFrom([]geom.Line{spiral(t), waves(t)}).Draw(rt, "line")
		n := rapid.IntRange(1, 6).Draw(rt, "number")
		at := make([]float64, n)
		for k := range at {
			at[k] = l.Length() * (float64(k) + 0.4 + 0.2*rapid.Float64Range(0, 1).Draw(rt, "place") + 0.5) / (float64(n) + 1)
		}
		depth, wide := rapid.Float64Range(0.5, 0.65).Draw(rt, "left"), rapid.Float64Range(3, 5).Draw(rt, "mm")
		dips := func(_, s float64) float64 {
			v := cruise
			for _, a := range at {
				v *= 1 - (1-depth)*math.Exp(-math.Pow((s-a)/wide, 2))
			}
			return v
		}
		spoilt := drawRecording(rt)
		rep := score(t, l, spoilt.of(moves(l, dips, nil)), plan())
		within(rt, "slowdowns", hesitationCount(rep), float64(n), float64(n))
		within(rt, "stops", stopCount(rep), 0, 0)
		if rep.First.Word == SaidFine {
			rt.Errorf("slowing to %.2f %d times is said to be fine", depth, n)
		}
		wait := map[float64]float64{}
		for _, a := range at {
			wait[a] = rapid.Float64Range(0.4, 1).Draw(rt, "s")
		}
		rep = score(t, l, spoilt.of(moves(l, steadily(cruise), wait)), plan())
		within(rt, "stops", stopCount(rep), float64(n), float64(n))
		said(rt, rep, SaidStoodStill)
	})
}

// A faulty sample, wherever and however far away, changes no figure by more than its own
// noise, and is counted.
func TestFaultySamplesChangeNothing(t *testing.T) {
	l := loops(t)
	clean := movementOf(t, l, 120)
	base := figures(score(t, l, clean, plan()))
	rapid.Check(t, func(rt *rapid.T) {
		tr := moved(clean, func(p geom.Point) geom.Point { return p }, 0)
		i, run := rapid.IntRange(5, len(tr.Samples)-10).Draw(rt, "at"), rapid.IntRange(1, 3).Draw(rt, "run")
		a := rapid.Float64Range(-3, 3).Draw(rt, "angle")
		far := rapid.Float64Range(20, 200).Draw(rt, "mm")
		for k := range run {
			tr.Samples[i+k].P = r2.Add(tr.Samples[i+k].P, geom.Pt(far*math.Cos(a), far*math.Sin(a)))
		}
		rep := score(t, l, tr, plan())
		if rep.Faulty != run {
			rt.Errorf("%d faulty samples counted, %d made", rep.Faulty, run)
		}
		for k, f := range figures(rep) {
			if math.Abs(f.f.Value-base[k].f.Value) > f.noise {
				rt.Errorf("%s %.4f, without the faulty sample %.4f", f.name, f.f.Value, base[k].f.Value)
			}
		}
	})
}

// Backwards is the mirror of forwards: the same movement on the line turned round has the
// same figures.
func TestBackwardsIsTheMirrorOfForwards(t *testing.T) {
	for name, l := range map[string]geom.Line{"loops": loops(t), "double spirals": doubleSpirals(t)} {
		tr := movementOf(t, l, 240)
		forth := figures(score(t, l, tr, plan()))
		back := score(t, mustLine(t, l.Path().Reversed()), tr, plan())
		if back.Order.Way != Backward {
			t.Errorf("%s: %s", name, back.Order.Way)
		}
		for k, f := range figures(back) {
			want := forth[k].f.Value
			switch f.name {
			case "offset, mm":
				want = -want
			case "Frechet distance, mm":
				continue // that is of the order
			}
			near(t, name+": "+f.name, f.f.Value, want, f.noise)
		}
	}
}

// A shift of the whole movement changes no measure of speed.
func TestShiftChangesNoSpeed(t *testing.T) {
	l := doubleSpirals(t)
	tr := movementOf(t, l, 240)
	base := score(t, l, tr, plan())
	for _, d := range []geom.Point{geom.Pt(0.5, 0), geom.Pt(-2, 3), geom.Pt(6, 6)} {
		rep := score(t, l, moved(tr, func(p geom.Point) geom.Point { return r2.Add(p, d) }, 0), plan())
		near(t, "speed CV", rep.Evenness.SpeedCV.Value, base.Evenness.SpeedCV.Value, 1e-3)
		near(t, "spacing CV", rep.Evenness.SpacingCV.Value, base.Evenness.SpacingCV.Value, 1e-3)
		near(t, "SPARC", rep.SPARC.Value, base.SPARC.Value, 0.005)
		near(t, "slowdowns", hesitationCount(rep), hesitationCount(base), 0)
	}
}
