package plane

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// DefaultWindow is a window in mm that suits a top: about 4 in, the hand's breadth
// within which stiff and soft are felt.
const DefaultWindow = 100

// maxWindows bounds the grid of windows.
const maxWindows = 250_000

// Window is a rectangle of the grid with what is stitched in it.
type Window struct {
	Lo, Hi geom.Point // its corners in mm
	// StitchedMM is the length stitched in it, AreaMM2 its area within the outline.
	StitchedMM, AreaMM2 float64
}

// Density returns the stitched length for the area in mm/mm^2, that is 1/mm: lines
// one way, s mm apart, have 1/s.
func (w Window) Density() float64 { return w.StitchedMM / w.AreaMM2 }

// Evenness tells how evenly the stitching is spread. Cloth that is quilted densely
// in one place and thinly beside it ripples.
type Evenness struct {
	// WindowW and WindowH are the sides of the windows in mm, Windows their number:
	// those that lie at least half within the outline.
	WindowW, WindowH float64
	Windows          int
	// Mean is the mean density over the windows in 1/mm, CV their standard deviation
	// over the mean, both by the windows' areas; CV is 0 where nothing is stitched.
	Mean, CV          float64
	Densest, Sparsest Window
}

// MeasureEvenness lays a grid of windows over the outline's box and measures the
// density of stitching in each. The windows are as near to windowMM square, 0 for
// DefaultWindow, as divides the box evenly. Seams count as GapOptions.Seams says;
// its tolerance does not matter here. Cost O(chords + windows they cross + windows x
// corners of the outline). It fails on a bad outline, window or stroke, which it
// names.
func MeasureEvenness(strokes []Stroke, within geom.Polyline, windowMM float64, opt GapOptions) (Evenness, error) {
	if err := validateOutline(within); err != nil {
		return Evenness{}, err
	}
	if windowMM == 0 {
		windowMM = DefaultWindow
	}
	lo, hi := within.Bounds()
	cols, rows := windowsIn(hi.X-lo.X, windowMM), windowsIn(hi.Y-lo.Y, windowMM)
	if !(windowMM > 0) || !(cols*rows <= maxWindows) {
		return Evenness{}, fmt.Errorf("windows of %v mm: there would be more than %d, or none", windowMM, maxWindows)
	}
	g := windowGrid{lo: lo, w: (hi.X - lo.X) / cols, h: (hi.Y - lo.Y) / rows, cols: int(cols), rows: int(rows)}
	g.stitched = make([]float64, g.cols*g.rows)
	for i, s := range strokes {
		if err := s.validate(); err != nil {
			return Evenness{}, fmt.Errorf("stroke %d (%q): %w", i, s.Name, err)
		}
		for k := 1; k < len(s.Path) && (s.Kind.Must() || opt.Seams); k++ {
			g.stitch(s.Path[k-1], s.Path[k])
		}
	}
	return g.evenness(within), nil
}

// windowsIn returns the number of windows into which a side is divided; a float, so
// that no size overflows.
func windowsIn(side, window float64) float64 { return math.Max(1, math.Round(side/window)) }

// windowGrid is a grid of windows with the lengths stitched in them.
type windowGrid struct {
	lo         geom.Point
	w, h       float64
	cols, rows int
	stitched   []float64
}

// stitch shares out the length of the chord a-b among the windows through which it
// goes, from one line of the grid to the next (Amanatides & Woo, Eurographics 1987).
// What lies outside the grid is left out.
func (g *windowGrid) stitch(a, b geom.Point) {
	length := geom.Dist(a, b)
	x, y := (a.X-g.lo.X)/g.w, (a.Y-g.lo.Y)/g.h
	dx, dy := (b.X-a.X)/g.w, (b.Y-a.Y)/g.h
	for t := 0.0; t < 1; {
		next := math.Min(1, math.Min(nextLine(x, dx, t), nextLine(y, dy, t)))
		mid := (t + next) / 2
		i, j := math.Floor(x+mid*dx), math.Floor(y+mid*dy)
		if i >= 0 && j >= 0 && i < float64(g.cols) && j < float64(g.rows) {
			g.stitched[int(j)*g.cols+int(i)] += (next - t) * length
		}
		t = next
	}
}

// nextLine returns the share of the way, above t, at which x + t dx is next whole.
func nextLine(x, dx, t float64) float64 {
	if dx == 0 {
		return 1
	}
	at := x + t*dx
	line := math.Floor(at) + 1
	if dx < 0 {
		line = math.Ceil(at) - 1
	}
	next := (line - x) / dx
	if next <= t {
		// Rounding has put the traveller on the line he has just reached.
		next = (line + math.Copysign(1, dx) - x) / dx
	}
	return next
}

func (g *windowGrid) evenness(within geom.Polyline) Evenness {
	e := Evenness{WindowW: g.w, WindowH: g.h}
	var area, stitched, squares float64
	for k, length := range g.stitched {
		lo := geom.Pt(g.lo.X+float64(k%g.cols)*g.w, g.lo.Y+float64(k/g.cols)*g.h)
		win := Window{Lo: lo, Hi: geom.Pt(lo.X+g.w, lo.Y+g.h), StitchedMM: length}
		win.AreaMM2 = areaWithin(clipped(within, win.Lo, win.Hi))
		if win.AreaMM2 < g.w*g.h/2 {
			continue
		}
		if e.Windows == 0 || win.Density() > e.Densest.Density() {
			e.Densest = win
		}
		if e.Windows == 0 || win.Density() < e.Sparsest.Density() {
			e.Sparsest = win
		}
		e.Windows++
		area += win.AreaMM2
		stitched += win.StitchedMM
		squares += win.StitchedMM * win.Density()
	}
	if stitched > 0 {
		e.Mean = stitched / area
		e.CV = math.Sqrt(math.Max(0, squares/area-e.Mean*e.Mean)) / e.Mean
	}
	return e
}

// clipped returns the part of a closed polygon within an upright box (Sutherland &
// Hodgman, Comm. ACM 17, 1974). Parts that fall asunder stay joined along the box's
// sides, which adds no area.
func clipped(pl geom.Polyline, lo, hi geom.Point) geom.Polyline {
	pl = clippedBy(pl, func(p geom.Point) float64 { return p.X - lo.X })
	pl = clippedBy(pl, func(p geom.Point) float64 { return hi.X - p.X })
	pl = clippedBy(pl, func(p geom.Point) float64 { return p.Y - lo.Y })
	return clippedBy(pl, func(p geom.Point) float64 { return hi.Y - p.Y })
}

// clippedBy keeps what lies where f, which is linear, is not negative.
func clippedBy(pl geom.Polyline, f func(geom.Point) float64) geom.Polyline {
	var out geom.Polyline
	for i := 1; i < len(pl); i++ {
		a, b := pl[i-1], pl[i]
		fa, fb := f(a), f(b)
		if fa >= 0 {
			out = append(out, a)
		}
		if fa < 0 != (fb < 0) {
			out = append(out, geom.Lerp(a, b, fa/(fa-fb)))
		}
	}
	if len(out) > 0 {
		out = append(out, out[0])
	}
	return out
}
