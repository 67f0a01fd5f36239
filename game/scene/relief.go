package scene

import (
	"image"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// How a quilt lies in light from the upper left: within reliefReach mm of a line of stitches
// the cloth has risen by 63 % of what the batting lets it (a usual low loft, from memory).
const (
	reliefReach = 7.0
	reliefCells = 90000 // as many heights as are worked out at most
)

// ReliefLight returns the largest shares of white and of black that light lays over the
// cloth: so little on the side of the chalk's own brightness that it stays to be seen.
func ReliefLight(pal look.Palette) (light, dark float64) {
	if brightness(pal.Cloth) > brightness(pal.Chalk) {
		return 0.5, 0.13
	}
	return 0.1, 0.5
}

func brightness(c interface{ RGBA() (r, g, b, a uint32) }) uint32 {
	r, g, b, _ := c.RGBA()
	return r + g + b
}

// Relief is what light across the puckers of a quilt shows from some way off: cloth that is
// open rises, dense quilting holds it flat. The box and the lines are in pixels, of which scale
// make a mm. Cost O(heights + length of the lines in heights).
func Relief(lo, hi geom.Point, lines [][]geom.Point, scale float64, pal look.Palette) []Item {
	size := r2.Sub(hi, lo)
	if !(size.X > 1 && size.Y > 1 && scale > 0) {
		return nil
	}
	cell := math.Max(1, math.Sqrt(size.X*size.Y/reliefCells))
	g := newHeights(int(math.Ceil(size.X/cell)), int(math.Ceil(size.Y/cell)))
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			g.sew(r2.Scale(1/cell, r2.Sub(l[i-1], lo)), r2.Scale(1/cell, r2.Sub(l[i], lo)))
		}
	}
	g.distances()
	g.rise(reliefReach * scale / cell)
	light, dark := ReliefLight(pal)
	img := g.lit(light, dark)
	return []Item{{Shape: Picture, Points: []geom.Point{lo, geom.Pt(lo.X+float64(g.w)*cell, lo.Y+float64(g.h)*cell)}, Width: 1, Image: img}}
}

// heights are what lies on a grid, w by h: first how far the next stitch is in cells, then how
// high the cloth stands, from 0 to 1.
type heights struct {
	w, h int
	at   []float32
}

func newHeights(w, h int) heights {
	g := heights{w, h, make([]float32, w*h)}
	for i := range g.at {
		if x, y := i%w, i/w; x > 0 && y > 0 && x < w-1 && y < h-1 {
			g.at[i] = float32(w + h) // the edge is bound and lies flat
		}
	}
	return g
}

// sew lays a line of stitches from a to b.
func (g heights) sew(a, b geom.Point) {
	n := int(math.Ceil(2*geom.Dist(a, b))) + 1
	for k := range n + 1 {
		p := geom.Lerp(a, b, float64(k)/float64(n))
		if x, y := int(math.Floor(p.X)), int(math.Floor(p.Y)); x >= 0 && y >= 0 && x < g.w && y < g.h {
			g.at[y*g.w+x] = 0
		}
	}
}

// distances works out how far each cell is from the next stitch, by a chamfer of 1 and 4/3
// (G. Borgefors, Distance transformations in digital images, CVGIP 34, 1986; from memory).
func (g heights) distances() {
	const side, across = 1.0, 4.0 / 3
	pass := func(x, y, step int) {
		i := y*g.w + x
		take := func(dx, dy int, far float32) {
			if x+dx >= 0 && x+dx < g.w && y+dy >= 0 && y+dy < g.h {
				g.at[i] = min(g.at[i], g.at[i+dy*g.w+dx]+far)
			}
		}
		take(-step, 0, side)
		take(-step, -step, across)
		take(0, -step, side)
		take(step, -step, across)
	}
	for y := range g.h {
		for x := range g.w {
			pass(x, y, 1)
		}
	}
	for y := g.h - 1; y >= 0; y-- {
		for x := g.w - 1; x >= 0; x-- {
			pass(x, y, -1)
		}
	}
}

// rise makes heights of the distances: the cloth rises quickly beside a line and rounds off.
func (g heights) rise(reach float64) {
	for i, d := range g.at {
		g.at[i] = float32(1 - math.Exp(-float64(d)/reach))
	}
}

// lit is the light on the heights: white where the cloth faces the upper left, black where it
// turns away and, half as much, in the valleys.
func (g heights) lit(light, dark float64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, g.w, g.h))
	for y := range g.h {
		for x := range g.w {
			i := y*g.w + x
			right, below := i+min(1, g.w-1-x), i+g.w*min(1, g.h-1-y)
			left, above := i-min(1, x), i-g.w*min(1, y)
			slope := float64(g.at[right]-g.at[left]+g.at[below]-g.at[above]) - 0.25*float64(1-g.at[i])
			p := img.Pix[4*i : 4*i+4]
			if slope > 0 {
				a := uint8(255 * light * math.Min(1, slope))
				p[0], p[1], p[2], p[3] = a, a, a, a
			} else {
				p[3] = uint8(255 * dark * math.Min(1, -2*slope))
			}
		}
	}
	return img
}
