package place

import (
	"unthreaded/game/control"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/work"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Room is a place as the program knows it: its state, what can happen to it, what it
// draws and what its controls show. A room is a value; what happens to it gives the
// room after it and what is to be done outside. It embeds Shared, which With sets
// before anything happens and Common gives back after it.
//
// Only the room in front gets what pointer, keys, controls and frames do; every room
// hears of what was read, kept or lost.
type Room interface {
	// With returns the room with what is shared as it is now, Common what it became.
	With(Shared) Room
	Common() Shared

	// Enter opens the place, Leave closes it and finishes what is in hand, as is done
	// too when the page goes out of sight.
	Enter() (Room, []Effect)
	Leave() (Room, []Effect)

	Point(Pointer) (Room, []Effect)
	// Key takes a key pressed on the cloth, one of Keys, by its name in the standard of
	// UI Events (W3C); Escape comes to every place.
	Key(Key) (Room, []Effect)
	Keys() []string
	// Controls are what the place's controls are and take; Control does what one of
	// them asks for. The error is a *control.Error.
	Controls() []control.Decl
	Control(control.Sent) (Room, []Effect, error)
	// Frame moves on what goes by itself by dt seconds.
	Frame(dt float64) (Room, []Effect)
	// Hear takes news that concern more than one place, and asks of other places.
	Hear(Msg) (Room, []Effect)
	Undo() (Room, []Effect)
	Redo() (Room, []Effect)

	// Fit lays the place out for the screen.
	Fit() Room
	// Playing tells whether something moves, or is being made, by itself.
	Playing() bool

	// Scene draws the place.
	Scene(*scene.Layers) scene.List
	// Page returns what the page round the cloth shows.
	Page() Page
}

// Key is a key pressed on the cloth.
type Key struct {
	Name  string
	Shift bool
}

// Ask is what a place wants of another: that one is opened and hears the message.
type Ask interface {
	Msg
	Effect
	For() Name
}

// Open asks for a place as it is.
type Open struct{ Place Name }

// Plan asks for a route for a drawing. Where its lines lie apart, stops are allowed
// and Apart is said.
type Plan struct {
	Drawing plan.Drawing
	Apart   Notice
	// Said is said else.
	Said Notice
}

// PlanStage asks for a stage of the order in which the quilt on the table is sewn to be
// explained.
type PlanStage struct{ Stage string }

// CompareStage asks for every way through a stage of that order to be measured, so that she
// can choose another.
type CompareStage struct{ Stage string }

// Trace asks for a line to be rehearsed.
type Trace struct{ Line motif.Rehearsal }

// Edit asks for a kept block to be drawn on.
type Edit struct{ Design string }

// Ink asks for lines that were drawn elsewhere, in mm, to be added to the block.
type Ink struct{ Lines []geom.Polyline }

func (a Open) For() Name       { return a.Place }
func (Plan) For() Name         { return RoutePlan }
func (PlanStage) For() Name    { return RoutePlan }
func (CompareStage) For() Name { return QuiltPlan }
func (Trace) For() Name        { return Rehearse }
func (Edit) For() Name         { return Draw }
func (Ink) For() Name          { return Draw }

func (Open) IsMsg()            {}
func (Plan) IsMsg()            {}
func (PlanStage) IsMsg()       {}
func (PlanStage) IsEffect()    {}
func (CompareStage) IsMsg()    {}
func (CompareStage) IsEffect() {}
func (Trace) IsMsg()           {}
func (Edit) IsMsg()            {}
func (Ink) IsMsg()             {}
func (Ink) IsEffect()          {}
func (Open) IsEffect()         {}
func (Plan) IsEffect()         {}
func (Trace) IsEffect()        {}
func (Edit) IsEffect()         {}

// Changed tells the rooms that settings are not what they were.
type Changed struct{ Before Settings }

// Gone tells the rooms that a kept trace was deleted, or brought back.
type Gone struct {
	ID   string
	Back bool
}

// Worked brings all rooms what a job of a kind came to, and what it was of. Out is nil where
// the job was lost.
type Worked struct {
	Kind work.Kind
	Of   string
	Out  any
}

func (Worked) IsMsg()  {}
func (Changed) IsMsg() {}
func (Gone) IsMsg()    {}

// Step is a room with what is to be done after it: what a control leads from and to.
type Step[R any] struct {
	Room R
	Out  []Effect
}

// Bind binds a control to what it does in a room.
func Bind[R any](d control.Decl, do func(R, control.Event) (R, []Effect)) control.Bound[Step[R]] {
	return control.Bound[Step[R]]{Decl: d, Do: func(s Step[R], e control.Event) Step[R] {
		next, out := do(s.Room, e)
		return Step[R]{next, append(s.Out, out...)}
	}}
}

// Do does in a room what was sent, by the table of its controls.
func Do[R Room](t control.Table[Step[R]], r R, sent control.Sent) (Room, []Effect, error) {
	s, err := t.Do(Step[R]{Room: r}, sent)
	return s.Room, s.Out, err
}
