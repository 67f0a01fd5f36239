package steps

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// Turn is one of the eight ways to lay a square on itself.
type Turn int

// The turns, the better to remember the earlier: as it is, by a half, by a quarter
// either way, mirrored left to right and top to bottom, and mirrored along either
// diagonal.
const (
	Shifted Turn = iota
	HalfTurned
	QuarterTurned
	QuarterTurnedBack
	MirroredAcross
	MirroredDown
	MirroredRising
	MirroredFalling
	turns
)

// Apply returns the image of p under the turn about the origin.
func (t Turn) Apply(p geom.Point) geom.Point {
	switch t {
	case HalfTurned:
		return geom.Pt(-p.X, -p.Y)
	case QuarterTurned:
		return geom.Pt(-p.Y, p.X)
	case QuarterTurnedBack:
		return geom.Pt(p.Y, -p.X)
	case MirroredAcross:
		return geom.Pt(-p.X, p.Y)
	case MirroredDown:
		return geom.Pt(p.X, -p.Y)
	case MirroredRising:
		return geom.Pt(-p.Y, -p.X)
	case MirroredFalling:
		return geom.Pt(p.Y, p.X)
	}
	return p
}

// sameLine is the distance in mm within which two lines are the same: far below what
// is seen, above what rounding to micrometres leaves.
const sameLine = 0.05

// samples is the number of places at which lines are compared.
const samples = 16

// likeness is what is compared of a block: its lines as points, and where it lies.
type likeness struct {
	lines  []sampled
	total  float64
	lo, hi geom.Point
}

type sampled struct {
	pts    [samples]geom.Point
	length float64
}

func newLikeness(g plane.Graph, lines []Line) likeness {
	var out likeness
	var all geom.Polyline
	for _, l := range lines {
		path := l.Path(g)
		s := sampled{length: path.Length()}
		k, sum := 1, 0.0
		for i := range s.pts {
			want := s.length * float64(i) / (samples - 1)
			for k < len(path)-1 && sum+geom.Dist(path[k-1], path[k]) < want {
				sum += geom.Dist(path[k-1], path[k])
				k++
			}
			leg := geom.Dist(path[k-1], path[k])
			s.pts[i] = path[k]
			if leg > 0 {
				s.pts[i] = geom.Lerp(path[k-1], path[k], math.Min(1, (want-sum)/leg))
			}
		}
		out.lines = append(out.lines, s)
		out.total += s.length
		all = append(all, path...)
	}
	out.lo, out.hi = all.Bounds()
	return out
}

// fit is how the lines of one block lie on those of another: line i of the first is
// line to[i] of the other, flipped where they run opposite ways, the places of the
// first turned and then moved.
type fit struct {
	turn Turn
	move geom.Point
	to   []int
	flip []bool
}

func (f fit) apply(p geom.Point) geom.Point { return r2.Add(f.turn.Apply(p), f.move) }

// invert returns the place of the first block that comes to lie on p.
func (f fit) invert(p geom.Point) geom.Point {
	back := f.turn
	switch f.turn {
	case QuarterTurned:
		back = QuarterTurnedBack
	case QuarterTurnedBack:
		back = QuarterTurned
	}
	return back.Apply(r2.Sub(p, f.move))
}

// onto returns how a lies on b under a turn, false if it does not.
func (a likeness) onto(b likeness, t Turn) (fit, bool) {
	f := fit{turn: t}
	if len(a.lines) != len(b.lines) || math.Abs(a.total-b.total) > sameLine*float64(1+len(a.lines)) {
		return f, false
	}
	if len(a.lines) == 0 {
		return f, t == Shifted
	}
	lo, hi := geom.Polyline{t.Apply(a.lo), t.Apply(a.hi)}.Bounds()
	if math.Abs(hi.X-lo.X-b.hi.X+b.lo.X) > 2*sameLine || math.Abs(hi.Y-lo.Y-b.hi.Y+b.lo.Y) > 2*sameLine {
		return f, false
	}
	f.move = r2.Sub(b.lo, lo)
	taken := make([]bool, len(b.lines))
	for i := range a.lines {
		k, flip := f.match(a.lines[i], b.lines, taken, i)
		if k < 0 {
			return f, false
		}
		taken[k] = true
		f.to, f.flip = append(f.to, k), append(f.flip, flip)
	}
	return f, true
}

// match returns which of the lines that are not taken s lies on; first the one with
// the same number is looked at.
func (f fit) match(s sampled, lines []sampled, taken []bool, first int) (int, bool) {
	for n := range lines {
		k := (first + n) % len(lines)
		if taken[k] || math.Abs(lines[k].length-s.length) > sameLine {
			continue
		}
		for _, flip := range [2]bool{false, true} {
			if f.lies(s, lines[k], flip) {
				return k, flip
			}
		}
	}
	return -1, false
}

func (f fit) lies(s, on sampled, flip bool) bool {
	for i, p := range s.pts {
		k := i
		if flip {
			k = samples - 1 - i
		}
		if geom.Dist(f.apply(p), on.pts[k]) > sameLine {
			return false
		}
	}
	return true
}
