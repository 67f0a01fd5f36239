package route

import (
	"math"

	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
	moves "unthreaded/path/route/steps"
)

// drawings are what a route can be shown for: the stages of the quilt on the table in the
// order sewn, her blocks, and the ready drawings.
func (r Room) drawings() []plan.Drawing {
	var out []plan.Drawing
	if p := r.Top.Plan; p.Any() {
		for _, s := range p.Order.Stages {
			out = append(out, r.stageDrawing(s))
		}
	}
	return append(out, r.Drawings()...)
}

// stageDrawing is a stage as a drawing; it has no lines but those of the order.
func (r Room) stageDrawing(s order.Stage) plan.Drawing {
	b := r.Book()
	return plan.Drawing{
		ID: r.Top.StageID(s), Row: true, Note: words.Of("route.a-stage"),
		Name: b.Say("route.stage-of", words.Upper(b.Write(place.StageName(s))), r.Top.Quilt.Name),
	}
}

// laidOn lays a drawing on the desk: a stage as it is sewn, a block with the ways in which it
// is sewn in the quilt on the table before others.
func (r Room) laidOn(d plan.Drawing) plan.Desk {
	p := r.Top.Plan
	if !p.Any() {
		return plan.Lay(d)
	}
	for i, s := range p.Order.Stages {
		if r.Top.StageID(s) == d.ID {
			return plan.OpenSewn(d, stageSewn(r.Top, i))
		}
	}
	var given []plan.Sewn
	for _, pr := range p.Order.Programs {
		if pr.Design == d.ID && pr.Own {
			given = append(given, programSewn(pr, r))
		}
	}
	if len(given) == 0 {
		return plan.Lay(d)
	}
	return plan.OpenSewn(d, given...)
}

// stageSewn tells how a stage is sewn. Rows that run aslant lie level, as they are turned to
// be sewn.
func stageSewn(t top.Top, i int) plan.Sewn {
	o := t.Plan.Order
	s := o.Stages[i]
	level := quilt.Transform{Scale: 1}
	if t.Quilt.Setting == quilt.OnPoint && s.Kind != order.Border && s.Kind != order.Ditch && !s.Line {
		level.Turn = math.Pi / 4 // rows run from the lower left to the upper right
	}
	out := plan.Sewn{Good: []string{string(s.Way), string(s.Passes)}, Longer: s.Longer, Added: s.AddedMM}
	if s.Kind == order.Ditch {
		out.Good = []string{"in-the-ditch"}
	}
	if s.Line {
		out.Good = []string{"as-one-line"}
	}
	leg := -1
	for _, m := range o.Moves(i) {
		if m.Leg != leg && !m.Come {
			leg = m.Leg
			l := s.Legs[leg]
			if l.Pass == 1 && out.Second == 0 {
				out.Second = len(out.Moves)
			}
			out.Groups, out.Names = append(out.Groups, len(out.Moves)), append(out.Names, t.LegName(i, leg))
		}
		m.Path = level.Path(m.Path)
		out.Moves = append(out.Moves, moves.Seen(m.Move))
	}
	in := map[string]bool{}
	for _, l := range s.Legs {
		in[l.Cell] = true
	}
	for _, c := range o.Places(t.Laying.Cells) {
		if in[c.ID] {
			out.Around = append(out.Around, level.Path(c.Outline()))
		}
	}
	if s.Kind == order.Ditch {
		out.Around = append(out.Around, t.Outline())
	}
	return out
}

// programSewn tells how a block is sewn in the quilt.
func programSewn(p order.Program, r Room) plan.Sewn {
	out := plan.Sewn{Good: []string{"as-sewn"}, Times: p.Times}
	for i, m := range p.Moves {
		m.Path = p.Paths[i]
		out.Moves = append(out.Moves, m)
	}
	if d, ok := r.Design(p.Design); ok {
		out.Around = []geom.Polyline{d.Shape.Outline()}
	}
	return out
}

// stage is the stage of the quilt that is shown, where it is one that can be sewn in other
// ways.
func (r Room) stage() (order.Stage, bool) {
	for _, s := range r.Top.Plan.Order.Stages {
		if r.Top.StageID(s) == r.Desk.Drawing.ID {
			return s, s.Kind != order.Ditch && !s.Line
		}
	}
	return order.Stage{}, false
}

// stageAsked opens a stage that another place asks for; while the order of the quilt is being
// worked out, as soon as that is there.
func (r Room) stageAsked(id string) Room {
	if !r.Top.Plan.Current {
		r.wished = id
		return r
	}
	r.wished, r.early = "", false
	for _, s := range r.Top.Plan.Order.Stages {
		if s.ID == id {
			return r.open(r.stageDrawing(s))
		}
	}
	return r
}

// nextStage is the stage that is sewn next, where there is one.
func (r Room) nextStage() (plan.Drawing, bool) {
	p := r.Top.Plan
	if !p.Any() {
		return plan.Drawing{}, false
	}
	left, err := p.Order.Left(p.Sewn, r.Assumptions())
	if err != nil {
		return plan.Drawing{}, false
	}
	return r.stageDrawing(p.Order.Stages[max(0, left.Next.Stage)]), true
}
