package scoring

import (
	"encoding/binary"
	"encoding/json"
	"math"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

func packed(values ...float32) (b []byte) {
	for _, v := range values {
		b = binary.LittleEndian.AppendUint32(b, math.Float32bits(v))
	}
	return b
}

func unpacked(b []byte) (v []float64) {
	for ; len(b) >= 4; b = b[4:] {
		v = append(v, float64(math.Float32frombits(binary.LittleEndian.Uint32(b))))
	}
	return v
}

// oddLine is a line with dots from x, y, x, y, ...
func oddLine(v []float64) (geom.Line, error) {
	var path geom.Polyline
	for ; len(v) >= 2; v = v[2:] {
		path = append(path, geom.Pt(v[0], v[1]))
	}
	line, err := geom.NewLine(path)
	if n := line.Length(); err == nil && n > 0 && n < 1e6 {
		return line.WithDots([]float64{0, n / 3, n / 2})
	}
	return line, err
}

// oddTrace is a trace from t, x, y, t, x, y, ...
func oddTrace(v []float64, pixel float64) trace.Trace {
	tr := trace.Trace{PixelMM: pixel}
	for ; len(v) >= 3; v = v[3:] {
		tr.Samples = append(tr.Samples, trace.Sample{T: v[0], P: geom.Pt(v[1], v[2]), Pressure: 0.5})
	}
	return tr
}

// No line and no movement, however odd, makes a report that is no JSON, shares
// outside 0 to 1, places off the line, or a first word that the advice does not hold.
func FuzzScore(f *testing.F) {
	f.Add(packed(0, 0, 50, 0, 50, 50), packed(0, 0, 0, 0.5, 12, 1, 1, 25, 0, 2, 50, 2, 3, 50, 25, 4, 50, 50), 600.0, 2.5, 0.26)
	f.Add(packed(0, 0, 9, 0, 0, 0, 9, 0), packed(0, 0, 0, 0.01, 9, 0, 0.02, 0, 0, 0.03, 9, 0), 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, lineBytes, handBytes []byte, spm, target, pixel float64) {
		line, err := oddLine(unpacked(lineBytes))
		tr := oddTrace(unpacked(handBytes), pixel)
		if err != nil || tr.Duration() > 60 {
			return // long is slow, and no different
		}
		rep, err := Score(line, tr, Settings{SPM: spm, TargetMM: target})
		if err != nil {
			return
		}
		if _, err := json.Marshal(rep); err != nil {
			t.Fatalf("no JSON: %v", err)
		}
		if c := rep.Coverage.Value; c < 0 || c > 1 {
			t.Fatalf("coverage %v", c)
		}
		for _, x := range rep.Faults {
			if x.From < 0 || x.To > line.Length()+1e-6 || x.From > x.At || x.At > x.To {
				t.Fatalf("fault %+v off the line of %v mm", x, line.Length())
			}
		}
		if len(rep.Advice) > 0 && (rep.First != rep.Advice[0] || rep.First.Word == "") || len(rep.Advice) == 0 && rep.First.Fault.Kind != "" {
			t.Fatalf("first %+v, advice %+v", rep.First, rep.Advice)
		}
	})
}
