package game

import (
	"slices"
	"strconv"

	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/top"
	"unthreaded/path/quilt"
)

// cellControl does what is asked for with the place that is chosen.
func (m Model) cellControl(c Control) (Model, []Effect, bool) {
	d := &m.Quilting
	switch c.Name {
	case "scope":
		d.Top = d.Top.SetScope(top.Scope(c.Value))
	case "design":
		d.Top = d.Top.Give(c.Value)
	case "turn":
		d.Top = d.Top.Turn()
	case "choose":
		m = m.chooseCell(c.Item)
	case "unchoose":
		d.Top = d.Top.Choose(top.None)
	case "designs":
		return m.chooseDesign(), nil, true
	case "draw":
		m, effects := m.drawCell()
		return m, effects, true
	case "row":
		m, effects := m.routeRow()
		return m, effects, true
	case "order":
		find := d.Top.BeginOrder()
		d.Finding = &find
		return m, nil, true
	case "order-stop":
		d.Finding = nil
		return m, nil, true
	default:
		return m, nil, false
	}
	m, effects := m.relaid().quiltChanged().ownThreads()
	return m, effects, true
}

// chooseCell chooses a place by its ID.
func (m Model) chooseCell(id string) Model {
	d := &m.Quilting
	i := slices.IndexFunc(d.Top.Laying.Cells, func(c quilt.Cell) bool { return c.ID == id })
	if i >= 0 {
		d.Top = d.Top.Choose(i)
		d.around = d.Top.Middle(i)
	}
	return m
}

// chooseDesign leads to the designs for the place that is chosen; without one it
// chooses the first.
func (m Model) chooseDesign() Model {
	d := &m.Quilting
	if d.Top.Chosen == top.None {
		d.Top = d.Top.Choose(0)
	}
	if d.Top.Chosen != top.None {
		m = m.focusOn(designsFocus)
	}
	return m
}

// drawCell opens Draw with the design of the place chosen, or with a new one of its
// shape and size, which then lies there.
func (m Model) drawCell() (Model, []Effect) {
	t := m.Quilting.Top
	cell, ok := t.Cell()
	if !ok {
		m.Notice = Notice{Text: "Choose a place first: tap it on the cloth."}
		return m, nil
	}
	var effects []Effect
	id := t.Choice().Design
	if _, known := m.Design(id); !known {
		d := place.NewDesign(cell.Shape, m.FreeName("My "+cell.Kind.Name()))
		d.ID = m.FreshID("block")
		id = d.ID
		m.Library, effects = m.WithDesign(d), place.KeepDesign(d)
		m.repictured()
		t = t.WithDesigns(m.DesignsByID())
		m.Quilting.Top = t.Give(id)
		m = m.quiltChanged()
	}
	m, more := m.asked(place.Edit{Design: id})
	return m, append(effects, more...)
}

// routeRow takes the row of the place chosen to the desk where its route is planned.
// Where its lines do not hang together a stop is allowed between them.
func (m Model) routeRow() (Model, []Effect) {
	t := m.Quilting.Top
	if t.Chosen == top.None {
		m.Notice = Notice{Text: "Choose a block of the row first: tap it on the cloth."}
		return m, nil
	}
	d, ok := t.RowDrawing(t.Row())
	switch {
	case !ok:
		m.Notice = Notice{Text: "A border goes round corners, so it is not planned as a row. Choose a block or a strip of sashing."}
		return m, nil
	case !sews(d):
		m.Notice = Notice{Text: "There is nothing to sew in this row yet. Give its blocks a design first."}
		return m, nil
	}
	return m.asked(place.Plan{Drawing: d, Apart: Notice{Text: "The lines of this row do not touch each other, so stop-and-starts between them are allowed here."}})
}

// sews tells whether a drawing has lines to sew.
func sews(d plan.Drawing) bool {
	for _, s := range d.Strokes() {
		if s.Kind.Must() {
			return true
		}
	}
	return false
}

// topView does what is asked for with the view of the top and with what is measured
// on it.
func (m Model) topView(c Control) (Model, bool) {
	d := &m.Quilting
	switch c.Name {
	case "zoom":
		m = m.topZoomed(c.Value)
	case "away":
		m = m.fromAway()
	case "back":
		d.Back = c.Value == "on"
		d.zoom = 1
	case "threads":
		d.Best = c.Value == "best"
		d.Own = d.Best || c.Value == "own"
	case "gap-show":
		if i, err := strconv.Atoi(c.Item); err == nil {
			m = m.showGap(i - 1)
		}
	case "ditch":
		m.Settings.Ditch = c.Value == "on"
		d.Top.Measures, d.since, d.Gap = top.Measures{}, m.LastFrame, -1
		d.Top.Rev++
	default:
		return m, false
	}
	return m.relaid(), true
}
