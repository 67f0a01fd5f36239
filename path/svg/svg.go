// Package svg reads line work from SVG files and writes it to them, in
// millimetres and at true size. It follows the W3C Recommendations "Scalable
// Vector Graphics (SVG) 1.1 (Second Edition)" of 16 August 2011 and, where they
// differ, the Candidate Recommendation "SVG 2" of 4 October 2018.
//
// # What is read
//
// The outlines of path, line, polyline, polygon, rect, circle and ellipse, through
// g, a, svg, symbol, use (of ids in the file), transform, viewBox and
// preserveAspectRatio. Colour, width and fill of a stroke say nothing here: a
// filled shape gives its outline. Nothing is cut off at the edge of a viewport.
// What is not read, or hidden (display, visibility), stands in Drawing.Unread.
// Nothing in a file is run, and nothing that it refers to is fetched.
//
// # Our own marks
//
// Three conventions, plain attributes which any program keeps or ignores:
//
//   - class="sewn", "ruler" or "seam" on a shape or on a group round it is the
//     kind of its lines, the innermost one counting; without it a line is sewn.
//   - data-dots="0 12.7 25.4" on a shape holds the places of its dots as arc
//     lengths from its start, in units of its own coordinate system.
//   - circles of class="dot" that follow such a shape in the same group, up to as
//     many as it has dots, are the picture of these dots and no lines.
package svg

import (
	"unthreaded/path/geom"
)

// The kinds of line, by the word in the attribute class.
const (
	Sewn  = "sewn"  // sewn free-motion; what a line is whose file does not say
	Ruler = "ruler" // sewn along a ruler
	Seam  = "seam"  // a seam of the patchwork, there but not sewn
)

// Drawing is the line work of one file.
type Drawing struct {
	// W and H are the size of the page in mm; its upper left corner is (0, 0). In a
	// file that states neither a size nor a viewBox the page reaches from there to
	// the farthest line.
	W, H float64
	// Title and Desc are those of the whole file.
	Title, Desc string
	// Lines stand in the order in which the file draws them.
	Lines []Line
	// Unread names what the file holds beyond that, each with its place.
	Unread []Unread
}

// Line is one line: a subpath of a shape.
type Line struct {
	// Name is the title of the shape, or else its id, or else that of the innermost
	// group or use round it; further subpaths of a shape are counted: "leaf 2". White
	// space in it is single blanks, and it has at most MaxName characters.
	Name string
	// Kind is Sewn, Ruler or Seam.
	Kind string
	// Path is the line in mm.
	Path geom.Spline
	// Closed tells that the file closes the line; Path then ends where it starts.
	Closed bool
	// Dots are the ascending arc lengths in mm of the dots on the line.
	Dots []float64
}

// UnreadCode tells what became of something in a file.
type UnreadCode string

// NotRead is something that a drawing of lines does not take, LeftOut a part that could not
// be read, UpToFault a line read as far as it was right; More counts what is not listed.
const (
	NotRead   UnreadCode = "not-read"
	LeftOut   UnreadCode = "left-out"
	UpToFault UnreadCode = "up-to-fault"
	More      UnreadCode = "more"
)

// Unread is something in a file that was left out, changed or not understood.
type Unread struct {
	Code UnreadCode
	// Of is the name of the element, or of More the number.
	Of string
	// What tells programmers what it is and what became of it: "text is not read".
	What string
	// Where names the element, its id and the line of the file that it begins on:
	// `<text id="label">, line 12`.
	Where string
}

// Limits on what is read, so that every file ends in a result or in an error after
// bounded work. A quilt top worked closely has some thousand lines and fewer than
// 100,000 curves.
const (
	MaxBytes      = 16 << 20 // size of a file
	MaxElements   = 100_000  // elements in a file
	MaxDrawn      = 100_000  // elements drawn, those drawn again by use included
	MaxDrawnBytes = 64 << 20 // of the attributes of these elements
	MaxDepth      = 100      // elements within each other, use included
	MaxCurves     = 200_000  // curves and straight pieces of all lines
	MaxLines      = 20_000   // lines of a drawing
	MaxUnread     = 500      // things unread; further ones are only counted
	MaxDots       = 10_000   // dots of all lines
	MaxName       = 200      // characters of a name
	MaxText       = 10_000   // characters of the title and of the description
	MaxNumber     = 1e12     // a number in a file
	MaxPlace      = 1e5      // distance of a place from the page's corner along either axis, in mm (100 m)
)

// Tolerances in mm.
const (
	// ArcTolerance is the greatest distance of an elliptical arc from the cubic
	// curves that take its place.
	ArcTolerance = 0.001
	// samePlace is the distance below which two points are one, as in geom.
	samePlace = 1e-6
	// written is the last decimal of the numbers in a written file.
	written = 1e-4
)
