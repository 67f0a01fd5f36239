package game_test

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// recorded is the folder of recorded human movement.
const recorded = "../testdata/traces/"

// drawRecorded feeds a recorded movement in mm to the program as a live pointer.
func drawRecorded(tb *table, samples []trace.Sample, d trace.Device) {
	for i, s := range samples {
		kind := game.Move
		if i == 0 {
			kind = game.Down
		}
		tb.send(tb.pointer(kind, 1, d, s, 10))
	}
	tb.send(tb.pointer(game.Up, 1, d, samples[len(samples)-1], 10))
}

// layLine puts a line on the cloth, by way of a kept trace that followed it.
func layLine(t *testing.T, tb *table, l geom.Line) {
	rec := keep.Record{ID: "line", Motif: "linked-swirls", Repeats: 1, Way: "pencil", SPM: 600, StitchMM: 2.54, Zoom: 1, PxPerMM: game.GuessPxPerMM}
	rec.SetLine(l)
	rec.SetTrace(trace.Trace{Device: trace.Pen, Ending: trace.Lifted, Samples: []trace.Sample{{}, {T: 1, P: geom.Pt(9, 9)}}})
	doc, err := keep.Encode(rec)
	if err != nil {
		t.Fatal(err)
	}
	tb.send(game.Fetched{ID: "line", Doc: doc})
	if math.Abs(tb.m.Rehearsal().Line.Length()-l.Length()) > 0.1 {
		t.Fatalf("the line on the cloth is %.1f mm long, want %.1f", tb.m.Rehearsal().Line.Length(), l.Length())
	}
}

// Spirals drawn by people over a template r = 1.075 theta, and one replayed at
// constant speed (graphomotor, github childmindresearch, LGPL-2.1; 1 % of their
// canvas is taken for 1 mm). The constant one must come out very even, the drawn
// ones as uneven as people are (speed CV 0.2 to 0.6).
func TestRecordedSpirals(t *testing.T) {
	files, err := filepath.Glob(recorded + "graphomotor-spirals/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no spirals: %v", err)
	}
	f := func(th float64) geom.Point { return geom.Pt(1.075*th*math.Cos(th), 1.075*th*math.Sin(th)) }
	spiral, err := geom.NewLine(geom.Flatten(f, 0, 8*math.Pi, 32))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		name := filepath.Base(file)
		tb := newTable(t)
		layLine(t, tb, spiral)
		drawRecorded(tb, spiralSamples(t, file), trace.Pen)
		cv := tb.m.Rehearsal().Open.Report.Evenness.SpeedCV
		switch constant := strings.Contains(name, "constant_speed"); {
		case !cv.Defined:
			t.Errorf("%s: no evenness: %s %s", name, cv.Why, tb.m.Rehearsal().Open.Unmeasured)
		case constant && cv.Value > 0.02:
			t.Errorf("%s: speed CV %.3f, want under 0.02", name, cv.Value)
		case !constant && (cv.Value < 0.2 || cv.Value > 0.6):
			t.Errorf("%s: speed CV %.3f, want 0.2 to 0.6", name, cv.Value)
		}
	}
}

// spiralSamples reads line, t_s, x, y with x and y in percent and the centre at
// (50, 50).
func spiralSamples(t *testing.T, file string) []trace.Sample {
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	num := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		return v
	}
	var out []trace.Sample
	for _, r := range rows[1:] {
		out = append(out, trace.Sample{T: num(r[1]), P: geom.Pt(num(r[2])-50, num(r[3])-50), Pressure: 0.5})
	}
	return out
}

// Pointer events recorded in Chrome with a pen (handwriting-sample, github
// BDALab, MIT): whatever is written, nothing fails, and a stroke is kept or she is told
// why not.
func TestRecordedPointerEvents(t *testing.T) {
	doc, err := os.ReadFile(recorded + "handwriting-sample/chrome_pointer_events.json")
	if err != nil {
		t.Fatal(err)
	}
	var ev struct {
		X, Y, Time, Pressure []float64
	}
	if err := json.Unmarshal(doc, &ev); err != nil {
		t.Fatal(err)
	}
	tb := newTable(t)
	down, strokes := false, 0
	for i := range ev.X {
		p := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, T: (ev.Time[i] - ev.Time[0]) / 1000, X: ev.X[i], Y: ev.Y[i], Pressure: ev.Pressure[i]}
		touching := ev.Pressure[i] > 0
		switch {
		case touching && !down:
			p.Kind = game.Down
			strokes++
		case !touching && down:
			p.Kind = game.Up
		case !touching:
			continue
		}
		down = touching
		before := len(tb.saves())
		tb.send(p)
		if p.Kind == game.Up && len(tb.saves()) == before && tb.m.Notice.In(tb.m.Book()) == "" {
			t.Errorf("stroke %d was lost without a word", strokes)
		}
	}
	if strokes < 1 {
		t.Fatalf("%d strokes in the recording, want at least one", strokes)
	}
	for _, s := range tb.saves() {
		if _, err := keep.Decode(s.Doc); err != nil {
			t.Errorf("a kept stroke does not open: %v", err)
		}
	}
}
