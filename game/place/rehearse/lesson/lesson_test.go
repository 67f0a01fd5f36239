package lesson

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/scoring"
	"unthreaded/scoring/practice"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

func own(id string) Line {
	l, err := geom.NewLine(geom.MustParse("M 0 0 L 60 0 L 60 45.5 L 0.25 45.5"))
	if err != nil {
		panic(err)
	}
	return LineOf(motif.Of(id, "My block", "", l), 1, l)
}

func ready(id string) Line { return Line{ID: id, Name: id} }

// Every exercise that a warm-up may hold asks for the movement that it is there for
// more than for any other; corners, which are short, at least somewhere.
func TestExercisesTrainTheirMovement(t *testing.T) {
	seen := map[practice.Item]bool{}
	for seed := practice.Seed(0); seed < 300; seed++ {
		w, err := Warm(10, nil, own("block-1"), seed, 0)
		if err != nil {
			t.Fatal(err)
		}
		for w.Item = range len(w.Items) - 1 {
			it := w.Now()
			it.Tempo = 0
			if seen[it] {
				continue
			}
			seen[it] = true
			share, most := movements(t, w)
			if it.Movement == progress.Corner && share[progress.Corner] < 0.1 {
				t.Errorf("corners of %v mm: %.2f of the line are corners", it.SizeMM, share[it.Movement])
			}
			if it.Movement != progress.Corner && most != it.Movement {
				t.Errorf("%s of %v mm is mostly %q: %v", it.Movement, it.SizeMM, most, share)
			}
		}
	}
	if len(seen) != 21 {
		t.Errorf("%d exercises came, want 7 movements in 3 sizes", len(seen))
	}
}

// movements returns the share of each movement on the line of the minute, and the
// movement that has most of it.
func movements(t *testing.T, w WarmUp) (share map[progress.Movement]float64, most progress.Movement) {
	t.Helper()
	m, ok := w.Motif()
	if !ok {
		t.Fatalf("no line for %+v", w.Now())
	}
	l, err := m.Line(1)
	if err != nil {
		t.Fatal(err)
	}
	rep, err := scoring.Score(l, trace.Trace{Device: trace.Pen, Ending: trace.Lifted,
		Samples: synth.Hand{Hz: 60, Speed: synth.Steady(25.4)}.Samples(l)}, scoring.Settings{SPM: 600, TargetMM: 2.54})
	if err != nil {
		t.Fatal(err)
	}
	share = map[progress.Movement]float64{}
	at := progress.Classify(rep.Profile, l.Corners)
	for _, m := range at {
		share[m] += 1 / float64(len(at))
		if share[m] > share[most] || most == "" {
			most = m
		}
	}
	return share, most
}

// However the frames fall and however long she traces, the seconds of a warm-up are
// those that she was at it, its minutes come in order, and none changes under a hand.
func TestMinutesAddUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		minutes := rapid.SampledFrom(practice.Lengths).Draw(rt, "minutes")
		w, err := Warm(minutes, nil, own("block-1"), practice.Seed(rapid.Uint64().Draw(rt, "seed")), 1000)
		if err != nil {
			rt.Fatal(err)
		}
		if w.Length() != float64(60*minutes) {
			rt.Fatalf("%d minutes last %v s", minutes, w.Length())
		}
		var total float64
		for !w.Over() {
			dt := rapid.Float64Range(0, 30).Draw(rt, "dt")
			tracing := rapid.Bool().Draw(rt, "tracing")
			before := w
			w = w.Advance(dt, 1000+total, tracing)
			total += dt
			if w.Item != before.Item && (tracing || w.Item != before.Item+1 || w.Elapsed < w.starts(w.Item)) {
				rt.Fatalf("from minute %d to %d at %v s, tracing %v", before.Item, w.Item, w.Elapsed, tracing)
			}
			if math.Abs(w.Elapsed-total) > 1e-6 {
				rt.Fatalf("%v s are over, she was at it for %v", w.Elapsed, total)
			}
			sewn, of := w.Stitches()
			if of != 12*minutes || sewn != min(of, int(total/5+1e-9)) && math.Abs(math.Mod(total, 5)) > 1e-6 {
				rt.Fatalf("%d of %d stitches after %v s", sewn, of, total)
			}
		}
	})
}

