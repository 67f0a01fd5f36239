package quilt

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
)

// DesignSchema is the number of the form in which a Design is written. A change of
// the form takes a new number and a step in DecodeDesign that lifts the older one.
const DesignSchema = 2

// Bounds of a design, far above what a hand sews in one block.
const (
	MaxLines  = 2000  // drawn lines of a design
	MaxPoints = 60000 // points of all its splines together
	MaxName   = 200   // bytes of a name or an id
)

// Design is the line work of one block, a document. Its places are in mm in the box
// of its shape, which begins at (0, 0).
type Design struct {
	Schema int    `json:"schema"`
	ID     string `json:"id"` // unique among a person's designs; given by the caller
	Name   string `json:"name"`
	// Shape is the finished shape; Margin is how far in mm within its outline a
	// fitted motif stays.
	Shape  motif.Shape `json:"shape"`
	Margin float64     `json:"margin_mm"`
	// Seams are the inner seams of the piecing.
	Seams motif.SeamKind `json:"seams"`
	// Recipe is the ready motif fitted to the shape, nil for none.
	Recipe *Recipe `json:"recipe,omitempty"`
	// Lines are the drawn lines.
	Lines []Line `json:"lines,omitempty"`
	// Marks are the dots to be marked on the block.
	Marks []Mark `json:"marks,omitempty"`
	// Photo lies under the drawing, nil for none.
	Photo *Photo `json:"photo,omitempty"`
}

// Recipe is a ready motif and the values it is fitted with.
type Recipe struct {
	Pattern string `json:"pattern"` // the id of a motif
	// Version is that in which the motif was drawn when it was chosen; 0 counts as 1. A
	// kept design keeps it, and so its lines, when the motif is drawn anew.
	Version int          `json:"version,omitempty"`
	Values  motif.Values `json:"values,omitempty"`
}

// RecipeOf returns the recipe of a motif as it is drawn now, with its usual values for a
// shape.
func RecipeOf(m motif.Motif, s motif.Shape) Recipe {
	return Recipe{Pattern: m.ID, Version: m.Version, Values: m.Usual(s)}
}

// Motif returns the motif in the version of the recipe; false means that there is none.
func (r Recipe) Motif() (motif.Motif, bool) {
	m, ok := motif.Find(r.Pattern)
	if !ok {
		return m, false
	}
	return m.In(r.Version)
}

// Anew returns the recipe with the motif as it is drawn now, for a shape, and whether it
// was drawn another way before and is still offered for it. Values that the motif still has
// are kept.
func (r Recipe) Anew(s motif.Shape) (Recipe, bool) {
	m, ok := motif.Find(r.Pattern)
	if !ok || m.Version == max(1, r.Version) || m.Lack(s) != "" {
		return r, false
	}
	out := RecipeOf(m, s)
	for _, p := range m.Params {
		if v, had := r.Values[p.ID]; had && v >= p.Min && v <= p.Max {
			out.Values[p.ID] = v
		}
	}
	return out, true
}

// Line is a drawn line.
type Line struct {
	Name string
	Kind string // "sewn", "ruler" or "seam", as plane.Kind
	Path geom.Spline
	// Dots are the arc lengths in mm, ascending, at which the needle stops.
	Dots []float64
}

// Pieces returns all lines of the block: the outline and the seams as pieces that
// may be travelled, then the fitted motif, then the drawn lines. It fails where the
// motif does not fit, with what the motif says. Cost O(points).
func (d Design) Pieces() ([]motif.Piece, error) {
	work, err := d.Work()
	if err != nil {
		return nil, err
	}
	return append(d.Shape.OutlinePieces(), work...), nil
}

// Work returns the lines of the block without its outline.
func (d Design) Work() ([]motif.Piece, error) {
	out, err := d.Shape.Seams(d.Seams)
	if err != nil {
		return nil, fmt.Errorf("seams: %w", err)
	}
	if d.Recipe != nil {
		p, known := d.Recipe.Motif()
		if !known {
			return nil, fmt.Errorf("recipe.pattern: there is no ready motif %q in version %d", d.Recipe.Pattern, d.Recipe.Version)
		}
		fitted, err := p.Fit(d.Shape, d.Margin, d.Recipe.Values)
		if err != nil {
			return nil, fmt.Errorf("recipe: %w", err)
		}
		out = append(out, fitted...)
	}
	for _, l := range d.Lines {
		out = append(out, motif.Piece{
			Name: l.Name, Path: l.Path.Flatten(),
			Ruler: l.Kind == string(plane.Ruler), Seam: l.Kind == string(plane.Seam),
		})
	}
	return out, nil
}

