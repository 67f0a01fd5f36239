package scene

import (
	"math"
	"sort"
	"strconv"

	"unthreaded/game"
	"unthreaded/game/look"
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

// sizeOf compares a length in mm with the planned one; the limits are those of
// the share of stitches near the target (scoring.NearShare).
func sizeOf(length, planned float64) Size {
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
	holeSpace = 2.4
	// openSpace is that of a long stitch.
	openSpace = 3.6
	// pileShare is the share of the planned length below which the thread piles
	// up: a bead is drawn.
	pileShare = 0.35
)

// sew brings the layer to the stitches sewn up to time t (s): adds those that are
// missing and takes those sewn later away. Cost O(log n + changes).
func (st *Stage) sew(layer *Layer, sh *game.Sheet, t float64, v game.View, planned float64, pal look.Palette) {
	down := sort.Search(len(sh.Falls), func(k int) bool { return sh.Falls[k].T-sh.Prep.T0 > t+1e-9 })
	for k := len(st.sewn); k < down; k++ {
		if k > 0 && !sh.Falls[k].Gap {
			layer.Items = append(layer.Items, stitch(sh.Falls[k-1], sh.Falls[k], v, planned, pal)...)
		}
		st.sewn = append(st.sewn, len(layer.Items))
	}
	st.sewn = st.sewn[:down]
	keep := 0
	if down > 0 {
		keep = st.sewn[down-1]
	}
	layer.Items = layer.Items[:keep]
}

// stitch draws one stitch. A short one is thicker, with a bead where the thread
// piles up; a long one is thinner, with wide gaps between: its size shows without its
// colour.
func stitch(a, b trace.Fall, v game.View, planned float64, pal look.Palette) []Item {
	p, q := v.ToScreen(a.P), v.ToScreen(b.P)
	switch sizeOf(b.Length, planned) {
	case Short:
		if b.Length < planned*pileShare {
			return []Item{line(shortWidth+2, pal.Short, q)}
		}
		p, q = drawIn(p, q, holeSpace)
		return []Item{line(shortWidth, pal.Short, p, q)}
	case Long:
		p, q = drawIn(p, q, openSpace)
		return []Item{line(longWidth, pal.Long, p, q)}
	}
	p, q = drawIn(p, q, holeSpace)
	return []Item{line(stitchWidth, pal.Thread, p, q)}
}

// drawIn shortens the piece p-q by d at both ends, down to a point in its middle.
func drawIn(p, q geom.Point, d float64) (geom.Point, geom.Point) {
	n := geom.Dist(p, q)
	if n <= 2*d {
		m := geom.Lerp(p, q, 0.5)
		return m, m
	}
	return geom.Lerp(p, q, d/n), geom.Lerp(p, q, 1-d/n)
}

// worst marks the places that the advice is about: the part of the line concerned
// as a pale ribbon, and its number beside it.
func worst(sh *game.Sheet, v game.View, screen game.Resized, pal look.Palette) (ribbons, numbers []Item) {
	if sh == nil || sh.Unmeasured != "" {
		return nil, nil
	}
	tint := mix(pal.Cloth, pal.Over, 0.4)
	for i, a := range sh.Report.Advice {
		f := a.Fault
		// Of a fault all along the line only the worst place is shown.
		from, to := math.Max(f.From, f.At-longestRibbon/2), math.Min(f.To, f.At+longestRibbon/2)
		if part := sh.Line.Section(math.Min(from, f.At), math.Max(to, f.At)); len(part) > 1 {
			ribbons = append(ribbons, line(bandWidth, tint, onScreen(part, v)...))
		}
		p := clearest(sh.Line, f.At, v, screen)
		numbers = append(numbers, line(24, pal.Over, p), Item{
			Shape: Label, Text: strconv.Itoa(i + 1), Points: []geom.Point{p}, Width: labelSize, Colour: pal.Cloth,
		})
	}
	return ribbons, numbers
}

// clearest returns the place near s on the line that has most room round it, for
// a number that should not hide stitches.
func clearest(l geom.Line, s float64, v game.View, screen game.Resized) geom.Point {
	path := onScreen(l.Resample(2), v)
	best, room := v.ToScreen(l.At(s)), math.Inf(-1)
	for _, d := range []float64{-24, 24, -36, 36, -48, 48} {
		p := beside(l, s, d, v)
		if p.X < 14 || p.Y < 14 || p.X > screen.W-14 || p.Y > screen.H-screen.Strip-14 {
			continue
		}
		nearest := math.Inf(1)
		for _, q := range path {
			nearest = math.Min(nearest, geom.Dist(p, q))
		}
		// Beyond what a number needs, nearer to its place is better.
		if score := math.Min(nearest, 22) - math.Abs(d)/20; score > room {
			best, room = p, score
		}
	}
	return best
}

// longestRibbon bounds the part that is marked round a worst place, in mm.
const longestRibbon = 40.0

// moving are the needle of the replay and the ideal needle beside it.
func moving(items []Item, m game.Model, pal look.Palette) []Item {
	sh := m.Unveiled()
	if m.Live != nil || sh == nil || len(sh.Prep.Points) == 0 || (m.Replay.AtEnd() && !m.Replay.Playing) {
		return items
	}
	ideal := m.View.ToScreen(sh.Line.At(m.HandSpeed() * m.Replay.T))
	items = leads(items, ideal, m.Replay.T, pal)
	items = overNeedle(items, m, pal)
	at := m.View.ToScreen(sh.Prep.At(sh.Prep.T0 + m.Replay.T))
	return append(items, needle(at, pal)...)
}
