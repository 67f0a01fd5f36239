package scoring

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// strokeTrace is one stroke of a recording, with its name.
type strokeTrace struct {
	name string
	tr   trace.Trace
}

// txtStrokes reads START, x,y,t in ms, and BREAK where the pen was lifted.
func txtStrokes(t *testing.T, file string) (out []strokeTrace) {
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	cur := strokeTrace{name: filepath.Base(file)}
	for _, line := range strings.Fields(string(text)) {
		parts := strings.Split(line, ",")
		if len(parts) != 3 {
			if len(cur.tr.Samples) > 0 {
				out = append(out, cur)
			}
			cur = strokeTrace{name: fmt.Sprintf("%s, stroke %d", filepath.Base(file), len(out))}
			continue
		}
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(parts[i], 64); err != nil {
				t.Fatalf("%s: %v", file, err)
			}
		}
		cur.tr.Samples = append(cur.tr.Samples, trace.Sample{T: v[2] / 1000, P: geom.Pt(v[0], v[1]), Pressure: 0.5})
	}
	return out
}

// symbolStrokes reads strokes of {x, y, time in ms}.
func symbolStrokes(t *testing.T, file string, text []byte) (out []strokeTrace) {
	var strokes [][]struct{ X, Y, Time float64 }
	if err := json.Unmarshal(text, &strokes); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	for k, stroke := range strokes {
		s := strokeTrace{name: fmt.Sprintf("%s, stroke %d", filepath.Base(file), k), tr: trace.Trace{PixelMM: 0.25}}
		for _, p := range stroke {
			s.tr.Samples = append(s.tr.Samples, trace.Sample{T: p.Time / 1000, P: geom.Pt(p.X/4, p.Y/4), Pressure: 0.5})
		}
		out = append(out, s)
	}
	return out
}

// rawStrokes reads symbols of strokes of [x, y, time in ms].
func rawStrokes(t *testing.T, file string, text []byte) (out []strokeTrace) {
	var symbols []struct{ Strokes [][][3]float64 }
	if err := json.Unmarshal(text, &symbols); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	for n, sym := range symbols {
		for k, stroke := range sym.Strokes {
			s := strokeTrace{name: fmt.Sprintf("%s, symbol %d, stroke %d", filepath.Base(file), n, k), tr: trace.Trace{PixelMM: 0.25}}
			for _, p := range stroke {
				s.tr.Samples = append(s.tr.Samples, trace.Sample{T: p[2] / 1000, P: geom.Pt(p[0]/4, p[1]/4), Pressure: 0.5})
			}
			out = append(out, s)
		}
	}
	return out
}

// pointerEvents reads what Chrome sent for a pen.
func pointerEvents(t *testing.T, file string) []strokeTrace {
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var e struct{ X, Y, Time, Pressure []float64 }
	if err := json.Unmarshal(text, &e); err != nil {
		t.Fatal(err)
	}
	s := strokeTrace{name: filepath.Base(file), tr: trace.Trace{Device: trace.Pen}}
	for i := range e.X {
		s.tr.Samples = append(s.tr.Samples, trace.Sample{T: e.Time[i] / 1000, P: geom.Pt(e.X[i]/4, e.Y[i]/4), Pressure: e.Pressure[i]})
	}
	return []strokeTrace{s}
}

// Strokes recorded in many browsers, with equal times, uneven steps and gaps, are
// measured along their own outline: none fails but those without movement, equal
// times and gaps are counted as a plain count over the samples has them, no
// figure is NaN, and a stroke of more than a tenth of a second covers its own outline
// where all of it was recorded.
func TestRecordedInBrowsers(t *testing.T) {
	var all []strokeTrace
	files, _ := filepath.Glob(recorded + "omniglot/*.txt")
	for _, file := range files {
		all = append(all, txtStrokes(t, file)...)
	}
	files, _ = filepath.Glob(recorded + "hwrt/*.json")
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text[:20]), "label") {
			all = append(all, rawStrokes(t, file, text)...)
		} else {
			all = append(all, symbolStrokes(t, file, text)...)
		}
	}
	all = append(all, pointerEvents(t, recorded+"handwriting-sample/chrome_pointer_events.json")...)
	if len(all) < 300 {
		t.Fatalf("only %d strokes were read", len(all))
	}
	measured := 0
	for _, s := range all {
		if checkStroke(t, s) {
			measured++
		}
	}
	t.Logf("%d of %d strokes measured", measured, len(all))
}

func checkStroke(t *testing.T, s strokeTrace) (measured bool) {
	var path geom.Polyline
	equal, gaps := 0, 0
	for i, p := range s.tr.Samples {
		path = append(path, p.P)
		if i == 0 {
			continue
		}
		q := s.tr.Samples[i-1]
		if p.T == q.T {
			equal++
		}
		if p.T-q.T > trace.GapTime && geom.Dist(p.P, q.P) > max(trace.StillMM, 2*s.tr.PixelMM) {
			gaps++
		}
	}
	line, err := geom.NewLine(path)
	if err != nil || s.tr.Duration() == 0 {
		return false // a dot
	}
	rep, err := Score(line, s.tr, plan())
	if err != nil {
		t.Errorf("%s: %v", s.name, err)
		return false
	}
	if rep.Merged != equal {
		t.Errorf("%s: %d samples merged, %d share their time", s.name, rep.Merged, equal)
	}
	if (rep.Unrecorded > 0) != (gaps > 0) && equal == 0 {
		t.Errorf("%s: %v s unrecorded, but %d gaps", s.name, rep.Unrecorded, gaps)
	}
	if _, err := json.Marshal(rep); err != nil {
		t.Errorf("%s: %v", s.name, err)
	}
	if c := rep.Coverage.Value; gaps == 0 && rep.Duration > 0.1 && c < 0.9 {
		t.Errorf("%s: covers %v of its own outline", s.name, c)
	}
	return true
}
