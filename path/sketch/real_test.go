package sketch

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"unthreaded/path/geom"
)

// Spirals drawn by people (graphomotor, github childmindresearch, LGPL-2.1; percent of
// their canvas, taken as 2 mm each) of four turns. The hand is followed within
// the tolerance and its own tremor, 1 mm, by a twentieth of as many nodes as there are
// samples. A spiral has no corner, but at its centre it bends within less than the
// scale of 3 mm, and a hand that traces slowly jerks: two corners at most in 690 mm.
func TestFitOfSpiralsDrawnByPeople(t *testing.T) {
	files, err := filepath.Glob("../../testdata/traces/graphomotor-spirals/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no spirals: %v", err)
	}
	for _, file := range files {
		stroke := readStroke(t, file)
		s, told := mustFit(t, stroke, Usual(0))
		t.Logf("%s: %d samples, %.0f mm: %+v", filepath.Base(file), len(stroke), s.Length(), told)
		if len(told.Corners) > 2 || told.Pieces > len(stroke)/20 || told.MaxChange > 1 {
			t.Errorf("%s: %+v, expected at most 2 corners, %d pieces and 1 mm", filepath.Base(file), told, len(stroke)/20)
		}
	}
}

func readStroke(t *testing.T, file string) geom.Polyline {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	var out geom.Polyline
	for i, r := range rows[1:] {
		x, err := strconv.ParseFloat(r[2], 64)
		y, err2 := strconv.ParseFloat(r[3], 64)
		if err != nil || err2 != nil {
			t.Fatalf("%s: row %d: %v %v", file, i+1, err, err2)
		}
		out = append(out, geom.Pt(2*x, 2*y))
	}
	return out
}
