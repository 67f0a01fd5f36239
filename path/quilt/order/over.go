package order

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/route/steps"
)

// layOver returns the places of the lines that lie over the top; they have no block, since
// they are sewn as their motif hands them over.
func layOver(l quilt.Laying) []laid {
	out := make([]laid, len(l.Overs))
	for i, o := range l.Overs {
		out[i] = laid{cell: o.Cell, where: o.Cell.Where, outline: o.Cell.Outline()}
	}
	return out
}

// over returns the place of the line round a border, counted from 0, -1 for none.
func (p *planner) over(border int) int {
	for k, o := range p.laying.Overs {
		if o.Border == border {
			return len(p.laying.Cells) + k
		}
	}
	return -1
}

// edgeRows are the rows from edge to edge as stages.
func (p *planner) edgeRows() []waiting {
	var out []waiting
	for k, o := range p.laying.Overs {
		if o.Border >= 0 {
			continue
		}
		i := len(p.laying.Cells) + k
		out = append(out, waiting{
			stage: Stage{ID: o.Cell.ID, Kind: EdgeRow, Number: len(out) + 1, Row: -1, Line: true, Way: BlockByBlock, Passes: OnePass},
			cells: []int{i}, middle: p.middle([]int{i}),
		})
	}
	return out
}

// sewLine sews a line as its motif hands it over, piece by piece; a row is begun at the end
// that is nearer, or that she chose.
func (p *planner) sewLine(s *Stage, place int) {
	o := p.laying.Overs[place-len(p.laying.Cells)]
	path := o.Pieces[0].Path
	ends := o.Cell.Where.Path(geom.Polyline{path[0], path[len(path)-1]})
	if far, chosen := p.choices.FarEnd[s.ID]; chosen {
		s.FarEnd = far && o.Border < 0
	} else {
		s.FarEnd = o.Border < 0 && p.begun && geom.Dist(p.at, ends[1]) < geom.Dist(p.at, ends[0])-onRim
	}
	n := p.lineProgram(o, s.FarEnd)
	l := Leg{Cell: o.Cell.ID, Program: n, Where: o.Cell.Where}
	l.Come = p.come(l.Where.Apply(p.out.Programs[n].Start), nil)
	p.at = l.Where.Apply(p.out.Programs[n].End)
	s.Legs, s.Best, s.Measured = append(s.Legs, l), true, true
	rules, w := Rules(), p.out.Programs[n].Work
	s.AddedMM = w.DitchMM*rules.Costs.Seam + float64(w.Starts)*rules.Costs.Jump
}

// lineProgram returns the program of a line, or of a row the other way round, which it adds
// once. Between its pieces the needle goes along the seams of the border.
func (p *planner) lineProgram(o quilt.Over, back bool) int {
	key := fmt.Sprint("over ", o.Like, back)
	if n, known := p.whole[key]; known {
		return n
	}
	pr := Program{Pattern: o.Pattern, Exact: true}
	add := func(m steps.Move) {
		m = steps.Seen(m)
		if n := len(pr.Moves); n > 0 && m.Kind != steps.StopMove && pr.Moves[n-1].Kind != steps.StopMove {
			pr.Work.Halts++
		}
		pr.Moves, pr.Paths = append(pr.Moves, m), append(pr.Paths, m.Path)
		pr.Work.Moves++
		switch m.Kind {
		case steps.StopMove:
			pr.Work.Starts++
		case steps.DitchMove:
			pr.Work.DitchMM += m.Length
		default:
			pr.Work.SewnMM += m.Length
		}
	}
	var at geom.Point
	for i, piece := range o.Pieces {
		path := piece.Path
		if back {
			path = path.Reversed()
		}
		if i > 0 {
			if way, whole := p.between(o, at, path[0]); len(way) > 1 {
				m := steps.Move{Kind: steps.DitchMove, Path: way}
				if !whole {
					m.Kind = steps.StopMove
				}
				add(m)
			}
		}
		if piece.Ruler {
			pr.Work.RulerMM += path.Length()
			pr.Work.RulerLines++
		}
		add(steps.Move{Kind: steps.SewMove, Path: path, Ruler: piece.Ruler})
		at = path[len(path)-1]
	}
	pr.Start, pr.End = pr.Paths[0][0], at
	p.out.Programs = append(p.out.Programs, pr)
	p.whole[key] = len(p.out.Programs) - 1
	return p.whole[key]
}

// between returns the way of the needle between two pieces of a line, in its own mm: along a
// seam of the border that both ends lie on, else along those of the top; false for a stop.
func (p *planner) between(o quilt.Over, from, to geom.Point) (geom.Polyline, bool) {
	straight := geom.Polyline{from, to}
	if geom.Dist(from, to) <= onRim {
		return nil, true
	}
	a, b := o.Cell.Where.Apply(from), o.Cell.Where.Apply(to)
	for _, l := range p.places[:len(p.laying.Cells)] {
		if n, _ := l.cell.Kind.Border(); n != o.Border+1 {
			continue
		}
		for k := 1; k < len(l.outline); k++ {
			if side := l.outline[k-1 : k+1]; near(side, a) && near(side, b) {
				return straight, true
			}
		}
	}
	if way, found := p.net.way(a, b); found && way.Length()*Rules().Costs.Seam < Rules().Costs.Jump {
		back := r2.Scale(-1, o.Cell.Where.Move)
		return way.Map(func(q geom.Point) geom.Point { return r2.Add(q, back) }), true
	}
	return straight, false
}
