// Package route is the place where the way round a drawing is planned: its order,
// numbered, with what is sewn twice and why, played, and her own order beside it.
package route

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/route/steps"
)

// Room is the place. The route itself is a document, the Desk of the library.
type Room struct {
	place.Shared

	// pane is how the drawing is shown, view how it lies on the screen by that; hold is
	// what pointers do with it.
	pane screen.Pane
	view screen.View
	hold place.Hold
	// lit is the move under the pointer and inside the stay whose moves are numbered, -1 for
	// none.
	lit, inside int
	// awake tells how it stands with the screen, which stays lit while the route is played.
	awake awake
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
	// apart is said, and stops are allowed, if the drawing that is planned turns out to have
	// lines that lie apart; none where that is not asked for.
	apart place.Notice
	// early tells that a drawing was opened while the order of the quilt was not known yet.
	early bool
	// wished is the stage that was asked for while the order of the quilt was not known.
	wished string
	// pointer is the pointer that drags a handle or draws, nil for none; before is what was
	// there when it went down.
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
func New() Room {
	return Room{clock: replay.Clock{Rate: 1}, pane: screen.Pane{Zoom: 1, Most: 1}, lit: none, inside: none}
}

// none is the number of no move and of no stay.
const none = -1

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
	r = r.letGo()
	r.lit = none
	return r.lights()
}

