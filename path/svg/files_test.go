package svg

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"unthreaded/path/geom"
)

// expected is what a file of testdata/svg must give: "svg-lines/1". Other programs
// measured its shapes; its README says how.
type expected struct {
	Format   string
	Page     [2]float64 `json:"page_mm"`
	Unread   [][2]string
	Marks    []mark
	Measured []struct {
		Source    string
		Tolerance float64 `json:"tolerance_mm"`
		Shapes    []measuredShape
	}
}

type mark struct {
	Name, Kind string
	Closed     bool
	Dots       []float64
}

// measuredShape is one element as drawn: how many subpaths it has, the length in mm
// of all, and places on it, the first its start and the last its end.
type measuredShape struct {
	ID     string
	Lines  int
	Length float64
	Points [][2]float64
	// Box is the least and the greatest place of its only line instead of the above.
	Box *[4]float64
}

// TestFiles reads every file of the folder and compares it with the JSON beside it.
func TestFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/svg/*.svg")
	if err != nil || len(files) == 0 {
		t.Fatalf("no files in testdata/svg (%v)", err)
	}
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			var want expected
			data, err := os.ReadFile(strings.TrimSuffix(f, ".svg") + ".json")
			if err == nil {
				err = json.Unmarshal(data, &want)
			}
			if err != nil || want.Format != "svg-lines/1" {
				t.Fatalf("what to expect: %v, format %q, want \"svg-lines/1\"", err, want.Format)
			}
			in, err := os.Open(f)
			if err != nil {
				t.Fatal(err)
			}
			defer in.Close()
			d, err := Read(in)
			if err != nil {
				t.Fatal(err)
			}
			compare(t, d, want)
		})
	}
}

func compare(t *testing.T, d Drawing, want expected) {
	if math.Abs(d.W-want.Page[0]) > 1e-3 || math.Abs(d.H-want.Page[1]) > 1e-3 {
		t.Errorf("page %.4f x %.4f mm, want %v", d.W, d.H, want.Page)
	}
	var unread [][2]string
	for _, u := range d.Unread {
		unread = append(unread, [2]string{u.Where, u.What})
	}
	if !slices.EqualFunc(unread, want.Unread, func(a, b [2]string) bool { return a[0] == b[0] && strings.Contains(a[1], b[1]) }) {
		t.Errorf("unread:\n%s\nwant:\n%s", lines(unread), lines(want.Unread))
	}
	if want.Marks != nil {
		compareMarks(t, d.Lines, want.Marks)
	}
	for _, m := range want.Measured {
		rest := d.Lines
		for i, s := range m.Shapes {
			if len(rest) < s.Lines {
				t.Errorf("%s: %d lines, and none for shape %d, %q", m.Source, len(d.Lines), i, s.ID)
				break
			}
			if err := near(rest[:s.Lines], s, m.Tolerance); err != nil {
				t.Errorf("%s: shape %d, %q: %v", m.Source, i, s.ID, err)
			}
			rest = rest[s.Lines:]
		}
		if len(rest) > 0 {
			t.Errorf("%s: %d lines too many, from %q on", m.Source, len(rest), rest[0].Name)
		}
	}
}

func lines(list [][2]string) string {
	var b strings.Builder
	for _, l := range list {
		fmt.Fprintf(&b, "  %s: %s\n", l[0], l[1])
	}
	return b.String()
}

// near tells in what the lines of one shape differ from what was measured.
func near(ls []Line, s measuredShape, tol float64) error {
	if s.Box != nil {
		return nearBox(ls[0], *s.Box, tol)
	}
	var all []geom.Polyline
	sum := 0.0
	for _, l := range ls {
		all = append(all, l.Path.Flatten())
		sum += all[len(all)-1].Length()
	}
	if math.Abs(sum-s.Length) > tol+0.001*s.Length {
		return fmt.Errorf("length %.4f mm, want %.4f", sum, s.Length)
	}
	first, last := all[0][0], all[len(all)-1][len(all[len(all)-1])-1]
	for k, q := range s.Points {
		p := geom.Pt(q[0], q[1])
		away := math.Inf(1)
		for _, pl := range all {
			for i := 1; i < len(pl); i++ {
				_, on := geom.NearestOnSegment(p, pl[i-1], pl[i])
				away = math.Min(away, geom.Dist(p, on))
			}
		}
		if k == 0 {
			away = geom.Dist(p, first)
		} else if k == len(s.Points)-1 {
			away = geom.Dist(p, last)
		}
		if !(away <= tol+geom.Sagitta) {
			return fmt.Errorf("place %d, %v mm, is %.4f mm off the line; allowed %.4f", k, q, away, tol+geom.Sagitta)
		}
	}
	return nil
}

func nearBox(l Line, want [4]float64, tol float64) error {
	lo, hi := l.Path.Flatten().Bounds()
	for i, v := range []float64{lo.X, lo.Y, hi.X, hi.Y} {
		if !(math.Abs(v-want[i]) <= tol+geom.Sagitta) {
			return fmt.Errorf("it lies in %v to %v, want %v", lo, hi, want)
		}
	}
	return nil
}

func compareMarks(t *testing.T, got []Line, want []mark) {
	if len(got) != len(want) {
		t.Fatalf("%d lines, want %d", len(got), len(want))
	}
	for i, w := range want {
		l := got[i]
		if l.Name != w.Name || l.Kind != w.Kind || l.Closed != w.Closed || len(l.Dots) != len(w.Dots) {
			t.Errorf("line %d: %q, %s, closed %v, dots %v; want %q, %s, %v, %v", i, l.Name, l.Kind, l.Closed, l.Dots, w.Name, w.Kind, w.Closed, w.Dots)
			continue
		}
		for k, s := range w.Dots {
			if math.Abs(l.Dots[k]-s) > 1e-6 {
				t.Errorf("line %d, %q: dot %d at %v mm, want %v", i, l.Name, k, l.Dots[k], s)
			}
		}
	}
}
