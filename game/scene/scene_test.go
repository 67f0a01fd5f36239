package scene_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/scene"
	"unthreaded/game/softdraw"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// TestMain makes do with fewer random programs than usual: each of them draws
// whole pictures and plans routes.
func TestMain(m *testing.M) {
	flag.Parse()
	if err := flag.Set("rapid.checks", "15"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}

var small = game.Resized{W: 390, H: 460, Strip: 92, DPR: 1}

func fresh(m game.Model) scene.List {
	var st stage
	return st.Of(m)
}

// whatHappens draws a message that can happen to the program at any time.
func whatHappens(rt *rapid.T, m game.Model, clock *float64) game.Msg {
	*clock += rapid.Float64Range(0.001, 0.4).Draw(rt, "wait")
	switch rapid.IntRange(0, 13).Draw(rt, "what") {
	case 10, 11:
		return game.Control{Name: "place", Value: rapid.SampledFrom([]string{"rehearse", "route"}).Draw(rt, "place")}
	case 12:
		return game.Control{Name: "rehearse.way", Value: rapid.SampledFrom([]string{"pencil", "cloth"}).Draw(rt, "way")}
	case 13:
		name := rapid.SampledFrom([]string{"marks", "lead", "countin", "strip", "unnumbered"}).Draw(rt, "name")
		return game.Control{Name: "rehearse." + name, Value: rapid.SampledFrom([]string{"on", "off", "dots", "ends", "none", "waits"}).Draw(rt, "value")}
	case 0:
		return game.Control{Name: "motif", Value: rapid.SampledFrom([]string{"linked-swirls", "ruler-zigzag"}).Draw(rt, "motif")}
	case 1:
		return game.Control{Name: "play"}
	case 2, 3:
		return game.Control{Name: "scrub", Value: fmt.Sprint(rapid.Float64Range(0, 300).Draw(rt, "scrub"))}
	case 4:
		return game.Control{Name: "spm", Value: rapid.SampledFrom([]string{"300", "600", "900"}).Draw(rt, "spm")}
	case 5:
		return game.SystemDark{Dark: rapid.Bool().Draw(rt, "dark")}
	case 6:
		return game.Frame{Now: *clock}
	}
	kind := game.Move
	if m.Rehearsal().Live == nil {
		kind = game.Down
	} else if rapid.IntRange(0, 8).Draw(rt, "lift") == 0 {
		kind = game.Up
	}
	return game.Pointer{
		Kind: kind, ID: 1, Device: trace.Pen, T: *clock,
		X: rapid.Float64Range(0, small.W).Draw(rt, "x"), Y: rapid.Float64Range(0, small.H-small.Strip).Draw(rt, "y"), Pressure: 0.5,
	}
}

// A stage that has followed the program from the beginning shows the same picture
// as one that sees only the model as it is: what it keeps is never stale.
func TestTheStageKeepsNothingStale(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), small)
		var kept stage
		clock := 0.0
		for i := 0; i < 10; i++ {
			m, _ = worktest.Update(m, whatHappens(rt, m, &clock))
			kept.Of(m)
		}
		got, want := softdraw.Draw(kept.Of(m), 0.5), softdraw.Draw(fresh(m), 0.5)
		// Ink drawn in several strokes has softer seams than ink drawn in one.
		if share := differing(got, want); share > 0.001 {
			rt.Fatalf("%.2f %% of the picture depends on what was shown before", 100*share)
		}
	})
}

// A layer whose key stays the same only grows or shrinks at its end: what the
// graphics card has drawn already is never changed behind its back.
func TestLayersGrowAtTheirEnd(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), small)
		var st stage
		var before [][]string
		var keys []any
		clock := 0.0
		for i := 0; i < 15; i++ {
			m, _ = worktest.Update(m, whatHappens(rt, m, &clock))
			list := st.Of(m)
			for k, la := range list.Layers {
				if len(before) <= k {
					before, keys = append(before, nil), append(keys, nil)
				}
				now := make([]string, len(la.Items))
				for j, it := range la.Items {
					now[j] = fmt.Sprint(it)
				}
				for j := 0; la.Key == keys[k] && j < min(len(now), len(before[k])); j++ {
					if now[j] != before[k][j] {
						rt.Fatalf("layer %d, item %d changed under the same key", k, j)
					}
				}
				before[k], keys[k] = now, la.Key
			}
		}
	})
}

// traced returns the model after an even hand has drawn up to stop mm.
func traced(t testing.TB, screen game.Resized, h synth.Hand, lift bool) game.Model {
	t.Helper()
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), screen)
	return drawn(m, h, lift)
}

func drawn(m game.Model, h synth.Hand, lift bool) game.Model {
	samples := h.Samples(m.Rehearsal().Line)
	for i, s := range samples {
		p := m.Sight().ToScreen(s.P)
		msg := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, T: 1 + s.T, X: p.X, Y: p.Y, Pressure: 0.5}
		if i == 0 {
			msg.Kind = game.Down
		}
		m, _ = worktest.Update(m, msg)
		if lift && i == len(samples)-1 {
			msg.Kind = game.Up
			m, _ = worktest.Update(m, msg)
		}
	}
	return m
}

// The thread follows at once: the last sample is the end of the last stroke.
func TestTheInkEndsAtTheLastSample(t *testing.T) {
	h := synth.Hand{Hz: 240, Speed: synth.Steady(30), Stop: 80}
	m := traced(t, small, h, false)
	layers := fresh(m).Layers
	items := layers[len(layers)-1].Items
	end := items[len(items)-1].Points
	want := m.Sight().ToScreen(m.Rehearsal().Line.At(80))
	if got := end[len(end)-1]; geom.Dist(got, want) > 0.2 {
		t.Errorf("the ink ends at %v, the hand is at %v", got, want)
	}
}

// At 600 stitches a minute and 25.4 mm/s a stitch is 2.54 mm (9.6 px) long; a
// hand half as fast leaves short stitches, one twice as fast long ones, and each
// kind is drawn with another width as well as another colour, the gaps between long ones
// wider.
func TestStitchSizesDifferInShape(t *testing.T) {
	widths := map[float64]bool{}
	var gaps []float64 // px, by rising speed
	for _, v := range []float64{12.7, 25.4, 50.8} {
		m := traced(t, small, synth.Hand{Hz: 240, Speed: synth.Steady(v)}, true)
		layers := fresh(m).Layers
		pal := m.Palette()
		items := slices.DeleteFunc(slices.Clone(layers[len(layers)-1].Items), func(it scene.Item) bool {
			// What is left are the strands themselves, without light, shadow and holes.
			return it.Colour != pal.Short && it.Colour != pal.Thread && it.Colour != pal.Long
		})
		stitches := 0
		count := map[float64]int{}
		for _, it := range items {
			count[it.Width]++
			stitches++
		}
		most := 0.0
		for w, n := range count {
			if n > count[most] {
				most = w
			}
		}
		widths[most] = true
		a, b := items[len(items)/2].Points, items[len(items)/2+1].Points
		gaps = append(gaps, geom.Dist(a[len(a)-1], b[0]))
		want := int(m.Rehearsal().Open.Duration() * 10)
		if math.Abs(float64(stitches-want)) > float64(want)/20+2 {
			t.Errorf("%.1f mm/s: %d items, want about %d", v, stitches, want)
		}
	}
	if !(gaps[2] > 1.3*gaps[1]) {
		t.Errorf("gaps of %.1f px between long stitches, %.1f px between others", gaps[2], gaps[1])
	}
	if len(widths) != 3 {
		t.Errorf("short, near and long stitches have the widths %v, want three", widths)
	}
}
