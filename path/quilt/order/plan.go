package order

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// ErrNothing is returned for a top on which nothing is to be sewn.
var ErrNothing = errors.New("nothing is to be sewn on this top")

// planner holds a top while it is planned.
type planner struct {
	q       quilt.Quilt
	choices Choices
	laying  quilt.Laying
	places  []laid
	rows    [][]int
	net     net
	out     Order
	at      geom.Point // where the needle is
	begun   bool
	turned  bool
	whole   map[string]int // programs that are no block's, by key
	ways    map[string]decided
}

// decided is the way of a row that was chosen, with how much longer than the least.
type decided struct {
	way    Way
	longer float64
	exact  bool
}

// Plan plans the whole top. Designs that cannot be laid are told in Misfits. It fails
// on a quilt or choices that are not valid, and with ErrNothing where nothing is to be
// sewn. Cost: planning each *different* block once for each pair of its ends, and for
// each row its length times the square of the ends.
func Plan(q quilt.Quilt, designs quilt.Designs, c Choices) (Order, error) {
	p, err := newPlanner(q, designs, c)
	if err != nil {
		return Order{}, err
	}
	stages, err := p.stages()
	if err != nil {
		return Order{}, err
	}
	for _, s := range p.sequence(stages) {
		if err := p.add(s); err != nil {
			return Order{}, fmt.Errorf("%s: %w", s.stage.ID, err)
		}
	}
	if len(p.out.Stages) == 0 {
		return Order{}, ErrNothing
	}
	p.out.keepUsed()
	return p.out, nil
}

// keepUsed counts how often each program is sewn and drops those that are not.
func (o *Order) keepUsed() {
	number := map[int]int{}
	var kept []Program
	for i := range o.Stages {
		for k := range o.Stages[i].Legs {
			l := &o.Stages[i].Legs[k]
			n, known := number[l.Program]
			if !known {
				n = len(kept)
				number[l.Program] = n
				kept = append(kept, o.Programs[l.Program])
			}
			kept[n].Times++
			l.Program = n
		}
	}
	o.Programs = kept
}

func newPlanner(q quilt.Quilt, designs quilt.Designs, c Choices) (*planner, error) {
	if err := q.Validate(); err != nil {
		return nil, fmt.Errorf("quilt: %w", err)
	}
	if err := c.Validate(); err != nil {
		return nil, fmt.Errorf("order: %w", err)
	}
	p := &planner{q: q, choices: c, laying: q.Lay(designs), rows: q.SewingRows(), whole: map[string]int{}, ways: map[string]decided{}}
	p.out = Order{Schema: Schema, Quilt: q.ID, Fingerprint: Fingerprint(q, designs, c)}
	for _, m := range p.laying.Misfits {
		p.out.Misfits = append(p.out.Misfits, m.Cell)
	}
	var err error
	if p.places, err = lay(p.laying); err != nil {
		return nil, err
	}
	p.net, err = newNet(p.places)
	return p, err
}

// Fingerprint tells two plans of the same quilt, choices and designs from others; of
// the designs those count that the quilt names.
func Fingerprint(q quilt.Quilt, designs quilt.Designs, c Choices) string {
	h := sha256.New()
	enc := json.NewEncoder(h)
	q.Name = ""
	_ = enc.Encode(q) // what encodes to a hash does not fail
	for _, id := range q.DesignIDs() {
		if d, known := designs[id]; known {
			d.Photo, d.Name = nil, ""
			_ = enc.Encode(d)
		}
	}
	c.Schema, c.Quilt = Schema, q.ID
	_ = enc.Encode(c)
	return hex.EncodeToString(h.Sum(nil)[:16])
}

// waiting is a stage before it is planned.
type waiting struct {
	stage Stage
	cells []int           // of a row, those from the first to the last that is sewn
	seams []geom.Polyline // of the ditch
	// outer counts borders from the inside, 0 for other stages.
	outer int
	// middle is that of a row across the rows, in mm from the first edge.
	middle float64
}

// across returns the direction across the rows and the side of the quilt along it.
func (p *planner) across() (dir geom.Point, side float64) {
	size := p.q.Size()
	if p.q.Setting == quilt.OnPoint {
		dir = geom.Pt(math.Sqrt2/2, math.Sqrt2/2)
		return dir, (size.W + size.H) * math.Sqrt2 / 2
	}
	return geom.Pt(0, 1), size.H
}

