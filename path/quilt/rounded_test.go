package quilt

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Every change that would make the size right does so when it is made; rounded to the
// eighth of an inch, the size that is said is that of the rounded measure to the last
// micrometre, and misses the wanted one by no more than rounding allows.
func TestChangesAddUp(t *testing.T) {
	const eighth = inch / 8
	rapid.Check(t, func(rt *rapid.T) {
		q := Quilt{Schema: Schema, ID: "q", Setting: rapid.SampledFrom([]Setting{Straight, OnPoint}).Draw(rt, "setting"),
			Rows: rapid.IntRange(1, 8).Draw(rt, "rows"), Cols: rapid.IntRange(1, 8).Draw(rt, "cols"),
			BlockMM: inch * rapid.Float64Range(4, 12).Draw(rt, "block")}
		if rapid.Bool().Draw(rt, "sashing") {
			q.Sashing.WidthMM = inch * rapid.Float64Range(1, 3).Draw(rt, "width")
		}
		for range rapid.IntRange(0, 2).Draw(rt, "borders") {
			q.Borders = append(q.Borders, Border{WidthMM: inch * rapid.Float64Range(1, 6).Draw(rt, "border")})
		}
		want := Size{inch * rapid.Float64Range(20, 120).Draw(rt, "across"), inch * rapid.Float64Range(20, 120).Draw(rt, "down")}
		f := q.FitTo(want)
		for _, c := range f.Both {
			if got := q.With(c).Size(); math.Abs(got.W-want.W) > sameSize || math.Abs(got.H-want.H) > sameSize {
				rt.Fatalf("%+v makes the top %v, not %v", c, got, want)
			}
		}
		for _, c := range f.Across {
			if got := q.With(c).Size(); math.Abs(got.W-want.W) > sameSize || got != c.After {
				rt.Fatalf("%+v makes the top %v, not %v across", c, got, want.W)
			}
			r := q.Rounded(c, eighth)
			if n := r.To / eighth; math.Abs(n-math.Round(n)) > 1e-6 {
				rt.Fatalf("%v mm is no whole number of eighths", r.To)
			}
			if got := q.With(r).Size(); got != r.After {
				rt.Fatalf("rounded, the top is said to be %v and is %v", r.After, got)
			}
			count := float64(2*q.Cols+2) * math.Sqrt2
			if math.Abs(r.After.W-want.W) > count*eighth/2+sameSize {
				rt.Fatalf("rounded, the top is %v mm across, wanted %v", r.After.W, want.W)
			}
		}
	})
}

// The largest bed that tops are laid out for: 120 x 120 in, straight and on point, with
// sashing, cornerstones and a border; on point the rows are diagonal and begin and end
// with a triangle.
func TestLargestTops(t *testing.T) {
	straight := Quilt{Schema: Schema, ID: "q", Setting: Straight, Rows: 9, Cols: 9, BlockMM: 10 * inch,
		Sashing: Sashing{WidthMM: 2 * inch, Cornerstones: true}, Borders: []Border{{WidthMM: 7 * inch, Corners: true}}}
	point := straight
	point.Setting, point.Rows, point.Cols = OnPoint, 6, 6
	point.Borders = []Border{{WidthMM: (120*inch - point.Inner().W) / 2}}
	for name, q := range map[string]Quilt{"straight": straight, "on point": point} {
		if err := q.Validate(); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		// Straight: 9 x 10 + 8 x 2 + 2 x 7 = 120 in.
		if s := q.Size(); math.Abs(s.W-120*inch) > 1e-6 || math.Abs(s.H-120*inch) > 1e-6 {
			t.Errorf("%s: %v in, want 120 x 120", name, Size{s.W / inch, s.H / inch})
		}
		area := 0.0
		for _, c := range q.Cells() {
			area += c.Shape.Area()
		}
		if want := q.Size().W * q.Size().H; math.Abs(area-want) > 1e-6*want {
			t.Errorf("%s: the places cover %.0f mm2, the top %.0f", name, area, want)
		}
	}
	for _, row := range point.SewingRows() {
		cells := point.Cells()
		first, last := cells[row[0]].Kind, cells[row[len(row)-1]].Kind
		if cells[row[len(row)/2]].Kind == Block && (first != SettingTriangle && first != CornerTriangle || last != SettingTriangle && last != CornerTriangle) {
			t.Errorf("a diagonal row begins with %s and ends with %s", first, last)
		}
	}
}
