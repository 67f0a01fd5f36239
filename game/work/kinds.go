package work

import (
	"unthreaded/game/plan"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// The kinds of job, each with what it takes and what it gives.
const (
	// Order works out the order in which a top is sewn: OrderIn, OrderOut.
	Order Kind = "order"
	// Ways measures every way through a stage of it: WaysIn, WaysOut.
	Ways Kind = "ways"
	// Route plans a large drawing: RouteIn, RouteOut.
	Route Kind = "route"
	// Gaps measures gaps and evenness of a top: GapsIn, GapsOut.
	Gaps Kind = "gaps"
)

// OrderIn is a top with its designs, and what she decided about the order.
type OrderIn struct {
	Quilt   quilt.Quilt
	Designs quilt.Designs
	Choices order.Choices
}

// OrderOut is the order. Nothing tells that the top has nothing to sew, Failed that there is
// no order for another reason.
type OrderOut struct {
	Order           order.Order
	Nothing, Failed bool
}

// WaysIn is a stage of a top.
type WaysIn struct {
	OrderIn
	Stage string
}

// WaysOut are the ways through it, none where they cannot be measured.
type WaysOut struct{ Options []order.Option }

// GapsIn is a top with its designs; Ditch tells that the seams count as stitched.
type GapsIn struct {
	Quilt   quilt.Quilt
	Designs quilt.Designs
	Ditch   bool
}

// GapsOut are its measures.
type GapsOut struct{ Measures top.Measures }

// RouteIn is a desk that waits to be planned; Strokes are the lines of its drawing.
type RouteIn struct {
	Desk    plan.Desk
	Strokes []plane.Stroke
}

// RouteOut is the desk planned.
type RouteOut struct{ Desk plan.Desk }

func init() {
	Carry(OrderIn{}, OrderOut{}, WaysIn{}, WaysOut{}, GapsIn{}, GapsOut{}, RouteIn{}, RouteOut{}, Broken{})
	// What messages are said with (words.Msg.Args).
	Carry(words.Msg{}, "", 0, 0.0, false, words.LengthMM(0), words.ExactMM(0), words.SmallMM(0), words.StitchMM(0), words.Share(0), words.And{}, words.Or{}, words.List{}, words.Decimal{})
}

// Broken is the Out of a job that a fault of the program has ended.
type Broken struct{ Fault string }
