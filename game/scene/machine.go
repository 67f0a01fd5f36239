package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// The machine as it lies under the cloth and stands over it, in mm, like a domestic machine's
// (common practice; no single one): the foot is a ring round the needle, the bed ends before
// the quilter and to her left.
const (
	footMM   = 6.0  // radius of the ring of the foot
	bedMM    = 55.0 // from the needle to the bed's edge before her
	bedSide  = 95.0 // from the needle to its left edge
	bedRound = 14.0 // radius of the corner
)

// BedEdge is the edge of the machine's bed, which shows through the cloth as a ridge: a
// shadow and a light side by side.
func BedEdge(needle geom.Point, scale float64, s screen.Cloth, pal look.Palette) []Item {
	// On a small screen the edge is nearer, so that it is seen at all.
	floor := s.H - s.Strip
	x, y, r := needle.X-math.Min(bedSide*scale, 0.86*needle.X), needle.Y+math.Min(bedMM*scale, 0.84*(floor-needle.Y)), bedRound*scale
	edge := []geom.Point{geom.Pt(x, 0), geom.Pt(x, y-r)}
	for k := range 9 {
		a := math.Pi - float64(k+1)*math.Pi/20
		edge = append(edge, geom.Pt(x+r+r*math.Cos(a), y-r+r*math.Sin(a)))
	}
	edge = append(edge, geom.Pt(x+r, y), geom.Pt(s.W, y))
	light := make([]geom.Point, len(edge))
	for i, p := range edge {
		light[i] = r2.Add(p, geom.Pt(1.6, -1.6))
	}
	return []Item{Line(2, Mix(pal.Cloth, pal.Ink, 0.22), edge...), Line(1.4, Mix(pal.Cloth, pal.Paper, 0.7), light...)}
}

// FootRadius returns the radius of the foot in pixels: it must not hide the needle on a
// cloth shown small.
func FootRadius(scale float64) float64 { return math.Max(16, footMM*scale) }

// Foot is the foot round a needle that stands still: a ring of steel on its shank, open so
// that the line is seen in it.
func Foot(at geom.Point, scale float64, pal look.Palette) []Item {
	r := FootRadius(scale)
	steel, shade := Mix(pal.Cloth, pal.Ink, 0.42), Mix(pal.Cloth, pal.Ink, 0.6)
	top, end := geom.Pt(at.X, at.Y-r), geom.Pt(at.X+10, at.Y-r-26)
	return []Item{
		Line(9, shade, top, end), Line(6, steel, top, end),
		Ring(at, r, 6, shade), Ring(at, r, 3.4, steel),
	}
}

// StandingNeedle is a needle that stands still while the cloth moves: dark in a light ring,
// larger than any mark of the line.
func StandingNeedle(at geom.Point, pal look.Palette) []Item {
	return []Item{Line(17, pal.Cloth, at), Line(12, pal.Ink, at), Line(3.5, pal.Cloth, r2.Add(at, geom.Pt(-1.5, -1.5)))}
}
