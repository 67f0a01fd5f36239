package practice

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/scoring/progress"
)

// What every warm-up promises, for any weak spots.
func TestWarmUpKeepsItsPromises(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		minutes := rapid.SampledFrom(Lengths).Draw(rt, "minutes")
		var weak []WeakSpot
		for _, m := range progress.Movements {
			if rapid.Bool().Draw(rt, "weak") {
				weak = append(weak, WeakSpot{Movement: m, Weight: rapid.Float64Range(0, 9).Draw(rt, "weight")})
			}
		}
		seed := Seed(rapid.Uint64().Draw(rt, "seed"))
		items, err := WarmUp(minutes, weak, "star", seed)
		if err != nil || len(items) != minutes {
			rt.Fatalf("%d items for %d minutes, error %v", len(items), minutes, err)
		}
		var seconds float64
		seen := map[Item]bool{}
		tempo := map[progress.Movement]float64{}
		for i, it := range items {
			seconds += it.Seconds
			last := i == len(items)-1
			switch {
			case seen[it], last != (it.Block == "star"), last != (it.Movement == ""), !(it.Tempo > 0), !last && !(it.SizeMM > 0):
				rt.Fatalf("minute %d: %+v", i+1, it)
			case !last && i > 0 && it.Movement == items[i-1].Movement:
				rt.Fatalf("minute %d: %s twice in a row", i+1, it.Movement)
			case !last && it.Tempo < tempo[it.Movement]:
				rt.Fatalf("minute %d: %s gets slower", i+1, it.Movement)
			}
			seen[it], tempo[it.Movement] = true, it.Tempo
		}
		if seconds != 60*float64(minutes) {
			rt.Fatalf("%v seconds in %d minutes", seconds, minutes)
		}
		if again, _ := WarmUp(minutes, weak, "star", seed); !reflect.DeepEqual(again, items) {
			rt.Fatal("the same seed gave another warm-up")
		}
	})
}

// The first minute is drawn in proportion: a spot twice as bad as usual (weight ln 2)
// against six others comes with the chance (1/4 + ln 2)/(7/4 + ln 2) = 0.386, the others
// with 0.102 each. 4000 seeds; tolerance 3 standard deviations of a share.
func TestWeakSpotsComeMoreOften(t *testing.T) {
	const seeds = 4000
	first, all := map[progress.Movement]float64{}, map[progress.Movement]float64{}
	for seed := range Seed(seeds) {
		items, err := WarmUp(5, []WeakSpot{{Movement: progress.TightLeft, Weight: math.Ln2}}, "star", seed)
		if err != nil {
			t.Fatal(err)
		}
		first[items[0].Movement]++
		for _, it := range items {
			all[it.Movement]++
		}
	}
	for _, m := range progress.Movements {
		want := evenShare / (7*evenShare + math.Ln2)
		if m == progress.TightLeft {
			want += math.Ln2 / (7*evenShare + math.Ln2)
		} else if all[m] > 0.6*all[progress.TightLeft] || all[m] == 0 {
			t.Errorf("%s came %v times, the weak spot %v", m, all[m], all[progress.TightLeft])
		}
		if got := first[m] / seeds; math.Abs(got-want) > 3*math.Sqrt(want*(1-want)/seeds) {
			t.Errorf("%s came first in a share of %.3f, want %.3f", m, got, want)
		}
	}
}

func TestWarmUpsThatCannotBe(t *testing.T) {
	for name, try := range map[string]func() ([]Item, error){
		"four minutes":     func() ([]Item, error) { return WarmUp(4, nil, "star", 1) },
		"no block":         func() ([]Item, error) { return WarmUp(5, nil, "", 1) },
		"unknown movement": func() ([]Item, error) { return WarmUp(5, []WeakSpot{{Movement: "jump"}}, "star", 1) },
		"anywhere":         func() ([]Item, error) { return WarmUp(5, []WeakSpot{{Movement: progress.Anywhere}}, "star", 1) },
		"negative":         func() ([]Item, error) { return WarmUp(5, []WeakSpot{{Movement: progress.Loop, Weight: -1}}, "star", 1) },
		"no number": func() ([]Item, error) {
			return WarmUp(5, []WeakSpot{{Movement: progress.Loop, Weight: math.NaN()}}, "star", 1)
		},
	} {
		if items, err := try(); err == nil {
			t.Errorf("%s: %v", name, items)
		}
	}
}

