package machine

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

var parts = []Part{NeedlePart, HandPart, StitchPart}

// anyTriangle is within its limits, often at their ends.
func anyTriangle(rt *rapid.T) Triangle {
	within := func(r Range) float64 {
		return rapid.OneOf(rapid.Float64Range(r.Min, r.Max), rapid.SampledFrom([]float64{r.Min, r.Max, r.Usual})).Draw(rt, r.Name)
	}
	return Triangle{SPM: within(NeedleSpeed), Stitch: within(StitchLength), Follows: rapid.SampledFrom(parts).Draw(rt, "follows")}
}

// The slowest needle with the shortest stitch and the fastest with the longest are
// within the limits of the hand, and so is all between them.
func TestTheLimitsOfTheTriangleFitTogether(t *testing.T) {
	for _, r := range [][2]float64{{NeedleSpeed.Min, StitchLength.Min}, {NeedleSpeed.Max, StitchLength.Max}} {
		if !(Triangle{SPM: r[0], Stitch: r[1]}).Valid() {
			t.Errorf("%v spm with %v mm is out of the hand's limits", r[0], r[1])
		}
	}
	if usual := (Triangle{SPM: NeedleSpeed.Usual, Stitch: StitchLength.Usual}); math.Abs(usual.Hand()-HandSpeed.Usual) > exact {
		t.Errorf("the usual ones make a hand speed of %v", usual.Hand())
	}
}

// Whatever is set: the part has that value, or the next one in its range; one of the
// others stays, and all stay within the limits.
func TestOneIsSetOneStaysOneFollows(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		before := anyTriangle(rt)
		p := rapid.SampledFrom(parts).Draw(rt, "part")
		v := rapid.Float64Range(-10, 3000).Draw(rt, "v")
		after := before.Nearest(p, v)
		if !after.Valid() || after.Follows != before.Follows {
			rt.Fatalf("%+v with %s %v: %+v", before, p, v, after)
		}
		near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(b)) }
		r := before.Range(p)
		if want := r.clamp(v); !near(after.Of(p), want) {
			rt.Fatalf("%+v with %s %v: %v, want %v", before, p, v, after.Of(p), want)
		}
		moved := before.Moved(p)
		for _, q := range parts {
			if q != p && q != moved && !near(after.Of(q), before.Of(q)) {
				rt.Fatalf("%+v with %s %v: %s does not stay: %+v", before, p, v, q, after)
			}
		}
		if moved == p || before.Follows != p && moved != before.Follows {
			rt.Fatalf("%s follows %s, of which %s was to", moved, p, before.Follows)
		}
		same, err := before.With(p, v)
		if (err == nil) != (v >= r.Min && v <= r.Max) || err == nil && same != after || err != nil && same != before {
			rt.Fatalf("%+v with %s %v: %+v, %v", before, p, v, same, err)
		}
	})
}

// Set again to what it was, nothing has changed.
func TestThereAndBackAgain(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		before := anyTriangle(rt)
		p := rapid.SampledFrom(parts).Draw(rt, "part")
		r := before.Range(p)
		after := before.Nearest(p, rapid.Float64Range(r.Min, r.Max).Draw(rt, "v")).Nearest(p, before.Of(p))
		if math.Abs(after.SPM-before.SPM) > 1e-6*before.SPM || math.Abs(after.Stitch-before.Stitch) > 1e-6*before.Stitch {
			rt.Fatalf("%+v became %+v", before, after)
		}
	})
}

func TestWhatIsNoNumberChangesNothing(t *testing.T) {
	before := Triangle{SPM: 600, Stitch: 2.54, Follows: HandPart}
	for _, p := range parts {
		if after := before.Nearest(p, math.NaN()); after != before {
			t.Errorf("%s: %+v", p, after)
		}
		if after, err := before.With(p, math.NaN()); err == nil || after != before {
			t.Errorf("%s: %+v, %v", p, after, err)
		}
	}
}
