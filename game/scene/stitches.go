package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

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
	// PileShare is the share of the planned length below which the thread piles
	// up: a bead is drawn.
	PileShare = 0.35
	// closeStitch is the length in pixels from which on a stitch shows its hole, and
	// farStitch that below which it is a mark without light or shadow.
	closeStitch, farStitch = 14.0, 4.0
	// leastGleam is how many device pixels of thread carry a streak of light: a finer
	// streak would only bleach it.
	leastGleam = 5.0
)

// Thread is how stitches are drawn: their View, the planned length in mm, the device
// pixels per CSS pixel (0 is 1), and the Share of their usual width (0 is whole).
//
// A stitch is a strand with light and shadow. Its size shows in its shape first: one as
// planned lies taut from hole to hole; short ones are thick and heap up into beads; a
// long one is thin and lies loose, bowed off its shadow, with both holes open.
type Thread struct {
	screen.View
	PlannedMM, DPR, Share float64
	Pal                   look.Palette
}

// Stitch returns one stitch from below upwards: at most four items of 28 corners in all.
func (th Thread) Stitch(a, b trace.Fall) []Item {
	p, q := th.ToScreen(a.P), th.ToScreen(b.P)
	size := SizeOf(b.Length, th.PlannedMM)
	if th.PlannedMM*th.Scale < farStitch {
		return th.far(p, q, size)
	}
	w := (2.4 + 0.2*th.Scale) * th.share()
	switch {
	case size == Long:
		return loose(p, q, w, strandOf(th.Pal.Long, th.Pal))
	case size == Short && b.Length < th.PlannedMM*PileShare:
		return bead(q, 1.9*w, strandOf(th.Pal.Short, th.Pal))
	case size == Short:
		return heaped(p, q, w, strandOf(th.Pal.Short, th.Pal))
	}
	return taut(p, q, w, w*math.Max(1, th.DPR) >= leastGleam, strandOf(th.Pal.Thread, th.Pal))
}

func (th Thread) share() float64 {
	if th.Share == 0 {
		return 1
	}
	return th.Share
}

// far are stitches too small to be seen singly: a thread, a thick one or a broken one.
func (th Thread) far(p, q geom.Point, size Size) []Item {
	switch size {
	case Short:
		return []Item{Line(3.6*th.share(), th.Pal.Short, p, q)}
	case Long:
		return []Item{Line(1.4*th.share(), th.Pal.Long, p, geom.Lerp(p, q, 0.55))}
	}
	return []Item{Line(2*th.share(), th.Pal.Thread, p, q)}
}

// moved returns points moved by d pixels away from the light.
func moved(d float64, pts ...geom.Point) []geom.Point {
	for i := range pts {
		pts[i] = r2.Add(pts[i], r2.Scale(d, fromLight))
	}
	return pts
}

// taut is a stitch of about the planned length, w wide.
func taut(p, q geom.Point, w float64, gleams bool, s strand) []Item {
	if geom.Dist(p, q) < closeStitch {
		a, b := DrawIn(p, q, w/2+0.7)
		return []Item{Line(w, s.shadow, moved(0.35*w, a, b)...), Line(w, s.body, a, b)}
	}
	h := math.Max(1.6, 0.5*w)
	a, b := DrawIn(p, q, h/2+0.5+w/2)
	items := []Item{Line(h, s.hole, q), Line(w, s.shadow, moved(0.35*w, a, b)...), Line(w, s.body, a, b)}
	if gleams {
		a, b = DrawIn(a, b, 0.35*w)
		items = append(items, Line(0.24*w, s.light, moved(-0.22*w, a, b)...))
	}
	return items
}

// heaped is a short stitch: thick, and so near the next that they touch.
func heaped(p, q geom.Point, w float64, s strand) []Item {
	n := geom.Dist(p, q)
	w *= 1.4
	a, b := DrawIn(p, q, w/2+0.2)
	items := []Item{
		Line(w, s.shadow, moved(0.3*w, a, b)...), Line(w, s.shade, a, b),
		Line(0.74*w, s.body, moved(-0.08*w, a, b)...),
	}
	if n >= 6 {
		items = append(items, Line(0.28*w, s.light, moved(-0.2*w, geom.Lerp(a, b, 0.5))...))
	}
	return items
}

// bead is where the thread piles up at q, d across.
func bead(q geom.Point, d float64, s strand) []Item {
	return []Item{
		Line(d, s.shadow, moved(0.2*d, q)...), Line(d, s.shade, q),
		Line(0.72*d, s.body, moved(-0.06*d, q)...), Line(0.26*d, s.light, moved(-0.2*d, q)...),
	}
}

// loose is a long stitch: thin, open at both ends, and bowed towards the light off its
// straight shadow where it is long enough for that to be seen.
func loose(p, q geom.Point, w float64, s strand) []Item {
	n := geom.Dist(p, q)
	a, b := DrawIn(p, q, 0.9*w+0.4)
	thin := 0.66 * w
	body := []geom.Point{a, b}
	if n >= closeStitch {
		body = bowed(a, b, math.Min(0.07*n, 1.2*w))
	}
	return []Item{
		Line(0.8*w, s.hole, p), Line(0.8*w, s.hole, q),
		Line(0.9*thin, s.shadow, moved(0.5*w, a, b)...), Line(thin, s.body, body...),
	}
}

// bowed returns a shallow arc of five points from a to b, high at most over the chord, on
// the side of the light.
func bowed(a, b geom.Point, high float64) []geom.Point {
	d := r2.Sub(b, a)
	up := r2.Unit(geom.Pt(d.Y, -d.X))
	if r2.Dot(up, fromLight) > 0 {
		up = r2.Scale(-1, up)
	}
	pts := make([]geom.Point, 5)
	for i := range pts {
		u := float64(i) / 4
		pts[i] = r2.Add(geom.Lerp(a, b, u), r2.Scale(4*high*u*(1-u), up))
	}
	return pts
}

// SmallStitches draws all stitches of a sheet at a share of their width.
func SmallStitches(sh *replay.Sheet, v screen.View, share float64, pal look.Palette) []Item {
	th := Thread{View: v, PlannedMM: sh.Report.Settings.TargetMM, Share: share, Pal: pal}
	var items []Item
	for k := 1; k < len(sh.Falls); k++ {
		if !sh.Falls[k].Gap {
			items = append(items, th.Stitch(sh.Falls[k-1], sh.Falls[k])...)
		}
	}
	return items
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
