package scoring

import (
	"bytes"
	"encoding/csv"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"unthreaded/path/geom"
)

// Any reader of RFC 4180 gets the figures back, each under a heading with a unit.
func TestCSVHoldsTheFigures(t *testing.T) {
	l := loops(t)
	full := score(t, l, movementOf(t, l, 120), plan())
	short := score(t, mustLine(t, geom.MustParse("M 0 0 L 10 0")),
		hand(func(t float64) geom.Point { return geom.Pt(10*t, 0) }, 0.3, 60), plan())
	var b bytes.Buffer
	if err := WriteCSV(&b, []Named{{"loops, \"first\"", full}, {"short", short}}); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 3 || rows[1][0] != "loops, \"first\"" || rows[2][0] != "short" {
		t.Fatalf("%d rows, names %q and %q", len(rows), rows[1][0], rows[2][0])
	}
	unit := regexp.MustCompile(`^[^\[]+ \[[a-zA-Z0-9/]+\]$`)
	for k, h := range rows[0][1:] {
		if !unit.MatchString(h) {
			t.Errorf("heading %q names no unit", h)
		}
		f := columns[k].of(full)
		if v, err := strconv.ParseFloat(rows[1][k+1], 64); f.Defined && (err != nil || math.Abs(v-f.Value) > 1e-5*math.Abs(f.Value)) {
			t.Errorf("%s: read %q, want %v", h, rows[1][k+1], f.Value)
		}
	}
	for k, h := range rows[0] {
		if h == "speed CV [1]" && rows[2][k] != "" {
			t.Errorf("%s of a movement of 0.3 s is %q, want none", h, rows[2][k])
		}
	}
}

// The characters that OWASP names under "CSV Injection" get an apostrophe before them;
// numbers and all other texts are left alone.
func TestCellsAreNoFormulas(t *testing.T) {
	for text, want := range map[string]string{
		"=1+1": "'=1+1", "+SUM(A1)": "'+SUM(A1)", "-2+3": "'-2+3", "@cmd": "'@cmd", "\tx": "'\tx", "\rx": "'\rx", "\nx": "'\nx", "＝1": "'＝1",
		"-": "'-", "": "", "-2.5": "-2.5", "+1e-05": "+1e-05", "5": "5", "My block": "My block", "a=b": "a=b", "'=1": "'=1", "Äpfel": "Äpfel",
	} {
		if got := Cell(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
	var b bytes.Buffer
	table, err := NewTable(&b, "name")
	if err != nil {
		t.Fatal(err)
	}
	if err := table.Row(map[Code]Figure{Cruise: figure(-3)}, `=HYPERLINK("x")`); err != nil || table.Flush() != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	if err != nil || rows[1][0] != `'=HYPERLINK("x")` || !slices.Contains(rows[1], "-3") {
		t.Errorf("the row is %q (%v)", rows, err)
	}
}