func TestSkipAndRepeatAMinute(t *testing.T) {
	w, err := Warm(3, nil, own("block-1"), 7, 0)
	if err != nil {
		t.Fatal(err)
	}
	w = w.Advance(20, 20, false).Skip()
	if w.Item != 1 || w.Elapsed != 60 {
		t.Errorf("after skipping: minute %d at %v s, want 1 at 60", w.Item, w.Elapsed)
	}
	w = w.Advance(31, 60, false).Repeat()
	if w.Item != 1 || w.Elapsed != 60 {
		t.Errorf("repeated: minute %d at %v s, want 1 at 60", w.Item, w.Elapsed)
	}
	w = w.Skip()
	if w.Now().Block != "My block" || w.Over() {
		t.Errorf("last comes %+v, over %v; want the block", w.Now(), w.Over())
	}
	if w = w.Skip(); !w.Over() {
		t.Error("skipping the last minute does not end it")
	}
	if w.Stale(60+staleAfter) || !w.Stale(60+staleAfter+1) {
		t.Error("it grows cold at another time than a session ends")
	}
}

// A new line is learnt at once; one that was only mixed in from its beginning; one
// that was learnt goes on where she was.
func TestLearnTurnsToALine(t *testing.T) {
	c, err := Begin(1, own("block-1"), []Line{ready("loops")})
	if err != nil {
		t.Fatal(err)
	}
	c, done, err := c.Made(1e9, 10, 1)
	if err != nil || !done {
		t.Fatal(done, err)
	}
	for _, f := range []struct {
		line   Line
		number int
	}{{own("block-2"), 1}, {ready("loops"), 1}, {own("block-1"), 2}} {
		if c, err = c.Learn(f.line); err != nil {
			t.Fatal(err)
		}
		if s := c.Step(1e9 + 20); s.Motif != f.line.ID || s.Mix || s.Number != f.number {
			t.Errorf("after asking for %s: %+v, want trace %d of it", f.line.ID, s, f.number)
		}
	}
}

// Half a line is not the trace that was asked for; the guide of a line that comes into
// the mix unseen is whole, and fades over three traces.
func TestPartOfALineAndUnseenLines(t *testing.T) {
	c, err := Begin(1, own("block-1"), []Line{{ID: "loops", Name: "Loops", Seen: 1}, ready("waves")})
	if err != nil {
		t.Fatal(err)
	}
	part, done, err := c.Made(1e9, 10, 0.4)
	if err != nil || done || part.Step(1e9+20).Number != 1 || part.Plan.Sitting.Traces != 1 {
		t.Errorf("40 %% of the line: done %v (%v), next %+v", done, err, part.Step(1e9+20))
	}
	want := map[string][]progress.Guide{
		"loops": {progress.Dots, progress.Ends, progress.None}, "waves": {progress.Whole, progress.Dots, progress.Ends, progress.None},
	}
	at := 1e9
	for range 40 {
		at += 20
		s := c.Step(at)
		if w := want[s.Motif]; s.Mix && len(w) > 0 {
			if s.Guide != w[0] || s.Counts != (w[0] == progress.None) {
				t.Fatalf("%s in the mix: guide %q, counts %v, want %q", s.Motif, s.Guide, s.Counts, w[0])
			}
			want[s.Motif] = w[1:]
		}
		if c, _, err = c.Made(at, 5, 1); err != nil {
			t.Fatal(err)
		}
	}
	if len(want["loops"])+len(want["waves"]) > 0 {
		t.Errorf("never came: %v", want)
	}
}
