package scene

import (
	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/scoring"
	"unthreaded/scoring/trace"
)

// Size tells how a stitch compares with the planned length.
type Size uint8

// The sizes: near the planned length, clearly shorter or longer.
const (
	Near Size = iota
	Short
	Long
)

// SizeOf compares a length in mm with the planned one; the limits are those of
// the share of stitches near the target (scoring.NearShare).
func SizeOf(length, planned float64) Size {
	switch {
	case length < planned*(1-scoring.NearShare):
		return Short
	case length > planned*(1+scoring.NearShare):
		return Long
	}
	return Near
}

const (
	stitchWidth = 3.2
	shortWidth  = 4.8
	longWidth   = 2.0
	// holeSpace is left free at each end of a stitch, so that the stitches can
	// be told apart.
	HoleSpace = 2.4
	// openSpace is that of a long stitch.
	openSpace = 3.6
	// PileShare is the share of the planned length below which the thread piles
	// up: a bead is drawn.
	PileShare = 0.35
)

// Stitch draws one stitch. A short one is thicker, with a bead where the thread
// piles up; a long one is thinner, with wide gaps between: its size shows without its
// colour.
func Stitch(a, b trace.Fall, v screen.View, planned float64, pal look.Palette) []Item {
	p, q := v.ToScreen(a.P), v.ToScreen(b.P)
	switch SizeOf(b.Length, planned) {
	case Short:
		if b.Length < planned*PileShare {
			return []Item{Line(shortWidth+2, pal.Short, q)}
		}
		p, q = DrawIn(p, q, HoleSpace)
		return []Item{Line(shortWidth, pal.Short, p, q)}
	case Long:
		p, q = DrawIn(p, q, openSpace)
		return []Item{Line(longWidth, pal.Long, p, q)}
	}
	p, q = DrawIn(p, q, HoleSpace)
	return []Item{Line(stitchWidth, pal.Thread, p, q)}
}

// DrawIn shortens the piece p-q by d at both ends, down to a point in its middle.
func DrawIn(p, q geom.Point, d float64) (geom.Point, geom.Point) {
	n := geom.Dist(p, q)
	if n <= 2*d {
		m := geom.Lerp(p, q, 0.5)
		return m, m
	}
	return geom.Lerp(p, q, d/n), geom.Lerp(p, q, 1-d/n)
}

// Ribbons mark parts of a line: RibbonWidth in pixels and, round a worst place, at most
// LongestRibbon in mm.
const (
	RibbonWidth   = 18.0
	LongestRibbon = 40.0
)
