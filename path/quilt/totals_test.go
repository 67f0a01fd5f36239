package quilt

import (
	"encoding/json"
	"maps"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// sizes is a layout with what it adds up to, in inches; 0 where the source does not
// say.
type sizes struct {
	Name, Source string
	Quilt        Quilt
	Want         struct {
		Top, Inner    [2]float64
		Diagonal      float64
		SideCut       float64 `json:"side_cut"`
		CornerCut     float64 `json:"corner_cut"`
		SideSquares   int     `json:"side_squares"`
		CornerSquares int     `json:"corner_squares"`
		Counts        map[Kind]int
	}
}

// upToEighth rounds inches up to the eighth as handbooks do.
func upToEighth(mm float64) float64 { return math.Ceil(mm/inch*8-1e-9) / 8 }

// Tables of the trade: every file of the folder, each naming its source.
func TestSizesOfTheTrade(t *testing.T) {
	files, err := filepath.Glob("../../testdata/quilt/sizes/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no files (%v)", err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var s sizes
		if err := json.Unmarshal(data, &s); err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		if err := s.Quilt.Validate(); err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		got := s.Quilt.Totals()
		check := func(what string, got, want float64) {
			if want != 0 && math.Abs(got-want) > 0.005+1e-9 {
				t.Errorf("%s: %s is %.4f, want %v", s.Name, what, got, want)
			}
		}
		check("width in", got.Top.W/inch, s.Want.Top[0])
		check("height in", got.Top.H/inch, s.Want.Top[1])
		check("inner width in", got.Inner.W/inch, s.Want.Inner[0])
		check("inner height in", got.Inner.H/inch, s.Want.Inner[1])
		check("diagonal in", got.DiagonalMM/inch, s.Want.Diagonal)
		check("square for side triangles in", upToEighth(got.Side.CutMM), s.Want.SideCut)
		check("square for corner triangles in", upToEighth(got.Corner.CutMM), s.Want.CornerCut)
		check("squares for the sides", float64(got.Side.Squares), float64(s.Want.SideSquares))
		check("squares for the corners", float64(got.Corner.Squares), float64(s.Want.CornerSquares))
		counts := map[Kind]int{}
		for _, k := range got.Counts {
			counts[k.Kind] = k.Count
		}
		if !maps.Equal(counts, s.Want.Counts) {
			t.Errorf("%s: counts %v, want %v", s.Name, counts, s.Want.Counts)
		}
	}
}

// The squares to cut for the triangles of a setting on point, for the usual sizes of
// block, in inches: side triangles (a square cut twice diagonally) and corners (cut
// once). Common practice, as handbooks print it rounded up to the eighth; from memory.
func TestCutsOfSettingTriangles(t *testing.T) {
	for _, c := range []struct{ block, diagonal, side, corner float64 }{
		{4, 5.66, 7, 3.75},
		{6, 8.49, 9.75, 5.125},
		{8, 11.31, 12.625, 6.625},
		{9, 12.73, 14, 7.25},
		{10, 14.14, 15.5, 8},
		{12, 16.97, 18.25, 9.375},
		{14, 19.80, 21.125, 10.875},
		{16, 22.63, 24, 12.25},
	} {
		q := plain(OnPoint, 3, 2)
		q.BlockMM = c.block * inch
		got := q.Totals()
		if math.Abs(got.DiagonalMM/inch-c.diagonal) > 0.005 || upToEighth(got.Side.CutMM) != c.side || upToEighth(got.Corner.CutMM) != c.corner {
			t.Errorf("block %v in: diagonal %.3f, cut %v and %v in, want %v, %v and %v", c.block,
				got.DiagonalMM/inch, upToEighth(got.Side.CutMM), upToEighth(got.Corner.CutMM), c.diagonal, c.side, c.corner)
		}
	}
}

// The allowances are those of the geometry of a 1/4 in seam, rounded up to the eighth:
// a right isosceles triangle with a seam s outside every side has a leg longer by
// (2+sqrt2) s and a long side longer by (2+2 sqrt2) s.
func TestAllowancesFollowFromTheSeam(t *testing.T) {
	const seam = inch / 4
	if got := upToEighth((2 + math.Sqrt2) * seam); got != HalfSquareMM/inch {
		t.Errorf("half-square: %v in, want %v", got, HalfSquareMM/inch)
	}
	if got := upToEighth((2 + 2*math.Sqrt2) * seam); got != QuarterSquareMM/inch {
		t.Errorf("quarter-square: %v in, want %v", got, QuarterSquareMM/inch)
	}
}
