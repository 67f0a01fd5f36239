package motif

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
)

// Rehearsal is a line to rehearse at true size: a motif so many times in a row, or
// one line of her own.
type Rehearsal struct {
	// ID is that of the motif, or names the line of her own, which has its Name
	// and a Note on it; those of a motif stand in game/words.
	ID, Name, Note string
	// Max is the largest number of repeats, Usual the number that makes a
	// rehearsal of about half a minute.
	Max, Usual int
	line       func(n int) (geom.Line, error)
}

// row is how a motif is rehearsed.
type row struct {
	max, usual int
	// rank is its place among those offered first for rehearsing, from 1; 0 comes
	// after them.
	rank int
	// line makes the row with n repeats; nil lays the motif over a strip of n
	// squares, side mm wide.
	line func(n int) (geom.Line, error)
	side float64
}

// patch is the side in mm of the square over which a motif without a row of its own
// is laid to be rehearsed: 4 in.
const patch = 101.6

// Rehearsal returns how the motif is rehearsed. It never fails; its lines do not
// either, up to Max.
func (m Motif) Rehearsal() Rehearsal {
	r := row{max: 1, usual: 1}
	if m.rows {
		r = row{max: 8, usual: 4}
	}
	if m.row != nil {
		r = *m.row
	}
	if r.line == nil {
		r.line = func(n int) (geom.Line, error) { return m.strip(n, cmp.Or(r.side, patch)) }
	}
	return Rehearsal{ID: m.ID, Max: r.max, Usual: r.usual, line: r.line}
}

// ToRehearse returns the library in the order in which it is offered for rehearsing:
// first the plain rows, then as Ready.
func ToRehearse() []Motif {
	out := Ready()
	rank := func(m Motif) int {
		if m.row == nil || m.row.rank == 0 {
			return math.MaxInt
		}
		return m.row.rank
	}
	slices.SortStableFunc(out, func(a, b Motif) int { return cmp.Compare(rank(a), rank(b)) })
	return out
}

// Of makes a rehearsal of one given line that does not repeat, such as a planned
// route. l must not be empty.
func Of(id, name, note string, l geom.Line) Rehearsal {
	return Rehearsal{
		ID: id, Name: name, Note: note, Max: 1, Usual: 1,
		line: func(int) (geom.Line, error) { return l, nil },
	}
}

// Line returns the row with n repeats, its bounding box starting at (0, 0). It
// fails unless 1 <= n <= Max.
func (r Rehearsal) Line(n int) (geom.Line, error) {
	if n < 1 || n > r.Max {
		return geom.Line{}, fmt.Errorf("%s: %d repeats asked for, 1 to %d are possible", r.ID, n, r.Max)
	}
	return r.line(n)
}

// together in mm is how near the same place of two rows lies.
const together = 0.5

// Ends returns the arc lengths in mm at which each of n repeats ends on the row, the last at
// its end. It returns none for a single repeat, and where a shorter row is no beginning of a
// longer one, so that a repeat is no part of the line in one go.
func (r Rehearsal) Ends(n int) []float64 {
	row, err := r.Line(n)
	if err != nil || n < 2 {
		return nil
	}
	var out []float64
	for k := 1; k < n; k++ {
		part, err := r.Line(k)
		if err != nil || part.Length() >= row.Length() {
			return nil
		}
		// The last repeat of a shorter row may end otherwise than one that is followed.
		from := 0.0
		if k > 1 {
			from = out[k-2]
		}
		at := (from + part.Length()) / 2
		if geom.Dist(part.At(at), row.At(at)) > together {
			return nil
		}
		out = append(out, part.Length())
	}
	return append(out, row.Length())
}

// Fit returns the largest number of repeats, at least 1 and at most Usual, whose
// row is no wider than width mm and no higher than height mm.
func (r Rehearsal) Fit(width, height float64) int {
	for n := r.Usual; n > 1; n-- {
		l, err := r.Line(n)
		if err != nil {
			continue
		}
		if lo, hi := l.Path().Bounds(); hi.X-lo.X <= width && hi.Y-lo.Y <= height {
			return n
		}
	}
	return 1
}

// strip lays the motif over n squares side by side; one in rows over a strip as high
// as its usual row, n repeats long.
func (m Motif) strip(n int, side float64) (geom.Line, error) {
	s := Shape{Kind: Rectangle, W: side * float64(n), H: side}
	v, length := Values{}, 0.0
	if m.rows {
		for _, q := range m.Params {
			switch q.ID {
			case "height":
				s.H, v[q.ID] = q.Usual, q.Usual
				length = q.Usual
			case "length":
				length, v[q.ID] = q.Usual, q.Usual
			case "way":
				v[q.ID] = 1
			}
		}
	}
	if length > 0 {
		s.W = length*float64(n) + 0.8*s.H // with room to swing in and out
	} else if n == 1 {
		s = Shape{Kind: Square, W: side}
	}
	pieces, err := m.Fit(s, 0, v)
	if err != nil {
		return geom.Line{}, err
	}
	path := toOrigin(joined(pieces))
	l, err := geom.NewLine(path)
	if err != nil || !slices.ContainsFunc(pieces, func(p Piece) bool { return p.Ruler }) {
		return l, err
	}
	return l.WithDots(append(append([]float64{0}, l.Corners...), l.Length()))
}

// joined returns the pieces as one line: each next one is that which lies nearest to
// where the needle is, entered at its nearer end, a closed one at its nearest
// point. Where they do not meet, the line goes straight over. Cost O(pieces * points).
func joined(pieces []Piece) geom.Polyline {
	left := make([]geom.Polyline, len(pieces))
	for i, p := range pieces {
		left[i] = p.Path
	}
	out := slices.Clone(left[0])
	for left = left[1:]; len(left) > 0; {
		here := out[len(out)-1]
		best, entry, least := 0, 0, math.Inf(1)
		for i, pl := range left {
			last := len(pl) - 1
			ways := []int{0, last}
			if pl[0] == pl[last] {
				ways = ways[:0]
				for k := range last {
					ways = append(ways, k)
				}
			}
			for _, k := range ways {
				if d := geom.Dist(here, pl[k]); d < least-1e-9 {
					best, entry, least = i, k, d
				}
			}
		}
		next := left[best]
		switch last := len(next) - 1; {
		case next[0] == next[last]:
			next = append(slices.Clone(next[entry:last]), next[:entry+1]...)
		case entry == last:
			next = slices.Clone(next)
			slices.Reverse(next)
		}
		out = append(out, next...)
		left = slices.Delete(left, best, best+1)
	}
	return out.Compact()
}

// toOrigin moves a path so that its bounding box starts at (0, 0).
func toOrigin(pl geom.Polyline) geom.Polyline {
	lo, _ := pl.Bounds()
	return pl.Map(func(p geom.Point) geom.Point { return geom.Pt(p.X-lo.X, p.Y-lo.Y) })
}
