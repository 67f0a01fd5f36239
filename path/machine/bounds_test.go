package machine

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// signed are the fields that may be negative: angles with their side, and what is
// counted with it.
var signed = map[string]bool{"Net": true, "Index": true, "X": true, "Y": true}

// sound walks all numbers of v and fails on one that is not finite, or negative
// without being signed.
func sound(t *rapid.T, where string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		name := where[strings.LastIndex(where, ".")+1:]
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) || (f < 0 && !signed[name]) {
			t.Fatalf("%s is %v", where, f)
		}
	case reflect.Int:
		if name := where[strings.LastIndex(where, ".")+1:]; v.Int() < 0 && !signed[name] {
			t.Fatalf("%s is %v", where, v.Int())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				sound(t, where+"."+v.Type().Field(i).Name, v.Field(i))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			sound(t, where, v.Index(i))
		}
	}
}

// value draws from anywhere: inside the range, at its ends, outside, no number.
func value(rt *rapid.T, r Range) float64 {
	switch rapid.IntRange(0, 9).Draw(rt, "where") {
	case 0:
		return rapid.Float64().Draw(rt, r.Name)
	case 1:
		return rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, r.Min, r.Max}).Draw(rt, r.Name)
	}
	return rapid.Float64Range(r.Min, r.Max).Draw(rt, r.Name)
}

// verdict holds what was accepted to be sound and what was refused to be refused
// with the range.
func verdict(rt *rapid.T, what string, v any, err error) {
	if err == nil {
		sound(rt, what, reflect.ValueOf(v))
		return
	}
	var missing *NoPlaceError
	if !errors.As(err, &missing) && !strings.Contains(err.Error(), " is not from ") {
		rt.Fatalf("%s: error %q does not say the range", what, err)
	}
}

// Whatever is entered is refused with the range, or gives sound numbers.
func TestAnyInputIsRefusedOrSound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := func(r Range) float64 { return value(rt, r) }
		count := func(name string) int { return rapid.IntRange(-2, 2e6).Draw(rt, name) }
		s := Seam{v(LineLength), v(StitchLength), v(Thickness), count("starts"), v(Waste), v(Reserve)}
		th, err := s.Thread()
		verdict(rt, "thread", th, err)
		d, err := Load{v(LineLength), count("stops"), count("halts")}.Time(Pace{v(HandSpeed), v(StopTime), v(HaltTime)})
		verdict(rt, "time", d, err)
		n := NeedleRange{v(NeedleSpeed), v(NeedleSpeed)}
		p, err := PedalFor(v(HandSpeed), v(StitchLength), n)
		verdict(rt, "pedal", p, err)
		if err == nil && (p.Set < n.Min || p.Set > n.Max || p.Fits != (len(p.Remedies) == 0)) {
			rt.Fatalf("pedal %+v for %+v", p, n)
		}
		table, err := SpeedTable(n, v(SpeedStep), []float64{v(StitchLength), v(StitchLength)})
		verdict(rt, "table", table, err)
		b, err := Bobbins(v(Range{"", "", 0, 1e9, 0}), v(BobbinLength), v(Reserve))
		verdict(rt, "bobbins", b, err)
		changes, err := BobbinPlan{Length: v(LineLength), PerMM: v(PerMMRange), Waste: v(Waste), Full: v(BobbinLength), First: v(BobbinLength),
			Reserve: v(Reserve), Places: []Place{{v(LineLength), Corner}}}.Changes()
		verdict(rt, "changes", changes, err)
	})
}

func TestAnyTopIsRefusedOrSound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := func(r Range) float64 { return value(rt, r) }
		top, err := usualTop(v(QuiltSide), v(QuiltSide), rapid.IntRange(-1, 220).Draw(rt, "rows"))
		verdict(rt, "top", top, err)
		if err != nil {
			return
		}
		top.Thickness, top.Core, top.Packing, top.Density = v(Thickness), v(Core), v(Packing), v(ArealDensity)
		th := Throat{v(ThroatWidth), v(ThroatHeight), v(HandRoom)}
		orders, err := Orders(top, th, nil, nil)
		verdict(rt, "orders", orders, err)
		most, errMost := maxRight(top, th)
		verdict(rt, "right", most, errMost)
		if err != nil {
			return
		}
		for _, f := range orders[0].Fits {
			// What fits is what maxRight says, but for rounding at the limit.
			if math.Abs(f.Right-most.Rolled) > 1e-6*f.Right && f.Rolls != (f.Right <= most.Rolled) {
				rt.Fatalf("%v mm rolls: %v, the most is %v", f.Right, f.Rolls, most.Rolled)
			}
			if math.Abs(f.Right-most.Bunched) > 1e-6*f.Right && f.Bunches != (f.Right <= most.Bunched) {
				rt.Fatalf("%v mm bunches: %v, the most is %v", f.Right, f.Bunches, most.Bunched)
			}
		}
		hang, err := top.Support(Table{v(TableSide), v(TableSide), v(TableSide)}, orders[0].Fits)
		verdict(rt, "hang", hang, err)
		for _, h := range hang {
			if h.Mass > h.Total*(1+1e-9) {
				rt.Fatalf("%v g hang of %v", h.Mass, h.Total)
			}
		}
	})
}

// Figures of any line are sound, and shares of it no more than the whole.
func TestAnyWorkHasSoundFigures(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		w := Work{BlockW: value(rt, QuiltSide), BlockH: value(rt, QuiltSide)}
		for range rapid.IntRange(1, 3).Draw(rt, "pieces") {
			l := drawLine(rt)
			to := rapid.Float64Range(0, 1).Draw(rt, "to") * l.Length()
			w.Pieces = append(w.Pieces, Piece{Line: l, Spans: []Span{{From: 0, To: to, Ruler: rapid.Bool().Draw(rt, "ruler"), Travel: rapid.Bool().Draw(rt, "travel")}}})
		}
		f, err := w.Figures()
		verdict(rt, "figures", f, err)
		if f.Straight > f.Length || f.Ruler+f.Travel > f.Length*(1+1e-9) || f.SmallestRadius > StraightRadius {
			rt.Fatalf("figures %+v", f)
		}
	})
}

// Broken work names the place.
func TestBrokenWork(t *testing.T) {
	l := lineOf(t, "M 0 0 L 100 0")
	whole := Work{BlockW: 100, BlockH: 100}
	for want, pieces := range map[string][]Piece{
		"1 piece":         nil,
		"piece 1: a line": {{Line: l}, {}},
		"piece 0: span 1": {{Line: l, Spans: []Span{{From: 0, To: 60}, {From: 50, To: 70}}}},
		"piece 0: span 0": {{Line: l, Spans: []Span{{From: 0, To: math.NaN()}}}},
		"piece 0: length": {{Line: must[geom.Line](t)(geom.NewLine(geom.Polyline{{}, {X: 1e300}}))}},
	} {
		whole.Pieces = pieces
		if _, err := whole.Figures(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one with %q", err, want)
		}
	}
}
