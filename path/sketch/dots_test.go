package sketch

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// eachFile calls f with every JSON file of a folder of testdata/sketch.
func eachFile(t *testing.T, folder string, f func(name string, text []byte)) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "..", "testdata", "sketch", folder, "*.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no files of %s: %v", folder, err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f(filepath.Base(name), text)
	}
}

type workedMarking struct {
	Length        float64    `json:"length_mm"`
	N             int        `json:"n"`
	Spread        Spread     `json:"spread"`
	Graduation    Graduation `json:"graduation"`
	Text          string     `json:"text"`
	SpaceError    float64    `json:"space_error_mm"`
	Stepped       []string   `json:"stepped"`
	Measured      []string   `json:"measured"`
	WorstStepped  float64    `json:"worst_stepped_mm"`
	WorstMeasured float64    `json:"worst_measured_mm"`
}

// Worked by hand: see testdata/sketch/README.md.
func TestMarkingWorkedByHand(t *testing.T) {
	eachFile(t, "marking", func(name string, text []byte) {
		var w workedMarking
		if err := json.Unmarshal(text, &w); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		m, err := MarkDots(w.Length, w.N, w.Spread, w.Graduation)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			return
		}
		if len(w.Stepped) != w.N || len(w.Measured) != w.N {
			t.Errorf("%s: marks for %d and %d of %d dots", name, len(w.Stepped), len(w.Measured), w.N)
			return
		}
		said := "every " + m.Space.Text + ", first at " + m.First.Text
		if m.OnEnd {
			said = "every " + m.Space.Text + ", first on the end"
		}
		if said != w.Text {
			t.Errorf("%s: %q, expected %q", name, said, w.Text)
		}
		for k := range m.Stepped {
			if m.Stepped[k].Text != w.Stepped[k] || m.Measured[k].Text != w.Measured[k] {
				t.Errorf("%s: dot %d: %q stepped, %q measured, expected %v, %v", name, k, m.Stepped[k].Text, m.Measured[k].Text, w.Stepped, w.Measured)
				return
			}
		}
		for what, d := range map[string]float64{
			"error of a space": m.Space.Error - w.SpaceError, "worst stepped": m.WorstStepped - w.WorstStepped, "worst measured": m.WorstMeasured - w.WorstMeasured,
		} {
			if math.Abs(d) > 1e-9 {
				t.Errorf("%s: %s is %v mm off the value worked by hand", name, what, d)
			}
		}
	})
}

var (
	spreads     = []Spread{WithEnds, BetweenEnds, HalfSpace, FromStart}
	graduations = []Graduation{EighthInch, SixteenthInch, Millimetre, HalfMillimetre}
)

// Dots are evenly spaced and lie on the line; measured marks are off by half a
// graduation at most; what a dot's marks say adds up.
func TestDotsAreEven(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		length, n := rapid.Float64Range(50, 3000).Draw(rt, "length"), rapid.IntRange(2, 12).Draw(rt, "n")
		spread, g := rapid.SampledFrom(spreads).Draw(rt, "spread"), rapid.SampledFrom(graduations).Draw(rt, "graduation")
		at, err := EvenDots(length, n, spread)
		if err != nil {
			rt.Fatal(err)
		}
		for k := 2; k < n; k++ {
			if d := at[k] - 2*at[k-1] + at[k-2]; math.Abs(d) > 1e-9*length {
				rt.Fatalf("spaces before and after dot %d differ by %v mm", k-1, d)
			}
		}
		space, end := at[1]-at[0], length-at[n-1]
		wantFirst, wantEnd := map[Spread]float64{BetweenEnds: space, HalfSpace: space / 2}[spread], map[Spread]float64{BetweenEnds: space, HalfSpace: space / 2, FromStart: space}[spread]
		if math.Abs(at[0]-wantFirst) > 1e-9*length || math.Abs(end-wantEnd) > 1e-9*length {
			rt.Fatalf("%s: %v before the first dot, %v after the last, spaces of %v", spread, at[0], end, space)
		}
		m, err := MarkDots(length, n, spread, g)
		if err != nil {
			rt.Fatal(err)
		}
		unit, _, parts := g.parts()
		if half := unit / float64(parts) / 2; m.WorstMeasured > half+1e-9 {
			rt.Fatalf("a measured mark is %v mm off, half a graduation is %v", m.WorstMeasured, half)
		}
		for k, d := range m.Stepped {
			if off := d.Error - m.First.Error - float64(k)*m.Space.Error; math.Abs(off) > 1e-6 || d.Marked-d.Error != d.Exact && math.Abs(d.Marked-d.Error-d.Exact) > 1e-9 {
				rt.Fatalf("dot %d: error %v after %v and steps of %v", k, d.Error, m.First.Error, m.Space.Error)
			}
		}
	})
}

func TestDotErrors(t *testing.T) {
	for _, c := range []struct {
		length float64
		n      int
		spread Spread
	}{{100, 0, HalfSpace}, {100, MaxDots + 1, HalfSpace}, {100, 1, WithEnds}, {0, 3, HalfSpace}, {math.NaN(), 3, HalfSpace}, {math.Inf(1), 3, HalfSpace}, {100, 3, "thirds"}} {
		if _, err := EvenDots(c.length, c.n, c.spread); err == nil {
			t.Errorf("%+v: no error", c)
		}
	}
	if _, err := MarkDots(10, 40, HalfSpace, EighthInch); err == nil {
		t.Error("dots 0.25 mm apart were marked in eighths of an inch")
	}
	if _, err := MarkDots(100, 4, HalfSpace, "1/7 in"); err == nil {
		t.Error("sevenths of an inch were accepted")
	}
}

// On a square walked round (perimeter 120) 12 dots lie 10 mm apart, four of them on
// the corners; from dot to dot they give its sides.
func TestDotsOnALineAndBetween(t *testing.T) {
	l, err := geom.NewLine(geom.MustParse("M 0 0 L 30 0 L 30 30 L 0 30 Z"))
	if err != nil {
		t.Fatal(err)
	}
	dots, err := DotsOn(l, 12, FromStart)
	if err != nil || len(dots) != 12 || geom.Dist(dots[3], geom.Pt(30, 0)) > 1e-9 || geom.Dist(dots[10], geom.Pt(0, 20)) > 1e-9 {
		t.Fatalf("dots %v (%v)", dots, err)
	}
	s, err := DotToDot(dots, true)
	if err != nil || s.Pieces() != 12 || !s.Closed() || math.Abs(s.Length()-120) > 1e-9 {
		t.Errorf("from dot to dot: %d pieces, %v mm (%v)", s.Pieces(), s.Length(), err)
	}
	if i, d := NearestDot(dots, geom.Pt(31, 1)); i != 3 || math.Abs(d-math.Sqrt2) > 1e-9 {
		t.Errorf("nearest dot %d at %v mm", i, d)
	}
	for name, bad := range map[string][]geom.Point{"one": dots[:1], "twice": {dots[0], dots[1], dots[1]}, "nowhere": {dots[0], geom.Pt(math.NaN(), 0)}} {
		if _, err := DotToDot(bad, false); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
