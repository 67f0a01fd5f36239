package game

import (
	"math"
	"slices"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/back"
	"unthreaded/game/place/draw"
	"unthreaded/game/place/machine"
	"unthreaded/game/place/quilt"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/place/route"
	"unthreaded/game/scene"
)

// table holds the places in the order of the job. A place is one line here.
var table = [...]struct {
	name Place
	room func(place.Shared) place.Room
}{
	{place.QuiltPlan, func(place.Shared) place.Room { return quilt.New() }},
	{place.Draw, func(place.Shared) place.Room { return draw.New() }},
	{place.RoutePlan, func(place.Shared) place.Room { return route.New() }},
	{place.Rehearse, func(s place.Shared) place.Room { return rehearse.New(s) }},
	{place.LookBack, func(place.Shared) place.Room { return back.New() }},
	{place.Machine, func(place.Shared) place.Room { return machine.New() }},
}

// Places are the names of the places, in the order of the job.
var Places = func() (names []Place) {
	for _, p := range table {
		names = append(names, p.name)
	}
	return names
}()

// rooms are the rooms of a visit, as the table has them.
type rooms [len(table)]place.Room

func newRooms(s place.Shared) (out rooms) {
	for i, p := range table {
		out[i] = p.room(s)
	}
	return out
}

// room returns the room of a place.
func (m Model) room(n Place) place.Room { return m.rooms[at(n)].With(m.Shared) }

// at returns where a place stands in the table.
func at(n Place) int { return slices.Index(Places, n) }

// front lets something happen in the place in front.
func (m Model) front(do func(place.Room) (place.Room, []Effect)) (Model, []Effect) {
	r, effects := do(m.room(m.Place))
	return m.after(m.Place, r, effects)
}

// after returns the model after something has happened to a room, and what is to be
// done; what the room asks of other places is done here.
func (m Model) after(n Place, r place.Room, effects []Effect) (Model, []Effect) {
	before := m.Settings
	m.Shared = r.Common()
	m.rooms[at(n)] = r
	var out []Effect
	for _, e := range effects {
		if ask, ok := e.(place.Ask); ok {
			var more []Effect
			m, more = m.asked(ask)
			out = append(out, more...)
			continue
		}
		out = append(out, e)
		if d, ok := e.(Delete); ok {
			m, out = m.heard(place.Gone{ID: d.ID}, out)
		}
		if d, ok := e.(Restore); ok {
			m, out = m.heard(place.Gone{ID: d.ID, Back: true}, out)
		}
	}
	if m.Settings.Quilt != before.Quilt {
		out = append(out, SaveSettings{Doc: m.Settings.Encode()})
	}
	if m.Settings != before {
		m, out = m.heard(place.Changed{Before: before}, out)
	}
	return m, out
}

// heard tells every room.
func (m Model) heard(msg Msg, effects []Effect) (Model, []Effect) {
	for _, n := range Places {
		r, more := m.room(n).Hear(msg)
		m, more = m.after(n, r, more)
		effects = append(effects, more...)
	}
	return m, effects
}

// asked opens the place that another asks something of, and tells it.
func (m Model) asked(a place.Ask) (Model, []Effect) {
	m, effects := m.goTo(a.For())
	r, more := m.room(a.For()).Hear(a)
	m, more = m.after(a.For(), r, more)
	return m.relaid(), append(effects, more...)
}

// Front returns the room on the screen.
func (m Model) Front() place.Room { return m.room(m.Place) }

// Scene returns the display list of the place in front, valid until the next call; what
// has not changed since the last stays in the layers.
func (m Model) Scene(layers *scene.Layers) scene.List {
	layers.Begin(m.Screen, m.weave(), m.Theme())
	return m.Front().Scene(layers)
}

// weave returns the share of the weave that is felt: all of it at true size, nothing from
// afar, where a thread of it would be as wide as a ruler.
func (m Model) weave() float64 {
	const far, near = 1.2, 2.4 // px per mm
	share := (m.Sight().Scale - far) / (near - far)
	return math.Round(4*math.Max(0, math.Min(1, share))) / 4
}

// Sight returns how the cloth lies on the screen in the place in front.
func (m Model) Sight() View {
	if r, ok := m.Front().(interface{ Sight() View }); ok {
		return r.Sight()
	}
	return View{}
}

// Rehearsal returns the room where lines are traced.
func (m Model) Rehearsal() rehearse.Room {
	return m.room(Rehearse).(rehearse.Room)
}

// Tracing tells whether a pointer is drawing a trace.
func (m Model) Tracing() bool { return m.Place == Rehearse && m.Rehearsal().Tracing() }

// Controls returns what all controls are and take, under the names that the page sends:
// those of a room with the place's name before it, and without where places that have it agree.
func (m Model) Controls() []control.Decl {
	named, bare := controls.Decls(), []control.Decl(nil)
	for _, n := range Places {
		for _, d := range m.room(n).Controls() {
			bare = append(bare, d)
			d.Name = string(n) + "." + d.Name
			named = append(named, d)
		}
	}
	clashes := func(d control.Decl) bool {
		return slices.ContainsFunc(bare, func(o control.Decl) bool {
			return o.Name == d.Name && (o.Kind != d.Kind || o.Min != d.Min || o.Max != d.Max)
		})
	}
	return append(named, slices.DeleteFunc(slices.Clone(bare), clashes)...)
}
