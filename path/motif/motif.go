// Package motif holds the ready motifs: for each, the line that is sewn, made
// from a few meaningful parameters in millimetres.
package motif

import (
	"fmt"

	"unthreaded/path/geom"
)

// Motif is a ready motif that repeats along a row.
type Motif struct {
	// ID names the motif in records; it never changes.
	ID string
	// Name and Note are for the page: what it is, and how it is sewn.
	Name, Note string
	// Unit is what one repeat is called, in the plural.
	Unit string
	// Max is the largest number of repeats, Usual the number that makes a
	// rehearsal of about half a minute.
	Max, Usual int
	// line makes the row with n repeats, its top left corner at (0, 0).
	line func(n int) (geom.Line, error)
}

// Ready returns the motifs in the order in which the page offers them.
func Ready() []Motif {
	return []Motif{linkedSwirls, rulerZigzag, rowOfLoops, rowOfWaves, rowOfEights, squareSpiral}
}

// Of makes a motif of one given line that does not repeat, such as a planned
// route. l must not be empty.
func Of(id, name, note string, l geom.Line) Motif {
	return Motif{
		ID: id, Name: name, Note: note, Unit: "part", Max: 1, Usual: 1,
		line: func(int) (geom.Line, error) { return l, nil },
	}
}

// Find returns the motif with the given ID.
func Find(id string) (Motif, bool) {
	for _, m := range Ready() {
		if m.ID == id {
			return m, true
		}
	}
	return Motif{}, false
}

// Line returns the row with n repeats, its bounding box starting at (0, 0). It
// fails unless 1 <= n <= Max.
func (m Motif) Line(n int) (geom.Line, error) {
	if n < 1 || n > m.Max {
		return geom.Line{}, fmt.Errorf("%s: %d %s asked for, 1 to %d are possible", m.ID, n, m.Unit, m.Max)
	}
	return m.line(n)
}

// Fit returns the largest number of repeats, at least 1 and at most Usual, whose
// row is no wider than width mm and no higher than height mm.
func (m Motif) Fit(width, height float64) int {
	for n := m.Usual; n > 1; n-- {
		l, err := m.Line(n)
		if err != nil {
			continue
		}
		if lo, hi := l.Path().Bounds(); hi.X-lo.X <= width && hi.Y-lo.Y <= height {
			return n
		}
	}
	return 1
}

// toOrigin moves a path so that its bounding box starts at (0, 0).
func toOrigin(pl geom.Polyline) geom.Polyline {
	lo, _ := pl.Bounds()
	return pl.Map(func(p geom.Point) geom.Point { return geom.Pt(p.X-lo.X, p.Y-lo.Y) })
}
