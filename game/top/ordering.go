package top

import (
	"fmt"

	"unthreaded/game/plan"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Ordering is the search for the order of the rows of a top, taken in steps so that
// the page need not stand still. A method returns the search after it and leaves the
// one before as it was.
type Ordering struct {
	t     Top
	rows  []int
	lines []plane.Stroke
	graph plane.Graph
	find  *route.TopFinder // nil until the lines are joined
	order Order
}

// BeginOrder begins the search for the order in which the rows are best begun and left.
func (t Top) BeginOrder() Ordering {
	o := Ordering{t: t, rows: t.sewnRows()}
	if len(o.rows) == 0 {
		return o.ended(route.ErrNothing)
	}
	return o
}

// Of tells whether the search is about a top as it now lies.
func (o Ordering) Of(t Top) bool { return o.t.Quilt.ID == t.Quilt.ID && o.t.layings == t.layings }

// Done tells that the search has ended.
func (o Ordering) Done() bool { return o.order.Done }

// Progress returns how many rows have been gone through, and of how many.
func (o Ordering) Progress() (done, of int) {
	if o.find != nil {
		done = o.find.Row()
	}
	return done, len(o.rows)
}

// Step takes the search on: first it takes the lines, which is quickly done, so that
// what is said of the search is soon seen; then it joins them, then it solves a row in one
// number of passes each time, and at last puts the rows together. Cost that of
// route.TopFinder's steps.
func (o Ordering) Step() Ordering {
	switch {
	case o.Done():
		return o
	case o.lines == nil:
		o.lines = o.t.thinLines()
		return o
	case o.find == nil:
		return o.joined()
	case !o.find.Ready():
		next, err := o.find.Step()
		if o.find = &next; err != nil {
			return o.ended(err)
		}
		return o
	}
	found, err := o.find.Route()
	if err != nil {
		return o.ended(err)
	}
	o.order = Order{Done: true, Route: found.Route}
	for i, pass := range found.Rows {
		o.order.Legs = append(o.order.Legs, o.t.leg(o.graph, found, i, o.rows[i], pass))
	}
	return o
}

// thinLines returns the lines of the top as they are ordered.
func (t Top) thinLines() []plane.Stroke {
	lines := plan.Strokes(t.orderLines())
	for i, l := range lines {
		if l.Length == 0 {
			lines[i].Length = l.Path.Length() // what is walked stays true
		}
		lines[i].Path = l.Path.Thinned(orderTolerance)
	}
	return lines
}

// joined makes a graph of the lines.
func (o Ordering) joined() Ordering {
	built, err := plane.Build(o.lines, plane.Options{SnapMM: plane.DefaultSnap})
	if err != nil {
		return o.ended(fmt.Errorf("the lines of the top: %w", err))
	}
	o.graph = built.Graph
	blocks := make([][]route.Block, len(o.rows))
	p := newPorts(o.graph, o.t)
	for i, r := range o.rows {
		blocks[i] = p.row(r)
	}
	find, err := route.NewTopFinder(o.graph, blocks, route.Rules{
		Costs: route.Costs{Retrace: 1, Seam: seamPrice, Jump: plan.StopPrice},
		Ends:  route.Ends{Rule: route.Free, Start: route.Nowhere, Exit: route.Nowhere},
	})
	if err != nil {
		return o.ended(err)
	}
	o.find = &find
	return o
}

// ended ends the search without an order.
func (o Ordering) ended(err error) Ordering {
	o.order = Order{Done: true, Trouble: err}
	return o
}

// WithOrder takes the order that a search about this top has found.
func (t Top) WithOrder(o Ordering) Top {
	if o.Done() && o.Of(t) {
		t.Order = o.order
		t.Rev++
	}
	return t
}

// FindOrder takes all steps of the search at once.
func (t Top) FindOrder() Top {
	o := t.BeginOrder()
	for !o.Done() {
		o = o.Step()
	}
	return t.WithOrder(o)
}