// Geom returns the line with its dots, to be rehearsed. It fails on a line without
// length and on dots that do not ascend or lie off it.
func (l Line) Geom() (geom.Line, error) {
	line, err := geom.NewLine(l.Path.Flatten())
	if err != nil || len(l.Dots) == 0 {
		return line, err
	}
	return line.WithDots(l.Dots)
}

// Validate reports the first field at fault by its name, of a drawn line with its
// row: "lines[3].path_mm: ...". That the motif can be fitted is not looked at: Pieces
// says that.
func (d Design) Validate() error {
	if err := checkHead(d.Schema, DesignSchema, d.ID, d.Name); err != nil {
		return err
	}
	if err := d.Shape.Validate(); err != nil {
		return fmt.Errorf("shape: %w", err)
	}
	if w, h := d.Shape.Box(); !(d.Margin >= 0 && d.Margin < math.Min(w, h)/2) {
		return fmt.Errorf("margin_mm: %v is not between 0 and half the shape", d.Margin)
	}
	if _, err := d.Shape.Seams(d.Seams); err != nil {
		return fmt.Errorf("seams: %w", err)
	}
	if d.Recipe != nil {
		if err := d.Recipe.validate(); err != nil {
			return fmt.Errorf("recipe.%w", err)
		}
	}
	if d.Photo != nil {
		if err := d.Photo.validate(); err != nil {
			return fmt.Errorf("photo.%w", err)
		}
	}
	if err := d.validateMarks(); err != nil {
		return err
	}
	return validateLines(d.Lines)
}

func (r Recipe) validate() error {
	p, known := r.Motif()
	if !known {
		return fmt.Errorf("pattern: there is no ready motif %q in version %d", r.Pattern, r.Version)
	}
	params := map[string]bool{}
	for _, q := range p.Params {
		params[q.ID] = true
	}
	for _, id := range sortedKeys(r.Values) {
		switch v := r.Values[id]; {
		case !params[id]:
			return fmt.Errorf("values: %s has no %q", p.ID, id)
		case math.IsNaN(v) || math.IsInf(v, 0):
			return fmt.Errorf("values: %q is %v", id, v)
		}
	}
	return nil
}

func validateLines(lines []Line) error {
	if len(lines) > MaxLines {
		return fmt.Errorf("lines: %d, at most %d", len(lines), MaxLines)
	}
	points := 0
	for i, l := range lines {
		if points += len(l.Path) + len(l.Dots); points > MaxPoints {
			return fmt.Errorf("lines[%d]: with it there are %d points, at most %d", i, points, MaxPoints)
		}
		if err := l.validate(); err != nil {
			return fmt.Errorf("lines[%d].%w", i, err)
		}
	}
	return nil
}

func (l Line) validate() error {
	switch plane.Kind(l.Kind) {
	case plane.Sewn, plane.Ruler, plane.Seam:
	default:
		return fmt.Errorf("kind: %q is none of %q, %q, %q", l.Kind, plane.Sewn, plane.Ruler, plane.Seam)
	}
	if len(l.Name) > MaxName {
		return fmt.Errorf("name: %d bytes, at most %d", len(l.Name), MaxName)
	}
	if err := l.Path.Validate(); err != nil {
		return fmt.Errorf("path_mm: %w", err)
	}
	for i, p := range l.Path {
		if math.Abs(p.X) > plane.MaxPlace || math.Abs(p.Y) > plane.MaxPlace {
			return fmt.Errorf("path_mm: point %d at (%g, %g) mm lies more than %d mm from the origin", i, p.X, p.Y, plane.MaxPlace)
		}
	}
	if _, err := l.Geom(); err != nil {
		return fmt.Errorf("dots_mm: %w", err)
	}
	return nil
}
