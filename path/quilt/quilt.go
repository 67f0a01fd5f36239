// Package quilt holds the quilt top: how its blocks are set, sashed and bordered,
// which design lies in which place, what all that adds up to, and the documents in
// which tops and designs are kept. Sizes are finished sizes in mm, seams sewn.
package quilt

import (
	"fmt"
	"slices"
)

// Schema is the number of the form in which a Quilt is written. Form 2 can hold lines that
// lie over the top; a document of form 1 has none.
const Schema = 2

// Setting says how the blocks are set.
type Setting string

// The settings: blocks level and upright, or turned by an eighth so that they stand
// on a corner, with triangles filling the sides and the corners of the top.
const (
	Straight Setting = "straight"
	OnPoint  Setting = "on-point"
)

// Alternation says which of the blocks are of the kind Alternate.
type Alternation string

// All blocks alike; every other one, as on a chequerboard (on point: those between
// the others); or every other row of the sewing order (on point: diagonal rows).
const (
	AllAlike     Alternation = ""
	Checkerboard Alternation = "checkerboard"
	ByRow        Alternation = "rows"
)

// Sashing is the strips between the blocks; with WidthMM 0 there are none.
type Sashing struct {
	WidthMM float64 `json:"width_mm"`
	// Cornerstones puts a square where strips would meet; without them the strips
	// between the rows run through.
	Cornerstones bool `json:"cornerstones,omitempty"`
	// Round leads the sashing round the outside of the blocks as well. On point
	// the setting triangles stand there, and it has no meaning.
	Round bool `json:"round,omitempty"`
}

// Border is a frame round the top. Without Corners the left and right sides are
// as long as what they frame and the upper and lower go over their ends (butted);
// with Corners a square stands in each corner.
type Border struct {
	WidthMM float64 `json:"width_mm"`
	Corners bool    `json:"corners,omitempty"`
	// Line is the motif sewn all round as one line, nil where each side has its own
	// design.
	Line *Recipe `json:"line,omitempty"`
}

// Choice is what is quilted in a place: a design, or none for "", turned clockwise
// by so many quarter turns.
type Choice struct {
	Design       string `json:"design"`
	QuarterTurns int    `json:"quarter_turns,omitempty"`
}

// Quilt is a quilt top, a document.
type Quilt struct {
	Schema  int     `json:"schema"`
	ID      string  `json:"id"` // unique among a person's quilts; given by the caller
	Name    string  `json:"name"`
	Setting Setting `json:"setting"`
	// Rows and Cols count the blocks down and across. On point they count those
	// that stand in full rows from edge to edge; (Rows-1) x (Cols-1) more stand
	// between them.
	Rows int `json:"rows"`
	Cols int `json:"cols"`
	// BlockMM is the finished side of a block.
	BlockMM   float64     `json:"block_mm"`
	Alternate Alternation `json:"alternate,omitempty"`
	Sashing   Sashing     `json:"sashing"`
	// Borders run from the inside outwards.
	Borders []Border `json:"borders,omitempty"`
	// Overall is sewn from edge to edge over all places, nil for none.
	Overall *Overall `json:"edge_to_edge,omitempty"`
	// GapMM is the largest distance between lines of quilting that the batting
	// allows, by its maker; 0 where it is not known.
	GapMM float64 `json:"gap_mm,omitempty"`
	// ByKind is what lies in all places of a kind, ByCell what lies in one place,
	// by its id; ByCell comes before ByKind. Places that the layout does not have
	// are kept, so that a row which comes back has its designs.
	ByKind map[Kind]Choice   `json:"by_kind,omitempty"`
	ByCell map[string]Choice `json:"by_cell,omitempty"`
}

// Bounds of a layout. A side of 3 m covers the largest beds.
const (
	MaxRows    = 40
	MaxBorders = 8
	MaxTopMM   = 3060
	MinPartMM  = 10 // block, sashing or border: the least that motif.Shape takes
	maxChoices = 20000
)

// Validate reports the first field at fault by its name: "borders[1].width_mm: ...".
func (q Quilt) Validate() error {
	if err := checkHead(q.Schema, Schema, q.ID, q.Name); err != nil {
		return err
	}
	if err := q.validateLayout(); err != nil {
		return err
	}
	if !(q.GapMM >= 0 && q.GapMM <= MaxTopMM) {
		return &FieldError{"gap_mm", fmt.Errorf("%v is not between 0 and %d", q.GapMM, MaxTopMM)}
	}
	if len(q.ByKind)+len(q.ByCell) > maxChoices {
		return fmt.Errorf("by_cell: %d places, at most %d", len(q.ByKind)+len(q.ByCell), maxChoices)
	}
	if err := q.validateOver(); err != nil {
		return err
	}
	for _, k := range sortedKeys(q.ByKind) {
		if err := q.ByKind[k].validate(string(k)); err != nil {
			return fmt.Errorf("by_kind[%q]%w", k, err)
		}
	}
	for _, id := range sortedKeys(q.ByCell) {
		if err := q.ByCell[id].validate(id); err != nil {
			return fmt.Errorf("by_cell[%q]%w", id, err)
		}
	}
	return nil
}

