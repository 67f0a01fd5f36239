// Package route is the place where the way round a drawing is planned: its order,
// numbered, with what is sewn twice and why, played, and her own order beside it.
package route

import (
	"slices"

	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Room is the place. The route itself is a document, the Desk of the library.
type Room struct {
	place.Shared

	view screen.View
	// clock plays the route at the hand's planned speed.
	clock replay.Clock
	// own is the person's own order while she gives it; why asks for the reasons to be
	// drawn.
	own Own
	why bool
	// rev grows with each change of own and why; print is the order of the quilt from which
	// the desk was laid.
	rev   int
	print string
	// early tells that a drawing was opened while the order of the quilt was not known yet.
	early bool
	// pointer is the pointer that is down, nil for none; before is what was there when
	// it went down.
	pointer *int
	before  state
	// past and future hold what undo and redo lead to, the nearest last.
	past, future []state
}

// state is what undo brings back.
type state struct {
	desk plan.Desk
	own  Own
	why  bool
}

// New returns the place before it is entered.
func New() Room { return Room{clock: replay.Clock{Rate: 1}} }

// With is as place.Room has it, and so are the methods below that have no comment.
func (r Room) With(s place.Shared) place.Room {
	r.Shared = s
	return r
}

func (r Room) Enter() (place.Room, []place.Effect) { return r.ready(), nil }

// ready returns the place with a drawing on it: where none was opened yet, the first
// ready one.
func (r Room) ready() Room {
	if r.Desk.Drawing.ID == "" {
		if d, ok := r.nextStage(); ok {
			return r.open(d)
		}
		r.early = r.Top.Quilt.ID != "" && !r.Top.Plan.Current
		return r.open(plan.Drawings()[0])
	}
	if r.Desk.Given != nil && r.print != r.Top.Plan.Order.Fingerprint {
		return r.reopened()
	}
	if r.clock.Length != r.seconds() {
		r = r.rewound()
	}
	return r
}

func (r Room) Leave() (place.Room, []place.Effect) {
	r.clock.Playing = false
	r.pointer = nil
	r.Desk = r.Desk.Take(plan.NoHandle)
	return r, nil
}

func (r Room) Hear(m place.Msg) (place.Room, []place.Effect) {
	switch m := m.(type) {
	case place.Plan:
		return r.asked(m), nil
	case place.Worked:
		return r.orderCame(), nil
	case place.PlanStage:
		return r.stageAsked(m.Stage), nil
	case place.Changed:
		if m.Before.HandSpeed() != r.Settings.HandSpeed() {
			return r.rewound(), nil
		}
	}
	return r, nil
}

// orderCame lays on the desk what the order of the quilt says, where it follows from it: a
// drawing that was opened for want of an order gives way to the stage sewn next.
func (r Room) orderCame() Room {
	switch {
	case r.Place != place.RoutePlan || !r.Top.Plan.Current:
		return r
	case r.early && len(r.past) == 0:
		r.Desk = plan.Desk{}
	}
	r.early = false
	return r.ready()
}

// asked opens the drawing that another place has planned. Where its lines lie apart,
// stops are allowed between them, and that is said.
func (r Room) asked(a place.Plan) Room {
	r = r.open(a.Drawing)
	r.Notice = a.Said
	if len(r.Desk.Choices) == 0 {
		r.Desk, r.Notice = r.Desk.SetStops(true), a.Apart
	}
	return r.rewound()
}

// open lays a drawing out and plans it.
func (r Room) open(d plan.Drawing) Room {
	r.Desk, r.print = r.laidOn(d), r.Top.Plan.Order.Fingerprint
	r.own, r.why = Own{}, false
	r.past, r.future = nil, nil
	return r.rewound().fitted()
}

// reopened lays what is on the desk anew after the order of the quilt has changed; where it is
// in the order no more, what is sewn next.
func (r Room) reopened() Room {
	if d, ok := plan.Find(r.drawings(), r.Desk.Drawing.ID); ok {
		return r.open(d)
	}
	r.Desk = plan.Desk{}
	return r.ready()
}

func (r Room) Fit() place.Room { return r.fitted() }

func (r Room) fitted() Room {
	lo, hi := plan.Bounds(r.Desk.Graph)
	r.view = screen.Fit(lo, hi, r.Screen)
	return r
}

// Sight returns how the cloth lies on the screen.
func (r Room) Sight() screen.View { return r.view }

func (r Room) Point(p place.Pointer) (place.Room, []place.Effect) {
	at := r.view.ToCloth(geom.Pt(p.X, p.Y))
	switch {
	case p.Kind == place.Down && r.pointer == nil:
		id := p.ID
		r.pointer, r.before = &id, r.state()
		if r.own.Asked {
			return r.tap(at), nil
		}
		r.Desk = r.Desk.Take(r.Desk.HandleAt(at))
	case r.pointer == nil || p.ID != *r.pointer:
	case p.Kind == place.Move:
		r = r.drag(at)
	default:
		r.pointer = nil
		r.Desk = r.Desk.Take(plan.NoHandle)
		return r.rewound().stepped(r.before), nil
	}
	return r, nil
}

// drag moves the handle in hand, if there is one.
func (r Room) drag(at geom.Point) Room {
	if r.Desk.Held() == plan.NoHandle {
		return r
	}
	r.Desk = r.Desk.Drag(at)
	return r.rewound()
}

func (r Room) Keys() []string { return nil }

func (r Room) Key(k place.Key) (place.Room, []place.Effect) {
	if k.Name == "Escape" && r.own.Asked {
		before := r.state()
		return r.askOwn(false).stepped(before), nil
	}
	return r, nil
}

func (r Room) Undo() (place.Room, []place.Effect) {
	if n := len(r.past); n > 0 {
		last := r.past[n-1]
		r.past, r.future = r.past[:n-1], append(slices.Clone(r.future), r.state())
		r = r.brought(last)
	}
	return r, nil
}

func (r Room) Redo() (place.Room, []place.Effect) {
	if n := len(r.future); n > 0 {
		next := r.future[n-1]
		r.future, r.past = r.future[:n-1], append(slices.Clone(r.past), r.state())
		r = r.brought(next)
	}
	return r, nil
}

// brought returns the place as it was or is to be again.
func (r Room) brought(s state) Room {
	r.Desk = s.desk.Renewed(r.Desk.Rev + 1)
	r.own, r.why = s.own, s.why
	r.rev++
	return r.rewound().fitted()
}

func (r Room) state() state { return state{r.Desk, r.own, r.why} }

// stepped keeps what was before a change, if there was one, for undo.
func (r Room) stepped(before state) Room {
	same := before.desk.Rev == r.Desk.Rev && before.desk.Drawing.ID == r.Desk.Drawing.ID &&
		before.why == r.why && before.own.Asked == r.own.Asked && len(before.own.Lines) == len(r.own.Lines)
	if same {
		return r
	}
	r.past, r.future = append(slices.Clone(r.past), before), nil
	return r
}

// lineOf returns piece i of the route as a line to be rehearsed.
func (r Room) lineOf(i int) motif.Rehearsal {
	pieces := r.Desk.Pieces()
	l := pieces[i].Line
	b := r.Book()
	name := b.Say("route.line-name", r.Desk.Drawing.Title(), i+1, len(pieces))
	return motif.Of(place.LineID(place.RoutePrefix, r.Desk.Drawing.ID, l), name, b.Write(r.Desk.Summary()), l)
}
