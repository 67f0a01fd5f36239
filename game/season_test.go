package game_test

import (
	"runtime"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/place"
	"unthreaded/game/scene"
	"unthreaded/game/synth"
	"unthreaded/scoring/trace"
)

// held returns the bytes on the heap that are in use.
func held() float64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.HeapAlloc)
}

// sit is a table at which each effect that waits for an answer is answered at once, as
// on a page where all is well, and none is remembered.
type sit struct {
	*table
	layers scene.Layers
	now    float64
}

func (s *sit) answer() {
	for len(s.effects) > 0 {
		effects := s.effects
		s.effects = nil
		for _, e := range effects {
			switch e := e.(type) {
			case game.Save:
				s.send(game.Saved{ID: e.ID})
			case place.Keep:
				s.send(place.Shelved{Kind: e.Thing.Kind, ID: e.Thing.ID})
			}
		}
	}
}

// frame shows the page and the cloth, as each frame does.
func (s *sit) frame() {
	s.now += 1.0 / 60
	s.send(game.Frame{Now: s.now})
	s.answer()
	page.Of(s.m)
	s.m.Scene(&s.layers)
}

// A season at one sitting takes no more memory at its end than after its beginning, but
// for the lines of the list: traces, changes of place, and watching again for long.
func TestASeasonAtOneSitting(t *testing.T) {
	traces, changes, frames := 400, 400, 6000
	if testing.Short() {
		traces, changes, frames = 200, 120, 600
	}
	s := &sit{table: newTable(t)}
	samples := synth.Hand{Hz: 20, Speed: synth.Steady(60)}.Samples(s.m.Rehearsal().Line)
	do := func(n int, what string, each float64, act func(i int)) {
		t.Helper()
		for i := range n / 4 {
			act(i)
		}
		early := held()
		for i := range n - n/4 {
			act(i)
		}
		grown := held() - early
		t.Logf("%d %s: %.1f MB held, %.2f kB more for each after the first quarter", n, what, held()/(1<<20), grown/float64(n-n/4)/1024)
		if grown > 1<<19+each*float64(n-n/4) {
			t.Errorf("%d %s have %.0f kB grow, %.0f bytes each", n, what, grown/1024, grown/float64(n-n/4))
		}
	}
	do(traces, "traces", 2048, func(int) {
		for i, p := range samples {
			kind := game.Move
			if i == 0 {
				kind = game.Down
			}
			s.send(s.pointer(kind, 1, trace.Pen, p, s.now))
		}
		s.send(s.pointer(game.Up, 1, trace.Pen, samples[len(samples)-1], s.now))
		s.now += samples[len(samples)-1].T
		for range 3 {
			s.frame()
		}
	})
	do(changes, "changes of place", 0, func(i int) {
		s.send(game.Control{Name: "place", Value: string(game.Places[i%len(game.Places)])})
		s.frame()
	})
	s.send(game.Control{Name: "place", Value: string(game.Places[3])}, game.Control{Name: "play"})
	do(frames, "frames of watching again", 0, func(i int) {
		if i%1000 == 0 && !s.m.Playing() {
			s.send(game.Control{Name: "play"})
		}
		s.frame()
	})
}
