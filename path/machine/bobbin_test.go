package machine

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func checkBobbins(t *testing.T, c json.RawMessage) {
	var w struct {
		Length, Waste, Full, First, Reserve float64
		PerMM                               float64 `json:"per_mm"`
		Starts, Places, Changes, Missing    []float64
	}
	read(t, c, &w)
	b := BobbinPlan{Length: w.Length, PerMM: w.PerMM, Waste: w.Waste, Starts: w.Starts, Full: w.Full, First: w.First, Reserve: w.Reserve}
	for _, at := range w.Places {
		b.Places = append(b.Places, Place{at, Corner})
	}
	changes, err := b.Changes()
	var missing *NoPlaceError
	if errors.As(err, &missing) != (w.Missing != nil) || (err != nil && missing == nil) {
		t.Fatalf("error %v, want a missing place %v", err, w.Missing)
	}
	if missing != nil && (math.Abs(missing.From-w.Missing[0]) > 1e-6 || math.Abs(missing.To-w.Missing[1]) > 1e-6) {
		t.Errorf("missing between %v and %v, want %v", missing.From, missing.To, w.Missing)
	}
	var got []float64
	for _, ch := range changes {
		got = append(got, ch.At)
	}
	if !slices.Equal(got, w.Changes) {
		t.Errorf("changes at %v, want %v", got, w.Changes)
	}
}

func drawBobbins(rt *rapid.T) BobbinPlan {
	num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
	whole := func(name string, hi int) float64 { return float64(rapid.IntRange(0, hi).Draw(rt, name)) }
	b := BobbinPlan{Length: 1000 + whole("length", 4000), PerMM: num("per mm", 1, 4), Waste: whole("waste", 300), Full: num("full", 2000, 6000), Reserve: num("reserve", 0, 0.5)}
	b.First = num("first", 0, 1) * b.Full
	for range rapid.IntRange(0, 9).Draw(rt, "places") {
		b.Places = append(b.Places, Place{whole("place", int(b.Length)), DotPlace})
	}
	for range rapid.IntRange(0, 3).Draw(rt, "starts") {
		s := whole("start", int(b.Length))
		if len(b.Places) > 0 && rapid.Bool().Draw(rt, "at a place") {
			s = b.Places[0].At
		}
		if !slices.Contains(b.Starts, s) {
			b.Starts = append(b.Starts, s)
		}
	}
	slices.Sort(b.Starts)
	return b
}

// spent counts the thread from one change to the next step by step, as the doc
// comment of BobbinPlan.Changes tells it.
func (b BobbinPlan) spent(from, to float64) float64 {
	sum := 0.0
	if to > from {
		sum = b.Waste + (to-from)*b.PerMM
	}
	for _, s := range b.Starts {
		if from < s && s < to {
			sum += b.Waste
		}
	}
	return sum
}

// fewest tries every subset of the places, and the start of the route.
func (b BobbinPlan) fewest() int {
	places := append([]Place{{At: 0}}, b.Places...)
	slices.SortFunc(places, func(p, q Place) int { return int(p.At - q.At) })
	best := -1
	for bits := range 1 << len(places) {
		at, have, n, ok := 0.0, max(0, b.First-b.Reserve*b.Full), 0, true
		for i, p := range places {
			if bits>>i&1 == 1 {
				ok = ok && b.spent(at, p.At) <= have+1e-6
				at, have, n = p.At, b.Full*(1-b.Reserve), n+1
			}
		}
		if ok && b.spent(at, b.Length) <= have+1e-6 && (best < 0 || n < best) {
			best = n
		}
	}
	return best
}

// Bobbins are changed at places on offer, never beyond what one holds, and as
// seldom as any choice of places allows; a place is only said to be missing where
// no choice of places works.
func TestBobbinsAgainstAllChoices(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := drawBobbins(rt)
		changes, err := b.Changes()
		var missing *NoPlaceError
		if err != nil && !errors.As(err, &missing) {
			rt.Fatal(err)
		}
		at, have := 0.0, max(0, b.First-b.Reserve*b.Full)
		for i, c := range changes {
			if c.At != 0 && !slices.Contains(b.Places, c.Place) {
				rt.Fatalf("change %d at %v is on no place", i, c.At)
			}
			if used := b.spent(at, c.At); used > have+1e-6 || c.Left < 0 || c.RunsOut < c.At-1e-9 {
				rt.Fatalf("change %d at %v: %v used of %v, %v left, runs out at %v", i, c.At, used, have, c.Left, c.RunsOut)
			}
			on := b.Full
			if i == 0 {
				on = b.First
			}
			if math.Abs(c.Left-(on-b.spent(at, c.At))) > 1e-6 {
				rt.Fatalf("change %d at %v leaves %v of %v", i, c.At, c.Left, on)
			}
			at, have = c.At, b.Full*(1-b.Reserve)
		}
		want := b.fewest()
		if (missing != nil) != (want < 0) {
			rt.Fatalf("error %v, but the fewest changes are %d", err, want)
		}
		if missing != nil {
			return
		}
		if used := b.spent(at, b.Length); used > have+1e-6 || len(changes) != want {
			rt.Fatalf("%d changes, want %d; the last bobbin gives %v of %v", len(changes), want, used, have)
		}
	})
}

