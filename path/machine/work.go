package machine

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
)

// Span is a stretch of a piece from arc length From to To, in mm.
type Span struct {
	From, To float64
	// Ruler is true where it is sewn along a ruler, Travel where it only leads
	// on: along a seam, or over a line once more.
	Ruler, Travel bool
}

// Piece is what is sewn without a stop.
type Piece struct {
	// Line is the path in the order of sewing, with the dots marked on it.
	Line geom.Line
	// Spans ascend and do not overlap. What they leave out is sewn freely.
	Spans []Span
}

// Work is a planned route: its pieces in order, one more than it has stops.
type Work struct {
	Pieces []Piece
	// BlockW and BlockH are the size in mm of what the route fills: a block, a row
	// or a top.
	BlockW, BlockH float64
}

// MaxWork bounds the length of a Work in mm: a kilometre.
const MaxWork = 1e6

// Validate reports the first thing that makes no work, by its index.
func (w Work) Validate() error {
	if err := checkAll(entry{w.BlockW, QuiltSide.Called("width-of-the-block")}, entry{w.BlockH, QuiltSide.Called("height-of-the-block")}); err != nil {
		return err
	}
	if len(w.Pieces) == 0 {
		return fmt.Errorf("a route needs 1 piece at least")
	}
	for i, p := range w.Pieces {
		if err := p.validate(); err != nil {
			return fmt.Errorf("piece %d: %w", i, err)
		}
	}
	r := LineLength
	r.Max = MaxWork
	return r.Check(w.Length())
}

func (p Piece) validate() error {
	if err := p.Line.Path().Validate(); err != nil {
		return err
	}
	length := p.Line.Length()
	if !(length <= MaxWork) {
		return fmt.Errorf("length %v mm is above %v mm", length, MaxWork)
	}
	end := 0.0
	for i, s := range p.Spans {
		if !(s.From >= end-joinMM && s.To >= s.From && s.To <= length+joinMM) {
			return fmt.Errorf("span %d: from %v to %v mm does not lie between %v and %v mm", i, s.From, s.To, end, length)
		}
		end = s.To
	}
	return nil
}

// joinMM is the distance in mm below which two places on a line are one: the
// micrometre to which a route keeps its places.
const joinMM = 1e-3

// Length returns the length of all pieces in mm.
func (w Work) Length() float64 {
	sum := 0.0
	for _, p := range w.Pieces {
		sum += p.Line.Length()
	}
	return sum
}

// lengthOf returns the length in mm of the spans that take.
func (w Work) lengthOf(take func(Span) bool) float64 {
	sum := 0.0
	for _, p := range w.Pieces {
		for _, s := range p.Spans {
			if take(s) {
				sum += s.To - s.From
			}
		}
	}
	return math.Min(sum, w.Length())
}

// samePivot is the distance in mm along the line, less than half a usual stitch,
// within which corners are one: the needle stands once.
const samePivot = 1.0

// pivots returns the places on l, ascending, where the needle stands while the
// cloth is turned: its corners, those closer than samePivot taken as one.
func pivots(l geom.Line) []float64 { return thinned(l.Corners) }

// halts returns the places on l where the hands halt: pivots and inner dots.
func halts(l geom.Line) []float64 {
	all := slices.Clone(l.Corners)
	for _, d := range l.Dots {
		if d > joinMM && d < l.Length()-joinMM {
			all = append(all, d)
		}
	}
	slices.Sort(all)
	return thinned(all)
}

// thinned drops the places that lie within samePivot of the one before.
func thinned(places []float64) []float64 {
	var out []float64
	for i, s := range places {
		if i == 0 || s-places[i-1] > samePivot {
			out = append(out, s)
		}
	}
	return out
}
