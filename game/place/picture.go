package place

import (
	"math"
	"strconv"
	"strings"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// PictureSize is the side of the box of a small picture of a block, pictureTolerance how
// far in its units a picture may be from the lines.
const (
	PictureSize      = 100.0
	pictureTolerance = 0.6
	// Of a strip longer than endShown times its width one end is shown, so that what lies in
	// it can be judged; pictureEdge is how far its lines go on beyond the box.
	endShown    = 2.5
	pictureEdge = 8
)

// Picture returns lines in a shape as SVG path data in a box of PictureSize each way.
func Picture(s motif.Shape, pieces []motif.Piece) string {
	w, h := s.Box()
	long := math.Min(math.Max(w, h), endShown*math.Min(w, h))
	scale := PictureSize / long
	dx, dy := math.Max(0, PictureSize-w*scale)/2, math.Max(0, PictureSize-h*scale)/2
	var b strings.Builder
	for _, p := range pieces {
		pl := p.Path.Map(func(q geom.Point) geom.Point { return geom.Pt(q.X*scale+dx, q.Y*scale+dy) })
		pl = pl.Thinned(pictureTolerance)
		command := byte('M')
		for i, q := range pl {
			out := func(k int) bool { return k < 0 || k >= len(pl) || max(pl[k].X, pl[k].Y) > PictureSize+pictureEdge }
			if out(i) && out(i-1) && out(i+1) {
				command = 'M'
				continue
			}
			b.WriteByte(command)
			command = 'L'
			b.WriteString(strconv.FormatFloat(q.X, 'f', 1, 64))
			b.WriteByte(' ')
			b.WriteString(strconv.FormatFloat(q.Y, 'f', 1, 64))
		}
	}
	return b.String()
}

// OutlinePicture returns the picture of a shape.
func OutlinePicture(s motif.Shape) string {
	return Picture(s, []motif.Piece{{Path: s.Outline()}})
}

// DesignPicture returns the picture of a block's lines, without its seams; empty where
// its motif does not fit.
func DesignPicture(d quilt.Design) string {
	work, err := d.Work()
	if err != nil {
		return ""
	}
	return Picture(d.Shape, Sewn(work))
}
