package scene_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/place/back"
	"unthreaded/game/scene"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

// january is 2026-01-20 12:00 UTC in ms since 1970.
const january = 1768910400000

// lookedBack returns the place after fifteen sessions that got better and level off.
func lookedBack(t *testing.T, controls ...game.Control) game.Model {
	t.Helper()
	// Without the strip of the hand's speed, which this place lacks.
	m, _ := worktest.Update(game.New(game.DefaultSettings(), january), game.Resized{W: 1026, H: 714, DPR: 1})
	var past []keep.Summary
	for k := range 15 {
		for i := range 6 {
			v := (0.16 + 0.35*math.Exp(-float64(k)/4)) * (1 + 0.12*math.Sin(float64(7*k+3*i*i)))
			doc, err := json.Marshal(keep.Measured{Version: scoring.Version, Seconds: 30, SPM: 600, StitchMM: 2.5, Figures: map[progress.Measure]float64{progress.Spacing: v}})
			if err != nil {
				t.Fatal(err)
			}
			past = append(past, keep.Summary{
				ID: fmt.Sprintf("%d-%d", k, i), Started: january - int64(2*(15-k))*86400000 + int64(i)*int64(60000*(1+k%4)), Motif: "linked-swirls", Name: "Linked swirls",
				Repeats: 3, Device: trace.Pen, Way: keep.Pencil, Zoom: 1, Guide: &keep.Guide{Marks: keep.NoMarks}, Measured: doc, Print: "a",
			})
		}
	}
	m, _ = worktest.Update(m, game.Listed{Past: past})
	m, _ = worktest.Update(m, game.Control{Name: "place", Value: "back"})
	for _, c := range controls {
		m, _ = worktest.Update(m, c)
	}
	for i := 0; i == 0 || atBack(m).Weeks.Busy(); i++ {
		m, _ = worktest.Update(m, game.Frame{Now: 1 + float64(i)})
	}
	return m
}

func labels(l scene.List) []string {
	var out []string
	for _, la := range l.Layers {
		for _, it := range la.Items {
			if it.Shape == scene.Label {
				out = append(out, it.Text)
			}
		}
	}
	return out
}

// The chart says what it shows, its units, its dates and which way is better.
func TestTheChartSaysWhatItShows(t *testing.T) {
	m := lookedBack(t)
	var st stage
	got := labels(st.Of(m))
	for _, want := range []string{"Stitch length varies by", "down is better", "0 %", "20 %", "levels off", "where you began", "learning curve", "warm-up"} {
		if !slices.Contains(got, want) {
			t.Errorf("%q is not on the chart: %v", want, got)
		}
	}
	if !slices.ContainsFunc(got, func(s string) bool { return strings.HasSuffix(s, "Jan") }) || !slices.ContainsFunc(got, func(s string) bool { return strings.HasSuffix(s, "Dec") }) {
		t.Errorf("no dates of December and January on the chart: %v", got)
	}
}

// Whatever the screen, all labels of all views lie on it; what has not changed is not drawn
// anew.
func TestLookingBackFitsTheScreen(t *testing.T) {
	for _, screen := range []game.Resized{laptop, {W: 390, H: 420, DPR: 1}, {W: 820, H: 700, DPR: 1}, {W: 1600, H: 1000, DPR: 1}} {
		for _, view := range []string{"weeks", "days", "sewn", "pair"} {
			m := lookedBack(t, game.Control{Name: "back.view", Value: view})
			m, _ = worktest.Update(m, screen)
			var st stage
			first := st.Of(m)
			keys := []any{}
			for _, la := range first.Layers {
				keys = append(keys, la.Key)
				for _, it := range la.Items {
					if it.Shape == scene.Label && !onScreen(it, screen) {
						t.Errorf("%s on %v: %q at %v is cut off", view, screen, it.Text, it.Points[0])
					}
				}
			}
			m, _ = worktest.Update(m, game.Frame{Now: 5})
			for i, la := range st.Of(m).Layers {
				if la.Key != keys[i] {
					t.Errorf("%s: layer %d is drawn anew though nothing has changed", view, i)
				}
			}
		}
	}
}

// onScreen tells whether a label lies on the screen, its letters taken to be half as wide
// as high.
func onScreen(it scene.Item, s game.Resized) bool {
	w := 0.5 * it.Width * float64(len(it.Text))
	p := it.Points[0]
	switch it.Align {
	case scene.Left:
		p = geom.Pt(p.X+w/2, p.Y)
	case scene.Right:
		p = geom.Pt(p.X-w/2, p.Y)
	}
	return p.X-w/2 >= 0 && p.X+w/2 <= s.W && p.Y >= it.Width/2 && p.Y <= s.H-it.Width/2
}

func atBack(m game.Model) back.Room { return m.Front().(back.Room) }