// stages returns the stages of the top that have something to sew.
func (p *planner) stages() ([]waiting, error) {
	var out []waiting
	if !p.choices.NoDitch {
		out = append(out, p.ditch()...)
	}
	dir, _ := p.across()
	count := map[StageKind]int{}
	for r, row := range p.rows {
		kind := p.kindOf(row)
		count[kind]++
		w := waiting{stage: Stage{ID: fmt.Sprintf("row-%d", r+1), Kind: kind, Number: count[kind], Row: r, Way: BlockByBlock, Passes: OnePass}}
		if kind == Border {
			w.stage.ID, w.outer = fmt.Sprintf("border-%d", count[kind]), count[kind]
		}
		w.cells = p.trimmed(row)
		if len(w.cells) == 0 {
			continue
		}
		sum, n := 0.0, 0
		for _, i := range row {
			for _, v := range p.places[i].outline {
				sum, n = sum+r2.Dot(dir, v), n+1
			}
		}
		w.middle = sum / float64(n)
		out = append(out, w)
	}
	return out, nil
}

// kindOf tells of what a row is.
func (p *planner) kindOf(row []int) StageKind {
	kind := Sashing
	for _, i := range row {
		switch k := p.places[i].cell.Kind; {
		case strings.HasPrefix(string(k), "border-"):
			return Border
		case k != quilt.Strip && k != quilt.Cornerstone && k != quilt.HalfCornerstone:
			kind = RowOf
		}
	}
	return kind
}

// trimmed returns the places of a row from the first to the last that is sewn.
func (p *planner) trimmed(row []int) []int {
	sewn := func(i int) bool { return !p.places[i].block.empty }
	first := slices.IndexFunc(row, sewn)
	if first < 0 {
		return nil
	}
	last := len(row) - 1
	for !sewn(row[last]) {
		last--
	}
	return row[first : last+1]
}

// sequence puts the stages in order: the usual one, or hers.
func (p *planner) sequence(all []waiting) []waiting {
	var ditch, rows, borders []waiting
	for _, w := range all {
		switch w.stage.Kind {
		case Ditch:
			ditch = append(ditch, w)
		case Border:
			borders = append(borders, w)
		default:
			rows = append(rows, w)
		}
	}
	middles := make([]float64, len(rows))
	for i, w := range rows {
		middles[i] = w.middle
	}
	_, side := p.across()
	kind := p.choices.Rows
	if kind == "" {
		kind = machine.MiddleOut
	}
	order, turned := machine.Sequence(kind, middles, side)
	out := ditch
	for k, i := range order {
		rows[i].stage.Turned = turned[k]
		out = append(out, rows[i])
	}
	out = append(out, borders...)
	place := func(w waiting) int {
		if k := slices.Index(p.choices.Stages, w.stage.ID); k >= 0 {
			return k
		}
		return len(p.choices.Stages)
	}
	slices.SortStableFunc(out, func(a, b waiting) int { return place(a) - place(b) })
	return out
}

// add plans a stage and appends it.
func (p *planner) add(w waiting) error {
	s := w.stage
	s.Turn = s.Kind != Ditch && s.Kind != Border && s.Turned != p.turned
	if s.Kind != Ditch && s.Kind != Border {
		p.turned = s.Turned
	}
	var err error
	switch {
	case s.Kind == Ditch:
		p.sewSeams(&s, w.seams)
	default:
		err = p.sewRow(&s, w.cells)
	}
	if err != nil {
		return err
	}
	p.out.Stages = append(p.out.Stages, s)
	p.out.measure(len(p.out.Stages) - 1)
	return nil
}

// come returns the needle's way to a place, from where it is; known is a way along
// seams and lines that is at hand, nil for none.
func (p *planner) come(to geom.Point, known geom.Polyline) Come {
	defer func() { p.at, p.begun = to, true }()
	if !p.begun || geom.Dist(p.at, to) <= onRim {
		return Come{}
	}
	rules := Rules()
	path, found := p.net.way(p.at, to)
	if known != nil && (!found || known.Length() < path.Length()) {
		path, found = known, true
	}
	if found && path.Length()*rules.Costs.Seam < rules.Costs.Jump {
		return Come{Path: path, DitchMM: path.Length()}
	}
	return Come{Stop: true, Path: geom.Polyline{p.at, to}}
}

