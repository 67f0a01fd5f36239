package bench

import (
	"errors"
	"math"

	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/route"
)

// Plan is what is to be sewn, as the machine's figures want it.
type Plan struct {
	ID string
	// Title is the name of its drawing, as an argument of a message.
	Title   any
	Work    machine.Work
	Figures machine.Figures
	Advice  machine.Advice
	// Places are good for a change of the bobbin.
	Places []machine.Place
	// Blocks is the number of blocks that the work fills side by side.
	Blocks int
	// Row tells that it is a whole row, OutAndBack that it is sewn in two passes.
	Row, OutAndBack bool
	// Origin is the upper left corner of what the work fills, in mm on the cloth.
	Origin geom.Point
}

// errNoRoute tells that there is nothing to set the machine up for.
var errNoRoute = errors.New("no route is planned yet")

// PlanOf takes the route shown on the desk. Cost O(points + length/mm).
func PlanOf(k plan.Desk) (Plan, error) {
	pieces := k.Pieces()
	if len(pieces) == 0 {
		return Plan{}, errNoRoute
	}
	lo, hi := plan.Bounds(k.Graph)
	p := Plan{ID: k.Drawing.ID, Title: k.Drawing.Title(), Row: k.Drawing.Row, Origin: lo}
	p.OutAndBack = k.Choices[k.Pick].Second > 0
	// A block of less than a hand's breadth counts as the least there can be.
	p.Work.BlockW = max(hi.X-lo.X, machine.QuiltSide.Min)
	p.Work.BlockH = max(hi.Y-lo.Y, machine.QuiltSide.Min)
	for _, piece := range pieces {
		p.Work.Pieces = append(p.Work.Pieces, workPiece(k, piece))
	}
	names := map[string]bool{}
	for _, e := range k.Graph.Edges {
		names[e.Block] = true
	}
	p.Blocks = max(1, len(names))
	var err error
	if p.Figures, err = p.Work.Figures(); err != nil {
		return Plan{}, err
	}
	p.Advice, p.Places = machine.Advise(p.Figures), p.Work.Places()
	return p, nil
}

// workPiece tells for each stretch of a piece how it is sewn.
func workPiece(k plan.Desk, piece route.Piece) machine.Piece {
	out := machine.Piece{Line: piece.Line}
	end := 0.0
	for _, st := range piece.Stretches {
		s := machine.Span{From: max(end, st.From), To: st.To, Travel: st.Way != route.Sew}
		s.To = max(s.To, s.From)
		s.Ruler = k.Moves()[st.Step].Ruler
		out.Spans = append(out.Spans, s)
		end = s.To
	}
	return out
}

// Ruled tells whether some line is marked for a ruler.
func (p Plan) Ruled() bool { return p.Figures.RulerLines > 0 }

// At returns the place on the cloth after mm of the work, its pieces counted on.
func (p Plan) At(mm float64) geom.Point {
	var at geom.Point
	for _, piece := range p.Work.Pieces {
		at = piece.Line.At(mm)
		if mm <= piece.Line.Length() {
			break
		}
		mm -= piece.Line.Length()
	}
	return at
}

// Bend is a place on the work that bends: Along is the direction of sewing there, of
// length 1; Right tells that it turns to the right.
type Bend struct {
	At, Along geom.Point
	Right     bool
}

// Tightest returns the tightest curve of the work, of several alike the place
// farthest from its ends; false where nothing bends. Corners are no curves.
func (p Plan) Tightest() (Bend, bool) {
	best, clear := 1/machine.StraightRadius, 0.0
	var out Bend
	found := false
	for _, piece := range p.Work.Pieces {
		ends := append(append([]float64{0}, piece.Line.Corners...), piece.Line.Length())
		for i := 1; i < len(ends); i++ {
			run, err := geom.NewLine(piece.Line.Section(ends[i-1], ends[i]))
			if err != nil || run.Length() < 2*machine.BendReach {
				continue
			}
			for k, c := range run.Curvature(bendStep, machine.BendReach) {
				s := float64(k) * bendStep
				room := math.Min(s, run.Length()-s)
				if size := math.Abs(c); size > best*alike || size > best/alike && room > clear {
					best, clear, found = math.Max(best, size), room, true
					out = Bend{At: run.At(s), Along: run.Tangent(s), Right: c > 0}
				}
			}
		}
	}
	return out, found
}

const (
	// bendStep is the distance in mm of the places at which bends are looked at.
	bendStep = 1.0
	// alike is the ratio up to which two bends are one: flattening a curve makes
	// its chords differ by a few parts in a hundred.
	alike = 1.05
)
