package trace

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// inkFile is what a file of testdata/ink holds, worked out by hand from its numbers.
type inkFile struct {
	// places are those of each trace in mm, and last the time in s of its last sample.
	places   []string
	last     []float64
	pressure float64 // of the second sample of the first trace; 0 is not looked at
	timeless bool
	started  []time.Time
	guess    float64 // of the unit, in mm, where the file gives none; places are in it
}

// Each file is written after a section of the W3C Recommendation (2011), which its comment
// names (the numbers of the sections from memory).
var inkFiles = map[string]inkFile{
	"prefix":     {places: []string{"10 20, 11 21, 12.5 22"}, last: []float64{0.016}},
	"resolution": {places: []string{"10 20, 11 21"}, last: []float64{0.01}, pressure: 1},
	"himetric":   {places: []string{"25 10, 25.5 10, 26.5 9"}, last: []float64{0}, timeless: true},
	"differences": {places: []string{"11.25 184.32, 11.48 184.75, 11.78 185.1, 12.11 185.4, 12.51 185.67, 12.97 185.96, 13.49 186.33, 14.04 186.76"},
		last: []float64{0.07}},
	"tip": {places: []string{"1 1, 2 1", "5 2, 6 2"}, last: []float64{0.005, 0.025}, pressure: 0.75},
	"contexts": {places: []string{"10 20, 15 20", "30 40, 35 40"}, last: []float64{0.01, 0.01},
		started: []time.Time{time.Date(2024, 3, 1, 10, 15, 30, 0, time.Local), time.Date(2024, 3, 1, 10, 15, 32, 5e8, time.Local)}},
	"unitless": {timeless: true, guess: 1},
	"device":   {places: []string{"0 0, 70 20, 150 90"}, last: []float64{0.9}, guess: 0.01},
}

func TestInkOfOtherPrograms(t *testing.T) {
	files, err := filepath.Glob("../../testdata/ink/*.inkml")
	if err != nil || len(files) != len(inkFiles) {
		t.Fatalf("%d files, %d are told of (%v)", len(files), len(inkFiles), err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".inkml")
		want, told := inkFiles[name]
		if !told {
			t.Errorf("%s: nobody tells what is in it", name)
			continue
		}
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			want.check(t, string(text))
		})
	}
}

func (want inkFile) check(t *testing.T, text string) {
	got, err := ReadInk(strings.NewReader(text), 0)
	if want.guess > 0 {
		var unit *UnitError
		if !errors.As(err, &unit) || unit.GuessMM != want.guess {
			t.Fatalf("of the unit it says %v, want a guess of %v mm", err, want.guess)
		}
		got, err = ReadInk(strings.NewReader(text), unit.GuessMM)
	}
	if err != nil {
		t.Fatal(err)
	}
	for i, k := range got {
		if k.Timeless != want.timeless {
			t.Errorf("trace %d: without times is %v", i, k.Timeless)
		}
	}
	for i, places := range want.places {
		near(t, "last time", got[i].Samples[len(got[i].Samples)-1].T, want.last[i], 1e-9)
		if c := rounded(got[i].Trace); c != places {
			t.Errorf("trace %d is %s, want %s", i, c, places)
		}
	}
	for i, at := range want.started {
		near(t, "begun", got[i].Started, float64(at.UnixMilli()), 0)
	}
	if want.pressure > 0 {
		near(t, "pressure", got[0].Samples[1].Pressure, want.pressure, 1e-9)
	}
}

// rounded writes places to 1e-6 mm.
func rounded(tr Trace) string {
	for i, s := range tr.Samples {
		tr.Samples[i].P.X, tr.Samples[i].P.Y = math.Round(s.P.X*1e6)/1e6, math.Round(s.P.Y*1e6)/1e6
	}
	return coords(tr)
}

// A page of ink that fills half a sheet of A4 (ISO 216: 210 x 297 mm) is guessed right in
// each unit in which programs count, whatever its shape, and one 1.15 times as large too.
func TestTheUnitIsGuessedFromThePage(t *testing.T) {
	for _, unit := range usualUnits {
		for _, times := range []float64{1, 1.15} {
			long := 148.5 * times / unit
			text := "<ink><trace>0 0, " + plain(long) + " " + plain(long/3) + "</trace></ink>"
			_, err := ReadInk(strings.NewReader(text), 0)
			var e *UnitError
			if !errors.As(err, &e) || e.GuessMM != unit || math.Abs(e.Width-long) > 1e-9 {
				t.Errorf("%v mm: %+v (%v)", unit, e, err)
			}
		}
	}
}

// Pressure without a range goes by the strongest of the trace.
func TestPressureWithoutARange(t *testing.T) {
	got := read(t, `<ink><traceFormat><channel name="X" units="mm"/><channel name="Y" units="mm"/><channel name="T"/><channel name="F"/></traceFormat><trace>0 0 0 500, 1 1 9 2000</trace></ink>`)
	near(t, "pressure", got[0].Samples[0].Pressure, 0.25, 1e-12)
	near(t, "pressure", got[0].Samples[1].Pressure, 1, 1e-12)
}
