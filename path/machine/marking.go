package machine

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// RulerLine is a line along a ruler from dot or corner to dot or corner: arc
// lengths From to To in mm on piece Piece of a work.
type RulerLine struct {
	Piece    int
	From, To float64
}

// RulerLines returns the ruler lines in the order of sewing. Spans along a ruler
// that follow each other are one, unless a dot or a corner lies between them.
func (w Work) RulerLines() []RulerLine {
	var out []RulerLine
	for i, p := range w.Pieces {
		for k := 0; k < len(p.Spans); k++ {
			if s := p.Spans[k]; !s.Ruler || s.Travel {
				continue
			}
			from, to := p.Spans[k].From, p.Spans[k].To
			for k+1 < len(p.Spans) && p.Spans[k+1].Ruler && !p.Spans[k+1].Travel && p.Spans[k+1].From <= to+joinMM {
				k++
				to = p.Spans[k].To
			}
			for _, h := range append(halts(p.Line), to) {
				h = min(h, to)
				if h-from > samePivot {
					out = append(out, RulerLine{Piece: i, From: from, To: h})
					from = h
				}
			}
		}
	}
	return out
}

// Side is the side of the line on which the ruler lies, as seen going along it.
type Side int

// The sides; y grows downwards, so that right of an eastward line is south of it.
const (
	LeftSide  Side = -1
	RightSide Side = 1
)

// Mark is a dot on the line and the place of the ruler's edge beside it.
type Mark struct {
	// At is the arc length on the piece in mm.
	At        float64
	Dot, Edge geom.Point
}

// RulerMarks are the marks for one ruler line, its two ends among them.
type RulerMarks struct {
	RulerLine
	Marks []Mark
}

// MarkRuler returns for each ruler line evenly spaced dots, at most spacing mm
// apart, and for each the place of the ruler's edge, offset mm to the side.
// Where the line bends towards the ruler more tightly than the offset, no ruler
// lies, and it fails, naming the line. Cost O(dots log points).
func (w Work) MarkRuler(offset, spacing float64, side Side) ([]RulerMarks, error) {
	if err := w.Validate(); err != nil {
		return nil, err
	}
	if err := checkAll(entry{offset, RulerOffset}, entry{spacing, DotSpacing}); err != nil {
		return nil, err
	}
	if side != LeftSide && side != RightSide {
		return nil, fmt.Errorf("side %d is not %d (left) or %d (right)", side, LeftSide, RightSide)
	}
	var out []RulerMarks
	for i, l := range w.RulerLines() {
		run, err := geom.NewLine(w.Pieces[l.Piece].Line.Section(l.From, l.To))
		if err != nil {
			return nil, fmt.Errorf("ruler line %d: %w", i, err)
		}
		if err := roomFor(run, offset, side); err != nil {
			return nil, fmt.Errorf("ruler line %d: %w", i, err)
		}
		out = append(out, RulerMarks{RulerLine: l, Marks: marksAlong(run, l.From, offset*float64(side), spacing)})
	}
	return out, nil
}

// roomFor fails where the run bends towards the ruler within the offset.
func roomFor(run geom.Line, offset float64, side Side) error {
	bends := bendsAlong(run)
	for k, bend := range bends {
		if bend*float64(side)*offset >= 1 {
			return fmt.Errorf("at %.0f mm it bends towards the ruler by a radius of %.1f mm, less than the offset of %s mm", run.Length()*float64(k)/float64(len(bends)-1), 1/math.Abs(bend), number(offset))
		}
	}
	return nil
}

// marksAlong marks the run, whose arc length 0 is at start on its piece.
func marksAlong(run geom.Line, start, offset, spacing float64) []Mark {
	n := max(1, int(math.Ceil(run.Length()/spacing-1e-9)))
	var out []Mark
	for k := 0; k <= n; k++ {
		s := run.Length() * float64(k) / float64(n)
		dot, t := run.At(s), run.Tangent(s)
		edge := r2.Add(dot, r2.Scale(offset, geom.Pt(-t.Y, t.X)))
		out = append(out, Mark{At: start + s, Dot: dot, Edge: edge})
	}
	return out
}

// RulerThickness is what rulers may be entered with.
var RulerThickness = Range{"thickness-of-the-ruler", "mm", 0.5, 20, 6}
