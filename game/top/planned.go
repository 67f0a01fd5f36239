package top

import (
	"reflect"

	"unthreaded/game/words"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// Plan is how the top is sewn: one order, which every place reads.
type Plan struct {
	// Choices are what she decided about the order, Sewn what is sewn so far. Change
	// them with Decide and Tick.
	Choices order.Choices
	Sewn    order.Sewn
	// Order is made of the quilt, its designs and Choices. While Current is false it is
	// still that of the top before its last change, or empty.
	Order   order.Order
	Current bool
	// Trouble is why there is no order: order.ErrNothing where nothing is to be sewn.
	Trouble error
}

// Any tells that there is an order of the top as it lies.
func (p Plan) Any() bool { return p.Current && len(p.Order.Stages) > 0 }

// StageOf returns the index of the stage of a sewing row of Rows in Order.Stages; false
// where nothing of it is sewn.
func (p Plan) StageOf(row int) (int, bool) {
	for i, s := range p.Order.Stages {
		if s.Row == row && row != None {
			return i, true
		}
	}
	return None, false
}

// WithPlan returns the top with choices and ticks that were kept.
func (t Top) WithPlan(c order.Choices, s order.Sewn) Top {
	t.Plan.Choices, t.Plan.Sewn = c, s
	return t.unplanned()
}

// Decide takes other choices, a step for undo. Choices that cannot be leave the top as
// it was.
func (t Top) Decide(c order.Choices) Top {
	if c.Validate() != nil || reflect.DeepEqual(c, t.Plan.Choices) {
		return t
	}
	t = t.step("")
	t.Plan.Choices = c
	return t.unplanned()
}

// Tick takes other ticks, a step for undo.
func (t Top) Tick(s order.Sewn) Top {
	if s.Validate() != nil || reflect.DeepEqual(s, t.Plan.Sewn) {
		return t
	}
	t = t.step("")
	t.Plan.Sewn = s
	t.Rev++
	return t
}

// unplanned notes that the order is no longer that of the top.
func (t Top) unplanned() Top {
	t.Rev++
	t.Plan.Current = false
	return t
}

// Print tells what the order follows from: see order.Fingerprint.
func (t Top) Print() string { return order.Fingerprint(t.Quilt, t.designs, t.Plan.Choices) }

// Sources returns the designs that lie in the quilt, without their photos: with the quilt and
// the choices all that order, gaps and evenness follow from.
func (t Top) Sources() quilt.Designs {
	out := quilt.Designs{}
	for _, id := range t.Quilt.DesignIDs() {
		if d, known := t.designs[id]; known {
			d.Photo = nil
			out[id] = d
		}
	}
	return out
}

// Ordered returns the top with its order, which becomes current; trouble tells why there is
// none.
func (t Top) Ordered(o order.Order, trouble error) Top {
	t.Plan.Order, t.Plan.Trouble, t.Plan.Current = o, trouble, true
	t.Rev++
	return t
}

// Planned returns the top with its order current, which it works out itself. Cost that of
// order.Plan where the quilt, one of its designs or a choice has changed, else nothing.
func (t Top) Planned() Top {
	switch {
	case t.Plan.Current || t.Quilt.ID == "":
		return t
	case t.Print() == t.Plan.Order.Fingerprint:
		return t.Ordered(t.Plan.Order, t.Plan.Trouble)
	}
	return t.Ordered(order.Plan(t.Quilt, t.designs, t.Plan.Choices))
}

// StageID is the ID of the drawing of a stage; that of a row is the row's.
func (t Top) StageID(s order.Stage) string { return t.Quilt.ID + "-" + s.ID }

// LegName names a stay of a stage by its place.
func (t Top) LegName(stage, leg int) words.Msg {
	l := t.Plan.Order.Stages[stage].Legs[leg]
	for _, c := range t.Plan.Order.Places(t.Laying.Cells) {
		if c.ID == l.Cell {
			return words.Of("order.leg", SpotName(c.Spot), l.Pass > 0)
		}
	}
	return words.Of("order.leg-seam", leg+1)
}