// splitmix64 from the seed 1234567 gives 6457827717110365317 and 3203168211198807973
// first (known answers of the reference program, from memory).
func TestSeedAgainstKnownAnswers(t *testing.T) {
	s := Seed(1234567)
	for i, want := range []uint64{6457827717110365317, 3203168211198807973} {
		var u float64
		if u, s = s.next(); u != float64(want>>11)/(1<<53) {
			t.Errorf("number %d is %v, want %v", i, u, float64(want>>11)/(1<<53))
		}
	}
}

func traceOf(at float64, places map[progress.Movement]map[progress.Measure]float64) progress.Trace {
	return progress.Trace{ID: fmt.Sprint(at), At: at, Places: places}
}

func TestWeakSpots(t *testing.T) {
	figures := func(uneven, beside float64) map[progress.Measure]float64 {
		return map[progress.Measure]float64{progress.Uneven: uneven, progress.Beside: beside}
	}
	var traces []progress.Trace
	for i := range 20 {
		k := 1 + 0.1*float64(i%3) // days differ, for all movements alike
		places := map[progress.Movement]map[progress.Measure]float64{
			progress.Anywhere:  figures(0.2*k, 1*k),
			progress.TightLeft: figures(0.4*k, 1*k),
			progress.Straight:  figures(0.1*k, 0.5*k),
			progress.Corner:    {progress.Beside: 1.5 * k},
		}
		if i < 3 {
			places[progress.Loop] = figures(2*k, 9*k)
		}
		if i < 2 {
			places[progress.Left] = figures(2*k, 9*k)
		}
		if i < 8 { // long ago
			places[progress.TightLeft] = figures(9*k, 9*k)
		}
		traces = append(traces, traceOf(float64(i), places))
	}
	slices.Reverse(traces)
	got := WeakSpots(traces)
	want := []WeakSpot{
		{progress.TightLeft, math.Ln2 * 12 / 15, 2, 1, 12},
		{progress.Loop, mostWorse * 3 / 6, 10, 9, 3},
		{progress.Corner, math.Log(1.5) * 12 / 15, 0, 1.5, 12},
		{progress.Straight, 0, 0.5, 0.5, 12},
	}
	if len(got) != len(want) {
		t.Fatalf("weak spots %+v, want %+v", got, want)
	}
	for i, w := range want {
		g := got[i]
		if g.Movement != w.Movement || g.Traces != w.Traces || math.Abs(g.Weight-w.Weight)+math.Abs(g.Uneven-w.Uneven)+math.Abs(g.Beside-w.Beside) > 1e-9 {
			t.Errorf("weak spot %d: %+v, want %+v", i, g, w)
		}
	}
	if _, err := WarmUp(10, got, "star", 1); err != nil {
		t.Error(err)
	}
	if len(WeakSpots(nil)) != 0 {
		t.Error("weak spots of no traces")
	}
}

func TestBands(t *testing.T) {
	for cv, want := range map[float64]Band{0: VeryEven, 0.15: VeryEven, 0.16: Even, 0.25: Even, 0.4: Usual, 0.41: Uneven, math.Inf(1): Uneven} {
		if got := BandOf(cv); got != want {
			t.Errorf("a variation of %v is %q, want %q", cv, got, want)
		}
	}
	if got := BandOf(math.NaN()); got != "" {
		t.Errorf("no number is %q", got)
	}
}
