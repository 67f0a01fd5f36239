package geom

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"
)

// Join returns the spline that runs along s and then along next, which must start
// within gap mm of the end of s. Both ends move to the middle between them,
// their handles with them, so that the pieces keep their shape.
func (s Spline) Join(next Spline, gap float64) (Spline, error) {
	if s.Pieces() == 0 || next.Pieces() == 0 {
		return nil, fmt.Errorf("a join needs two lines, one of these has no piece")
	}
	end, start := s[len(s)-1], next[0]
	if d := Dist(end, start); !(d <= gap) {
		return nil, fmt.Errorf("the ends lie %.3f mm apart, more than %.3f mm", d, gap)
	}
	meet := Lerp(end, start, 0.5)
	out := append(Spline{}, s...)
	out.SetNode(s.Pieces(), meet)
	tail := append(Spline{}, next...)
	tail.SetNode(0, meet)
	return append(out, tail[1:]...), nil
}

// SetNode moves node k of the spline, in place, to p. Its handles go along, and a
// straight piece beside it stays straight, its handles at the same shares of it.
func (s Spline) SetNode(k int, p Point) {
	by := r2.Sub(p, s[3*k])
	var straight []func()
	for i := max(0, k-1); i <= min(s.Pieces()-1, k); i++ {
		if s.IsStraight(i, straightWithin) {
			straight = append(straight, s.keepStraight(i))
		}
	}
	for i := max(0, 3*k-1); i <= min(len(s)-1, 3*k+1); i++ {
		s[i] = r2.Add(s[i], by)
	}
	s[3*k] = p
	for _, again := range straight {
		again()
	}
}

// straightWithin is the distance in mm, far below a thread, within which a piece
// counts as straight when its end is moved.
const straightWithin = 1e-6

// keepStraight notes where the handles of the straight piece i lie between its ends
// and returns what puts them there again.
func (s Spline) keepStraight(i int) (again func()) {
	c := s[3*i : 3*i+4]
	t1, _ := NearestOnSegment(c[1], c[0], c[3])
	t2, _ := NearestOnSegment(c[2], c[0], c[3])
	if c[0] == c[3] {
		t1, t2 = 1.0/3, 2.0/3
	}
	return func() { c[1], c[2] = Lerp(c[0], c[3], t1), Lerp(c[0], c[3], t2) }
}
