package steps

import (
	"fmt"
	"slices"

	"unthreaded/path/route"
)

// assembly strings the steps of a row together.
type assembly struct {
	p     *planner
	steps []route.Step
	here  int
	out   Row
}

// assemble turns modes into steps.
func (p *planner) assemble(modes []mode, exact bool) (Row, error) {
	a := &assembly{p: p}
	a.out.Best, a.out.Through = exact, route.OnePass
	for _, c := range p.cells {
		a.out.Kinds = append(a.out.Kinds, c.kind)
		a.out.Lines = append(a.out.Lines, c.lines)
		a.out.Best = a.out.Best && c.rep.exact != nil
	}
	a.out.Different = len(p.reps)
	var err error
	if p.two {
		a.out.Through = route.OutAndBack
		err = a.twoPasses(modes)
	} else {
		err = a.onePass(modes)
	}
	if err != nil {
		return Row{}, err
	}
	if len(a.steps) == 0 {
		return Row{}, route.ErrNothing
	}
	return a.finish()
}

func (a *assembly) onePass(modes []mode) error {
	for i, m := range modes {
		c := a.p.cells[i]
		in, out := c.left[m.in], c.right[m.out]
		st := a.p.stations(c, []int{in, out})
		if err := a.visit(i, 0, in, out, c.rep.plan(st[0], st[1]).order, nil); err != nil {
			return err
		}
	}
	a.out.Second = len(a.steps)
	return nil
}

func (a *assembly) twoPasses(modes []mode) error {
	last := len(modes) - 1
	home := make([]func() error, 0, len(modes))
	for i, m := range modes {
		c := a.p.cells[i]
		n := len(c.left)
		in, away := c.left[m.in/n], c.left[m.in%n]
		st := a.p.stations(c, []int{in, away})
		if i == last {
			if err := a.visit(i, 0, in, away, c.rep.plan(st[0], st[1]).order, nil); err != nil {
				return err
			}
			break
		}
		k := len(c.right)
		out, back := c.right[m.out/k], c.right[m.out%k]
		far := a.p.stations(c, []int{out, back})
		both := c.rep.planTwice(st[0], far[0], far[1], st[1])
		if err := a.visit(i, 0, in, out, both.there, nil); err != nil {
			return err
		}
		home = append(home, func() error { return a.visit(i, 1, back, away, both.home, both.there) })
	}
	a.out.Second = len(a.steps)
	slices.Reverse(home)
	for _, visit := range home {
		if err := visit(); err != nil {
			return err
		}
	}
	return nil
}

// visit sews lines of cell i between two of its ends, to which it travels first. Done
// are the walks of the rep that are sewn already.
func (a *assembly) visit(i, pass, in, out int, order, done []int) error {
	c := a.p.cells[i]
	if len(a.steps) == 0 && len(a.out.Visits) == 0 {
		a.here = in
	}
	if err := a.goTo(a.p.seams, in, mask{}); err != nil {
		return fmt.Errorf("to block %d: %w", i, err)
	}
	v := Visit{Cell: i, Pass: pass, First: len(a.steps)}
	b := groundOf(a.p.g, a.p.rules, c.lines, c.seams, nil)
	b.pre = c.rep.b.pre
	var sewn mask
	for _, w := range done {
		if l := a.p.walk(c, w).Line; l < maskLines {
			sewn = sewn.with(l)
		}
	}
	for _, w := range order {
		walk := a.p.walk(c, w)
		line := c.lines[walk.Line]
		from, to := line.ends(walk)
		if err := a.goTo(b, from, sewn); err != nil {
			return fmt.Errorf("in block %d: %w", i, err)
		}
		a.sew(line, walk, to)
		if walk.Line < maskLines {
			sewn = sewn.with(walk.Line)
		}
		v.Walks = append(v.Walks, walk)
	}
	if err := a.goTo(b, out, sewn); err != nil {
		return fmt.Errorf("out of block %d: %w", i, err)
	}
	v.After = len(a.steps)
	a.out.Visits = append(a.out.Visits, v)
	return nil
}

// sew adds the pieces of a line.
func (a *assembly) sew(line Line, w Walk, to int) {
	edges, back := line.pieces(w)
	for k, e := range edges {
		s := route.Step{Edge: e, Reverse: back[k], From: a.p.g.Edges[e].U, To: a.p.g.Edges[e].V}
		if s.Reverse {
			s.From, s.To = s.To, s.From
		}
		a.steps = append(a.steps, s)
	}
	a.here = to
}

// goTo travels to a junction.
func (a *assembly) goTo(b *ground, to int, sewn mask) error {
	steps, found := b.travel(a.here, to, sewn)
	if !found {
		return route.ErrApart
	}
	a.steps = append(a.steps, steps...)
	a.here = to
	return nil
}

// finish shortens what is travelled and measures the row.
func (a *assembly) finish() (Row, error) {
	a.shorten()
	r, err := route.Along(a.p.g, a.p.rules, a.steps)
	if err != nil {
		return Row{}, err
	}
	a.out.Route = r
	a.out.Least, err = route.Least(a.p.g, a.p.row, a.p.rules, r.Start, r.Exit)
	if err != nil {
		return Row{}, err
	}
	a.out.LowerBound = a.out.Least
	a.out.Exact = r.Added <= a.out.Least+1e-6
	a.out.Saves = max(0, r.Added-a.out.Least)
	return a.out, nil
}

// shorten replaces each stretch of nothing but travel along seams and stops by the
// cheapest: ends between two blocks are no detour.
func (a *assembly) shorten() {
	var out []route.Step
	place := make([]int, len(a.steps)+1) // where each step goes
	free := func(s route.Step) bool { return s.Way == route.Hidden || s.Way == route.Jump }
	for i := 0; i < len(a.steps); {
		k := i
		for k < len(a.steps) && free(a.steps[k]) && (k == i || k != a.out.Second) {
			k++
		}
		if k == i {
			place[i] = len(out)
			out = append(out, a.steps[i])
			i++
			continue
		}
		run := a.steps[i:k]
		better, found := a.p.seams.travel(run[0].From, run[len(run)-1].To, mask{})
		if found && a.worth(better) < a.worth(run) {
			run = better
		}
		for n := i; n < k; n++ {
			place[n] = min(len(out)+n-i, len(out)+len(run))
		}
		out = append(out, run...)
		i = k
	}
	place[len(a.steps)] = len(out)
	for i := range a.out.Visits {
		v := &a.out.Visits[i]
		v.First, v.After = place[v.First], place[v.After]
	}
	a.out.Second = place[a.out.Second]
	a.steps = out
}

// worth returns the cost of steps that sew nothing.
func (a *assembly) worth(steps []route.Step) int64 {
	sum := int64(0)
	for _, s := range steps {
		if s.Way == route.Jump {
			sum += a.p.seams.jump
		} else {
			sum += price(a.p.g.Edges[s.Edge].Length, a.p.rules.Costs.Seam)
		}
	}
	return sum
}
