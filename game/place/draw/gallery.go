package draw

import (
	"slices"

	"unthreaded/game/place"
	"unthreaded/path/motif"
)

// preview is a small picture of a ready motif fitted to the block. Path is empty where
// the motif does not fit, and as long as the picture is not made.
type preview struct {
	motif motif.Motif
	path  string
	made  bool
	// why says why it does not fit, empty where it does.
	why error
	// effort is what its lines ask of the hand.
	effort motif.Effort
}

// unmade returns the previews of all ready motifs without their pictures.
func unmade() []preview {
	var out []preview
	for _, p := range place.ByKind(motif.Ready()) {
		out = append(out, preview{motif: p})
	}
	return out
}

// make returns the preview with its picture. Cost that of fitting the motif once.
func (pv preview) make(s motif.Shape, margin float64) preview {
	pv.made, pv.path, pv.why = true, "", nil
	pieces, err := pv.motif.Fit(s, margin, pv.motif.Usual(s))
	if err != nil {
		pv.why = err
		return pv
	}
	pv.path = place.Picture(s, pieces)
	pv.effort = s.Effort(place.Sewn(pieces))
	return pv
}

// gallery holds the pictures of the ready motifs in a block of a shape with a margin.
type gallery struct {
	previews []preview
	shape    motif.Shape
	margin   float64
	// fold is whether they are open.
	fold fold
}

// fold is whether the pictures of the ready motifs are open: as long as the block is
// empty, unless the person has said otherwise.
type fold int

const (
	asNeeded fold = iota
	opened
	folded
)

// of begins the pictures anew if the block has another shape.
func (g gallery) of(s motif.Shape, margin float64) gallery {
	if (s != g.shape || margin != g.margin) && s.W > 0 {
		g.previews, g.shape, g.margin = unmade(), s, margin
	}
	return g
}

// next returns the first picture that is still to be made, -1 for none.
func (g gallery) next() int {
	return slices.IndexFunc(g.previews, func(pv preview) bool { return !pv.made })
}

// step makes the next picture: one each frame, so that the page does not stand still for
// them all.
func (g gallery) step() gallery {
	if i := g.next(); i >= 0 {
		g.previews = slices.Clone(g.previews)
		g.previews[i] = g.previews[i].make(g.shape, g.margin)
	}
	return g
}
