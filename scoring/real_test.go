package scoring

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// recorded is the folder of recorded human movement.
const recorded = "../testdata/traces/"

// spiralTrace reads a drawn spiral, in percent of its canvas, as mm; y may point
// either way.
func spiralTrace(t testing.TB, file string, flip bool) trace.Trace {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	tr := trace.Trace{Device: trace.Touch, Ending: trace.Lifted}
	for _, row := range rows[1:] {
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i+1], 64); err != nil {
				t.Fatal(err)
			}
		}
		p := geom.Pt(v[1]-50, v[2]-50)
		if flip {
			p.Y = -p.Y
		}
		tr.Samples = append(tr.Samples, trace.Sample{T: v[0], P: p, Pressure: 0.5})
	}
	return tr
}

// idealSpiral is r = 1.075 theta, four turns, the template of the recordings.
func idealSpiral(t testing.TB) geom.Line {
	return mustLine(t, geom.Flatten(func(th float64) geom.Point {
		return geom.Pt(1.075*th*math.Cos(th), 1.075*th*math.Sin(th))
	}, 0, 8*math.Pi, 64))
}

// Spirals drawn by people who were not asked to be even. For those traced over
// the template, speed CV is within 0.03 and the exponent within 0.05 of the
// published summary (scipy; CV without the first and last half second, the
// exponent over the template's curvature from half a turn on). Those drawn from
// memory have other turns than the template: the summary's nearest points wander
// between them, so that its exponent for them means little, and ours are not held
// to it.
func TestRecordedSpirals(t *testing.T) {
	var f struct{ Rows []spiralRow }
	vectors(t, "real_spirals_summary.json", &f)
	files, err := filepath.Glob(recorded + "graphomotor-spirals/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no spirals: %v", err)
	}
	l := idealSpiral(t)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".csv")
		tr := spiralTrace(t, file, false)
		rep := score(t, l, tr, plan())
		if flipped := score(t, l, spiralTrace(t, file, true), plan()); flipped.Coverage.Value > rep.Coverage.Value {
			tr, rep = spiralTrace(t, file, true), flipped
		}
		if strings.Contains(name, "perfect") {
			near(t, name+": speed CV", rep.Evenness.SpeedCV.Value, 0, 0.001)
			near(t, name+": exponent", rep.Slowing.Exponent.Value, 0, 0.001)
			near(t, name+": coverage", rep.Coverage.Value, 1, 0)
		}
		for _, row := range f.Rows {
			if name == "p"+row.PID+"_"+row.Task {
				near(t, name+": speed CV", score(t, l, shortened(tr, 0.25), plan()).Evenness.SpeedCV.Value, row.CV, 0.03)
				row.compare(t, name, rep)
			}
		}
	}
}

type spiralRow struct {
	PID, Task string
	CV        float64
	Beta      float64 `json:"beta_ideal"`
	Lateral   float64 `json:"lat_mean"`
}

// compare holds the report of a spiral traced over the template against the
// summary.
func (row spiralRow) compare(t *testing.T, name string, rep Report) {
	if !strings.Contains(row.Task, "trace") {
		return
	}
	if !rep.Order.Followed {
		t.Errorf("%s: not followed, Frechet distance %+v", name, rep.Order.Frechet)
	}
	near(t, name+": exponent", rep.Slowing.Exponent.Value, row.Beta, 0.05)
	near(t, name+": mean error", rep.Lateral.MeanError.Value, row.Lateral, 0.05)
	near(t, name+": coverage", rep.Coverage.Value, 1, 0.01)
}

// shortened leaves out so many seconds at both ends.
func shortened(tr trace.Trace, seconds float64) trace.Trace {
	out := tr
	out.Samples = nil
	for _, s := range tr.Samples {
		if s.T >= tr.Samples[0].T+seconds && s.T <= tr.Samples[len(tr.Samples)-1].T-seconds {
			out.Samples = append(out.Samples, s)
		}
	}
	return out
}
