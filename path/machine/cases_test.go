package machine

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"unthreaded/path/geom"
)

// workedFile is a table of worked examples in the format machine/1; see the README
// beside them. Each case is read by the checker of the file's kind.
type workedFile struct {
	Format string            `json:"format"`
	Kind   string            `json:"kind"`
	Cases  []json.RawMessage `json:"cases"`
}

var checkers = map[string]func(t *testing.T, c json.RawMessage){
	"speed": checkSpeed, "pedal": checkPedal, "time": checkTime, "thread": checkThread, "bobbins": checkBobbins,
	"roll": checkRoll, "throat": checkThroat, "hang": checkHang, "turning": checkTurning, "bends": checkBends,
}

// Every file of worked examples holds.
func TestWorkedExamples(t *testing.T) {
	files, err := filepath.Glob("../../testdata/machine/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no worked examples found: %v", err)
	}
	seen := map[string]bool{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var f workedFile
		if err := json.Unmarshal(text, &f); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		check := checkers[f.Kind]
		if f.Format != "machine/1" || check == nil || len(f.Cases) == 0 {
			t.Fatalf("%s: format %q, kind %q with %d cases: want machine/1 and a known kind", file, f.Format, f.Kind, len(f.Cases))
		}
		seen[f.Kind] = true
		for _, c := range f.Cases {
			var head struct{ Name string }
			read(t, c, &head)
			t.Run(filepath.Base(file)+"/"+head.Name, func(t *testing.T) { check(t, c) })
		}
	}
	for kind := range checkers {
		if !seen[kind] {
			t.Errorf("no worked examples of kind %q", kind)
		}
	}
}

func read(t *testing.T, c json.RawMessage, into any) {
	t.Helper()
	if err := json.Unmarshal(c, into); err != nil {
		t.Fatalf("%s: %v", c, err)
	}
}

// near holds got against want within a share tol of want, or tol where want is 0.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if scale := math.Abs(want); !(math.Abs(got-want) <= tol*max(scale, 1e-9) || (scale == 0 && math.Abs(got) <= tol)) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

const exact = 1e-9

func checkSpeed(t *testing.T, c json.RawMessage) {
	var w struct {
		SPI, SPM, Stitch, Hand float64
		InPerS                 float64 `json:"in_per_s"`
	}
	read(t, c, &w)
	near(t, "stitch of spi", StitchOf(w.SPI), w.Stitch, exact)
	near(t, "spi", SPI(w.Stitch), w.SPI, exact)
	near(t, "in/s", InchesPerSecond(w.Hand), w.InPerS, exact)
	whole := Triangle{SPM: w.SPM, Stitch: w.Stitch}
	near(t, "hand", whole.Hand(), w.Hand, exact)
	for _, other := range []Triangle{
		must[Triangle](t)(Triangle{SPM: 600, Stitch: w.Stitch, Follows: NeedlePart}.With(HandPart, w.Hand)),
		must[Triangle](t)(Triangle{SPM: w.SPM, Stitch: 2.54, Follows: StitchPart}.With(HandPart, w.Hand)),
		must[Triangle](t)(Triangle{SPM: 600, Stitch: w.Stitch, Follows: HandPart}.With(NeedlePart, w.SPM)),
	} {
		near(t, "spm", other.SPM, w.SPM, exact)
		near(t, "stitch", other.Stitch, w.Stitch, exact)
	}
	table := must[[]SpeedRow](t)(SpeedTable(NeedleRange{w.SPM, w.SPM}, 100, []float64{w.Stitch}))
	if len(table) != 1 {
		t.Fatalf("%d rows for one needle speed", len(table))
	}
	near(t, "table", table[0].Hand[0], w.Hand, exact)
}

func checkPedal(t *testing.T, c json.RawMessage) {
	var w struct{ Hand, Stitch, Min, Max, Wanted, Set, Makes float64 }
	read(t, c, &w)
	p := must[Pedal](t)(PedalFor(w.Hand, w.Stitch, NeedleRange{w.Min, w.Max}))
	near(t, "wanted", p.Wanted, w.Wanted, exact)
	near(t, "set", p.Set, w.Set, exact)
	near(t, "stitch at that", p.Stitch, w.Makes, exact)
	if p.Fits != (w.Wanted == w.Set) || p.Fits != (len(p.Remedies) == 0) {
		t.Errorf("fits: %v with %d remedies", p.Fits, len(p.Remedies))
	}
}

func checkTime(t *testing.T, c json.RawMessage) {
	var w struct {
		Length, Hand  float64
		Stops, Halts  int
		StopS         float64 `json:"stop_s"`
		HaltS         float64 `json:"halt_s"`
		Sewing, Total float64
		Stopping      float64
		Halting       float64
	}
	read(t, c, &w)
	d := must[Duration](t)(Load{w.Length, w.Stops, w.Halts}.Time(Pace{w.Hand, w.StopS, w.HaltS}))
	near(t, "sewing", d.Sewing, w.Sewing, exact)
	near(t, "stopping", d.Stopping, w.Stopping, exact)
	near(t, "halting", d.Halting, w.Halting, exact)
	near(t, "total", d.Total, w.Total, exact)
}

func checkThread(t *testing.T, c json.RawMessage) {
	var w struct {
		Length, Stitch, Thickness, Waste, Reserve, Side, Ratio float64
		Starts, Stitches                                       int
	}
	read(t, c, &w)
	s := Seam{w.Length, w.Stitch, w.Thickness, w.Starts, w.Waste, w.Reserve}
	near(t, "ratio", s.Ratio(), w.Ratio, exact)
	th := must[Thread](t)(s.Thread())
	near(t, "top", th.Top, w.Side, exact)
	near(t, "bobbin", th.Bobbin, w.Side, exact)
	if th.Stitches != w.Stitches {
		t.Errorf("%d stitches, want %d", th.Stitches, w.Stitches)
	}
}

func lineOf(t testing.TB, path string) geom.Line {
	t.Helper()
	pl, err := geom.Parse(path)
	if err != nil {
		t.Fatal(err)
	}
	l, err := geom.NewLine(pl)
	if err != nil {
		t.Fatal(err)
	}
	return l
}