// sewRow plans a row or a border.
func (p *planner) sewRow(s *Stage, cells []int) error {
	if passes, chosen := p.choices.Passes[s.ID]; chosen {
		s.Passes = passes
	}
	if way, chosen := p.choices.Ways[s.ID]; chosen {
		s.Way = way
	} else if err := p.decide(s, cells); err != nil {
		return err
	}
	ways := [2]*sewnRow{}
	for k := range ways {
		far := k == 1
		if chosen, is := p.choices.FarEnd[s.ID]; is && chosen != far {
			continue
		}
		row := slices.Clone(cells)
		if far {
			slices.Reverse(row)
		}
		r, err := p.plannedRow(row, *s)
		if err != nil {
			return err
		}
		ways[k] = r
	}
	pick := 0
	if ways[0] == nil || ways[1] != nil && p.price(ways[1]) < p.price(ways[0])-1e-6 {
		pick = 1
	}
	r := ways[pick]
	s.FarEnd = pick == 1
	p.take(s, r)
	return nil
}

// take makes the legs of a stage of the visits of a row.
func (p *planner) take(s *Stage, r *sewnRow) {
	s.Best, s.SavesMM = r.best, r.saves
	rules := Rules()
	s.AddedMM = 0
	for i, v := range r.visits {
		l := v.leg
		l.Come = p.come(v.start, v.known)
		p.at = v.end
		s.Legs = append(s.Legs, l)
		w := p.out.Programs[l.Program].Work.scaled(l.Where.Scale)
		s.AddedMM += w.AgainMM*rules.Costs.Retrace + w.DitchMM*rules.Costs.Seam + float64(w.Starts)*rules.Costs.Jump
		if i == 0 {
			continue // the way to the row is none of its own
		}
		s.AddedMM += l.Come.DitchMM * rules.Costs.Seam
		if l.Come.Stop {
			s.AddedMM += rules.Costs.Jump
		}
	}
}

// price is what a row costs with the needle's way to it.
func (p *planner) price(r *sewnRow) float64 {
	if !p.begun || len(r.visits) == 0 {
		return r.added
	}
	rules := Rules()
	to := r.visits[0].start
	way := (math.Abs(to.X-p.at.X) + math.Abs(to.Y-p.at.Y)) * rules.Costs.Seam
	return r.added + math.Min(way, rules.Costs.Jump)
}

// sewnRow is a row as it is sewn from one of its ends.
type sewnRow struct {
	visits []visit
	// added is what the programme of the row counts; ends of blocks that only a stop
	// leads to are in it twice. saves is how much less the blocks could add with
	// lines cut.
	added, saves float64
	best         bool
}

// visit is a leg before the needle's way to it is known.
type visit struct {
	leg        Leg
	start, end geom.Point
	known      geom.Polyline
}

// plannedRow plans places in the order given.
func (p *planner) plannedRow(row []int, s Stage) (*sewnRow, error) {
	if s.Way != BlockByBlock {
		return p.acrossRow(row, s)
	}
	cells := make([]steps.Cell, len(row))
	for i := range row {
		l := p.places[row[i]]
		cells[i] = steps.Cell{Block: l.block.Block, Kin: -1}
		if i > 0 {
			cells[i].In = l.towards(p.places[row[i-1]])
		}
		if i+1 < len(row) {
			cells[i].Out = l.towards(p.places[row[i+1]])
		}
		if len(cells[i].In) == 0 {
			cells[i].In = l.outer()
		}
		if len(cells[i].Out) == 0 {
			cells[i].Out = l.outer()
		}
	}
	p.findKin(row, cells)
	rules := Rules()
	joint := func(i, from, to int) float64 {
		a, b := p.places[row[i]], p.places[row[i+1]]
		at, there := a.at(from), b.at(to)
		if near(b.outline, at) && near(a.outline, there) {
			return math.Min(geom.Dist(at, there)*rules.Costs.Seam, rules.Costs.Jump)
		}
		return rules.Costs.Jump
	}
	through := route.OnePass
	if s.Passes == OutAndBack {
		through = route.OutAndBack
	}
	sewn, added, best, err := steps.PlanCells(cells, joint, through)
	if err != nil {
		return nil, err
	}
	out := &sewnRow{added: added, best: best}
	for i, c := range sewn {
		if c.Home != nil {
			continue // a visit in each pass has no bound of its own
		}
		least, err := cells[i].Block.Least(c.Entry, c.Exit)
		if err != nil && !errors.Is(err, route.ErrNothing) {
			return nil, err
		}
		out.saves += math.Max(0, c.Cost-least)
		if !cells[i].Block.Exact() {
			out.best = false
		}
	}
	p.visits(out, row, sewn)
	return out, nil
}

