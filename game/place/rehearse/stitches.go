package rehearse

import (
	"math"
	"sort"
	"strconv"

	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// sew brings the layer to the stitches sewn up to the replay's time: adds those that are
// missing and takes those sewn later away. Cost O(log n + changes).
func (d drawer) sew(layer *scene.Layer) {
	sh := d.Open
	th := scene.Thread{View: d.View, PlannedMM: d.Settings.StitchMM, DPR: d.Screen.DPR, Pal: d.pal}
	down := sort.Search(len(sh.Falls), func(k int) bool { return sh.Falls[k].T-sh.Prep.T0 > d.shownT()+1e-9 })
	for k := len(d.sewn); k < down; k++ {
		if k > 0 && !sh.Falls[k].Gap {
			layer.Items = append(layer.Items, th.Stitch(sh.Falls[k-1], sh.Falls[k])...)
		}
		d.sewn = append(d.sewn, len(layer.Items))
	}
	d.sewn = d.sewn[:down]
	keep := 0
	if down > 0 {
		keep = d.sewn[down-1]
	}
	layer.Items = layer.Items[:keep]
}

// worst marks the places that the advice is about: the part of the line concerned
// as a pale ribbon, and its number beside it. At a glance it is the place of what is said
// first alone, which needs no number.
func worst(sh *replay.Sheet, all bool, v screen.View, screen screen.Cloth, pal look.Palette) (ribbons, numbers []scene.Item) {
	if sh == nil || sh.Unmeasured != nil {
		return nil, nil
	}
	tint := scene.Mix(pal.Cloth, pal.Over, 0.4)
	advice := sh.Report.Advice
	if !all {
		advice = advice[:min(1, len(advice))]
		tint = scene.Mix(pal.Cloth, pal.Over, 0.55)
	}
	for i, a := range advice {
		f := a.Fault
		// Of a fault all along the line only the worst place is shown.
		from, to := math.Max(f.From, f.At-scene.LongestRibbon/2), math.Min(f.To, f.At+scene.LongestRibbon/2)
		if part := sh.Line.Section(math.Min(from, f.At), math.Max(to, f.At)); len(part) > 1 {
			ribbons = append(ribbons, scene.Line(scene.RibbonWidth, tint, scene.OnScreen(part, v)...))
		}
		if !all {
			continue
		}
		p := clearest(sh.Line, f.At, v, screen)
		numbers = append(numbers, scene.Line(24, pal.Over, p), scene.Item{
			Shape: scene.Label, Text: strconv.Itoa(i + 1), Points: []geom.Point{p}, Width: scene.LabelSize, Colour: pal.Cloth,
		})
	}
	return ribbons, numbers
}

// clearest returns the place near s on the line that has most room round it, for
// a number that should not hide stitches.
func clearest(l geom.Line, s float64, v screen.View, screen screen.Cloth) geom.Point {
	path := scene.OnScreen(l.Resample(2), v)
	best, room := v.ToScreen(l.At(s)), math.Inf(-1)
	for _, d := range []float64{-24, 24, -36, 36, -48, 48} {
		p := scene.Beside(l, s, d, v)
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
