package order

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// acrossRow plans a row in a way that is not block by block: as one program on the
// top.
func (p *planner) acrossRow(row []int, s Stage) (*sewnRow, error) {
	g, blocks, err := p.rowGraph(row)
	if err != nil {
		return nil, err
	}
	through := route.OnePass
	if s.Passes == OutAndBack {
		through = route.OutAndBack
	}
	var list []route.Step
	out := &sewnRow{}
	if s.Way == LongLines {
		r, err := steps.PlanLong(g, blocks, Rules(), through)
		if err != nil {
			return nil, err
		}
		list, out.best = r.Steps, r.Best
	} else {
		r, err := route.SolveRow(g, blocks, Rules(), through)
		if err != nil {
			return nil, err
		}
		list, out.best = r.Steps, r.Exact
	}
	list = unled(list)
	if len(list) == 0 {
		return nil, route.ErrNothing
	}
	key := fmt.Sprint(s.Way, s.Passes, row)
	n, known := p.whole[key]
	if !known {
		n = p.addProgram(g, list)
		p.whole[key] = n
	}
	pr := p.out.Programs[n]
	out.visits = []visit{{leg: Leg{Program: n, Where: quilt.Transform{Scale: 1}}, start: pr.Start, end: pr.End}}
	return out, nil
}

// unled returns the steps from the first line sewn to the last.
func unled(list []route.Step) []route.Step {
	sewn := func(s route.Step) bool { return s.Way == route.Sew }
	first := slices.IndexFunc(list, sewn)
	if first < 0 {
		return nil
	}
	last := len(list) - 1
	for !sewn(list[last]) {
		last--
	}
	return list[first : last+1]
}

// rowGraph returns the lines of a row on the top as a graph with its blocks. A side
// that two places share belongs to one of them.
func (p *planner) rowGraph(row []int) (plane.Graph, []route.Block, error) {
	var pieces []motif.Piece
	for _, i := range row {
		l := p.places[i]
		for _, side := range l.cell.Shape.OutlinePieces() {
			side.Path, side.Block = l.cell.Where.Path(side.Path), l.cell.ID
			pieces = append(pieces, side)
		}
	}
	for _, placed := range p.laying.Placed {
		if !slices.Contains(row, placed.Cell) {
			continue
		}
		for _, piece := range p.laying.Works[placed.Work].Pieces {
			piece.Path, piece.Length = placed.Where.Path(piece.Path), piece.Length*placed.Where.Scale
			piece.Block = p.places[placed.Cell].cell.ID
			pieces = append(pieces, piece)
		}
	}
	built, err := plane.Build(strokesOf(pieces), plane.Options{SnapMM: plane.DefaultSnap})
	if err != nil {
		return plane.Graph{}, nil, fmt.Errorf("the lines of the row: %w", err)
	}
	blocks := make([]route.Block, len(row))
	at := map[string]int{}
	for k, i := range row {
		at[p.places[i].cell.ID] = k
	}
	for i, e := range built.Edges {
		b := &blocks[at[e.Block]]
		b.Edges = append(b.Edges, i)
	}
	p.setPorts(built.Graph, row, blocks)
	return built.Graph, blocks, nil
}

