package plane

import "unthreaded/path/geom"

// Joint tells what met at a snapped spot.
type Joint string

// The joints: ends with ends, ends with a line or a crossing, and crossings
// with one another. A corner that nearly meets a line counts as an end.
const (
	EndToEnd     Joint = "end-to-end"
	EndToLine    Joint = "end-to-line"
	NearCrossing Joint = "crossings"
)

// Snap is a spot where lines that nearly met were joined.
type Snap struct {
	Joint Joint
	// At is the common point, From the places in mm that were drawn.
	At   geom.Point
	From []geom.Point
	// Moved is the largest distance in mm from one of From to At.
	Moved float64
	// Strokes names the lines that meet there, sorted.
	Strokes []string
}

// Double is a stretch that lay twice and is kept once.
type Double struct {
	// Kept and Dropped name the lines, KeptKind and DroppedKind tell their kinds.
	Kept, Dropped         string
	KeptKind, DroppedKind Kind
	// Path is where the dropped stretch lay, Length its true length in mm.
	Path   geom.Polyline
	Length float64
	// Apart is the largest distance in mm between the two, 0 if they lay
	// exactly on each other.
	Apart float64
}

// Trim is a bit that was too small to keep: what stood out beyond a junction, or
// a whole stroke no larger than the snap distance.
type Trim struct {
	Stroke string
	At     geom.Point
	// Length is the true length in mm that was taken off.
	Length float64
	// Whole tells that nothing of the stroke was left.
	Whole bool
}
