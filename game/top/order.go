package top

import (
	"math"
	"slices"
	"strings"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/route"
)

// Order is how the rows of a top are sewn, one after the other.
type Order struct {
	// Done tells that the order was asked for, Trouble why there is none.
	Done    bool
	Trouble error
	Legs    []Leg
	// Route is the way round the whole top.
	Route route.Route
}

// Leg is how one row is sewn.
type Leg struct {
	// Row is an index into Rows.
	Row int
	// Places are its places in the order of its first pass.
	Places []int
	// Way leads to the row from the end of the one before; it is empty at the
	// first. Stops counts the places on it where she ties off and starts again.
	Way   geom.Polyline
	Stops int
	// Path is the way of the needle in its first pass, through the middles of its
	// places; Begin and End are where the row begins and leaves.
	Path       geom.Polyline
	Begin, End geom.Point
	// Twice tells that the row is sewn out and back.
	Twice bool
}

// seamPrice is what a mm of travel in the ditch costs, in mm of sewing twice: nearly
// nothing, but it is sewn too.
const seamPrice = 0.2

// orderTolerance in mm is how far lines are simplified when the rows are ordered, a
// thread's width: it is crossings that count then, and lengths, which stay.
const orderTolerance = 0.2

// orderLines returns the lines of the top but for the inner sides of the borders: the
// blocks that end there have these sides too, and walk along them.
func (t Top) orderLines() []motif.Piece {
	border := map[string]quilt.Cell{}
	for _, c := range t.Laying.Cells {
		if c.Shape.Kind == motif.Rectangle && strings.HasPrefix(string(c.Kind), "border-") {
			border[c.ID] = c
		}
	}
	inner := func(p motif.Piece) bool {
		c, ok := border[p.Block]
		if !ok || !p.Seam || len(p.Path) != 2 {
			return false
		}
		// The lower side of a border's shape looks inwards.
		a, b := into(c.Where, p.Path[0]), into(c.Where, p.Path[1])
		return math.Abs(a.Y-c.Shape.H) < 0.01 && math.Abs(b.Y-c.Shape.H) < 0.01
	}
	return slices.DeleteFunc(t.Laying.Lines(), inner)
}

// sewnRows returns the rows in which something is to be sewn.
func (t Top) sewnRows() []int {
	sewn := map[int]bool{}
	for _, p := range t.Laying.Placed {
		for _, piece := range t.Laying.Works[p.Work].Pieces {
			if !piece.Seam {
				sewn[p.Cell] = true
				break
			}
		}
	}
	var out []int
	for r, row := range t.Rows {
		for _, i := range row {
			if sewn[i] {
				out = append(out, r)
				break
			}
		}
	}
	return out
}

// leg tells how a row is sewn, from the steps of the whole way.
func (t Top) leg(g plane.Graph, found route.TopRoute, n, row int, pass route.RowPass) Leg {
	l := Leg{Row: row, Twice: pass.Through == route.OutAndBack}
	at := func(step int) geom.Point {
		if step < len(found.Steps) {
			return g.Nodes[found.Steps[step].From]
		}
		return g.Nodes[found.Exit]
	}
	l.Begin, l.End = at(pass.First), g.Nodes[found.Steps[pass.After-1].To]
	if n > 0 {
		for _, s := range found.Steps[found.Rows[n-1].After:pass.First] {
			if s.Way == route.Jump {
				l.Stops++
			}
			l.Way = append(l.Way, g.Nodes[s.From], g.Nodes[s.To])
		}
	}
	l.Places = slices.Clone(t.Rows[row])
	if pass.FromRight {
		slices.Reverse(l.Places)
	}
	middles := make(geom.Polyline, len(l.Places))
	for i, c := range l.Places {
		middles[i] = t.Middle(c)
	}
	l.Path = append(append(geom.Polyline{l.Begin}, middles...), l.End)
	if l.Twice {
		l.Path = l.Path[:len(l.Path)-1] // it comes back to where it began
	}
	l.Way, l.Path = l.Way.Compact(), l.Path.Compact()
	return l
}