// FieldError is an error about one field of a layout, by its name in the document.
type FieldError struct {
	Field string
	What  error
}

func (e *FieldError) Error() string { return e.Field + ": " + e.What.Error() }

func (q Quilt) validateLayout() error {
	switch {
	case q.Setting != Straight && q.Setting != OnPoint:
		return fmt.Errorf("setting: %q is neither %q nor %q", q.Setting, Straight, OnPoint)
	case q.Rows < 1 || q.Rows > MaxRows:
		return &FieldError{"rows", fmt.Errorf("%d is not between 1 and %d", q.Rows, MaxRows)}
	case q.Cols < 1 || q.Cols > MaxRows:
		return &FieldError{"cols", fmt.Errorf("%d is not between 1 and %d", q.Cols, MaxRows)}
	case q.Alternate != AllAlike && q.Alternate != Checkerboard && q.Alternate != ByRow:
		return fmt.Errorf("alternate: %q is none of %q, %q, %q", q.Alternate, AllAlike, Checkerboard, ByRow)
	case len(q.Borders) > MaxBorders:
		return &FieldError{"borders", fmt.Errorf("%d, at most %d", len(q.Borders), MaxBorders)}
	}
	// On point the smallest part is the corner triangle, whose legs measure
	// block/sqrt2, or with sashing the half cornerstone.
	if least := q.leastBlock(); !(q.BlockMM >= least && q.BlockMM <= MaxTopMM) {
		return &FieldError{"block_mm", fmt.Errorf("%v is not between %.3g and %d", q.BlockMM, least, MaxTopMM)}
	}
	if err := q.validatePart("sashing.width_mm", q.Sashing.WidthMM); q.Sashing.WidthMM != 0 && err != nil {
		return err
	}
	for i, b := range q.Borders {
		if err := q.validatePart(fmt.Sprintf("borders[%d].width_mm", i), b.WidthMM); err != nil {
			return err
		}
	}
	if size := q.Size(); size.W > MaxTopMM || size.H > MaxTopMM {
		return &FieldError{"block_mm", fmt.Errorf("the top adds up to %.0f x %.0f mm, at most %d are possible", size.W, size.H, MaxTopMM)}
	}
	return nil
}

func (q Quilt) leastBlock() float64 {
	if q.Setting == OnPoint {
		return 2 * MinPartMM
	}
	return MinPartMM
}

func (q Quilt) validatePart(field string, mm float64) error {
	if !(mm >= MinPartMM && mm <= MaxTopMM) {
		return &FieldError{field, fmt.Errorf("%v is not between %d and %d", mm, MinPartMM, MaxTopMM)}
	}
	return nil
}

func (c Choice) validate(place string) error {
	switch {
	case place == "" || len(place) > MaxName:
		return fmt.Errorf(": a name of %d bytes, from 1 to %d are possible", len(place), MaxName)
	case len(c.Design) > MaxName:
		return fmt.Errorf(".design: %d bytes, at most %d", len(c.Design), MaxName)
	case c.QuarterTurns < 0 || c.QuarterTurns > 3:
		return fmt.Errorf(".quarter_turns: %d is not between 0 and 3", c.QuarterTurns)
	}
	return nil
}

// Choice returns what lies in a place.
func (q Quilt) Choice(c Cell) Choice {
	if own, ok := q.ByCell[c.ID]; ok {
		return own
	}
	return q.ByKind[c.Kind]
}

// DesignIDs returns the ids of the designs that the quilt names, each once, in order.
func (q Quilt) DesignIDs() []string {
	var out []string
	for _, c := range q.ByKind {
		out = append(out, c.Design)
	}
	for _, c := range q.ByCell {
		out = append(out, c.Design)
	}
	slices.Sort(out)
	return slices.DeleteFunc(slices.Compact(out), func(id string) bool { return id == "" })
}

// Place returns the quilt with a design, or none, in the place with the given id.
// The quilt it is called on is left as it was.
func (q Quilt) Place(cell string, c Choice) Quilt {
	q.ByCell = with(q.ByCell, cell, c)
	return q
}

// PlaceAll returns the quilt with a design, or none, in all places of a kind, those
// with a choice of their own included.
func (q Quilt) PlaceAll(k Kind, c Choice) Quilt {
	byCell := map[string]Choice{}
	for id, own := range q.ByCell {
		byCell[id] = own
	}
	for _, cell := range q.Cells() {
		if cell.Kind == k {
			delete(byCell, cell.ID)
		}
	}
	q.ByCell, q.ByKind = byCell, with(q.ByKind, k, c)
	return q
}

func with[K comparable, V any](m map[K]V, k K, v V) map[K]V {
	out := make(map[K]V, len(m)+1)
	for key, old := range m {
		out[key] = old
	}
	out[k] = v
	return out
}
