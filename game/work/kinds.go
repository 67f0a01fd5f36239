package work

import (
	"image"

	"unthreaded/game/film/reel"
	"unthreaded/game/keep"
	"unthreaded/game/plan"
	"unthreaded/game/sewing"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
	"unthreaded/scoring/trace"
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
	// Ink reads and measures the traces of an InkML file: InkIn, InkOut.
	Ink Kind = "ink"
	// SVG reads the lines of an SVG file: SVGIn, SVGOut.
	SVG Kind = "svg"
	// Save writes a block as an SVG file: SaveIn, SaveOut.
	Save Kind = "save"
	// Square squares a photo up: SquareIn, SquareOut.
	Square Kind = "square"
	// Film makes a film of a replay: FilmIn, FilmOut.
	Film Kind = "film"
	// Card makes a card as a file: CardIn, CardOut.
	Card Kind = "card"
	// Proof draws the first page of a card: ProofIn, ProofOut.
	Proof Kind = "proof"
	// Example makes weeks of practice to be looked at: ExampleIn, ExampleOut.
	Example Kind = "example"
)

// ExampleIn tells the time in ms since 1970, the evening before which was the last one of
// practice, and the motif's name.
type ExampleIn struct {
	Now  int64
	Name string
}

// ExampleOut are the traces of the example with their records as documents, oldest first;
// none where they cannot be made.
type ExampleOut struct {
	Records []keep.Summary
	Docs    [][]byte
}

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

// InkIn is an InkML file, whose places have the size Unit in mm where it gives them none; 0
// where that is not known. Traces shorter than LeastMM in mm are taps; one that brings no line
// goes onto that of Bare, a record without samples.
type InkIn struct {
	Doc           string
	Unit, LeastMM float64
	Bare          keep.Record
}

// InkOut are the traces of the file as they are kept, and how many taps were left out. Lines
// are ink without times, in mm. Unsized tells that the size of its places has to be asked
// first, Unreadable that it is no InkML.
type InkOut struct {
	Kept       []InkKept
	Taps       int
	Lines      []geom.Polyline
	Unsized    *trace.UnitError
	Unreadable bool
}

// InkKept is a trace as it is kept, and its summary.
type InkKept struct {
	ID, Digest   string
	Doc, Summary []byte
	Samples      int
}

// SVGIn is an SVG file.
type SVGIn struct{ Doc string }

// SVGOut are its lines at their true size in mm, and what is to be said of the rest.
type SVGOut struct {
	Lines      []quilt.Line
	LeftOut    words.Msg
	Unreadable bool
}

// SaveIn is a block; About is a word on the file for who opens it.
type SaveIn struct {
	Design quilt.Design
	About  string
}

// SaveOut is the file; none where the block's motif does not fit.
type SaveOut struct{ Doc []byte }

// SquareIn is a photo, the corners of a block in it in pixels, and the true size of that in mm;
// see photo.Square.
type SquareIn struct {
	Photo         *image.RGBA
	Corners       [4]geom.Point
	W, H, PxPerMM float64
}

// SquareOut is the block; nil where the corners are those of none.
type SquareOut struct{ Image *image.RGBA }

// FilmIn is what a film shows.
type FilmIn struct{ Reel reel.Reel }

// FilmOut is the film as a GIF, none where it cannot be written; Speed is how many times as
// fast as the hand it runs.
type FilmOut struct {
	Doc   []byte
	Speed float64
}

// CardIn is a card of what is sewn.
type CardIn struct {
	Job  sewing.Job
	What sewing.Kind
	As   sewing.Form
}

// CardOut is the file; it has no name where there is no such card.
type CardOut struct {
	Name, Type string
	Data       []byte
	Pages      int
}

// ProofIn is a card whose first page is to be so many pixels wide.
type ProofIn struct {
	Job   sewing.Job
	What  sewing.Kind
	Width int
}

// ProofOut is its picture, nil where there is none.
type ProofOut struct{ Image *image.RGBA }

func init() {
	Carry(SVGIn{}, SVGOut{}, SaveIn{}, SaveOut{}, SquareIn{}, SquareOut{}, FilmIn{}, FilmOut{})
	Carry(CardIn{}, CardOut{}, ProofIn{}, ProofOut{}, ExampleIn{}, ExampleOut{})
	Carry(OrderIn{}, OrderOut{}, WaysIn{}, WaysOut{}, GapsIn{}, GapsOut{}, RouteIn{}, RouteOut{}, InkIn{}, InkOut{}, Broken{})
	// What messages are said with (words.Msg.Args).
	Carry(words.Msg{}, "", 0, 0.0, false)
	Carry(words.Kinds()...)
}

// Broken is the Out of a job that a fault of the program has ended.
type Broken struct{ Fault string }
