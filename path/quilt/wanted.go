package quilt

import (
	"math"
	"slices"
)

// Part is what can be changed to make a top another size.
type Part string

// The parts: the outermost border, or a new one; all sashing; all blocks.
const (
	OuterBorder  Part = "border"
	AllSashing   Part = "sashing"
	AllBlocks    Part = "block"
	sameSize          = 0.5 // mm, far below what cloth can be cut to
	leastMeasure      = 1e-9
)

// Change makes one part another size: From is 0 for one to be added, To 0 for one
// to be left off.
type Change struct {
	Part     Part
	From, To float64 // mm
	// After is the size of the top with the change.
	After Size
}

// Fit tells how a top compares with the size that is wanted.
type Fit struct {
	Have, Want Size
	// Both are the changes that make the top the wanted size. Across and Down are
	// those that make only its width or only its height right.
	Both, Across, Down []Change
}

// FitsAcross tells whether the width is as wanted.
func (f Fit) FitsAcross() bool { return sameLength(f.Have.W, f.Want.W) }

// FitsDown tells whether the height is as wanted.
func (f Fit) FitsDown() bool { return sameLength(f.Have.H, f.Want.H) }

// Fits tells that nothing is amiss by more than half a millimetre.
func (f Fit) Fits() bool { return f.FitsAcross() && f.FitsDown() }

func sameLength(a, b float64) bool { return math.Abs(a-b) <= sameSize }

// FitTo compares the top with a wanted size and looks for single changes that would
// make it so. The quilt must be valid.
func (q Quilt) FitTo(want Size) Fit {
	f := Fit{Have: q.Size(), Want: want}
	if !sameLength(f.Have.W, want.W) {
		for _, c := range q.changes(want.W-f.Have.W, q.Cols) {
			f.sort(c, &f.Across)
		}
	}
	if !sameLength(f.Have.H, want.H) {
		for _, c := range q.changes(want.H-f.Have.H, q.Rows) {
			f.sort(c, &f.Down)
		}
	}
	return f
}

// sort puts a change where it belongs: with those that make both right, each part
// once, or with those of its direction.
func (f *Fit) sort(c Change, direction *[]Change) {
	if !sameLength(c.After.W, f.Want.W) || !sameLength(c.After.H, f.Want.H) {
		*direction = append(*direction, c)
		return
	}
	if !slices.ContainsFunc(f.Both, func(b Change) bool { return b.Part == c.Part }) {
		f.Both = append(f.Both, c)
	}
}

// changes returns those that make the top longer by so much in the direction in
// which it has n blocks.
func (q Quilt) changes(more float64, n int) []Change {
	// How often the block and the sashing count in that direction.
	blocks, strips := float64(n), float64(n-1)
	if q.Sashing.Round {
		strips = float64(n + 1)
	}
	if q.Setting == OnPoint {
		blocks, strips = float64(n)*math.Sqrt2, float64(n)*math.Sqrt2
	}
	var out []Change
	add := func(p Part, from, to, least float64, changed Quilt) {
		if to >= least && to <= MaxTopMM || p != AllBlocks && math.Abs(to) < leastMeasure {
			out = append(out, Change{p, from, to, changed.Size()})
		}
	}
	outer := 0.0
	changed := q
	changed.Borders = append([]Border(nil), q.Borders...)
	if last := len(q.Borders) - 1; last >= 0 {
		outer = q.Borders[last].WidthMM
		changed.Borders[last].WidthMM = outer + more/2
	} else {
		changed.Borders = []Border{{WidthMM: more / 2}}
	}
	add(OuterBorder, outer, outer+more/2, MinPartMM, changed)
	if strips > 0 {
		changed, from := q, q.Sashing.WidthMM
		changed.Sashing.WidthMM += more / strips
		add(AllSashing, from, changed.Sashing.WidthMM, MinPartMM, changed)
	}
	changed = q
	changed.BlockMM += more / blocks
	add(AllBlocks, q.BlockMM, changed.BlockMM, q.leastBlock(), changed)
	return out
}

// Adds tells that the part is not there yet.
func (c Change) Adds() bool { return c.From == 0 }

// LeavesOff tells that the part is taken away.
func (c Change) LeavesOff() bool { return math.Abs(c.To) < leastMeasure }

// With returns the quilt with a change made. The quilt it is called on is left as it
// was.
func (q Quilt) With(c Change) Quilt {
	switch c.Part {
	case AllSashing:
		q.Sashing.WidthMM = c.To
	case AllBlocks:
		q.BlockMM = c.To
	case OuterBorder:
		q.Borders = slices.Clone(q.Borders)
		switch last := len(q.Borders) - 1; {
		case c.From == 0:
			q.Borders = append(q.Borders, Border{WidthMM: c.To})
		case math.Abs(c.To) < leastMeasure:
			q.Borders = q.Borders[:last]
		default:
			q.Borders[last].WidthMM = c.To
		}
	}
	return q
}

// Rounded returns the change with its measure on a grid in mm, such as an eighth of an
// inch, and the size of the top that follows from the measure as rounded: what is said
// of a size adds up, though it may miss the wanted one by what rounding left.
func (q Quilt) Rounded(c Change, grid float64) Change {
	c.To = math.Round(c.To/grid) * grid
	c.After = q.With(c).Size()
	return c
}
