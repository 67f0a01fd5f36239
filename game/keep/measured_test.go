package keep

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

// hand returns a record traced by an even hand at 20 mm/s, measured as when it was
// kept.
func hand(t *testing.T) Record {
	t.Helper()
	r := sample(t)
	line, err := r.GeomLine()
	if err != nil {
		t.Fatal(err)
	}
	r.SetTrace(trace.Trace{Device: trace.Pen, Ending: trace.Lifted, Samples: synth.Hand{
		Hz: 240, Speed: synth.Steady(20), Beside: func(float64) float64 { return 0.5 },
	}.Samples(line)})
	if err := r.Measure(); err != nil {
		t.Fatal(err)
	}
	return r
}

// At 20 mm/s and 600 stitches a minute a stitch is 60 x 20 / 600 = 2 mm long; what is
// followed says so, and half a mm beside the line.
func TestWhatIsFollowed(t *testing.T) {
	s := Summarise(hand(t))
	m, err := s.ReadMeasured()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(m.StitchMM-2) > 0.02 || m.SPM != 600 {
		t.Errorf("stitches of %v mm at %v a minute, want 2 at 600", m.StitchMM, m.SPM)
	}
	if got := m.Figures[progress.Beside]; math.Abs(got-0.5) > 0.05 {
		t.Errorf("%v mm beside the line, want 0.5", got)
	}
	if got := m.Places[progress.Straight][progress.Uneven]; !(got >= 0 && got < 0.05) {
		t.Errorf("on the straights it is uneven by %v, want hardly any", got)
	}
}

// A record of other measures than this program's shows none of its figures, and
// measured anew it is the one that would be written today.
func TestOlderMeasuresAreMadeAnew(t *testing.T) {
	r := hand(t)
	want := Summarise(r)
	old := r
	old.Measures.Version--
	if s := Summarise(old); s.Measured != nil || s.StitchCV != nil || s.Coverage != nil {
		t.Errorf("figures of another version are shown: %+v", s)
	}
	doc, err := Encode(old)
	if err != nil {
		t.Fatal(err)
	}
	back, err := Decode(doc)
	if err != nil {
		t.Fatal(err)
	}
	if err := back.Measure(); err != nil || !reflect.DeepEqual(Summarise(back), want) {
		t.Errorf("measured anew: %+v (%v)\nwant %+v", Summarise(back), err, want)
	}
	older := want
	older.Measured = []byte(strings.Replace(string(want.Measured), `"version":`, `"version":9`, 1))
	if _, err := older.ReadMeasured(); err == nil {
		t.Error("measures of another version are believed")
	}
}

// What is kept holds codes, no sentences: no text of two words but the name of the motif
// and the kinds of faults.
func TestNoSentenceIsKept(t *testing.T) {
	r := hand(t)
	r.Name = ""
	r.Measures.Faults = nil
	doc, err := Encode(r)
	if err != nil {
		t.Fatal(err)
	}
	if found := regexp.MustCompile(`"[^"]*\w \w[^"]*"`).Find(doc); found != nil {
		t.Errorf("the record holds %s", found)
	}
}

// What is too short to measure is marked as such and not asked for again.
func TestTooShortIsMeasuredOnce(t *testing.T) {
	r := sample(t)
	r.SetTrace(trace.Trace{Device: trace.Pen, Ending: trace.Lifted, Samples: []trace.Sample{{P: geom.Pt(1, 1)}}})
	if err := r.Measure(); err != nil {
		t.Fatal(err)
	}
	if m, err := Summarise(r).ReadMeasured(); err != nil || len(m.Figures) != 0 {
		t.Errorf("measures %v of a single point (%v)", m.Figures, err)
	}
}

// A damaged block is measured anew rather than believed.
func TestDamagedMeasures(t *testing.T) {
	for _, doc := range []string{`{"version":0}`, `[]`, ``, `{"seconds":1}`, `{"form":1,"seconds":1}`, fmt.Sprintf(`{"version":%d,"seconds":-1}`, scoring.Version)} {
		if _, err := (Summary{ID: "a", Print: "p", Measured: []byte(doc)}).ReadMeasured(); err == nil {
			t.Errorf("%q counts as measured", doc)
		}
	}
}

// Measures of a line that nobody knows are not compared with any: they are measured
// anew, which brings the fingerprint along.
func TestMeasuresWithoutALineAreOld(t *testing.T) {
	s := Summary{ID: "a", Print: "p", Measured: fmt.Appendf(nil, `{"version":%d,"seconds":1}`, scoring.Version)}
	if _, err := s.ReadMeasured(); err != nil {
		t.Error(err)
	}
	s.Print = ""
	if _, err := s.ReadMeasured(); err == nil {
		t.Error("a summary without the fingerprint of its line counts as measured")
	}
}
