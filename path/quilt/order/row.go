package order

import (
	"errors"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

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
		from := *s
		from.FarEnd = far
		r, err := p.plannedRow(row, from)
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
	if len(row) == 1 {
		cells[0].In = p.places[row[0]].nearer(cells[0].In, s.FarEnd)
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
	n := p.addProgram(b.Graph(), sw.Steps)
	pr := &p.out.Programs[n]
	pr.Design, pr.Own, pr.Exact = b.design, b.own, b.Exact()
	b.programs[sw.Key] = n
	return n
}

func (p *planner) addProgram(g plane.Graph, list []route.Step) int {
	moves := steps.Moves(g, list)
	pr := Program{Moves: moves, Start: g.Nodes[list[0].From], End: g.Nodes[list[len(list)-1].To]}
	for _, m := range moves {
		pr.Paths = append(pr.Paths, m.Path)
	}
	pr.Work = workOf(g, list, moves)
	p.out.Programs = append(p.out.Programs, pr)
	return len(p.out.Programs) - 1
}
