package board

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// Preview is a small picture of a ready motif fitted to a block: SVG path data in a
// box of PreviewSize each way. Path is empty where the motif does not fit, and
// as long as the picture is not Made.
type Preview struct {
	Motif motif.Motif
	Path  string
	Made  bool
	// Why says why it does not fit, empty where it does.
	Why string
}

// PreviewSize is the side of the box of a preview, previewTolerance how far in its
// units a picture may be from the motif.
const (
	PreviewSize      = 100.0
	previewTolerance = 0.6
)

// Unmade returns the previews of all ready motifs without their pictures.
func Unmade() []Preview {
	var out []Preview
	for _, p := range motif.Ready() {
		out = append(out, Preview{Motif: p})
	}
	return out
}

// Make returns the preview with its picture in a shape. Cost that of fitting the
// motif once.
func (pv Preview) Make(s motif.Shape, margin float64) Preview {
	pv.Made, pv.Path, pv.Why = true, "", ""
	pieces, err := pv.Motif.Fit(s, margin, pv.Motif.Usual(s))
	if err != nil {
		pv.Why = strings.TrimPrefix(err.Error(), pv.Motif.ID+": ")
		return pv
	}
	pv.Path = previewPath(s, pieces)
	return pv
}

// OutlinePath returns the outline of a shape as path data in the box of a preview.
func OutlinePath(s motif.Shape) string {
	return previewPath(s, []motif.Piece{{Path: s.Outline()}})
}

// DesignPath returns the lines of a design, its seams left out, as path data in the
// box of a preview; empty where its motif does not fit.
func DesignPath(d quilt.Design) string {
	work, err := d.Work()
	if err != nil {
		return ""
	}
	return previewPath(d.Shape, slices.DeleteFunc(work, func(p motif.Piece) bool { return p.Seam }))
}

func previewPath(s motif.Shape, pieces []motif.Piece) string {
	w, h := s.Box()
	scale := PreviewSize / math.Max(w, h)
	dx, dy := (PreviewSize-w*scale)/2, (PreviewSize-h*scale)/2
	var b strings.Builder
	for _, p := range pieces {
		pl := p.Path.Map(func(q geom.Point) geom.Point { return geom.Pt(q.X*scale+dx, q.Y*scale+dy) })
		for i, q := range pl.Thinned(previewTolerance) {
			b.WriteByte("ML"[min(i, 1)])
			b.WriteString(strconv.FormatFloat(q.X, 'f', 1, 64))
			b.WriteByte(' ')
			b.WriteString(strconv.FormatFloat(q.Y, 'f', 1, 64))
		}
	}
	return b.String()
}
