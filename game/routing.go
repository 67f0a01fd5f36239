package game

import (
	"fmt"
	"strconv"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/replay"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/route"
)

// deskPoint takes one report of a pointer on the desk: a handle is dragged, or a
// line is added to the person's own order.
func (m Model) deskPoint(p Pointer) Model {
	at := m.View.ToCloth(geom.Pt(p.X, p.Y))
	switch {
	case p.Kind == Down && m.deskPointer == nil:
		id := p.ID
		m.deskPointer = &id
		m = m.deskKept()
		if m.Desk.Own.Asked {
			m.Desk = m.Desk.Tap(at)
			return m
		}
		m.Desk = m.Desk.Take(m.Desk.HandleAt(at))
	case m.deskPointer == nil || p.ID != *m.deskPointer:
	case p.Kind == Move:
		m.Desk = m.Desk.Drag(at)
	default:
		m.deskPointer = nil
		m.Desk = m.Desk.Take(plan.NoHandle)
	}
	return m
}

// deskControl does what a control of the desk asks for.
func (m Model) deskControl(c Control) Model {
	on := c.Value == "on"
	m = m.deskKept()
	k := m.Desk
	switch c.Name {
	case "drawing":
		if d, ok := plan.Find(m.Drawings(), c.Value); ok {
			m.Desk = plan.Open(d, m.Settings.HandSpeed())
			return m.relaid()
		}
	case "rule":
		k = k.SetRule(route.EndRule(c.Value))
	case "seams":
		k = k.SetSeams(on)
	case "stops":
		k = k.SetStops(on)
	case "pick":
		if i, err := strconv.Atoi(c.Item); err == nil {
			k = k.Choose(i)
		}
	case "why":
		k = k.SetWhy(!k.Why)
	case "try":
		if i, err := strconv.Atoi(c.Item); err == nil {
			k = k.Try(i)
		}
	case "own":
		k = k.AskOwn(!k.Own.Asked)
	case "own-add":
		if i, err := strconv.Atoi(c.Item); err == nil {
			k = k.Add(i)
		}
	case "start-next", "start-before":
		k = k.Step(plan.StartHandle, direction(c.Name == "start-next"))
	case "exit-next", "exit-before":
		k = k.Step(plan.ExitHandle, direction(c.Name == "exit-next"))
	}
	m.Desk = k
	return m
}

// deskKept keeps the desk as it is for undo.
func (m Model) deskKept() Model {
	m.deskPast = append(m.deskPast[:len(m.deskPast):len(m.deskPast)], m.Desk)
	return m
}

// deskBack takes the last change of the desk back; what changed nothing that can
// be seen is passed over.
func (m Model) deskBack() Model {
	for n := len(m.deskPast); n > 0; n-- {
		last := m.deskPast[n-1]
		m.deskPast = m.deskPast[:n-1]
		if last.Rev != m.Desk.Rev || last.Drawing.ID != m.Desk.Drawing.ID {
			m.Desk = last.Renewed(m.Desk.Rev + 1)
			return m.relaid()
		}
	}
	return m
}

func direction(forward bool) int {
	if forward {
		return 1
	}
	return -1
}

// rehearseRoute puts the piece with this number, from 0, of the route on the cloth, to be traced.
func (m Model) rehearseRoute(number string) (Model, []Effect) {
	pieces := m.Desk.Pieces()
	piece, err := strconv.Atoi(number)
	if err != nil || piece < 0 || piece >= len(pieces) {
		return m, nil
	}
	l := pieces[piece].Line
	name := m.Desk.Drawing.Name + ", route"
	if len(pieces) > 1 {
		name += fmt.Sprintf(", part %d of %d", piece+1, len(pieces))
	}
	m.Motif = motif.Of(place.LineID(place.RoutePrefix, m.Desk.Drawing.ID, l), name, m.Desk.Summary(m.Settings.Units == Inches), l)
	m.Repeats = 0
	m.Open, m.Over, m.Replay = nil, nil, replay.Clock{Rate: m.Replay.Rate}
	m.Place = Rehearse
	return m.listed(m.Records).relaid(), nil
}

// Winding tells whether the line on the cloth is a planned route, which may run
// over its own junctions.
func (m Model) Winding() bool { return strings.HasPrefix(m.Motif.ID, place.RoutePrefix) }