// setPorts gives each block the junctions by which a pass enters and leaves it: of
// those that it shares with its neighbour the one on the right hand of the way along
// the row; at the ends of the row the corner farthest back.
func (p *planner) setPorts(g plane.Graph, row []int, blocks []route.Block) {
	middle := func(i int) geom.Point {
		lo, hi := p.places[i].outline.Bounds()
		return geom.Lerp(lo, hi, 0.5)
	}
	pick := func(on func(geom.Point) bool, towards geom.Point) int {
		best, most := route.Nowhere, math.Inf(-1)
		for v, at := range g.Nodes {
			if far := at.X*towards.X + at.Y*towards.Y; on(at) && far > most+onRim {
				best, most = v, far
			}
		}
		return best
	}
	last := len(row) - 1
	ahead := geom.Pt(1, 0)
	if last > 0 {
		a, z := middle(row[0]), middle(row[last])
		ahead = geom.Pt(z.X-a.X, z.Y-a.Y)
	}
	right := geom.Pt(-ahead.Y, ahead.X)
	for k := range row[:last] {
		a, b := p.places[row[k]].outline, p.places[row[k+1]].outline
		v := pick(func(at geom.Point) bool { return near(a, at) && near(b, at) }, right)
		if v == route.Nowhere {
			v = pick(func(at geom.Point) bool { return near(a, at) }, right)
		}
		blocks[k].Right, blocks[k+1].Left = v, v
	}
	first, end := p.places[row[0]].outline, p.places[row[last]].outline
	blocks[0].Left = pick(func(at geom.Point) bool { return near(first, at) }, geom.Pt(right.X-2*ahead.X, right.Y-2*ahead.Y))
	blocks[last].Right = pick(func(at geom.Point) bool { return near(end, at) }, geom.Pt(right.X+2*ahead.X, right.Y+2*ahead.Y))
}

// Option is a way through a row and what it takes.
type Option struct {
	Way    Way    `json:"way"`
	Passes Passes `json:"passes"`
	Work   Work   `json:"work"`
	// AddedMM is what it adds to sewing each line once, at the prices of Rules.
	AddedMM float64 `json:"added_mm"`
	// MachineMM is its time at the machine in mm of sewing at the usual pace, Longer
	// by which share that is more than the least of all options.
	MachineMM float64 `json:"machine_mm"`
	Longer    float64 `json:"longer"`
	// Chosen marks the one that the planner takes by itself.
	Chosen bool `json:"chosen,omitempty"`
}

// ErrNoStage is returned for a stage that the order does not have.
var ErrNoStage = errors.New("the order has no such stage")

// Compare plans a row or border in every way and every number of passes and measures
// them, block by block first; ways in which it cannot be sewn are left out. Cost: that
// of route.SolveRow for the least.
func Compare(q quilt.Quilt, designs quilt.Designs, c Choices, stage string) ([]Option, error) {
	return CompareTelling(q, designs, c, stage, func(float64) {})
}

// CompareTelling is Compare, and tells before each option what share of them is measured.
func CompareTelling(q quilt.Quilt, designs quilt.Designs, c Choices, stage string, tell func(share float64)) ([]Option, error) {
	p, err := newPlanner(q, designs, c)
	if err != nil {
		return nil, err
	}
	all, err := p.stages()
	if err != nil {
		return nil, err
	}
	k := slices.IndexFunc(all, func(w waiting) bool { return w.stage.ID == stage })
	if k < 0 || all[k].stage.Kind == Ditch || all[k].stage.Line {
		return nil, fmt.Errorf("stage %q: %w", stage, ErrNoStage)
	}
	var out []Option
	ways, both := []Way{BlockByBlock, LongLines, LeastTwice}, []Passes{OnePass, OutAndBack}
	for i, way := range ways {
		for side, passes := range both {
			tell(float64(i*len(both)+side) / float64(len(ways)*len(both)))
			o, err := p.option(all[k], way, passes)
			switch {
			case errors.Is(err, route.ErrApart), errors.Is(err, steps.ErrNoLong):
				continue
			case err != nil:
				return nil, fmt.Errorf("%s, %s: %w", way, passes, err)
			}
			out = append(out, o)
		}
	}
	mark(out)
	return out, nil
}

// mark compares the options and marks the one that is taken.
func mark(all []Option) {
	least := math.Inf(1)
	for _, o := range all {
		least = math.Min(least, o.MachineMM)
	}
	for i := range all {
		all[i].Longer = all[i].MachineMM/least - 1
	}
	if k := chosen(all); k >= 0 {
		all[k].Chosen = true
	}
}

// mostCompared is the number of pieces of line up to which the least is looked for when
// a way is chosen: some hundredths of a second. Of a longer row the first places are
// compared.
const mostCompared = 500

