package keep

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/scoring/trace"
)

func sample(t testing.TB) Record {
	t.Helper()
	m, _ := motif.Find("ruler-zigzag")
	l, err := m.Rehearsal().Line(2)
	if err != nil {
		t.Fatal(err)
	}
	r := Record{ID: "1", Started: 5, Motif: m.ID, Repeats: 2, Way: "pencil", SPM: 600, StitchMM: 2.54, Zoom: 1, PxPerMM: 3.78}
	r.SetLine(l)
	r.SetTrace(trace.Trace{Device: trace.Pen, Ending: trace.Lifted, Samples: []trace.Sample{
		{T: 0, P: geom.Pt(1.23456789, 2), Pressure: 0.5}, {T: 0.0041667, P: geom.Pt(1.5, 2.25), Pressure: 0.25},
	}})
	return r
}

// Encoding and decoding changes nothing, to the last bit.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := sample(t)
		n := rapid.IntRange(1, 40).Draw(rt, "n")
		tr := trace.Trace{Device: trace.Mouse, Ending: trace.Interrupted}
		v := rapid.Float64Range(-500, 500)
		for i := 0; i < n; i++ {
			tr.Samples = append(tr.Samples, trace.Sample{T: float64(i) * 0.00833, P: geom.Pt(v.Draw(rt, "x"), v.Draw(rt, "y")), Pressure: 0.1})
		}
		for _, i := range rapid.SliceOfN(rapid.IntRange(0, n-1), 0, min(n, 3)).Draw(rt, "holds") {
			tr.Holds = append(tr.Holds, trace.Hold{T: tr.Samples[i].T, Pause: rapid.Float64Range(0, 5000).Draw(rt, "pause")})
		}
		r.SetTrace(tr)
		for i, h := range r.Holds {
			if k := slices.Index(r.Samples.T, h.T); k < 0 || math.Abs(h.Pause-tr.Holds[i].Pause) > 1e-5 {
				rt.Errorf("hold %+v is kept as %+v, which stands at no sample", tr.Holds[i], h)
			}
		}
		doc, err := Encode(r)
		if err != nil {
			rt.Fatal(err)
		}
		back, err := Decode(doc)
		if err != nil {
			rt.Fatal(err)
		}
		r.Schema = Schema
		if !reflect.DeepEqual(back, r) {
			rt.Fatalf("came back changed:\n%+v\n%+v", back, r)
		}
		for i, s := range back.Trace().Samples {
			if d := geom.Dist(s.P, tr.Samples[i].P); d > 1e-4 || math.Abs(s.T-tr.Samples[i].T) > 1e-5 {
				rt.Fatalf("sample %d moved by %v mm and %v s", i, d, s.T-tr.Samples[i].T)
			}
		}
	})
}

// A line comes back with its dots and corners for every ready motif, though its
// points are rounded.
func TestLinesComeBack(t *testing.T) {
	for _, m := range motif.Ready() {
		for n := 1; n <= m.Rehearsal().Max; n++ {
			l, err := m.Rehearsal().Line(n)
			if err != nil {
				t.Fatal(err)
			}
			r := sample(t)
			r.SetLine(l)
			back, err := r.GeomLine()
			if err != nil {
				t.Fatalf("%s with %d: %v", m.ID, n, err)
			}
			if math.Abs(back.Length()-l.Length()) > 0.05 || len(back.Dots) != len(l.Dots) || len(back.Corners) != len(l.Corners) {
				t.Errorf("%s with %d: %.3f mm, %d dots, %d corners; was %.3f, %d, %d", m.ID, n,
					back.Length(), len(back.Dots), len(back.Corners), l.Length(), len(l.Dots), len(l.Corners))
			}
		}
	}
}

func TestDamagedRecordsSayWhatIsWrong(t *testing.T) {
	good, err := Encode(sample(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ from, to, want string }{
		{`"schema":2`, `"schema":3`, "newer version"},
		{`"schema":2`, `"schema":0`, "names no form"},
		{`"id":"1"`, `"id":""`, "has no id"},
		{`"spm":600`, `"spm":0`, "must all be above 0"},
		{`"y_mm":[2,2.25]`, `"y_mm":[2]`, "2 times stand beside 2 x, 1 y"},
		{`"points_mm":[[0,50.8]`, `"points_mm":[[0,50.8]],"x":[[0,0]`, "its line"},
		{`"samples":{`, `"holds":[{"t_s":1,"pause_s":-1}],"samples":{`, "hold 0: time 1 s after a pause of -1 s"},
		{`"t_s":[0`, `"t_s":["a"`, "not a trace record"},
	} {
		doc := strings.Replace(string(good), c.from, c.to, 1)
		if doc == string(good) {
			t.Errorf("%q does not stand in the document", c.from)
			continue
		}
		if _, err := Decode([]byte(doc)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.to, err, c.want)
		}
	}
}

// Every record ever written must open. The files of testdata/records are documents
// of past versions of this program; a new form adds one and takes none away.
func TestOldRecordsOpen(t *testing.T) {
	files, err := filepath.Glob("../../testdata/records/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no records found: %v", err)
	}
	for _, f := range files {
		doc, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Decode(doc)
		if err != nil {
			t.Errorf("%s: %v", filepath.Base(f), err)
			continue
		}
		sameDocument(t, filepath.Base(f), doc, r)
		if d := r.Trace().Duration(); !(d > 1) {
			t.Errorf("%s: the trace lasts %v s, want more than 1", filepath.Base(f), d)
		}
	}
}

// sameDocument checks that a record written again has every byte that it had, and
// nothing that it never had but an empty name. Form and measures are those of this
// version.
func sameDocument(t *testing.T, name string, doc []byte, r Record) {
	t.Helper()
	again, err := Encode(r)
	if err != nil {
		t.Fatal(err)
	}
	var before, after map[string]json.RawMessage
	if err := errors.Join(json.Unmarshal(doc, &before), json.Unmarshal(again, &after)); err != nil {
		t.Fatal(err)
	}
	for _, made := range []string{"schema", "measures"} {
		delete(before, made)
		delete(after, made)
	}
	for key, was := range before {
		if string(after[key]) != string(was) {
			t.Errorf("%s: %q is written again as %.80s, was %.80s", name, key, after[key], was)
		}
		delete(after, key)
	}
	delete(after, "name")
	for key, is := range after {
		t.Errorf("%s: written again it has %q: %.80s", name, key, is)
	}
}

func FuzzDecode(f *testing.F) {
	// Small ones: the time of a try grows with the document.
	r := sample(f)
	r.Line = LineDoc{Points: [][2]float64{{0, 0}, {9, 0}}}
	doc, err := Encode(r)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	f.Add([]byte(`{"schema":1,"id":"a","spm":1,"stitch_mm":1,"zoom":1,"px_per_mm":1,"line":{"points_mm":[[0,0],[9,0]]},"measures":{"advice":[]}}`))
	f.Add([]byte(`{"schema":1,"id":"a","samples":{"t_s":[1e999]}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		r, err := Decode(doc)
		if err != nil {
			return
		}
		again, err := Encode(r)
		if err != nil {
			t.Fatalf("read but cannot be written: %v", err)
		}
		if _, err := Decode(again); err != nil {
			t.Fatalf("written but cannot be read: %v", err)
		}
	})
}
