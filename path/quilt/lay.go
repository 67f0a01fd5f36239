package quilt

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Designs are a person's designs by their id.
type Designs map[string]Design

// Laying is a top with its designs in place. Line work is kept once for each design
// and shape, however many places it lies in.
type Laying struct {
	Cells  []Cell
	Works  []Work
	Placed []Placed
	// Misfits are the places whose design could not be laid, in the order of Cells.
	Misfits []Misfit
	// Overs are the lines that lie over places, OverMisfits those that could not be
	// laid.
	Overs       []Over
	OverMisfits []OverMisfit
	overs       string // what they were laid for
}

// Work is the line work of a design as it is laid in some places.
type Work struct {
	Design Design
	// Pieces are its lines without the outline, in the mm of Design.Shape.
	Pieces []motif.Piece
	// Own tells that the design has its own shape here; else its ready motif was
	// fitted anew to the shape of the place.
	Own bool
}

// Placed is a design in a place.
type Placed struct {
	// Cell and Work are indices into the Laying.
	Cell, Work int
	// Where leads from the mm of the work's shape to the top. Its Scale is not 1
	// where drawn lines were scaled to a place of another size.
	Where Transform
}

// Misfit tells why a place stays empty though a design was chosen for it.
type Misfit struct {
	Cell string // the id of the place
	Why  Unfit
	// Design is the name of the design, of the shape Drawn; both are empty where it is
	// not there any more.
	Design string
	Drawn  motif.ShapeKind
	// Err is why its line work cannot be made, for Unmade.
	Err error
}

// Unfit is why a design cannot lie in a place.
type Unfit string

// Gone is a design that is not among those given; OtherShape one with drawn lines, for
// another shape; HalfTurns a quarter turn in a rectangle and Turned any turn in a
// triangle; Unmade one whose motif does not fit.
const (
	Gone       Unfit = "gone"
	OtherShape Unfit = "other-shape"
	HalfTurns  Unfit = "half-turns"
	Turned     Unfit = "turned"
	Unmade     Unfit = "unmade"
)

// shapeSlack is the difference in mm at which two measures of a shape are the same:
// they come from sums and square roots of what was typed.
const shapeSlack = 0.01

// Lay puts the chosen designs in their places. A design lies as it is where its
// shape is that of the place, a square in a square on point turned by an eighth, a
// half-square triangle in a setting triangle turned to fit. Where the size or the
// shape is another, a design that is nothing but a ready motif is fitted anew, so
// that its spacing stays true; one with drawn lines is scaled where the shape is
// similar, or stretched where it is ruler work in a rectangle. A place over which a line lies stays empty. What cannot be laid is told in
// Misfits and OverMisfits. The quilt must be valid. Cost
// O(places + lines of each design in each shape).
func (q Quilt) Lay(designs Designs) Laying { return q.LayAfter(Laying{}, designs) }

// LayAfter is Lay where the top was laid before: lines over it that stay as they are are not
// made anew, since a feather round a border takes some tenths of a second.
func (q Quilt) LayAfter(before Laying, designs Designs) Laying {
	l := Laying{Cells: q.Cells()}
	if l.overs = q.overs(); l.overs == before.overs {
		l.Overs, l.OverMisfits = before.Overs, before.OverMisfits
	} else {
		l.layOver(q)
	}
	made := map[workKey]fitting{}
	for i, c := range l.Cells {
		choice := q.Choice(c)
		if choice.Design == "" || q.Covered(c) {
			continue
		}
		key := workKey{choice.Design, c.Shape}
		f, done := made[key]
		if !done {
			f = l.fit(designs, choice.Design, c.Shape)
			made[key] = f
		}
		turn, why := f.quarterTurn(choice.QuarterTurns, c.Shape)
		if why != "" {
			d := designs[choice.Design]
			l.Misfits = append(l.Misfits, Misfit{c.ID, why, d.Name, d.Shape.Kind, f.err})
			continue
		}
		l.Placed = append(l.Placed, Placed{Cell: i, Work: f.work, Where: c.Where.After(turn)})
	}
	return l
}

type workKey struct {
	design string
	shape  motif.Shape
}

// fitting is a work with the way from its shape into that of a place.
type fitting struct {
	work  int
	shape motif.Shape
	alike likeness
	unfit Unfit
	err   error
}

