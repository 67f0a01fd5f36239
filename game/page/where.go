package page

import (
	"math"
	"slices"

	"unthreaded/scoring"
)

// Limits for saying where the stitches of a size lie. They are ours: few such
// stitches are no pattern, nor are stitches that are all over the line.
const (
	leastOf   = 0.1  // of the line, to be spoken of
	mostOf    = 0.65 // more of the line than this is the pace, not a place
	mostly    = 0.75 // of the stitches of a size lie there
	contrast  = 1.5  // the bends of the tighter half are so many times the other's
	endsApart = 10.0 // mm at either end, where every hand starts and stops
)

// whereSentence tells on which parts of the line the long and the short stitches lie,
// beside the planned length in mm, where there is a pattern; else nothing.
func whereSentence(rep scoring.Report, plannedMM float64) string {
	long := whereOf(rep.Profile, func(mm float64) bool { return mm > plannedMM*(1+scoring.NearShare) })
	short := whereOf(rep.Profile, func(mm float64) bool { return mm < plannedMM*(1-scoring.NearShare) })
	switch {
	case long != "" && short != "" && long != short:
		return "The long ones are " + long + ", the short ones " + short + "."
	case long != "" && short == "":
		return "The long ones are " + long + "."
	case short != "" && long == "":
		return "The short ones are " + short + "."
	}
	return ""
}

// strew is how the pieces of a line with stitches of a size lie among those known.
type strew struct {
	such, known int       // pieces with such stitches, and all known
	tight, late int       // of such: those in the tighter half of the bends, and in the second half of the line
	bends       []float64 // of the pieces known, sorted, 1/mm
}

func strewn(p scoring.Profile, of func(mm float64) bool) strew {
	var s strew
	var at []int
	for k, known := range p.Known {
		from := (float64(k) + 0.5) * p.Step
		if known && from >= endsApart && from <= p.Step*float64(len(p.Known))-endsApart {
			s.bends = append(s.bends, math.Abs(p.Bend[k]))
			at = append(at, k)
		}
	}
	slices.Sort(s.bends)
	s.known = len(at)
	for _, k := range at {
		if !of(p.Stitch[k]) {
			continue
		}
		s.such++
		if math.Abs(p.Bend[k]) >= s.bends[len(at)/2] {
			s.tight++
		}
		if 2*k >= len(p.Known) {
			s.late++
		}
	}
	return s
}

// whereOf names the part of the line on which most of the stitches of a size lie.
func whereOf(p scoring.Profile, of func(mm float64) bool) string {
	s := strewn(p, of)
	if share := float64(s.such) / float64(s.known); !(share >= leastOf && share <= mostOf) {
		return ""
	}
	tight, late := float64(s.tight)/float64(s.such), float64(s.late)/float64(s.such)
	bent := s.bends[s.known*3/4] > contrast*s.bends[s.known/4]
	switch {
	case bent && tight >= mostly:
		return "in the tighter curves"
	case bent && tight <= 1-mostly:
		return "where the line runs straighter"
	case late >= mostly:
		return "in the second half"
	case late <= 1-mostly:
		return "in the first half"
	}
	return ""
}
