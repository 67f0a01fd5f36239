package quilt

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/work"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// Stages is how the order in which the quilt is sewn is looked at.
type Stages struct {
	// Open is the ID of the stage that is looked at, "" for none; Gaps tells that the gaps
	// are to be seen on the cloth, not the order, where Asked says that she chose.
	Open        string
	Gaps, Asked bool
	// compared are the ways through a stage of the top as it was laid then.
	compared compared
}

type compared struct {
	laid    int
	stage   string
	options []order.Option
}

// mostStages is the largest number of a place in the order: rows, strips of sashing,
// borders and the ditch.
const mostStages = 3 * quilt.MaxRows

// rowOrders are the orders of rows by name, the usual one first.
var rowOrders = []machine.OrderKind{machine.MiddleOut, machine.FirstToLast, machine.LastToFirst, machine.HalfAndHalf, machine.EdgesIn}

// decided takes changed choices. Maps in them are made anew by what changes them.
func (r Room) decided(change func(*order.Choices)) Room {
	c := r.Top.Plan.Choices
	change(&c)
	r.Top = r.Top.Decide(c)
	return r
}

// orderedBy sews the rows in an order by name; one of her own gives way to it.
func (r Room) orderedBy(k machine.OrderKind) Room {
	if k == machine.MiddleOut {
		k = ""
	}
	return r.decided(func(c *order.Choices) { c.Rows, c.Stages = k, nil })
}

// stage returns the index of a stage of the order, -1 where it has none of this ID.
func (r Room) stage(id string) int {
	return slices.IndexFunc(r.Top.Plan.Order.Stages, func(s order.Stage) bool { return s.ID == id })
}

// opened looks at a stage, or no more at the one looked at.
func (r Room) opened(id string) Room {
	if id == r.Stages.Open || r.stage(id) < 0 {
		id = ""
	}
	r.Stages.Open = id
	r.Top.Rev++
	return r
}

// moved puts a stage in another place of the order, 0 for the first.
func (r Room) moved(id string, to int) Room {
	if i := r.stage(id); i < 0 || i == to {
		return r
	}
	now := r.Top.Plan.Order
	return r.decided(func(c *order.Choices) { *c = c.Moved(now, id, to) })
}

// shifted moves the stage that is looked at by so many places.
func (r Room) shifted(by int) Room {
	i := r.stage(r.Stages.Open)
	if to := i + by; i >= 0 && to >= 0 && to < len(r.Top.Plan.Order.Stages) {
		return r.moved(r.Stages.Open, to)
	}
	return r
}

// ticked ticks something off as sewn today, or takes the tick away.
func (r Room) ticked(t order.Tick, on bool) Room {
	s := r.Top.Plan.Sewn
	if t.Kind == order.StageTick {
		s = r.withoutLegs(s, t.Stage)
	}
	s = s.Without(t)
	if on {
		t.Day = r.Today()
		s = s.With(t)
	}
	r.Top = r.Top.Tick(s)
	return r
}

// withoutLegs leaves out the ticks of all that is in a stage, for which the stage's stands.
func (r Room) withoutLegs(s order.Sewn, stage string) order.Sewn {
	s.Ticks = slices.DeleteFunc(slices.Clone(s.Ticks), func(t order.Tick) bool { return t.Kind == order.LegTick && t.Stage == stage })
	return s
}

// legTicked ticks off one stay of the stage that is looked at. Where the stage is ticked, its
// tick gives way to those of its other stays; where all are, they give way to the stage's.
func (r Room) legTicked(item string, on bool) Room {
	i, n := r.stage(r.Stages.Open), -1
	if k, err := strconv.Atoi(item); err == nil {
		n = k
	}
	o := r.Top.Plan.Order
	if i < 0 || n < 0 || n >= len(o.Stages[i].Legs) {
		return r
	}
	s, whole := r.Top.Plan.Sewn, order.Tick{Kind: order.StageTick, Stage: o.Stages[i].ID}
	if day := s.Ticked(whole); day != "" {
		s = s.Without(whole)
		for k := range o.Stages[i].Legs {
			t := o.TickOf(i, k)
			t.Day = day
			s = s.With(t)
		}
	}
	t := o.TickOf(i, n)
	if s = s.Without(t); on {
		t.Day = r.Today()
		s = s.With(t)
	}
	all := true
	for k := range o.Stages[i].Legs {
		all = all && s.Ticked(o.TickOf(i, k)) != ""
	}
	if all {
		whole.Day = r.Today()
		s = r.withoutLegs(s, whole.Stage).With(whole)
	}
	r.Top = r.Top.Tick(s)
	return r
}

