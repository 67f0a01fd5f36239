package game_test

import (
	"math"
	"reflect"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/synth"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

func set(name, value string) game.Control {
	return game.Control{Name: "rehearse." + name, Value: value}
}

// push has the hand move the cloth so that the needle sews the hand's movement: the
// pointer goes the other way, from the place where the cloth is held.
func (tb *table) push(h synth.Hand, d trace.Device, hold geom.Point, t0 float64) {
	samples := h.Samples(tb.m.Rehearsal().Line)
	for i, s := range samples {
		p := game.Pointer{Kind: game.Move, ID: 1, Device: d, T: t0 + s.T, Pressure: s.Pressure}
		p.X = hold.X - (s.P.X-samples[0].P.X)*tb.m.Sight().Scale
		p.Y = hold.Y - (s.P.Y-samples[0].P.Y)*tb.m.Sight().Scale
		if i == 0 {
			p.Kind = game.Down
		}
		tb.send(p)
		if i == len(samples)-1 {
			p.Kind = game.Up
			tb.send(p)
		}
	}
}

// The same movement of the needle over the cloth, once by moving the needle and once
// by moving the cloth the other way under it, leaves the same trace and the same
// measures, wherever the cloth is held and whatever the device.
func TestMovingTheClothSewsTheSameLine(t *testing.T) {
	h := synth.Hand{
		Hz: 120, Beside: func(s float64) float64 { return math.Sin(s / 9) },
		Speed: func(s float64) float64 { return 25 + 9*math.Sin(s/20) },
	}
	for _, d := range []trace.Device{trace.Mouse, trace.Pen, trace.Touch} {
		pencil := newTable(t)
		pencil.draw(h, d, 3)
		cloth := newTable(t)
		cloth.send(set("way", "cloth"))
		cloth.push(h, d, geom.Pt(811.3, 97.7), 3)
		a, b := pencil.m.Rehearsal().Open, cloth.m.Rehearsal().Open
		if a.Rec.Way != keep.Pencil || b.Rec.Way != keep.Cloth {
			t.Fatalf("kept as %q and %q", a.Rec.Way, b.Rec.Way)
		}
		ta, tc := a.Rec.Trace(), b.Rec.Trace()
		for i := range ta.Samples {
			if math.Abs(ta.Samples[i].T-tc.Samples[i].T) > 1e-9 || geom.Dist(ta.Samples[i].P, tc.Samples[i].P) > 1e-9 {
				t.Fatalf("%s: sample %d is %v with the pencil, %v with the cloth", d, i, ta.Samples[i], tc.Samples[i])
			}
		}
		sameMeasures(t, "", reflect.ValueOf(a.Report), reflect.ValueOf(b.Report))
	}
}

// sameMeasures compares two reports figure by figure, to 1e-9.
func sameMeasures(t *testing.T, path string, a, b reflect.Value) {
	t.Helper()
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			sameMeasures(t, path+"."+a.Type().Field(i).Name, a.Field(i), b.Field(i))
		}
	case reflect.Slice:
		if a.Len() != b.Len() {
			t.Errorf("%s: %d and %d entries", path, a.Len(), b.Len())
			return
		}
		for i := range a.Len() {
			sameMeasures(t, path, a.Index(i), b.Index(i))
		}
	case reflect.Float64:
		if x, y := a.Float(), b.Float(); math.Abs(x-y) > 1e-9*math.Max(1, math.Abs(x)) {
			t.Errorf("%s: %v with the pencil, %v with the cloth", path, x, y)
		}
	case reflect.String:
		if a.String() != b.String() {
			t.Errorf("%s: %q and %q", path, a.String(), b.String())
		}
	}
}

