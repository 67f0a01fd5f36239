package svg

import (
	"errors"
	"fmt"

	"unthreaded/path/geom"
)

// The attribute and the class by which dots stand in a file.
const (
	dotsAttribute = "data-dots"
	dotClass      = "dot"
)

// dotsOf reads the dots of n, nil if it has none, and turns them into arc lengths
// in mm along its only line.
func (d *drawer) dotsOf(n *node, strokes []stroke, m matrix) ([]float64, error) {
	text := n.attr(dotsAttribute)
	if text == "" || len(strokes) == 0 {
		return nil, nil
	}
	if len(strokes) > 1 {
		return nil, fmt.Errorf("the shape has %d lines", len(strokes))
	}
	at, err := numbers(text, MaxDots-d.dots)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", dotsAttribute, err)
	}
	d.dots += len(at)
	if i := descent(at); i > 0 {
		return nil, fmt.Errorf("dot %d does not come after dot %d", i+1, i)
	}
	path := strokes[0].path
	if geom.Polyline(path).Length() > maxDotted {
		return nil, fmt.Errorf("the line is longer than %g m", maxDotted/1000)
	}
	if at, err = carry(at, path, m); err != nil {
		return nil, err
	}
	if err := onLine(at, flatLength(path)); err != nil {
		return nil, err
	}
	return at, nil
}

// maxDotted bounds the length in mm of a line with dots, which is cut into chords.
const maxDotted = 1e6

// descent returns the index of the first dot that does not come after the one
// before, 0 if there is none.
func descent(dots []float64) int {
	for i := 1; i < len(dots); i++ {
		if !(dots[i] > dots[i-1]) {
			return i
		}
	}
	return 0
}

// flatLength returns the length in mm of the flattened line, without keeping it.
func flatLength(s geom.Spline) (sum float64) {
	for i := range s.Pieces() {
		sum += s[3*i : 3*i+4].Flatten().Length()
	}
	return sum
}

// carry turns ascending arc lengths in the coordinates before m into mm on path,
// which is in mm. Both are measured along the same chords, whose shares an affine
// map keeps. What lies beyond the end runs on at the scale of the last chord.
func carry(at []float64, path geom.Spline, m matrix) ([]float64, error) {
	if m == identity {
		return at, nil
	}
	back, ok := m.inverse()
	if !ok {
		return nil, errors.New("its coordinates have collapsed to a line")
	}
	out := make([]float64, 0, len(at))
	var from, to, scale float64
	for i := range path.Pieces() {
		after := sampled(path, i)
		before := after.Map(back.apply)
		for k := 1; k < len(after); k++ {
			df, dt := geom.Dist(before[k-1], before[k]), geom.Dist(after[k-1], after[k])
			if df > 0 {
				scale = dt / df
			}
			for len(out) < len(at) && at[len(out)] <= from+df {
				out = append(out, to+(at[len(out)]-from)*scale)
			}
			from, to = from+df, to+dt
		}
	}
	for len(out) < len(at) {
		out = append(out, to+(at[len(out)]-from)*scale)
	}
	return out, nil
}

// chords is how many chords stand for one curve there.
const chords = 64

// sampled returns points evenly by parameter on piece i of the path.
func sampled(path geom.Spline, i int) geom.Polyline {
	out := make(geom.Polyline, chords+1)
	a, b, c, d := path.Piece(i)
	for k := range out {
		t := float64(k) / chords
		ab, bc, cd := geom.Lerp(a, b, t), geom.Lerp(b, c, t), geom.Lerp(c, d, t)
		out[k] = geom.Lerp(geom.Lerp(ab, bc, t), geom.Lerp(bc, cd, t), t)
	}
	return out
}

// dotSlack is how far in mm beyond the end of a line a dot may lie, to be moved to
// the end: as much as rounding and flattening shorten a line, and a share of it.
const (
	dotSlack      = 0.05
	dotSlackShare = 0.002
)

// onLine checks that dots ascend along a line of the given length in mm, and moves
// those within the slack to its end.
func onLine(dots []float64, length float64) error {
	for i, s := range dots {
		if !(s >= -samePlace && s <= length+dotSlack+dotSlackShare*length) {
			return fmt.Errorf("dot %d at %.4g mm lies off the line of %.4g mm", i+1, s, length)
		}
		dots[i] = max(0, min(s, length))
	}
	if i := descent(dots); i > 0 {
		return fmt.Errorf("dot %d at %.4g mm does not come after dot %d", i+1, dots[i], i)
	}
	return nil
}

// inverse returns the map back; ok is false where there is none.
func (m matrix) inverse() (inv matrix, ok bool) {
	det := m.a*m.d - m.b*m.c
	inv = matrix{m.d / det, -m.b / det, -m.c / det, m.a / det, 0, 0}
	o := inv.apply(geom.Pt(m.e, m.f))
	inv.e, inv.f = -o.X, -o.Y
	return inv, abs(det) > 1e-12*m.stretch()*m.stretch() && geom.Finite(o)
}
