package scoring

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// knownHand is a hand of which it is known what it did, since it was made so; see the
// README of the folder.
type knownHand struct {
	Name, Note string
	Device     trace.Device
	Line       [][2]float64
	Samples    [][3]float64 // s, mm, mm
	Settings   struct {
		SPM    float64
		Target float64 `json:"target_mm"`
	}
	Want struct {
		Order     string
		First     []string
		Sewn      *[2]float64
		Beside    *[2]float64 `json:"beside_mm"`
		Slowdowns *[2]float64
		Stops     *[2]float64
		SpeedCV   *[2]float64 `json:"speed_cv"`
		Overshoot *[2]float64 `json:"overshoot_mm"`
	}
}

// cssPixel is 1/96 inch in mm (CSS Values and Units).
const cssPixel = 25.4 / 96

// trace returns its samples; a device nine tenths of whose places lie on whole CSS pixels
// reports no others, as the page finds it too.
func (k knownHand) trace() trace.Trace {
	tr := trace.Trace{Device: k.Device, Ending: trace.Lifted}
	whole := 0
	for _, s := range k.Samples {
		tr.Samples = append(tr.Samples, trace.Sample{T: s[0], P: geom.Pt(s[1], s[2]), Pressure: 0.5})
		x, y := s[1]/cssPixel, s[2]/cssPixel
		if math.Hypot(x-math.Round(x), y-math.Round(y)) < 0.01 {
			whole++
		}
	}
	if 10*whole >= 9*len(k.Samples) {
		tr.PixelMM = cssPixel
	}
	return tr
}

// stops are those on the way, none of them at a dot.
func stopCount(rep Report) (n float64) {
	for _, s := range rep.Stops {
		if s.Kind == Knot || s.Kind == AtCorner && s.Seconds >= leastKnot {
			n++
		}
	}
	return n
}

// Every hand of the folder is found to have done what it did.
func TestKnownHands(t *testing.T) {
	files, err := filepath.Glob("../testdata/hands/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no hands (%v)", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var k knownHand
		if err := json.Unmarshal(text, &k); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		t.Run(k.Name, func(t *testing.T) { k.check(t) })
	}
}

func (k knownHand) check(t *testing.T) {
	var path geom.Polyline
	for _, p := range k.Line {
		path = append(path, geom.Pt(p[0], p[1]))
	}
	rep := score(t, mustLine(t, path), k.trace(), Settings{SPM: k.Settings.SPM, TargetMM: k.Settings.Target})
	if k.Want.Order != "" && string(rep.Order.Way) != k.Want.Order {
		t.Errorf("%s: followed %s, it was %s (%+v)", k.Note, rep.Order.Way, k.Want.Order, rep.Order.Lies)
	}
	if k.Want.First != nil && !slices.Contains(k.Want.First, string(rep.First.Word)) {
		t.Errorf("%s: first said %+v, want one of %q", k.Note, rep.First, k.Want.First)
	}
	for _, c := range []struct {
		name string
		got  float64
		want *[2]float64
	}{
		{"sewn", rep.Sewn.Value, k.Want.Sewn},
		{"mm beside", rep.Lateral.MeanError.Value, k.Want.Beside},
		{"slowdowns", hesitationCount(rep), k.Want.Slowdowns},
		{"stops", stopCount(rep), k.Want.Stops},
		{"speed CV", rep.Evenness.SpeedCV.Value, k.Want.SpeedCV},
		{"mm past corners", rep.Turns.MeanOvershoot.Value, k.Want.Overshoot},
	} {
		if c.want != nil && !(c.got >= c.want[0] && c.got <= c.want[1]) {
			t.Errorf("%s: %s %.4g, want %.4g to %.4g", k.Note, c.name, c.got, c.want[0], c.want[1])
		}
	}
}