// decide chooses the way of a row and says how much longer than the least it is. Rows
// that hold the same are decided once. No way takes less than sewing each line once,
// begun anew for each piece that no seam leads to; where block by block is within
// NaturalShare of that, it is not looked further.
func (p *planner) decide(s *Stage, cells []int) error {
	key := fmt.Sprint(s.Passes)
	for _, i := range cells {
		l := p.places[i]
		key += fmt.Sprintf(" %p %.4f %.4f", l.block, l.where.Turn, l.where.Scale)
	}
	d, known := p.ways[key]
	if !known {
		var err error
		if d, err = p.decided(*s, cells); err != nil {
			return err
		}
		p.ways[key] = d
	}
	s.Way, s.Longer, s.Measured = d.way, d.longer, d.exact
	return nil
}

func (p *planner) decided(s Stage, cells []int) (decided, error) {
	w := waiting{stage: s, cells: cells}
	natural, err := p.option(w, BlockByBlock, s.Passes)
	if err != nil {
		return decided{}, err
	}
	if longer := natural.MachineMM/p.floor(cells, natural.Work).MachineMM() - 1; longer <= NaturalShare {
		return decided{BlockByBlock, longer, false}, nil
	}
	if part := p.sample(cells); len(part) < len(cells) {
		// Rows with the same first places are compared once.
		s.ID = ""
		err := p.decide(&s, part)
		return decided{s.Way, s.Longer, false}, err
	}
	all := []Option{natural}
	for _, way := range []Way{LeastTwice, LongLines} {
		o, err := p.option(w, way, s.Passes)
		if errors.Is(err, route.ErrApart) || errors.Is(err, steps.ErrNoLong) {
			continue
		}
		if err != nil {
			return decided{}, err
		}
		all = append(all, o)
		if natural.MachineMM <= (1+NaturalShare)*o.MachineMM && way == LeastTwice {
			break // it is taken whatever else there is
		}
	}
	mark(all)
	k := slices.IndexFunc(all, func(o Option) bool { return o.Chosen })
	return decided{all[k].Way, all[k].Longer, true}, nil
}

// sample returns the first places of a row, as many as are compared.
func (p *planner) sample(cells []int) []int {
	for pieces, k := 0, 0; k < len(cells); k++ {
		if pieces += len(p.places[cells[k]].block.Graph().Edges); pieces > mostCompared && k > 0 {
			return cells[:k]
		}
	}
	return cells
}

// floor returns what no way takes less than, where block by block takes the work
// given.
func (p *planner) floor(cells []int, w Work) Work {
	starts, onSeams := 0, 0
	for _, i := range cells {
		b := p.places[i].block
		starts += b.islands
		if len(b.Lines()) > 0 && b.islands == 0 {
			onSeams = 1
		}
	}
	w.AgainMM, w.DitchMM, w.Halts, w.Starts = 0, 0, 0, max(starts, onSeams)
	return w
}

// option measures a way by itself.
func (p *planner) option(w waiting, way Way, passes Passes) (Option, error) {
	s := w.stage
	s.Way, s.Passes = way, passes
	r, err := p.plannedRow(slices.Clone(w.cells), s)
	if err != nil {
		return Option{}, err
	}
	alone := &planner{q: p.q, net: p.net}
	alone.out.Programs = p.out.Programs
	alone.take(&s, r)
	alone.out.Stages = []Stage{s}
	alone.out.measure(0)
	s = alone.out.Stages[0]
	return Option{Way: way, Passes: passes, Work: s.Work, AddedMM: s.AddedMM, MachineMM: s.Work.MachineMM()}, nil
}

// NaturalShare is how much longer at the machine than the least a row may be block
// by block and still be sewn so: a judgement of ours.
const NaturalShare = 0.15

// chosen returns the option that is taken: block by block in one pass where it is not
// longer by more than NaturalShare than the least, else out and back if that is not,
// else the shortest at the machine.
func chosen(all []Option) int {
	for i, o := range all {
		if o.Way == BlockByBlock && o.Longer <= NaturalShare {
			return i
		}
	}
	best := -1
	for i, o := range all {
		if best < 0 || cmp.Less(o.MachineMM, all[best].MachineMM) {
			best = i
		}
	}
	return best
}
