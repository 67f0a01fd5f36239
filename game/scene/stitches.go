package scene

import (
	"unthreaded/game/look"
	"unthreaded/game/replay"
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
	return stitch(a, b, v, planned, 1, pal)
}

// SmallStitches draws all stitches of a sheet at a share of their width.
func SmallStitches(sh *replay.Sheet, v screen.View, share float64, pal look.Palette) []Item {
	var items []Item
	for k := 1; k < len(sh.Falls); k++ {
		if !sh.Falls[k].Gap {
			items = append(items, stitch(sh.Falls[k-1], sh.Falls[k], v, sh.Report.Settings.TargetMM, share, pal)...)
		}
	}
	return items
}

func stitch(a, b trace.Fall, v screen.View, planned, share float64, pal look.Palette) []Item {
	p, q := v.ToScreen(a.P), v.ToScreen(b.P)
	switch SizeOf(b.Length, planned) {
	case Short:
		if b.Length < planned*PileShare {
			return []Item{Line(share*(shortWidth+2), pal.Short, q)}
		}
		p, q = DrawIn(p, q, share*HoleSpace)
		return []Item{Line(share*shortWidth, pal.Short, p, q)}
	case Long:
		p, q = DrawIn(p, q, share*openSpace)
		return []Item{Line(share*longWidth, pal.Long, p, q)}
	}
	p, q = DrawIn(p, q, share*HoleSpace)
	return []Item{Line(share*stitchWidth, pal.Thread, p, q)}
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
