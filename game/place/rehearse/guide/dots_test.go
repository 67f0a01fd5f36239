package guide

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// hand goes from place to place at 40 mm/s and rests where it is told to, reported
// at 60 Hz.
type hand struct {
	t  float64
	at geom.Point
	d  Dots
	// told are the words on the way, each once.
	told []string
}

func (h *hand) report() {
	h.d = h.d.To(h.t, h.at)
	if w := h.d.Told; w.Word != Nothing {
		text := fmt.Sprint(map[Word]string{LeftOut: "left out", NoStop: "no stop", OutOfOrder: "out of order"}[w.Word], " ", w.First, " ", w.Last)
		if n := len(h.told); n == 0 || h.told[n-1] != text {
			h.told = append(h.told, text)
		}
	}
}

func (h *hand) rest(seconds float64) {
	for end := h.t + seconds; h.t < end; h.t += 1.0 / 60 {
		h.report()
	}
}

func (h *hand) to(p geom.Point) {
	n := math.Max(1, math.Ceil(geom.Dist(h.at, p)/40*60))
	from := h.at
	for i := 1.0; i <= n; i++ {
		h.at = geom.Lerp(from, p, i/n)
		h.t += 1.0 / 60
		h.report()
	}
}

// The ways a hand can go over the zigzag of 5 dots (0 to 4), and what it is told at
// once. What is skipped is told on the way, before the next dot is reached.
func TestDotsAreToldAtOnce(t *testing.T) {
	m, _ := motif.Find("ruler-zigzag")
	l, err := m.Rehearsal().Line(2)
	if err != nil {
		t.Fatal(err)
	}
	dot := func(k int) geom.Point { return l.At(l.Dots[k]) }
	beside := func(k int, mm float64) geom.Point { return geom.Pt(dot(k).X, dot(k).Y+mm) }
	stops := func(h *hand, dots ...int) {
		for _, k := range dots {
			h.to(dot(k))
			h.rest(0.4)
		}
	}
	for name, c := range map[string]struct {
		move func(h *hand)
		told []string
		next int
	}{
		"in order":          {func(h *hand) { stops(h, 1, 2, 3, 4) }, nil, 5},
		"one without stop":  {func(h *hand) { stops(h, 1); h.to(dot(2)); stops(h, 3, 4) }, []string{"no stop 2 2"}, 5},
		"one cut by 5 mm":   {func(h *hand) { stops(h, 1); h.to(beside(2, -5)); h.to(geom.Lerp(dot(2), dot(3), 0.4)) }, []string{"left out 2 2"}, 3},
		"straight to dot 3": {func(h *hand) { stops(h, 1, 3) }, []string{"left out 2 2"}, 4},
		"from 0 to 4":       {func(h *hand) { stops(h, 4) }, []string{"left out 1 1", "left out 3 3"}, 5},
		"back for it":       {func(h *hand) { stops(h, 1, 3, 2, 3, 4) }, []string{"left out 2 2"}, 5},
		"back to the start": {func(h *hand) { stops(h, 1, 2, 0, 3) }, []string{"out of order 0 0"}, 4},
		"a second stop":     {func(h *hand) { stops(h, 1); h.rest(1); stops(h, 2) }, nil, 3},
	} {
		h := &hand{at: dot(0), d: NewDots(l)}
		h.rest(0.1)
		c.move(h)
		if !reflect.DeepEqual(h.told, c.told) || h.d.Next != c.next {
			t.Errorf("%s: told %q, next is dot %d; want %q and %d", name, h.told, h.d.Next, c.told, c.next)
		}
	}
}

// Of dots in one spot the one whose turn it is counts: a closed line's last dot is
// its first.
func TestDotsInOneSpot(t *testing.T) {
	l, err := geom.NewLine(geom.Polyline{geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(50, 50), geom.Pt(0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	if l, err = l.WithDots(l.Cumulative()); err != nil {
		t.Fatal(err)
	}
	h := &hand{d: NewDots(l)}
	h.rest(0.5)
	for k := 1; k < 4; k++ {
		h.to(l.At(l.Dots[k]))
		h.rest(0.4)
	}
	if len(h.told) > 0 || h.d.Next != 4 {
		t.Errorf("told %q, next is dot %d, want nothing and 4", h.told, h.d.Next)
	}
}
