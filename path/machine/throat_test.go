package machine

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func checkRoll(t *testing.T, c json.RawMessage) {
	var w struct{ Width, Thickness, Core, Diameter float64 }
	read(t, c, &w)
	near(t, "diameter", RollDiameter(w.Width, w.Thickness, w.Core), w.Diameter, 0.01)
}

// The spiral r = t a/(2 pi) from its pole: (b/2)(a sqrt(1+a2) + asinh a) long, with
// b = t/(2 pi) (arc length of the Archimedean spiral, any calculus text). A roll
// whose layers lie on it measures 2 b a across, on average over all directions.
func TestRollAgainstSpiral(t *testing.T) {
	for turns := 4.0; turns < 60; turns *= 1.3 {
		thick := 2.5
		b, a := thick/(2*math.Pi), 2*math.Pi*turns
		w := b / 2 * (a*math.Sqrt(1+a*a) + math.Asinh(a))
		near(t, "diameter", RollDiameter(w, thick, 0), 2*b*a, 0.01)
	}
}

func checkThroat(t *testing.T, c json.RawMessage) {
	var w struct {
		Along, Across, Thickness, Core, Packing, Density float64
		Rows                                             int
		Width                                            float64 `json:"throat_width"`
		Height                                           float64 `json:"throat_height"`
		Hand                                             float64
		Best                                             string
		WorstRoll                                        float64 `json:"worst_roll"`
		FullRoll                                         float64 `json:"full_roll"`
		MaxRolled                                        float64 `json:"max_rolled"`
		MaxBunched                                       float64 `json:"max_bunched"`
		TotalMass                                        float64 `json:"total_mass"`
		Orders                                           map[string]struct {
			Turns, Trapped, Misfits int
			Moves                   float64
			Outward                 bool
		}
	}
	read(t, c, &w)
	top := must[Top](t)(usualTop(w.Along, w.Across, w.Rows))
	top.Thickness, top.Core, top.Packing, top.Density = w.Thickness, w.Core, w.Packing, w.Density
	top.Loose = 1 // the file's rolls have no air in them
	th := Throat{w.Width, w.Height, w.Hand}
	orders := must[[]RowOrder](t)(Orders(top, th, nil, nil))
	if string(orders[0].Kind) != w.Best {
		t.Errorf("best is %q, want %q", orders[0].Kind, w.Best)
	}
	near(t, "worst roll", orders[0].WorstRoll, w.WorstRoll, exact)
	for _, o := range orders {
		if want, given := w.Orders[string(o.Kind)]; given {
			near(t, "moves "+string(o.Kind), o.Moves, want.Moves, exact)
			if o.Turns != want.Turns || o.Trapped != want.Trapped || o.Outward != want.Outward || len(o.NoRoll) != want.Misfits {
				t.Errorf("%q: %d turns, %d trapped, outward %v, %d do not roll; want %+v", o.Kind, o.Turns, o.Trapped, o.Outward, len(o.NoRoll), want)
			}
		}
		if o.Kind == FirstToLast || o.Kind == LastToFirst {
			near(t, "worst roll "+string(o.Kind), o.WorstRoll, w.FullRoll, exact)
		}
	}
	most := must[right](t)(maxRight(top, th))
	near(t, "most rolled", most.Rolled, w.MaxRolled, exact)
	near(t, "most bunched", most.Bunched, w.MaxBunched, exact)
	hang := must[[]Hang](t)(top.Support(Table{}, orders[0].Fits))
	near(t, "mass", hang[0].Total, w.TotalMass, exact)
}

func checkHang(t *testing.T, c json.RawMessage) {
	var w struct {
		Along, Across, Density, Left, Behind, Front, Mass float64
		Rows, Row                                         int
		Turned                                            bool
		HangLeft                                          float64 `json:"hang_left"`
		HangBehind                                        float64 `json:"hang_behind"`
		HangFront                                         float64 `json:"hang_front"`
	}
	read(t, c, &w)
	top := must[Top](t)(usualTop(w.Along, w.Across, w.Rows))
	top.Density = w.Density
	h := must[[]Hang](t)(top.Support(Table{w.Left, w.Behind, w.Front}, []Fit{{Row: w.Row, Turned: w.Turned}}))[0]
	near(t, "left", h.Left, w.HangLeft, exact)
	near(t, "behind", h.Behind, w.HangBehind, exact)
	near(t, "front", h.Front, w.HangFront, exact)
	near(t, "mass", h.Mass, w.Mass, exact)
}