// Pushing the cloth right makes the line grow to the left on the cloth; the place
// being sewn stays under the needle, and the chalk goes along with the pointer.
func TestThePointerMovesTheCloth(t *testing.T) {
	tb := newTable(t)
	tb.send(set("way", "cloth"))
	if !tb.m.Rehearsal().UnderNeedle() {
		t.Fatal("the cloth does not lie under the needle")
	}
	at := func(p geom.Point) geom.Point {
		q, s := tb.m.Sight().ToScreen(p), tb.m.Rehearsal().Shift()
		return geom.Pt(q.X+s.X, q.Y+s.Y)
	}
	start, needle := tb.m.Rehearsal().Line.At(0), tb.m.Rehearsal().Needle()
	if geom.Dist(at(start), needle) > 1e-9 {
		t.Errorf("the start lies at %v, the needle stands at %v", at(start), needle)
	}
	before := at(geom.Pt(30, 10))
	tb.send(game.Pointer{Kind: game.Down, ID: 1, Device: trace.Touch, T: 1, X: 400, Y: 300},
		game.Pointer{Kind: game.Move, ID: 1, Device: trace.Touch, T: 1.5, X: 450, Y: 280})
	after := at(geom.Pt(30, 10))
	if math.Abs(after.X-before.X-50) > 1e-9 || math.Abs(after.Y-before.Y+20) > 1e-9 {
		t.Errorf("the chalk went by (%v, %v), the pointer by (50, -20)", after.X-before.X, after.Y-before.Y)
	}
	sewn := tb.m.Rehearsal().Live.Samples[1].P
	if !(sewn.X < start.X) || !(sewn.Y > start.Y) {
		t.Errorf("pushed right and up, the line went from %v to %v; it should grow to the left and down", start, sewn)
	}
	if geom.Dist(at(sewn), needle) > 1e-9 {
		t.Errorf("the place being sewn lies at %v, the needle stands at %v", at(sewn), needle)
	}
}

// Held at the ring, the pointer stays on the cloth for the whole of every line, on
// every screen.
func TestTheHoldKeepsThePointerOnTheCloth(t *testing.T) {
	for _, screen := range []game.Resized{laptop, {W: 390, H: 430, Strip: 92, DPR: 3}, {W: 820, H: 640, Strip: 112, DPR: 2}} {
		for _, motif := range []string{"linked-swirls", "ruler-zigzag", "figure-eights", "square-spiral"} {
			tb := newTable(t)
			tb.send(game.Control{Name: "motif", Value: motif}, screen, set("way", "cloth"))
			hold, start := tb.m.Rehearsal().Hold(), tb.m.Rehearsal().Line.At(0)
			for _, p := range tb.m.Rehearsal().Line.Path() {
				x, y := hold.X-(p.X-start.X)*tb.m.Sight().Scale, hold.Y-(p.Y-start.Y)*tb.m.Sight().Scale
				if x < 0 || y < 0 || x > screen.W || y > screen.H-screen.Strip {
					t.Fatalf("%s on %v x %v: the pointer leaves the cloth at (%.0f, %.0f)", motif, screen.W, screen.H, x, y)
				}
			}
		}
	}
}

// Traces are listed and compared like with like: by way, device, size and guide.
func TestLikeWithLike(t *testing.T) {
	tb := newTable(t)
	h := even()
	h.Stop = 60
	tb.draw(h, trace.Pen, 3)
	first := tb.m.Rehearsal().Setup()
	for name, c := range map[string]struct {
		before []game.Msg
		device trace.Device
		unlike []string
	}{
		"the same":   {nil, trace.Pen, nil},
		"a mouse":    {nil, trace.Mouse, []string{"device"}},
		"only dots":  {[]game.Msg{set("marks", "dots")}, trace.Pen, []string{"guide"}},
		"counted in": {[]game.Msg{set("countin", "on")}, trace.Pen, nil},
		"smaller":    {[]game.Msg{game.Control{Name: "repeats", Value: "4"}, game.Resized{W: 500, H: 600, DPR: 1}}, trace.Pen, []string{"size"}},
		"measured":   {[]game.Msg{set("screen", ""), set("card-keep", "")}, trace.Pen, []string{"size"}},
	} {
		other := newTable(t)
		other.send(c.before...)
		other.draw(h, c.device, 3)
		if other.m.Rehearsal().Live != nil || other.m.Rehearsal().Open == nil {
			t.Fatalf("%s: no trace was kept", name)
		}
		if got := keep.Unlike(first, other.m.Rehearsal().Setup()); !reflect.DeepEqual(got, c.unlike) {
			t.Errorf("%s: unlike in %v, want %v", name, got, c.unlike)
		}
	}
}
