package scoring

import (
	"bytes"
	"encoding/json"
	"math"
	"os/exec"
	"testing"

	"unthreaded/scoring/trace"
)

// scipyScript does SPARC and a forward-backward Butterworth filter with numpy and
// scipy on the data it is given, and tells how long one of each takes. SPARC is
// written down from its definition (Balasubramanian et al. 2015).
const scipyScript = `
import sys, json, time
import numpy as np
from scipy.signal import butter, filtfilt
d = json.load(sys.stdin)
v, fs = np.array(d["v"]), d["fs"]
b, a = butter(2, 10 / (fs / 2))
def sparc():
    n = int(2 ** (np.ceil(np.log2(len(v))) + 4))
    f = np.arange(0, fs, fs / n)
    m = np.abs(np.fft.fft(v, n))
    m = m / m.max()
    k = f <= 10
    f, m = f[k], m[k]
    i = np.where(m >= 0.05)[0]
    f, m = f[i[0]:i[-1] + 1], m[i[0]:i[-1] + 1]
    return -np.sum(np.sqrt((np.diff(f) / (f[-1] - f[0])) ** 2 + np.diff(m) ** 2))
def timed(g):
    g()
    t = time.perf_counter()
    for _ in range(50):
        g()
    return (time.perf_counter() - t) / 50
json.dump({"sparc": sparc(), "filtered": list(filtfilt(b, a, v)),
           "sparc_s": timed(sparc), "filter_s": timed(lambda: filtfilt(b, a, v))}, sys.stdout)
`

type scipyAnswer struct {
	SPARC    float64
	Filtered []float64
	SPARCS   float64 `json:"sparc_s"`
	FilterS  float64 `json:"filter_s"`
}

// askScipy runs the script, or skips where there is no Python with scipy.
func askScipy(b *testing.B, v []float64, fs float64) (out scipyAnswer) {
	b.Helper()
	input, err := json.Marshal(map[string]any{"v": v, "fs": fs})
	if err != nil {
		b.Fatal(err)
	}
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import scipy.signal").Run() != nil {
			continue
		}
		cmd := exec.Command(python, "-c", scipyScript)
		cmd.Stdin = bytes.NewReader(input)
		text, err := cmd.Output()
		if err != nil {
			b.Fatalf("%s: %v", python, err)
		}
		if err := json.Unmarshal(text, &out); err != nil {
			b.Fatal(err)
		}
		return out
	}
	b.Skip("no Python with scipy here (Debian: python3-scipy): nothing to compare with")
	return out
}

// handSpeed is 10 s of an uneven hand at 120 Hz.
func handSpeed() []float64 {
	v := make([]float64, 1200)
	for i := range v {
		t := float64(i) / 120
		v[i] = 25 * (1 + 0.3*math.Sin(3*t) + 0.2*math.Sin(11*t+1) + 0.05*math.Sin(40*t))
	}
	return v
}

// How many times as long scipy takes, side by side on the same data; both give the same to
// 1e-9. The tests hold SPARC and filters against what scipy gave: smoothness.json,
// filters.json.
func BenchmarkBesideScipy(b *testing.B) {
	v := handSpeed()
	them := askScipy(b, v, 120)
	q := trace.Butterworth(10, 120)
	near(b, "SPARC", SPARC(v, 120), them.SPARC, 1e-9)
	for i, got := range q.FiltFilt(v) {
		near(b, "filtered", got, them.Filtered[i], 1e-9)
	}
	for _, c := range []struct {
		name    string
		ours    func()
		theirsS float64
	}{
		{"filter", func() { q.FiltFilt(v) }, them.FilterS},
		{"SPARC", func() { SPARC(v, 120) }, them.SPARCS},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				c.ours()
			}
			b.ReportMetric(c.theirsS*float64(b.N)/b.Elapsed().Seconds(), "scipy/ours")
		})
	}
}
