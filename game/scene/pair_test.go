package scene_test

import (
	"slices"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
)

var screens = []game.Resized{laptop, {W: 390, H: 310, Strip: 90, DPR: 1}, {W: 820, H: 700, Strip: 112, DPR: 1}, {W: 1600, H: 1000, Strip: 112, DPR: 1}}

// paired returns two traces of 20 and 13 s laid one over the other, an hour apart.
func paired(t *testing.T, screen game.Resized, controls ...game.Control) game.Model {
	t.Helper()
	m := traced(t, laptop, uneven, true)
	first := m.Rehearsal().Open.Rec
	m = drawn(m, synth.Hand{Hz: 240, Speed: synth.Steady(35), Beside: wobble}, true)
	second := m.Rehearsal().Open.Rec
	first.Started, second.Started = january, january+3600e3
	m, _ = worktest.Update(m, screen)
	m, _ = worktest.Update(m, game.Control{Name: "place", Value: "back"})
	for _, rec := range []keep.Record{first, second} {
		doc, err := keep.Encode(rec)
		if err != nil {
			t.Fatal(err)
		}
		m, _ = worktest.Update(m, game.Fetched{ID: rec.ID, For: game.ToCompare, Doc: doc})
	}
	for _, c := range controls {
		m, _ = worktest.Update(m, c)
	}
	return m
}

// Two traces fill the cloth as far as its shape allows, whatever the screen, and their
// names stand on it with their times.
func TestAPairFillsTheCloth(t *testing.T) {
	for _, screen := range screens {
		m := paired(t, screen)
		var st stage
		list := st.Of(m)
		got := labels(list)
		for _, want := range []string{"First: 20 Jan 2026, 12:00", "Second: 20 Jan 2026, 13:00"} {
			if !slices.Contains(got, want) {
				t.Errorf("on %v: no %q in %v", screen, want, got)
			}
		}
		for _, la := range list.Layers {
			for _, it := range la.Items {
				if it.Shape == scene.Label && !onScreen(it, screen) {
					t.Errorf("on %v: %q at %v is cut off", screen, it.Text, it.Points[0])
				}
			}
		}
		lo, hi := atBack(m).Pair.First.Prep.Points.Bounds()
		a, b := m.Sight().ToScreen(lo), m.Sight().ToScreen(hi)
		if a.X < 0 || a.Y < 50 || b.X > screen.W || b.Y > screen.H-screen.Strip {
			t.Errorf("on %v the trace reaches from %v to %v", screen, a, b)
		}
		if wide, high := (b.X-a.X)/screen.W, (b.Y-a.Y)/(screen.H-screen.Strip); wide < 0.8 && high < 0.5 {
			t.Errorf("on %v the traces take %.2f of the width and %.2f of the height", screen, wide, high)
		}
	}
}

// Each of the two is drawn in one colour of its own, a dash for each stitch of the first and
// a bead for each fall of the second's needle; the colours of long and short stitches are
// those of a single trace.
func TestAPairHasOneColourEach(t *testing.T) {
	m := paired(t, laptop)
	pal := look.Of(look.Light)
	var st stage
	dashes, beads := 0, 0
	for i, la := range st.Of(m).Layers {
		for _, it := range la.Items {
			switch {
			case it.Colour == pal.Long || it.Colour == pal.Short:
				t.Fatalf("layer %d has a stitch in the colour of long or short ones", i)
			case i == 4 && it.Colour == pal.Over && len(it.Points) == 1:
				beads++
			case i == 3 && it.Colour == pal.Thread:
				dashes++
			}
		}
	}
	if want := len(atBack(m).Pair.First.Falls) - 1; dashes != want {
		t.Errorf("%d dashes for %d stitches", dashes, want)
	}
	if want := len(atBack(m).Pair.Second.Falls); beads != want {
		t.Errorf("%d beads for %d falls of the needle", beads, want)
	}
}

// In a replay each needle has its name, and no other ring moves along.
func TestThePairsNeedlesAreNamed(t *testing.T) {
	m := paired(t, laptop, game.Control{Name: "scrub", Value: "200"})
	var st stage
	var names []string
	for _, it := range st.Of(m).Moving {
		if it.Shape == scene.Label {
			names = append(names, it.Text)
		}
		if it.Colour == look.Of(look.Light).Chalk {
			t.Error("a ring of chalk moves along")
		}
	}
	slices.Sort(names)
	if !slices.Equal(names, []string{"First", "Second"}) {
		t.Errorf("the needles are named %v", names)
	}
}

// Of each piece an inch is drawn: as many stitches as there are to the inch, between two
// marks as far apart for both.
func TestAnInchOfEachPiece(t *testing.T) {
	pal := look.Of(look.Light)
	for _, screen := range screens {
		m := lookedBack(t, game.Control{Name: "back.view", Value: "sewn"})
		for _, f := range [][2]string{{"day", "2026-01-15"}, {"stitches", "32"}, {"length", "4 in"}, {"spm", "600"}, {"motif", ""}, {"keep", ""}} {
			m, _ = worktest.Update(m, game.Control{Name: "back.sewn-" + f[0], Value: f[1]})
		}
		m, _ = worktest.Update(m, screen)
		var st stage
		sewn, rehearsed := 0, 0
		for _, la := range st.Of(m).Layers[1:] {
			for _, it := range la.Items {
				switch {
				case it.Shape == scene.Label && !onScreen(it, screen):
					t.Errorf("on %v: %q at %v is cut off", screen, it.Text, it.Points[0])
				case it.Colour == pal.Thread:
					sewn++
				case it.Colour == pal.Chalk:
					rehearsed++
				}
			}
		}
		// 32 stitches in 4 in; 10 to the inch are planned.
		if sewn != 8 || rehearsed != 10 {
			t.Errorf("on %v: %d stitches sewn and %d rehearsed to the inch, want 8 and 10", screen, sewn, rehearsed)
		}
	}
}

// The replay of two shows of each what its own needle has sewn by then.
func TestThePairGrowsByTime(t *testing.T) {
	m := paired(t, laptop, game.Control{Name: "scrub", Value: "200"})
	pair := atBack(m).Pair
	pal := look.Of(look.Light)
	var st stage
	dashes, want := 0, 0
	for _, it := range st.Of(m).Moving {
		if it.Colour == pal.Thread && it.Width < 7 && it.Width > 5 && len(it.Points) == 2 {
			dashes++
		}
	}
	for i, f := range atBack(m).Pair.First.Falls {
		if i > 0 && f.T-atBack(m).Pair.First.Prep.T0 <= pair.Clock.T {
			want++
		}
	}
	if dashes != want || want == 0 {
		t.Errorf("%d dashes at %.2f s, want %d", dashes, pair.Clock.T, want)
	}
}
