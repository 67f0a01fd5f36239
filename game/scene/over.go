package scene

import (
	"math"
	"sort"

	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// Timed are items in the order in which they are sewn, and the time in s at which each of
// them is.
type Timed struct {
	Key   OverKey
	Items []Item
	ends  []float64
}

func (td *Timed) Add(t float64, items ...Item) {
	for _, it := range items {
		td.Items, td.ends = append(td.Items, it), append(td.ends, t)
	}
}

// Until returns what is sewn at the time t.
func (td Timed) Until(t float64) []Item {
	return td.Items[:sort.SearchFloat64s(td.ends, math.Nextafter(t, math.Inf(1)))]
}

// overChunk is how many points of the thread laid over are drawn as one item, so that it
// can grow in a replay: about a tenth of a second of movement.
const overChunk = 12

// Over is a second trace laid over the first, as one thin thread of another colour with a
// dot at each stitch and a knot at every tenth.
func Over(sh *replay.Sheet, v screen.View, pal look.Palette) Timed {
	fall := 0
	return Threaded(sh, v, 1.6, pal, func(at geom.Point) []Item {
		size := 3.2
		if fall%10 == 0 && fall > 0 {
			size = 6
		}
		fall++
		return []Item{Line(size, pal.Over, at)}
	})
}

// Threaded is a trace as a thin thread in the colour of what is laid over, in pieces, with
// something at each fall of the needle.
func Threaded(sh *replay.Sheet, v screen.View, width float64, pal look.Palette, at func(geom.Point) []Item) (td Timed) {
	if sh == nil {
		return td
	}
	fall := 0
	for i := 0; i < len(sh.Prep.Points)-1; i += overChunk {
		to := min(i+overChunk, len(sh.Prep.Points)-1)
		t := float64(to) / sh.Prep.Rate
		td.Add(t, Line(width, pal.Over, OnScreen(sh.Prep.Points[i:to+1], v)...))
		for ; fall < len(sh.Falls) && sh.Falls[fall].T-sh.Prep.T0 <= t; fall++ {
			td.Add(t, at(v.ToScreen(sh.Falls[fall].P))...)
		}
	}
	return td
}

// NeedleAt returns where on the screen the needle of a trace is at the time t in s; at its
// end after that.
func NeedleAt(sh *replay.Sheet, t float64, v screen.View) geom.Point {
	return v.ToScreen(sh.Prep.At(sh.Prep.T0 + math.Min(t, sh.Duration())))
}

// Needle marks where the needle is.
func Needle(at geom.Point, pal look.Palette) []Item {
	return []Item{Line(14, pal.Cloth, at), Ring(at, 6, 2, pal.Ink), Line(6, pal.Ink, at)}
}

// OverKey tells what a thread was laid from.
type OverKey struct {
	Sheet *replay.Sheet
	View  screen.View
	Theme look.Theme
}
