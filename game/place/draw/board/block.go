package board

import (
	"math"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// SetName names the design.
func (b Board) SetName(name string) Board {
	d := b.Design
	if len(name) > quilt.MaxName {
		name = name[:quilt.MaxName]
	}
	d.Name = name
	return b.set(d, "name")
}

// SetShape chooses the kind of block; a way of piecing that it cannot have is
// dropped. The measures stay.
func (b Board) SetShape(k motif.ShapeKind) Board {
	d := b.Design
	d.Shape.Kind = k
	if k == motif.Rectangle && d.Shape.H == 0 {
		d.Shape.H = d.Shape.W / 2
	}
	if k != motif.Rectangle {
		d.Shape.H = 0
	}
	return b.reshaped(d, "")
}

// SetSize sets the finished measures in mm; h counts for a rectangle only. A size
// out of the range of motif.Shape changes nothing.
func (b Board) SetSize(w, h float64) Board {
	d := b.Design
	d.Shape.W = w
	if d.Shape.Kind == motif.Rectangle {
		d.Shape.H = h
	}
	if d.Shape.Validate() != nil {
		return b
	}
	return b.reshaped(d, "size")
}

// reshaped takes a design whose shape has changed: what does not go with the new
// shape falls back to what does.
func (b Board) reshaped(d quilt.Design, key string) Board {
	if _, err := d.Shape.Seams(d.Seams); err != nil {
		d.Seams = motif.NoSeams
	}
	w, h := d.Shape.Box()
	d.Margin = math.Min(d.Margin, math.Min(w, h)/8)
	d.Marks = nil
	for _, m := range b.Design.Marks {
		if d.HasMarkPlace(m.On) {
			d.Marks = append(d.Marks, m)
		}
	}
	if d.Recipe != nil && d.Shape != b.Design.Shape {
		if p, ok := d.Recipe.Motif(); ok {
			r := *d.Recipe
			if _, err := p.Fit(d.Shape, d.Margin, r.Values); err != nil {
				r.Values = p.Usual(d.Shape)
				b.Said = words.Of("draw.measures-anew")
			}
			d.Recipe = &r
		}
	}
	return b.set(d, key)
}

// SetSeams chooses how the block is pieced.
func (b Board) SetSeams(k motif.SeamKind) Board {
	d := b.Design
	if _, err := d.Shape.Seams(k); err != nil {
		b.Said = words.Why(err)
		return b
	}
	d.Seams = k
	return b.set(d, "")
}

// SetMargin sets how far in mm a ready motif stays from the seam, less than half of the
// block; any other changes nothing.
func (b Board) SetMargin(mm float64) Board {
	d := b.Design
	w, h := d.Shape.Box()
	if !(mm >= 0 && mm < math.Min(w, h)/2) {
		return b
	}
	d.Margin = mm
	return b.set(d, "margin")
}

// SetPattern fits a ready motif with its usual measures; "" takes it away.
func (b Board) SetPattern(id string) Board {
	d := b.Design
	d.Recipe = nil
	if id != "" {
		p, ok := motif.Find(id)
		if !ok {
			return b
		}
		r := quilt.RecipeOf(p, d.Shape)
		d.Recipe = &r
	}
	b.Said = words.Msg{}
	return b.set(d, "")
}

// Older tells whether the block's motif has been drawn anew since it was chosen.
func (b Board) Older() bool {
	if b.Design.Recipe == nil {
		return false
	}
	_, older := b.Design.Recipe.Anew(b.Design.Shape)
	return older
}

// Anew draws the block's motif as it is drawn now; undo brings the old lines back.
func (b Board) Anew() Board {
	if !b.Older() {
		return b
	}
	d := b.Design
	r, _ := d.Recipe.Anew(d.Shape)
	if m, ok := r.Motif(); ok {
		if _, err := m.Fit(d.Shape, d.Margin, r.Values); err != nil {
			r.Values = m.Usual(d.Shape)
		}
	}
	d.Recipe = &r
	b.Said = words.Msg{}
	return b.set(d, "")
}

// SetParam sets a measure of the ready motif.
func (b Board) SetParam(id string, v float64) Board {
	if b.Design.Recipe == nil || math.IsNaN(v) {
		return b
	}
	d := b.Design
	r := quilt.Recipe{Pattern: d.Recipe.Pattern, Version: d.Recipe.Version, Values: motif.Values{}}
	for k, x := range d.Recipe.Values {
		r.Values[k] = x
	}
	r.Values[id] = v
	d.Recipe = &r
	if p, ok := r.Motif(); ok && b.Trouble == nil {
		if _, err := p.Fit(d.Shape, d.Margin, r.Values); err != nil {
			b.Said = words.Of("draw.as-far")
			return b // the last line that fits stays to be seen
		}
	}
	b.Said = words.Msg{}
	return b.set(d, "param "+id)
}

// looseTolerance in mm is how closely the lines that a motif is turned into follow
// it: a fifth of the width of a thread.
const looseTolerance = 0.05

// Loosen turns the ready motif into drawn lines, which can be changed one by one.
func (b Board) Loosen() Board {
	d := b.Design
	if d.Recipe == nil || b.Trouble != nil {
		return b
	}
	p, _ := d.Recipe.Motif()
	pieces, err := p.Fit(d.Shape, d.Margin, d.Recipe.Values)
	if err != nil {
		b.Said = words.Why(err)
		return b
	}
	lines := b.lines()
	for _, piece := range pieces {
		l, err := loose(piece)
		if err != nil {
			b.Said = words.Why(err)
			return b
		}
		lines = append(lines, l)
	}
	d.Recipe, d.Lines = nil, lines
	b.Said = words.Msg{}
	if b = b.set(d, ""); b.Said.None() {
		b.Said = words.Of("draw.loosened", len(pieces))
	}
	return b
}

func loose(p motif.Piece) (quilt.Line, error) {
	l := quilt.Line{Name: p.Name, Kind: string(plane.Sewn)}
	switch {
	case p.Seam:
		l.Kind = string(plane.Seam)
	case p.Ruler:
		l.Kind = string(plane.Ruler)
	}
	if p.Ruler || p.Seam || len(p.Path) < 3 {
		l.Path = geom.Straight(p.Path)
		return l, l.Path.Validate()
	}
	path, fitted, err := sketch.Fit(p.Path, closely)
	if err != nil || fitted.MaxChange > 4*looseTolerance {
		path = geom.Straight(p.Path) // its own points, as they were drawn
	}
	l.Path = path
	return l, path.Validate()
}

// closely are the options with which a motif, which has no jitter, is followed.
var closely = sketch.Options{Tolerance: looseTolerance, Scale: 0.5, Corner: math.Pi / 6, Close: 0.01, Straight: looseTolerance}
