package progress

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"testing"
)

type learning struct {
	Power, Exponential, Apex []float64
	Recovers                 []float64 `json:"exp_fit_recovers"`
	Average                  struct {
		Exponential float64 `json:"sse_exponential"`
	} `json:"averaging_artifact"`
	WarmUp struct {
		At [][2]int `json:"session_trial"`
		Y  []float64
	} `json:"warm_up"`
}

func readLearning(t *testing.T) (f learning) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/vectors/learning.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &f); err != nil {
		t.Fatal(err)
	}
	if len(f.Recovers) != 3 || len(f.WarmUp.Y) == 0 || len(f.Exponential) != len(f.Power) || len(f.Apex) != len(f.Power) {
		t.Fatal("learning.json lacks numbers")
	}
	return f
}

// learning.json: y = .1 + .3 e^(-.12 n) in closed form, and the parameters that
// scipy 1.10.1 recovers. Tolerance 1e-6 of each, and any 8 or more of the sessions give
// them too.
func TestExponentialIsRecovered(t *testing.T) {
	f := readLearning(t)
	for k := LeastCurve; k <= len(f.Exponential); k++ {
		c, err := LearningCurve(f.Exponential[:k])
		if err != nil {
			t.Fatalf("%d sessions: %v", k, err)
		}
		for i, got := range []float64{c.Plateau, c.Gain, c.Rate} {
			near(t, fmt.Sprintf("parameter %d of %d sessions", i, k), got, f.Recovers[i], 1e-6)
		}
		near(t, "interval, with no scatter", c.Interval.Width(), 0, 1e-6)
	}
}

// learning.json: the other two forms, both with the plateau 0.1. Their relative rate of
// learning falls, so that an exponential levels off too early: its plateau lies above the
// true one, and the curve passes below the first score and above the last (Heathcote,
// Brown and Mewhort 2000).
func TestOtherFormsLevelOffLater(t *testing.T) {
	f := readLearning(t)
	for name, y := range map[string][]float64{"power": f.Power, "apex": f.Apex} {
		c, err := LearningCurve(y)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if c.Plateau < 0.1 || c.Scatter < 1e-3 || y[0] < c.At(1) || y[len(y)-1] > c.At(float64(len(y))) {
			t.Errorf("%s: %+v: the plateau should lie above 0.1, the curve below the first score and above the last", name, c)
		}
	}
}

// learning.json: the mean of 40 exponential learners with rates from 0.02 to 0.6 is no
// exponential: its least sum of squares. Tolerance 1e-6 of it.
func TestAverageOfLearnersIsNoLearner(t *testing.T) {
	mean := make([]float64, 30)
	for i := range mean {
		for k := range 40 {
			mean[i] += (0.1 + 0.3*math.Exp(-(0.02+0.58*float64(k)/39)*float64(i+1))) / 40
		}
	}
	c, err := LearningCurve(mean)
	if err != nil {
		t.Fatal(err)
	}
	want := readLearning(t).Average.Exponential
	near(t, "sum of squares", c.Scatter*c.Scatter*27, want, 1e-6*want)
}

// learning.json: three sessions of ten traces, each with the warm-up decrement
// .06 e^(-.6 k) on top of slow learning. With its first two traces left out, a session's
// score keeps under a tenth of the decrement; with none left out it would keep more.
func TestWarmUpTracesAreLeftOut(t *testing.T) {
	f := readLearning(t)
	like := Like{Line: "spiral", Zoom: 1, Way: "pencil", Guide: None}
	var traces []Trace
	for i, at := range f.WarmUp.At {
		traces = append(traces, Trace{At: float64(at[0])*86400 + 60*float64(at[1]), Seconds: 20, Like: like, Figures: map[Measure]float64{Spacing: f.WarmUp.Y[i]}})
	}
	sessions, err := Sessions(traces)
	if err != nil {
		t.Fatal(err)
	}
	scores := History(sessions, like, Spacing)
	if len(scores) != 3 {
		t.Fatalf("%d scores of 3 sessions", len(scores))
	}
	for k, s := range scores {
		y := f.WarmUp.Y[10*k : 10*k+10] // falls throughout
		near(t, "score", s.Median, (y[5]+y[6])/2, 1e-12)
		near(t, "lower quartile", s.Q1, y[8]+0.75*(y[7]-y[8]), 1e-12)
		near(t, "upper quartile", s.Q3, y[4]+0.25*(y[3]-y[4]), 1e-12)
		if len(s.Counted) != 8 || len(s.Apart) != 2 || s.Apart[0] != y[0] || s.Apart[1] != y[1] {
			t.Errorf("session %d: %d traces counted, apart %v, want %v", k, len(s.Counted), s.Apart, y[:2])
		}
		slow := 0.12 + 0.25*math.Exp(-0.05*(float64(10*k)+5.5))
		if over := s.Median - slow; over < 0 || over > 0.006 {
			t.Errorf("session %d: the score lies %v above the slow part, want at most a tenth of the decrement", k, over)
		}
	}
	if _, err := LearningCurve([]float64{scores[0].Median, scores[1].Median, scores[2].Median}); !errors.Is(err, ErrFewSessions) {
		t.Errorf("a learning curve of three sessions: %v", err)
	}
}
