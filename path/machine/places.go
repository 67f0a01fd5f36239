package machine

import (
	"cmp"
	"slices"
)

// PlaceKind tells what makes a place good for a stop.
type PlaceKind string

// The kinds of places, best first.
const (
	EndOfPiece PlaceKind = "end-of-a-piece"
	SeamPlace  PlaceKind = "seam"
	DotPlace   PlaceKind = "dot"
	Corner     PlaceKind = "corner"
	Junction   PlaceKind = "junction"
)

// Place is a place on the route where a stop hardly shows: At is the arc length
// in mm from the start of the route, pieces counted on.
type Place struct {
	At   float64
	Kind PlaceKind
}

// rank orders the kinds, best first; a kind that is not known comes last.
func (k PlaceKind) rank() int {
	kinds := []PlaceKind{EndOfPiece, SeamPlace, DotPlace, Corner, Junction}
	if i := slices.Index(kinds, k); i >= 0 {
		return i
	}
	return len(kinds)
}

// Starts returns the arc lengths where the pieces after the first begin.
func (w Work) Starts() []float64 {
	var out []float64
	sum := 0.0
	for _, p := range w.Pieces[:max(0, len(w.Pieces)-1)] {
		sum += p.Line.Length()
		out = append(out, sum)
	}
	return out
}

// Places returns the good places for a stop along the work, ascending: ends of
// pieces, dots, corners, and the ends of spans, which are junctions, or seams where
// a span that only leads on ends or begins. Of places within samePivot of each
// other the best remains. Cost O(n log n).
func (w Work) Places() []Place {
	var out []Place
	start := 0.0
	for _, p := range w.Pieces {
		length := p.Line.Length()
		add := func(at float64, k PlaceKind) {
			out = append(out, Place{At: start + min(max(at, 0), length), Kind: k})
		}
		for _, s := range p.Line.Corners {
			add(s, Corner)
		}
		for _, s := range p.Line.Dots {
			add(s, DotPlace)
		}
		for _, s := range p.Spans {
			kind := Junction
			if s.Travel {
				kind = SeamPlace
			}
			add(s.From, kind)
			add(s.To, kind)
		}
		add(length, EndOfPiece)
		start += length
	}
	return bestPlaces(out)
}

// bestPlaces sorts the places and thins them to the best within samePivot.
func bestPlaces(all []Place) []Place {
	slices.SortFunc(all, func(p, q Place) int {
		return cmp.Or(cmp.Compare(p.Kind.rank(), q.Kind.rank()), cmp.Compare(p.At, q.At))
	})
	var out []Place
	for _, p := range all {
		i, _ := slices.BinarySearchFunc(out, p.At, func(q Place, at float64) int { return cmp.Compare(q.At, at) })
		if (i > 0 && p.At-out[i-1].At <= samePivot) || (i < len(out) && out[i].At-p.At <= samePivot) {
			continue
		}
		out = slices.Insert(out, i, p)
	}
	return out
}
