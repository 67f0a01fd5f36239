package top

import (
	"fmt"
	"slices"

	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
)

// Measures are what is measured on a top.
type Measures struct {
	// Done tells that the rest is filled in, Failed that it could not be.
	Done   bool
	Failed bool
	// Largest is the widest gap, Wide are those wider than the batting allows, the
	// widest first; none where the limit is not known. More tells that there are
	// others beyond MostGaps.
	Largest plane.Gap
	Wide    []plane.Gap
	More    bool
	// Spread tells how evenly the stitching lies over the top.
	Spread plane.Evenness
	// Kinds tells the same of the designs, each in its own block.
	Kinds []KindSpread
}

// KindSpread is how evenly a design lies within its place, for one place of a kind.
type KindSpread struct {
	Kind   quilt.Kind
	Design string // its name
	Spread plane.Evenness
}

// MostGaps is how many wide gaps are listed.
const MostGaps = 12

// gapTolerance in mm is how exactly gaps are measured on a top: a tape measure tells
// no more, and a dense top is measured while a person waits.
const gapTolerance = 0.5

// blockWindow in mm is the window in which the density within a block is measured:
// about 1 in, so that a block has several.
const blockWindow = 25

// Measure measures the gaps and the evenness. With ditch the seams between the
// places count as stitched. Cost that of plane.WideGaps and plane.MeasureEvenness
// over all lines of the top.
func (t Top) Measure(ditch bool) Top {
	m, err := t.measured(plane.GapOptions{Seams: ditch, ToleranceMM: gapTolerance})
	if err != nil {
		m = Measures{Failed: true}
	}
	m.Done = true
	return t.Measured(m)
}

// Measured returns the top with what was measured on it.
func (t Top) Measured(m Measures) Top {
	t.Rev++
	t.Measures = m
	return t
}

func (t Top) measured(opt plane.GapOptions) (m Measures, err error) {
	lines := plan.Strokes(t.Laying.Lines())
	edge := t.Outline()
	if limit := t.Quilt.GapMM; limit > 0 {
		if m.Wide, err = plane.WideGaps(lines, edge, limit, MostGaps+1, opt); err != nil {
			return m, fmt.Errorf("gaps: %w", err)
		}
		if m.More = len(m.Wide) > MostGaps; m.More {
			m.Wide = m.Wide[:MostGaps]
		}
	}
	if len(m.Wide) > 0 {
		m.Largest = m.Wide[0]
	} else if m.Largest, err = plane.LargestGap(lines, edge, opt); err != nil {
		return m, fmt.Errorf("the largest gap: %w", err)
	}
	if m.Spread, err = plane.MeasureEvenness(lines, edge, plane.DefaultWindow, opt); err != nil {
		return m, fmt.Errorf("evenness: %w", err)
	}
	m.Kinds, err = t.kindSpreads(opt)
	return m, err
}

// kindSpreads measures each design in the first place of each kind.
func (t Top) kindSpreads(opt plane.GapOptions) ([]KindSpread, error) {
	var out []KindSpread
	seen := map[[2]string]bool{}
	for _, p := range t.Laying.Placed {
		c, w := t.Laying.Cells[p.Cell], t.Laying.Works[p.Work]
		key := [2]string{string(c.Kind), w.Design.ID}
		if seen[key] {
			continue
		}
		seen[key] = true
		pieces := append([]motif.Piece(nil), w.Pieces...)
		spread, err := plane.MeasureEvenness(plan.Strokes(pieces), w.Design.Shape.Outline(), blockWindow, opt)
		if err != nil {
			return nil, fmt.Errorf("evenness of %q: %w", w.Design.Name, err)
		}
		out = append(out, KindSpread{c.Kind, w.Design.Name, spread})
	}
	return out, nil
}

// CellAt returns the place in which a point of the top lies; None beyond its edge.
func (t Top) CellAt(p geom.Point) int {
	for i, c := range t.Laying.Cells {
		if c.Shape.Contains(into(c.Where, p)) {
			return i
		}
	}
	return None
}

// OwnDesigns returns the IDs of the designs that lie in the top in their own shape,
// Refitted of those whose motif was fitted anew to another; each once.
func (t Top) OwnDesigns() []string { return t.designsLaid(true) }

// Refitted returns the IDs of the designs whose motif was fitted anew.
func (t Top) Refitted() []string { return t.designsLaid(false) }

func (t Top) designsLaid(own bool) []string {
	var out []string
	for _, p := range t.Laying.Placed {
		if w := t.Laying.Works[p.Work]; w.Own == own && !slices.Contains(out, w.Design.ID) {
			out = append(out, w.Design.ID)
		}
	}
	return out
}

// Lies counts the places in which a design lies.
func (t Top) Lies(design string) int {
	n := 0
	for _, p := range t.Laying.Placed {
		if t.Laying.Works[p.Work].Design.ID == design {
			n++
		}
	}
	return n
}
