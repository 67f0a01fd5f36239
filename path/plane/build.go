package plane

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// Stroke is one line as it was drawn or made.
type Stroke struct {
	// Name names the line. Strokes that share name, kind and block are parts of
	// one line: pieces of it that meet where nothing else does become one edge.
	Name  string
	Kind  Kind
	Block string
	// Path is the line in mm, flattened finely enough that its chords can stand
	// for the curve.
	Path geom.Polyline
	// Length is the true length of the curve in mm; 0 stands for that of Path.
	Length float64
}

// DefaultSnap is the snap distance in mm that suits lines drawn by hand: about
// the width of a thread, so that what is joined would touch on the cloth.
const DefaultSnap = 0.25

// MaxSnap is the largest snap distance in mm; more would eat the motif.
const MaxSnap = 5

// The true length of a stroke in mm lies between a picometre and a thousand
// kilometres, so that shares of it can be told apart.
const (
	minLength = 1e-9
	maxLength = 1e9
)

// Options say how strokes become a graph.
type Options struct {
	// SnapMM is the distance in mm within which a near miss counts as meeting,
	// from 0 to MaxSnap. With 0 only what truly touches is joined.
	SnapMM float64
}

// Result is the graph and what was changed to get it, for showing to the user.
// The lengths add up: edges + doubled + trimmed = strokes.
type Result struct {
	Graph
	Snapped []Snap
	Doubled []Double
	Trimmed []Trim
	// Faces are the bounded faces of the graph.
	Faces []Face
}

// Build turns strokes into a planar multigraph.
//
// Crossings and touching ends become nodes, all on the Grid. Within
// Options.SnapMM ends are joined to ends, then to crossings, then to lines,
// nearest first, each cluster at one point that no member is farther from than
// the snap distance; crossings that near are joined too. A corner that comes that
// near a line is joined like an end. Two smooth lines that pass each other
// without touching are not: only the drawer knows whether they should.
//
// Pieces that lie twice become one: exactly, or, with snapping, a stretch drawn
// over again, where one line follows another within the snap distance from
// an end or a corner of either. A ruler line wins over a sewn line, a sewn line
// over a seam, else the longer line over the shorter. Of three copies or more
// that cross each other some can stay.
//
// A node where two pieces of one line meet is merged away, so the dots of a
// ruler line are no nodes unless WithNode makes them so; a closed line
// that meets nothing keeps one node, at its start. Edges run the way their
// stroke was drawn. An edge's Length is that of its share of the stroke as
// drawn: what joining adds or takes, at most the snap distance at an end, is not
// in it.
//
// An error names the stroke that is at fault. Cost O((n + k) log n) for n chords
// and k crossings, as long as few chords are long.
func Build(strokes []Stroke, opt Options) (Result, error) {
	if !(opt.SnapMM >= 0 && opt.SnapMM <= MaxSnap) {
		return Result{}, fmt.Errorf("snap distance %v mm is not between 0 and %d mm", opt.SnapMM, MaxSnap)
	}
	for i, s := range strokes {
		if err := s.validate(); err != nil {
			return Result{}, fmt.Errorf("stroke %d (%q): %w", i, s.Name, err)
		}
	}
	var res Result
	w := newWork(strokes, &res)
	w.chains = node(w.chains)
	w.drawn = w.chains
	if opt.SnapMM > 0 && w.join(opt.SnapMM) {
		w.chains = node(w.chains)
	}
	p := w.pieces(opt.SnapMM)
	if opt.SnapMM > 0 {
		p.dropRedrawn(opt.SnapMM)
	}
	res.Graph = p.graph()
	res.Faces = Faces(res.Graph)
	return res, nil
}

func (s Stroke) validate() error {
	if err := s.Path.Validate(); err != nil {
		return err
	}
	for i, p := range s.Path {
		if math.Abs(p.X) > MaxPlace || math.Abs(p.Y) > MaxPlace {
			return fmt.Errorf("point %d at (%g, %g) mm lies more than %d mm from the origin", i, p.X, p.Y, MaxPlace)
		}
	}
	if s.Length != 0 && !(s.Length >= minLength && s.Length <= maxLength) {
		return fmt.Errorf("length %v mm is not between %g and %g mm", s.Length, minLength, maxLength)
	}
	switch s.Kind {
	case Sewn, Ruler, Seam:
		return nil
	}
	return fmt.Errorf("kind %q is none of %q, %q, %q", s.Kind, Sewn, Ruler, Seam)
}