// A longer route never has fewer changes.
func TestBobbinsGrow(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := drawBobbins(rt)
		b.Places = nil
		for at := 0.0; at <= b.Length; at += 50 {
			b.Places = append(b.Places, Place{at, Corner})
		}
		long := b
		long.Length += rapid.Float64Range(0, 3000).Draw(rt, "more")
		for at := math.Ceil(b.Length/50) * 50; at <= long.Length; at += 50 {
			long.Places = append(long.Places, Place{at, Corner})
		}
		short, errA := b.Changes()
		more, errB := long.Changes()
		if errA == nil && errB == nil && len(more) < len(short) {
			rt.Fatalf("%d changes on %v mm, %d on %v", len(short), b.Length, len(more), long.Length)
		}
	})
}

// The mass that a stated length of thread has must go into the room of the bobbin.
// Room from the usual outer sizes of the classes (diameter, width in mm, from
// memory; core and walls taken off roughly); weight 50 is 1000/50 = 20 g per km (the
// number is km per kg). Wound sewing thread has 0.4 to 1 g/cm3 (from memory).
func TestBobbinClassesHoldWhatFits(t *testing.T) {
	sizes := map[string][2]float64{"15": {20.3, 11.7}, "66": {19.8, 11}, "L": {20.6, 8.9}, "M": {25.4, 10.3}}
	for _, b := range BobbinClasses() {
		size, ok := sizes[b.ID]
		if !ok {
			t.Fatalf("no size for class %s", b.ID)
		}
		d, w := size[0]-1, size[1]-2
		room := math.Pi / 4 * (d*d - 7*7) * w / 1000 // cm3
		grams := b.Length / 1e6 * 1000 / BobbinWeight
		if density := grams / room; density < 0.35 || density > 1 {
			t.Errorf("class %s: %.0f m in %.2f cm3 would weigh %.2f g/cm3", b.ID, b.Length/1000, room, density)
		}
		finer, err := b.Of(100)
		if err != nil || math.Abs(finer-2*b.Length) > 1e-6 {
			t.Errorf("class %s holds %v of thread half as thick in section, want twice %v (%v)", b.ID, finer, b.Length, err)
		}
		if got, err := FindBobbin(b.ID); err != nil || got != b {
			t.Errorf("class %s not found: %v", b.ID, err)
		}
	}
	if _, err := FindBobbin("Z"); err == nil {
		t.Error("an unknown class was found")
	}
}

// Places along two pieces: corners, dots, seams, junctions; the best within a
// millimetre remains.
func TestPlacesAlongPieces(t *testing.T) {
	first := lineOf(t, "M 0 0 L 100 0 L 100 50 L 150 50")
	second, err := lineOf(t, "M 0 0 L 0 80").WithDots([]float64{0, 40, 80})
	if err != nil {
		t.Fatal(err)
	}
	w := Work{BlockW: 100, BlockH: 100, Pieces: []Piece{
		{Line: first, Spans: []Span{{From: 0, To: 30}, {From: 30, To: 99.5, Travel: true}, {From: 99.5, To: 200}}},
		{Line: second, Spans: []Span{{From: 0, To: 80, Ruler: true}}},
	}}
	want := []Place{{0, Junction}, {30, SeamPlace}, {99.5, SeamPlace}, {150, Corner}, {200, EndOfPiece}, {240, DotPlace}, {280, EndOfPiece}}
	if got := w.Places(); !slices.Equal(got, want) {
		t.Errorf("places %v, want %v", got, want)
	}
	if got := w.Starts(); !slices.Equal(got, []float64{200}) {
		t.Errorf("starts %v, want 200", got)
	}
}
