package sketch

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// drawSpline draws an open line of 1 to 5 pieces.
func drawSpline(rt *rapid.T, least int) geom.Spline {
	n := rapid.IntRange(least, 5).Draw(rt, "pieces")
	c := rapid.Float64Range(-100, 100)
	s := make(geom.Spline, 3*n+1)
	for i := range s {
		s[i] = geom.Pt(c.Draw(rt, "x"), c.Draw(rt, "y"))
	}
	return s
}

// same tells whether two lines run through the same places at the same parameters,
// within a micrometre.
func same(a, b geom.Spline) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if geom.Dist(a[i], b[i]) > 1e-3 {
			return false
		}
	}
	return true
}

func ok(rt *rapid.T, s geom.Spline, err error) geom.Spline {
	if err == nil {
		err = s.Validate()
	}
	if err != nil {
		rt.Fatal(err)
	}
	return s
}

// What is done to a line leaves the line it was done to alone, and what can be undone
// gives that back.
func TestEditsArePureAndReversible(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSpline(rt, 2)
		before := clone(s)
		k := rapid.IntRange(0, s.Pieces()).Draw(rt, "node")
		p := geom.Pt(3, 5)
		moved, err := MoveNode(s, k, p)
		back, err2 := MoveNode(ok(rt, moved, err), k, s[3*k])
		if !same(ok(rt, back, err2), s) || moved[3*k] != p {
			rt.Fatalf("node %d moved and back: %v is now %v", k, s, back)
		}
		piece := rapid.IntRange(0, s.Pieces()-1).Draw(rt, "piece")
		at := rapid.Float64Range(0.1, 0.9).Draw(rt, "t")
		more, node, err := InsertNode(s, piece, at)
		ok(rt, more, err)
		for u := 0.0; u <= 1; u += 0.25 {
			before := geom.Dist(more.At(piece, u), s.At(piece, u*at))
			after := geom.Dist(more.At(piece+1, u), s.At(piece, at+u*(1-at)))
			if before > 1e-9 || after > 1e-9 || more.Pieces() != s.Pieces()+1 {
				rt.Fatalf("a node inserted moved the line by %v and %v mm", before, after)
			}
		}
		fewer, err := DeleteNode(more, node)
		if !(ok(rt, fewer, err).Pieces() == s.Pieces() && fewer[3*piece] == s[3*piece] && fewer[3*piece+3] == s[3*piece+3]) {
			rt.Fatalf("node %d deleted: %v", node, fewer)
		}
		if !same(s, before) {
			rt.Fatal("the line given was changed")
		}
	})
}

// A node put into an arc that one cubic draws well, and deleted, leaves the arc.
func TestDeletedNodeLeavesTheShape(t *testing.T) {
	const k = 0.5522847498
	s := geom.Spline{geom.Pt(50, 0), geom.Pt(50, 50*k), geom.Pt(50*k, 50), geom.Pt(0, 50)}
	for _, at := range []float64{0.2, 0.5, 0.7} {
		more, node, err := InsertNode(s, 0, at)
		if err != nil {
			t.Fatal(err)
		}
		fewer, err := DeleteNode(more, node)
		if err != nil {
			t.Fatal(err)
		}
		if d := farApart(fewer.Flatten(), s.Flatten()); d > 0.1 {
			t.Errorf("node at %v: %.3f mm away after deleting it, expected 0.1 at most", at, d)
		}
	}
	fewer, err := DeleteNode(geom.Straight(geom.MustParse("M 0 0 L 5 5 L 10 0")), 1)
	if err != nil || geom.Format(fewer.Flatten()) != "M 0 0 L 10 0" {
		t.Errorf("a corner deleted between straight pieces: %v (%v)", fewer, err)
	}
}

func TestSmoothAndCorner(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSpline(rt, 2)
		k := rapid.IntRange(1, s.Pieces()-1).Draw(rt, "node")
		smooth, err := MakeSmooth(s, k)
		if err != nil && min(s.PieceLength(k-1), s.PieceLength(k)) < 1e-5 {
			return // a piece without length has no direction
		}
		if j, _ := JointAt(ok(rt, smooth, err), k); j != Smooth {
			rt.Fatalf("node %d of %v is not smooth", k, smooth)
		}
		handle := 3*k + 1
		turned, err := MoveHandle(smooth, handle, geom.Pt(7, -3), Smooth)
		if j, _ := JointAt(ok(rt, turned, err), k); j != Smooth {
			rt.Fatalf("node %d is no longer smooth", k)
		}
		was, is := geom.Dist(smooth[3*k], smooth[3*k-1]), geom.Dist(turned[3*k], turned[3*k-1])
		if math.Abs(was-is) > 1e-9 || turned[handle] != geom.Pt(7, -3) {
			rt.Fatalf("the opposite handle was %v mm long and is %v", was, is)
		}
		free, err := MoveHandle(smooth, handle, geom.Pt(7, -3), Corner)
		if ok(rt, free, err)[3*k-1] != smooth[3*k-1] {
			rt.Fatal("the handle of a corner moved along")
		}
	})
	s := geom.Spline{geom.Pt(0, 0), geom.Pt(0, 10), geom.Pt(20, 10), geom.Pt(20, 0), geom.Pt(20, -10), geom.Pt(40, -10), geom.Pt(40, 0)}
	for _, k := range []int{0, 1, 2} {
		var err error
		if s, err = MakeCorner(s, k); err != nil {
			t.Fatal(err)
		}
	}
	if got := geom.Format(s.Flatten()); got != "M 0 0 L 20 0 L 40 0" {
		t.Errorf("with corners only the line is %s", got)
	}
}