// wayID names a way and a number of passes, "" for what the planner chooses.
func wayID(w order.Way, p order.Passes) string { return string(w) + " " + string(p) }

// sewnBy sews the stage that is looked at in a way by name, or as the planner chooses.
func (r Room) sewnBy(id string) Room {
	stage := r.Stages.Open
	way, passes, named := strings.Cut(id, " ")
	return r.decided(func(c *order.Choices) {
		c.Ways, c.Passes = maps.Clone(c.Ways), maps.Clone(c.Passes)
		delete(c.Ways, stage)
		delete(c.Passes, stage)
		if !named || stage == "" {
			return
		}
		if c.Ways == nil {
			c.Ways = map[string]order.Way{}
		}
		if c.Passes == nil {
			c.Passes = map[string]order.Passes{}
		}
		c.Ways[stage], c.Passes[stage] = order.Way(way), order.Passes(passes)
	})
}

// fromFarEnd begins the stage that is looked at at its far end, or at its near one.
func (r Room) fromFarEnd(on bool) Room {
	stage := r.Stages.Open
	if stage == "" {
		return r
	}
	return r.decided(func(c *order.Choices) {
		c.FarEnd = maps.Clone(c.FarEnd)
		if c.FarEnd == nil {
			c.FarEnd = map[string]bool{}
		}
		c.FarEnd[stage] = on
	})
}

// waysCompared has every way through the stage that is looked at measured.
func (r Room) waysCompared() (Room, []place.Effect) {
	var effects []place.Effect
	in := work.WaysIn{OrderIn: work.OrderIn{Quilt: r.Top.Quilt, Designs: r.Top.Sources(), Choices: r.Top.Plan.Choices}, Stage: r.Stages.Open}
	r.Shared, effects = r.Asks(work.Ways, r.waysOf(), in)
	return r, effects
}

// waysOf tells what ways are measured of: the stage that is looked at, of the top as it was
// laid last.
func (r Room) waysOf() string {
	return fmt.Sprintf("%s %d %s", r.Top.Quilt.ID, r.Top.Laid, r.Stages.Open)
}

// routeStage asks for the stage that is looked at, or the one sewn next, to be explained.
func (r Room) routeStage() (Room, []place.Effect) {
	i := r.stage(r.Stages.Open)
	if i < 0 {
		return r, nil
	}
	return r, []place.Effect{place.PlanStage{Stage: r.Stages.Open}}
}

// rehearseNext asks for what is to be sewn next to be rehearsed.
func (r Room) rehearseNext() (Room, []place.Effect) {
	left, err := r.Top.Plan.Order.Left(r.Top.Plan.Sewn, r.Assumptions())
	if err != nil || left.Next.Stage < 0 {
		return r, nil
	}
	lines := r.Rehearsals(left.Next.Program)
	if len(lines) == 0 {
		return r, nil
	}
	return r, []place.Effect{place.Trace{Line: lines[0]}}
}

// seesGaps tells that the gaps are to be seen on the cloth: on request, and by themselves
// where every block is filled and some are too wide; not over a stage that is looked at.
func (r Room) seesGaps() bool {
	switch {
	case r.Stages.Open != "":
		return false
	case r.Gap >= 0:
		return true
	case r.Stages.Asked:
		return r.Stages.Gaps
	}
	return r.emptyBlocks() == 0 && len(r.Top.Measures.Wide) > 0
}

// emptyBlocks counts the blocks without a design.
func (r Room) emptyBlocks() int {
	n := 0
	for _, c := range r.Top.Laying.Cells {
		if (c.Kind == quilt.Block || c.Kind == quilt.Alternate) && r.Top.Quilt.Choice(c).Design == "" && !r.Top.Quilt.Covered(c) {
			n++
		}
	}
	return n
}
