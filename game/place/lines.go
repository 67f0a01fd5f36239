package place

import (
	"fmt"
	"hash/fnv"
	"slices"
	"strings"
	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// A line's ID begins with what it is of, and ends with so many digits for its path.
const (
	RoutePrefix = "route-"
	BlockPrefix = "block-"
	hashDigits  = 8
)

// LineID names a line by its drawing and its path, so that traces of the same path
// are found together.
func LineID(prefix, drawing string, l geom.Line) string {
	h := fnv.New32a()
	for _, p := range l.Path() {
		fmt.Fprintf(h, "%.2f %.2f ", p.X, p.Y)
	}
	return fmt.Sprintf("%s%s-%0*x", prefix, drawing, hashDigits, h.Sum32())
}

// OfDesign tells whether a line's ID, as LineID makes it, is one of a design.
func OfDesign(line, design string) bool {
	for _, prefix := range []string{BlockPrefix, RoutePrefix} {
		if rest, ok := strings.CutPrefix(line, prefix+design+"-"); ok && len(rest) == hashDigits && !strings.Contains(rest, "-") {
			return true
		}
	}
	return false
}

// Drawings returns what a route can be planned for: the blocks, then the ready
// drawings.
func (l Library) Drawings() []plan.Drawing {
	var out []plan.Drawing
	for _, d := range l.Designs {
		out = append(out, DrawingOf(d))
	}
	return append(out, plan.Drawings()...)
}

// DrawingOf makes a block a drawing that a route can be planned for. A motif that
// does not fit gives its drawn lines only: the board says why.
func DrawingOf(d quilt.Design) plan.Drawing {
	return plan.DrawingOf(d.ID, d.Name, words.Of("draw.a-block"), func() []motif.Piece {
		pieces, err := d.Pieces()
		if err != nil {
			d.Recipe = nil
			pieces, _ = d.Pieces()
		}
		return pieces
	})
}

// DesignsByID returns the designs by their ID.
func (l Library) DesignsByID() quilt.Designs {
	out := quilt.Designs{}
	for _, d := range l.Designs {
		out[d.ID] = d
	}
	return out
}

// Sewn returns the pieces that are sewn, without what lies beside seams.
func Sewn(pieces []motif.Piece) (sewn []motif.Piece) {
	return slices.DeleteFunc(slices.Clone(pieces), func(p motif.Piece) bool { return p.Seam })
}
