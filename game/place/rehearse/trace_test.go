package rehearse_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"unthreaded/game"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/screen"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

// visit is the room alone, in front, on a laptop's screen.
func visit() rehearse.Room {
	s := place.Shared{Settings: place.DefaultSettings(), Place: place.Rehearse}
	s.Screen = screen.Cloth{W: 1000, H: 600, Strip: 110, DPR: 1}
	return rehearse.New(s).Fit().(rehearse.Room)
}

// drawn traces the line at 25 mm/s up to the place to in mm, with samples at the times
// that next gives; it returns the room and the last sample in mm and s.
func drawn(r rehearse.Room, to float64, next func(t float64) float64) (rehearse.Room, float64) {
	kind, t := place.Down, 0.0
	for 25*t < to {
		p := r.Sight().ToScreen(r.Line.At(25 * t))
		r = point(r, place.Pointer{Kind: kind, ID: 1, Device: trace.Pen, T: 5 + t, X: p.X, Y: p.Y, Pressure: 0.5})
		kind, t = place.Move, next(t)
	}
	p := r.Sight().ToScreen(r.Line.At(25 * t))
	return point(r, place.Pointer{Kind: place.Up, ID: 1, Device: trace.Pen, T: 5 + t, X: p.X, Y: p.Y}), t
}

func point(r rehearse.Room, p place.Pointer) rehearse.Room {
	next, _ := r.Point(p)
	return next.(rehearse.Room)
}

// The place and the time at which the pointer is lifted are the last sample: a report of
// its own (pointerup, Pointer Events level 3, W3C), not a copy of the one before.
func TestTheLiftingIsTheLastSample(t *testing.T) {
	r, end := drawn(visit(), 100, func(t float64) float64 { return t + 0.05 })
	samples := r.Open.Rec.Trace().Samples
	last := samples[len(samples)-1]
	if at := r.Line.At(25 * end); math.Abs(last.T-end) > 1e-6 || math.Hypot(last.P.X-at.X, last.P.Y-at.Y) > 0.01 {
		t.Errorf("the last sample is %+v; the pointer was lifted at %v, %v s", last, at, end)
	}
}

// A pen that comes down takes over from a finger, which was the palm, and from nothing else.
func TestAPenTakesOverFromAFingerAlone(t *testing.T) {
	for device, takes := range map[trace.Device]bool{trace.Touch: true, trace.Mouse: false, trace.Pen: false} {
		r := visit()
		for i := range 100 {
			p := r.Sight().ToScreen(r.Line.At(0.5 * float64(i)))
			kind := place.Move
			if i == 0 {
				kind = place.Down
			}
			r = point(r, place.Pointer{Kind: kind, ID: 1, Device: device, T: 5 + 0.02*float64(i), X: p.X, Y: p.Y})
		}
		r = point(r, place.Pointer{Kind: place.Down, ID: 2, Device: trace.Pen, T: 8, X: 300, Y: 300})
		if took := len(r.Live.Samples) == 1; took != takes {
			t.Errorf("device %v: a pen leaves %d samples in hand; it takes over: %v", device, len(r.Live.Samples), took)
		}
	}
}

// The clock's step is the least time between two samples, found by comparing all pairs.
func TestTheClockStepIsTheLeast(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	for _, step := range []float64{0.001, 0.004, 1.0 / 128} {
		r, _ := drawn(visit(), 100, func(t float64) float64 { return t + step*float64(2+rng.IntN(9)) })
		tr := r.Open.Rec.Trace()
		least := math.Inf(1)
		for i, a := range tr.Samples {
			for _, b := range tr.Samples[:i] {
				if d := math.Abs(a.T - b.T); d > 1e-6 {
					least = math.Min(least, d)
				}
			}
		}
		if math.Abs(tr.ClockStep-least) > 1e-5 {
			t.Errorf("steps of %v: found %v, want %v", step, tr.ClockStep, least)
		}
	}
}

// A replay at half the speed takes twice the time; the choice stays for the next trace.
func TestTheReplayKeepsItsRate(t *testing.T) {
	var tb table
	tb.send(game.Resized{W: 1000, H: 600, Strip: 110, DPR: 1})
	tb.trace(100)
	for _, rate := range []struct {
		name string
		is   float64
	}{{"1", 1}, {"0.5", 0.5}, {"2", 2}} {
		tb.send(game.Control{Name: "rate", Value: rate.name}, game.Control{Name: "play"})
		before := tb.m.Rehearsal().Replay
		tb.now += 0.2
		tb.send(game.Frame{Now: tb.now})
		if after := tb.m.Rehearsal().Replay; math.Abs(after.T-before.T-0.2*rate.is) > 1e-9 || !after.Playing {
			t.Errorf("at %s: from %v s to %v in 0.2 s", rate.name, before.T, after.T)
		}
		tb.send(game.Control{Name: "play"}, game.Control{Name: "scrub", Value: "0"})
	}
	tb.send(game.Control{Name: "again"})
	tb.trace(100)
	if c := tb.m.Rehearsal().Replay; c.Rate != 2 {
		t.Errorf("the next trace is played at %v, want 2 as chosen", c.Rate)
	}
}

// What is said can be put away, and stays away; a trace on the cloth stays.
func TestANoticeIsDismissed(t *testing.T) {
	var tb table
	tb.send(game.Resized{W: 1000, H: 600, Strip: 110, DPR: 1})
	tb.trace(1) // a tap
	if tb.m.Notice.None() {
		t.Fatal("a tap goes without a word")
	}
	tb.send(game.Control{Name: "dismiss"}, game.Frame{Now: tb.now + 1})
	if !tb.m.Notice.None() {
		t.Errorf("put away, and still there: %+v", tb.m.Notice)
	}
}

// table is the whole program with the place in front.
type table struct {
	m    game.Model
	now  float64
	open bool
}

func (tb *table) send(msgs ...game.Msg) {
	if !tb.open {
		tb.m, tb.open = game.New(game.DefaultSettings(), 1.8e12), true
	}
	for _, msg := range msgs {
		tb.m, _ = worktest.Update(tb.m, msg)
	}
}

// trace draws so many mm of the line at 25 mm/s.
func (tb *table) trace(mm float64) {
	r := tb.m.Rehearsal()
	start := tb.now
	for i := 0; ; i++ {
		s := float64(i) * 0.5
		kind := game.Move
		switch {
		case i == 0:
			kind = game.Down
		case s >= mm:
			kind = game.Up
		}
		tb.now = start + s/25
		p := r.Sight().ToScreen(r.Line.At(s))
		tb.send(game.Pointer{Kind: kind, ID: 1, Device: trace.Pen, T: tb.now, X: p.X, Y: p.Y, Pressure: 0.5})
		if kind == game.Up {
			tb.send(game.Frame{Now: tb.now})
			return
		}
	}
}