// 30 in of a usual sandwich, rolled by hand, are no roll of 2 in: the sheet's area with
// 2.5 times its pressed thickness, 30 x 25.4 x 6.25 mm2, is that of a disc of 77.9 mm.
func TestRollByHand(t *testing.T) {
	top := must[Top](t)(usualTop(1500, 60*MMPerInch, 2))
	f := top.fit(Throat{200, 120, 50}, 0, false)
	near(t, "roll", f.Roll, math.Sqrt(4*30*25.4*6.25/math.Pi), exact)
	if f.Roll < 3*MMPerInch || f.Roll > 4*MMPerInch {
		t.Errorf("30 in make a roll of %.1f in", f.Roll/MMPerInch)
	}
	top.Loose = 1
	near(t, "tight roll", top.fit(Throat{200, 120, 50}, 0, false).Roll, math.Sqrt(4*30*25.4*2.5/math.Pi), exact)
}

// drawTop draws a top of up to n rows of different heights, and a throat.
func drawTop(rt *rapid.T, n int) (Top, Throat) {
	num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
	of := func(r Range) float64 { return num(r.Name, r.Min, r.Max) }
	t := Top{Along: of(QuiltSide), Across: num("across", 200, 3000), Thickness: of(Thickness), Core: of(Core),
		Packing: of(Packing), Density: of(ArealDensity)}
	at := 0.0
	rows := rapid.IntRange(1, n).Draw(rt, "rows")
	for range rows {
		gap := num("gap", 0, 0.3) * t.Across / float64(rows)
		t.Rows = append(t.Rows, Band{at + gap, at + t.Across/float64(rows)})
		at += t.Across / float64(rows)
	}
	th := Throat{Width: of(ThroatWidth), Height: of(ThroatHeight)}
	th.Hand = num("hand", 0, min(HandRoom.Max, th.Width-20))
	return t, th
}

// No order of the rows and no way of turning the quilt gets it through a throat
// that the best order does not get it through, nor with a thinner roll, and of
// those that do as well none turns the quilt less often.
func TestOrdersAgainstAllOrders(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		top, th := drawTop(rt, 5)
		orders, err := Orders(top, th, nil, nil)
		if err != nil {
			rt.Fatal(err)
		}
		best := orders[0]
		n := len(top.Rows)
		everyOrder(n, func(rows []int) {
			for bits := range 1 << n {
				turned := make([]bool, n)
				for i := range turned {
					turned[i] = bits>>i&1 == 1
				}
				o := top.assess(th, rows, turned)
				miss, least := len(o.NoRoll)+len(o.NoBunch), len(best.NoRoll)+len(best.NoBunch)
				if miss < least || o.WorstRoll < best.WorstRoll-1e-9 {
					rt.Fatalf("rows %v turned %v: %d misfits, roll %v; best %q has %d, %v", rows, turned, miss, o.WorstRoll, best.Kind, least, best.WorstRoll)
				}
				if miss == least && o.WorstRoll <= best.WorstRoll+1e-9 && o.Turns < best.Turns {
					rt.Fatalf("rows %v turned %v: %d turns; best %q has %d", rows, turned, o.Turns, best.Kind, best.Turns)
				}
			}
		})
	})
}

// everyOrder calls f with all orders of 0..n-1 (Heap's algorithm).
func everyOrder(n int, f func([]int)) {
	a := make([]int, n)
	for i := range a {
		a[i] = i
	}
	var heap func(k int)
	heap = func(k int) {
		if k <= 1 {
			f(a)
			return
		}
		for i := range k {
			heap(k - 1)
			if k%2 == 0 {
				a[i], a[k-1] = a[k-1], a[i]
			} else {
				a[0], a[k-1] = a[k-1], a[0]
			}
		}
	}
	heap(n)
}

// usualTop returns a top of n equal rows with the usual thickness, packing and
// weight.
func usualTop(along, across float64, n int) (Top, error) {
	if err := RowCount.Check(float64(n)); err != nil {
		return Top{}, err
	}
	t := Top{Along: along, Across: across, Thickness: Thickness.Usual, Core: Core.Usual,
		Packing: Packing.Usual, Density: ArealDensity.Usual}
	for i := range n {
		t.Rows = append(t.Rows, Band{across * float64(i) / float64(n), across * float64(i+1) / float64(n)})
	}
	return t, t.Validate()
}

// right is how much of a quilt goes through the throat, in mm, 0 if none: rolled,
// or bunched.
type right struct{ Rolled, Bunched float64 }

// maxRight returns the widest part of the quilt right of the needle that goes
// through: the inverse of RollDiameter, and for a bunch the room x packing /
// thickness. Both can be wider than the quilt: then all of it goes through.
func maxRight(t Top, th Throat) (right, error) {
	if err := t.Validate(); err != nil {
		return right{}, err
	}
	if err := th.Validate(); err != nil {
		return right{}, fmt.Errorf("throat: %w", err)
	}
	roll, bunch := th.room()
	return right{
		Rolled:  math.Max(0, math.Pi*(roll*roll-t.Core*t.Core)/(4*t.rolled())),
		Bunched: bunch * t.Packing / t.Thickness,
	}, nil
}