// findKin numbers the places between the ends of a row that lie alike, and gives them
// the ends that they have in common.
func (p *planner) findKin(row []int, cells []steps.Cell) {
	count := 0
	done := make([]bool, len(row))
	for i := 1; i < len(row)-1; i++ {
		a := p.places[row[i]]
		if done[i] || a.block.empty {
			continue
		}
		kin := []int{i}
		for k := i + 1; k < len(row)-1; k++ {
			if p.places[row[k]].sameLay(a) {
				kin = append(kin, k)
			}
		}
		in, out := cells[i].In, cells[i].Out
		for _, k := range kin {
			done[k] = true
			in, out = common(in, cells[k].In), common(out, cells[k].Out)
		}
		if len(kin) < 2 || len(in) == 0 || len(out) == 0 {
			continue
		}
		for _, k := range kin {
			cells[k].In, cells[k].Out, cells[k].Kin = in, out, count
		}
		count++
	}
}

func common(a, b []int) []int {
	var out []int
	for _, v := range a {
		if slices.Contains(b, v) {
			out = append(out, v)
		}
	}
	return out
}

// visits turns the sewn cells of a row into visits: out, and home in reverse.
func (p *planner) visits(out *sewnRow, row []int, sewn []steps.Sewn) {
	var known geom.Polyline // the way since the last line sewn, along seams
	whole := true           // no stop on it
	visit1 := func(i, pass int, sw steps.Sewing) {
		l := p.places[row[i]]
		follow := func(list []route.Step) {
			for _, s := range list {
				if s.Way == route.Jump {
					whole = false
				}
			}
			known = append(known, l.where.Path(steps.PathOf(l.block.Graph(), list))...)
		}
		follow(sw.In)
		if len(sw.Walks) > 0 {
			n := p.program(l.block, sw)
			v := visit{leg: Leg{Cell: l.cell.ID, Pass: pass, Program: n, Where: l.where}}
			v.start, v.end = l.where.Apply(p.out.Programs[n].Start), l.where.Apply(p.out.Programs[n].End)
			if whole && len(out.visits) > 0 && len(known) > 0 {
				v.known = slices.Concat(geom.Polyline{out.visits[len(out.visits)-1].end}, known, geom.Polyline{v.start}).Compact()
			}
			if len(v.known) < 2 {
				v.known = nil
			}
			out.visits = append(out.visits, v)
			known, whole = nil, true
		}
		follow(sw.Out)
	}
	for i, c := range sewn {
		visit1(i, 0, c.There)
	}
	for i := len(sewn) - 1; i >= 0; i-- {
		if sewn[i].Home != nil {
			visit1(i, 1, *sewn[i].Home)
		}
	}
}

// program returns the index of the program of a sewing, which it adds once.
func (p *planner) program(b *block, sw steps.Sewing) int {
	if n, known := b.programs[sw.Key]; known {
		return n
	}
	n := p.addProgram(b.Graph(), b.Lines(), sw.Steps)
	pr := &p.out.Programs[n]
	pr.Design, pr.Own, pr.Exact = b.design, b.own, b.Exact()
	b.programs[sw.Key] = n
	return n
}

func (p *planner) addProgram(g plane.Graph, lines []steps.Line, list []route.Step) int {
	moves := steps.Moves(g, lines, list)
	pr := Program{Moves: moves, Start: g.Nodes[list[0].From], End: g.Nodes[list[len(list)-1].To]}
	for _, m := range moves {
		pr.Paths = append(pr.Paths, m.Path)
	}
	pr.Work = workOf(g, list, moves)
	p.out.Programs = append(p.out.Programs, pr)
	return len(p.out.Programs) - 1
}