func (r Room) Hear(m place.Msg) (place.Room, []place.Effect) {
	switch m := m.(type) {
	case place.Plan:
		return r.asked(m), nil
	case place.Worked:
		if out, ok := m.Out.(work.RouteOut); ok {
			return r.routeCame(m, out), nil
		}
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
	case r.wished != "":
		return r.stageAsked(r.wished)
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
	r.apart = a.Apart
	return r.joined().rewound()
}

// joined allows stops where another place asked for a drawing whose lines lie apart.
func (r Room) joined() Room {
	if r.Desk.Waits {
		return r
	}
	if !r.apart.None() && len(r.Desk.Choices) == 0 {
		r.Desk, r.Notice = r.Desk.SetStops(true), r.apart
	}
	r.apart = place.Notice{}
	return r
}

// deskOf tells what a large drawing is planned of: the desk as it is.
func (r Room) deskOf() string { return fmt.Sprintf("%s %d", r.Desk.Drawing.ID, r.Desk.Rev) }

// planned has a large drawing planned, if it waits for that and no hand drags anything.
func (r Room) planned() (Room, []place.Effect) {
	if !r.Desk.Waits || !r.Working.Open(work.Route, r.deskOf()) {
		return r, nil
	}
	in := work.RouteIn{Desk: r.Desk}
	if r.Desk.Drawing.Strokes != nil {
		in.Strokes = r.Desk.Drawing.Strokes()
	}
	var effects []place.Effect
	r.Shared, effects = r.Asks(work.Route, r.deskOf(), in)
	return r, effects
}

// routeCame takes the plan of a large drawing, unless it has changed meanwhile.
func (r Room) routeCame(w place.Worked, out work.RouteOut) Room {
	if !r.Desk.Waits || w.Of != r.deskOf() {
		return r
	}
	r.Desk = r.Desk.Answered(out.Desk)
	r = r.joined().rewound()
	if r.Place == place.RoutePlan {
		r = r.fitted()
	}
	return r
}

// open lays a drawing out and plans it.
func (r Room) open(d plan.Drawing) Room {
	r.Desk, r.print = r.laidOn(d), r.Top.Plan.Order.Fingerprint
	r.own, r.why, r.apart = Own{}, false, place.Notice{}
	r.past, r.future, r.wished = nil, nil, ""
	r.pane.Zoom, r.lit, r.inside = 1, none, none
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

// mostSize is the share of true size at which a part of the drawing is shown at most.
const mostSize = 6.0

// fitted lays the drawing out for the screen.
func (r Room) fitted() Room {
	lo, hi := plan.Bounds(r.Desk.Graph)
	whole := screen.Fit(lo, hi, r.Screen).Zoom
	r.pane.From, r.pane.Size = lo, r2.Sub(hi, lo)
	r.pane.Whole, r.pane.Most = whole, mostSize/whole
	r.view = r.pane.View(r.Screen)
	return r
}

// Sight returns how the cloth lies on the screen.
func (r Room) Sight() screen.View { return r.view }

// zoomed shows the drawing larger about the move that is lit or played, smaller, or whole.
func (r Room) zoomed(how string) Room {
	about := r.pane.Around
	if !r.pane.Larger() {
		about = r2.Add(r.pane.From, r2.Scale(0.5, r.pane.Size))
		if moves := r.Desk.Moves(); r.lit >= 0 && r.lit < len(moves) {
			about = moves[r.lit].Path[0]
		} else if !r.clock.AtEnd() {
			about = r.Desk.At(r.reached())
		}
	}
	r.pane = r.pane.Stepped(how, about)
	return r.fitted()
}

// handReach and lineReach are how near in CSS pixels a pointer comes to a handle to take it,
// and to a line to mean it.
const handReach, lineReach = 24.0, 14.0

// Point is as place.Room has it: a handle is dragged, her order tapped or drawn along the
// lines, the rest moves the drawing; a pointer over a move lights it, a tap opens a place or,
// while the route is followed, is a step to the next move.
func (r Room) Point(p place.Pointer) (place.Room, []place.Effect) {
	on := geom.Pt(p.X, p.Y)
	at := r.view.ToCloth(on)
	if p.Kind == place.Move && r.hold.Down() == 0 && !r.following() {
		r.lit = r.moveAt(at)
		return r, nil
	}
	if p.Kind == place.Down {
		r = r.pressed(p.ID, at)
	}
	mine := r.pointer != nil && *r.pointer == p.ID
	pane, tapped := r.pane, false
	if r.hold, pane, tapped = r.hold.Point(p, pane, r.Screen, r.pointer != nil); pane != r.pane {
		r.pane = pane
		r = r.fitted()
	}
	switch {
	case mine && p.Kind == place.Move:
		return r.drag(at), nil
	case mine && p.Kind != place.Down:
		return r.lifted(tapped, at), nil
	case tapped && r.following():
		r = r.toMove(1)
	case tapped:
		r = r.opened(at)
	}
	return r, nil
}

// pressed takes what a pointer goes down on; a second one lets go of it.
func (r Room) pressed(id int, at geom.Point) Room {
	if r.hold.Down() > 0 {
		return r.letGo()
	}
	r.before = r.state()
	if r.own.Asked {
		r.pointer, r.own.Trace = &id, geom.Polyline{at}
		return r
	}
	if h := r.Desk.HandleAt(at, handReach/r.view.Scale); h != plan.NoHandle && !r.following() {
		r.pointer = &id
		r.Desk = r.Desk.Take(h)
	}
	return r
}

// letGo gives up what a pointer drags or draws.
func (r Room) letGo() Room {
	r.pointer, r.own.Trace = nil, nil
	r.Desk = r.Desk.Take(plan.NoHandle)
	return r
}

// drag moves the handle in hand, or draws along the lines.
func (r Room) drag(at geom.Point) Room {
	if r.own.Asked {
		r.own.Trace = append(r.own.Trace[:len(r.own.Trace):len(r.own.Trace)], at)
		return r
	}
	r.Desk = r.Desk.Drag(at)
	return r.rewound()
}

// lifted ends what the pointer did.
func (r Room) lifted(tapped bool, at geom.Point) Room {
	if !r.own.Asked {
		return r.letGo().weighed().rewound().stepped(r.before)
	}
	trace := append(r.own.Trace, at)
	r = r.letGo()
	if tapped {
		r = r.tap(at)
	} else {
		r = r.along(trace)
	}
	return r.stepped(r.before)
}

// weighed works out what the changes that would save something come to, where they are seen.
func (r Room) weighed() Room {
	if r.why {
		r.Desk = r.Desk.Offered()
	}
	return r
}

// opened lights the move under a tap and numbers the moves of its place, or of none.
func (r Room) opened(at geom.Point) Room {
	r.lit = r.moveAt(at)
	was := r.inside
	r.inside = none
	if len(r.Desk.Stays()) > 1 && r.lit >= 0 {
		if r.inside = r.Desk.StayOf(r.lit); r.inside == was {
			r.inside = none
		}
	}
	r.rev++
	return r
}

// moveAt returns the move nearest to a place, none where none is near; where it is sewn over
// in another move, that one if it lies nearer.
func (r Room) moveAt(p geom.Point) int {
	best, d := none, lineReach/r.view.Scale
	for i, m := range r.Desk.Moves() {
		if m.Kind == steps.StopMove {
			continue
		}
		for j := 1; j < len(m.Path); j++ {
			if _, q := geom.NearestOnSegment(p, m.Path[j-1], m.Path[j]); geom.Dist(p, q) < d-1e-9 {
				best, d = i, geom.Dist(p, q)
			}
		}
	}
	return best
}

func (r Room) Keys() []string {
	keys := []string{"+", "-", "0", "ArrowLeft", "ArrowRight"}
	if r.following() {
		keys = slices.Concat(keys, onKeys, backKeys)
	}
	return keys
}

func (r Room) Key(k place.Key) (place.Room, []place.Effect) {
	if r.following() {
		if r, stepped := r.beside(k.Name); stepped {
			return r, nil
		}
	}
	switch {
	case k.Name == "Escape":
		return r.escaped(), nil
	case k.Name == "ArrowRight" && !r.own.Asked:
		return r.toMove(1), nil
	case k.Name == "ArrowLeft" && !r.own.Asked:
		return r.toMove(-1), nil
	case k.Name == "+" || k.Name == "-" || k.Name == "0":
		return r.zoomed(k.Name), nil
	}
	return r, nil
}

// escaped puts aside what is in hand, then her order, then what is opened.
func (r Room) escaped() Room {
	switch {
	case r.pointer != nil:
		return r.letGo()
	case r.own.Asked:
		before := r.state()
		return r.askOwn(false).stepped(before)
	}
	r.lit, r.inside = none, none
	r.rev++
	return r
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
	r.lit, r.inside = none, none
	return r.weighed().rewound().fitted()
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
