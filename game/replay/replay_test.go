package replay

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestClock(t *testing.T) {
	c := Clock{Length: 2, Rate: 0.5}.Toggle()
	for i := 0; i < 10; i++ {
		c = c.Advance(0.1)
	}
	if math.Abs(c.T-0.5) > 1e-12 || !c.Playing {
		t.Errorf("after 1 s at half speed: %+v, want 0.5 s and playing", c)
	}
	if c = c.Advance(60); math.Abs(c.T-0.625) > 1e-12 {
		t.Errorf("after a stall of a minute: %v s, want 0.625", c.T)
	}
	c = c.At(99)
	if !c.AtEnd() || c.T != 2 {
		t.Errorf("set beyond the end: %+v", c)
	}
	if c = c.Toggle(); c.Playing || c.T != 2 {
		t.Errorf("stopped while playing at the end: %+v", c)
	}
	if c = c.Toggle(); !c.Playing || c.T != 0 {
		t.Errorf("played at the end: %+v, want from the beginning", c)
	}
	if c = (Clock{Rate: 1}).Toggle(); c.Playing {
		t.Error("a trace without duration cannot play")
	}
}

// TimeAt is the inverse of PlaceAt where the hand moves, and the beginning of a
// rest where it does not.
func TestPlaceAndTimeAreInverse(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		steps := rapid.SliceOfN(rapid.Float64Range(-2, 3), 1, 60).Draw(rt, "steps")
		s := []float64{0}
		for _, d := range steps {
			if d < 0.3 && d > -0.3 {
				d = 0
			}
			s = append(s, s[len(s)-1]+d)
		}
		const rate = 120
		at := rapid.Float64Range(0, float64(len(s)-1)/rate).Draw(rt, "t")
		p := PlaceAt(s, rate, at)
		back := TimeAt(s, rate, p)
		if back > at+1e-9 || math.Abs(PlaceAt(s, rate, back)-p) > 1e-9 {
			rt.Fatalf("time %v is place %v, which is first reached at %v", at, p, back)
		}
		most := slices.Max(s)
		if end := TimeAt(s, rate, most+5); math.Abs(PlaceAt(s, rate, end)-most) > 1e-9 {
			rt.Fatalf("beyond the farthest place, %v, the nearest is said to be %v", most, PlaceAt(s, rate, end))
		}
	})
	if PlaceAt(nil, 120, 1) != 0 || TimeAt(nil, 120, 1) != 0 {
		t.Error("no samples should give 0")
	}
}

// A clock with two places goes round between them for as long as it plays, with a rest at
// the end of each round, wherever it stood before.
func TestClockGoesRound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		from := rapid.Float64Range(0, 5).Draw(rt, "from")
		c := Clock{Length: 9, Rate: rapid.SampledFrom(Rates).Draw(rt, "rate"), From: from, To: from + rapid.Float64Range(0.5, 4).Draw(rt, "long")}
		c.T = rapid.Float64Range(0, 9).Draw(rt, "stood")
		c = c.Toggle()
		rounds, at := 0, 0.0
		for range 4000 {
			last := c.T
			if c = c.Advance(0.02); !c.Playing || c.T < c.From || c.T > c.To {
				rt.Fatalf("%+v", c)
			}
			if at += 0.02; c.T < last {
				rounds++
			}
		}
		each := (c.To-c.From)/c.Rate + Breath
		if want := at / each; math.Abs(float64(rounds)-want) > 1+0.05*want {
			rt.Errorf("%d rounds in %.0f s, want %.1f", rounds, at, want)
		}
	})
}