// fit adds to the laying the work of a design in a shape.
func (l *Laying) fit(designs Designs, id string, s motif.Shape) fitting {
	d, known := designs[id]
	if !known {
		return fitting{unfit: Gone}
	}
	alike, similar := likenessOf(d.Shape, s)
	same := similar && math.Abs(alike.scale-1)*s.W <= shapeSlack
	own := same || similar && !d.ready()
	if !own {
		fitted, ruled := d.stretched(s)
		switch {
		case ruled:
			d = fitted
		case d.ready():
			d.Shape = s
		default:
			return fitting{unfit: OtherShape}
		}
		alike = likeness{scale: 1}
	}
	// The work is that of the design laid before, if it lies as it is again.
	for i, w := range l.Works {
		if w.Own && own && w.Design.ID == d.ID {
			return fitting{work: i, shape: d.Shape, alike: alike}
		}
	}
	pieces, err := d.Work()
	if err != nil {
		return fitting{unfit: Unmade, err: err}
	}
	l.Works = append(l.Works, Work{Design: d, Pieces: pieces, Own: own})
	return fitting{work: len(l.Works) - 1, shape: d.Shape, alike: alike}
}

// ready tells that a design is nothing but a ready motif, which can be fitted anew.
func (d Design) ready() bool { return d.Recipe != nil && len(d.Lines) == 0 }

// quarterTurn returns the way from the work's shape into that of a place, with the
// turns that were chosen. A rectangle takes half turns only and a triangle none.
func (f fitting) quarterTurn(turns int, to motif.Shape) (Transform, Unfit) {
	if f.unfit != "" {
		return Transform{}, f.unfit
	}
	switch to.Kind {
	case motif.Rectangle:
		if turns%2 != 0 {
			return Transform{}, HalfTurns
		}
	case motif.HalfSquare, motif.SettingTriangle:
		if turns != 0 {
			return Transform{}, Turned
		}
	}
	turn := f.alike.turn + float64(turns)*math.Pi/2
	return about(middle(f.shape), middle(to), f.alike.scale, turn), ""
}

// Lines returns all ideal lines on the top in mm: of each place the outline and the
// seams as pieces that may be travelled, then the lines of its design. The Block of
// a piece is the id of its place. A side that two places share whole comes once,
// with the first. Cost O(points).
func (l Laying) Lines() []motif.Piece {
	work := make(map[int]Placed, len(l.Placed))
	for _, p := range l.Placed {
		work[p.Cell] = p
	}
	var out []motif.Piece
	seen := map[[2]geom.Point]bool{}
	for i, c := range l.Cells {
		for _, side := range c.Shape.OutlinePieces() {
			side.Path, side.Block = c.Where.Path(side.Path), c.ID
			if key := sideKey(side.Path); !seen[key] {
				seen[key] = true
				out = append(out, side)
			}
		}
		if p, ok := work[i]; ok {
			out = append(out, l.linesOf(p)...)
		}
	}
	return append(out, l.linesOver()...)
}

// sideKey is the same for a side walked either way; places are told apart to 0.01 mm.
func sideKey(pl geom.Polyline) [2]geom.Point {
	at := func(p geom.Point) geom.Point {
		return geom.Pt(math.Round(p.X/shapeSlack), math.Round(p.Y/shapeSlack))
	}
	a, b := at(pl[0]), at(pl[len(pl)-1])
	if b.X < a.X || b.X == a.X && b.Y < a.Y {
		a, b = b, a
	}
	return [2]geom.Point{a, b}
}

func (l Laying) linesOf(p Placed) []motif.Piece {
	pieces := l.Works[p.Work].Pieces
	out := make([]motif.Piece, len(pieces))
	for i, piece := range pieces {
		piece.Path = p.Where.Path(piece.Path)
		piece.Length *= p.Where.Scale
		piece.Block = l.Cells[p.Cell].ID
		out[i] = piece
	}
	return out
}

// Placements returns the ways from a design's own mm to every place in which it
// lies in its own shape: where a trace over the block's line is seen when she steps
// back. Places to which its motif was fitted anew are left out, since the line is
// another there. Cost O(places), whatever the length of the trace.
func (l Laying) Placements(design string) []Placed {
	var out []Placed
	for _, p := range l.Placed {
		if w := l.Works[p.Work]; w.Own && w.Design.ID == design {
			out = append(out, p)
		}
	}
	return out
}