// A straight piece stays straight when its end is moved, and the curve it runs into
// follows its direction.
func TestMoveNodeKeepsStraightAndSmooth(t *testing.T) {
	s := append(geom.Straight(geom.MustParse("M 0 0 L 30 0")), geom.Pt(40, 0), geom.Pt(50, 10), geom.Pt(50, 20))
	out, err := MoveNode(s, 1, geom.Pt(30, 12))
	if err != nil {
		t.Fatal(err)
	}
	if !isStraight(out, 0) {
		t.Errorf("the straight piece is bent: %v", out)
	}
	if j, _ := JointAt(out, 1); j != Smooth {
		t.Errorf("the node has become a corner: %v", out)
	}
	if d := geom.Dist(out[3], out[4]); math.Abs(d-10) > 1e-9 {
		t.Errorf("the handle is %v mm long, was 10", d)
	}
}

func TestClosedLines(t *testing.T) {
	square := geom.Straight(geom.MustParse("M 0 0 L 30 0 L 30 30 L 0 30 Z"))
	moved, err := MoveNode(square, 4, geom.Pt(-5, -5))
	if err != nil || moved[0] != geom.Pt(-5, -5) || moved[12] != moved[0] {
		t.Errorf("first and last node came apart: %v (%v)", moved, err)
	}
	turned, err := StartAt(square, 2)
	if err != nil || geom.Format(turned.Nodes()) != "M 30 30 L 0 30 L 0 0 L 30 0 L 30 30" {
		t.Errorf("started at node 2: %v (%v)", turned.Nodes(), err)
	}
	again, err := Close(geom.Straight(geom.MustParse("M 30 30 L 0 30 L 0 0 L 30 0")), 1)
	if err != nil || again.Pieces() != 4 || !again.Closed() {
		t.Errorf("closed again: %v (%v)", again, err)
	}
	pulled, err := Close(geom.Straight(geom.MustParse("M 0 0 L 30 0 L 30 30 L 1 1")), 2)
	if err != nil || pulled.Pieces() != 3 || pulled[0] != geom.Pt(0.5, 0.5) || !pulled.Closed() {
		t.Errorf("ends pulled together: %v (%v)", pulled, err)
	}
	three, err := DeleteNode(square, 0)
	if err != nil || !three.Closed() || three.Pieces() != 3 || geom.Format(three.Nodes()) != "M 30 0 L 30 30 L 0 30 L 30 0" {
		t.Errorf("first corner deleted: %v (%v)", three.Nodes(), err)
	}
}

func TestEditErrors(t *testing.T) {
	s := geom.Straight(geom.MustParse("M 0 0 L 30 0"))
	nan := geom.Pt(math.NaN(), 0)
	for name, f := range map[string]func() error{
		"move node 2":         func() error { _, err := MoveNode(s, 2, geom.Pt(0, 0)); return err },
		"move to nowhere":     func() error { _, err := MoveNode(s, 0, nan); return err },
		"move a node's point": func() error { _, err := MoveHandle(s, 3, geom.Pt(0, 0), Smooth); return err },
		"handle to nowhere":   func() error { _, err := MoveHandle(s, 1, nan, Smooth); return err },
		"smooth an end":       func() error { _, err := MakeSmooth(s, 0); return err },
		"delete the last":     func() error { _, err := DeleteNode(s, 0); return err },
		"insert in a node":    func() error { _, _, err := InsertNode(s, 0, 1); return err },
		"start an open line":  func() error { _, err := StartAt(s, 1); return err },
		"close a short dash":  func() error { _, err := Close(s, 50); return err },
		"corner of nothing":   func() error { _, err := MakeCorner(nil, 0); return err },
	} {
		if f() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestGrabAndPick(t *testing.T) {
	s := geom.Spline{geom.Pt(0, 0), geom.Pt(0, 10), geom.Pt(20, 10), geom.Pt(20, 0)}
	s = s.LineTo(geom.Pt(50, 0))
	for _, c := range []struct {
		p    geom.Point
		node int
		want int
		ok   bool
	}{
		{geom.Pt(0.5, 9), 0, 1, true}, {geom.Pt(19, 1), 0, 3, true}, {geom.Pt(30, 0.1), 0, 0, false}, {geom.Pt(51, 0), 0, 6, true},
		{geom.Pt(0.5, 9), 1, 0, false}, {geom.Pt(0.5, 9), -1, 0, false}, {geom.Pt(19.5, 9), 1, 2, true},
	} {
		if i, ok := Grab(s, c.p, 2, c.node); ok != c.ok || ok && i != c.want {
			t.Errorf("at %v: point %d (%v), expected %d (%v)", c.p, i, ok, c.want, c.ok)
		}
	}
	other := geom.Straight(geom.MustParse("M 0 20 L 50 20"))
	hit, ok := Pick([]geom.Spline{s, nil, other}, geom.Pt(25, 19), 3)
	if !ok || hit.Line != 2 || math.Abs(hit.Dist-1) > 1e-9 || math.Abs(hit.T-0.5) > 1e-6 {
		t.Errorf("picked %+v (%v)", hit, ok)
	}
	if _, ok := Pick([]geom.Spline{s, other}, geom.Pt(25, 16), 3); ok {
		t.Error("something was picked 4 mm away")
	}
}
