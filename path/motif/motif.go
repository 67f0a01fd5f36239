// Package motif holds the ready motifs: for each, the line that is sewn, made
// from a few meaningful parameters in millimetres. It gives ids and values; what they
// are called stands in game/words.
package motif

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"unthreaded/path/geom"
)

// Param is one measure of a motif that the quilter sets.
type Param struct {
	// ID names the parameter in Values and records.
	ID string
	// Unit is "mm", "degrees", "%", or "" for a count or a choice.
	Unit string
	// Usual is the value for a block of about 150 mm; Motif.Usual fits it to a
	// shape. All values are multiples of Step above Min.
	Min, Max, Step, Usual float64
	// Choices are the codes of a choice, whose value is the index of the code.
	Choices []string
}

// Values are parameters by their ID.
type Values map[string]float64

// Motif is one of the library: it is fitted to the shape of a block by Fit, and
// rehearsed by what Rehearsal returns.
type Motif struct {
	// ID names the motif in records; it never changes. Former are other IDs under
	// which it was kept.
	ID     string
	Former []string
	// Group is the group in which it is offered.
	Group  Group
	Params []Param
	// Continuous tells that the line is one piece, sewn without a stop. Closed
	// tells that each piece ends where it starts, Smooth that pieces have no corner.
	Continuous, Closed, Smooth bool
	// rows tells that the motif lies in rows, which run along the block's sides
	// unless the parameter "way" has them level.
	rows bool
	// inStrip is the usual size in a strip over its height, 0 for one that grows as in
	// blocks, or lies there in one row; strips takes its place where it is set.
	inStrip float64
	strips  stripSizes
	// lacks are the shapes for which it is not offered, and why.
	lacks lacks
	// fit makes the line in a field with values that are complete and in range.
	fit func(f field, v Values) ([]Piece, error)
	// figure is one repeat of its rows; nil where they are no rows of a figure.
	figure func() figure
	// around lays it round a border; nil where it is none.
	around func(b Border, v Values) (Laid, error)
	// row makes the row in which it is rehearsed; nil for the usual one.
	row *row
	// at is the place in the group.
	at int
	// Version counts the ways in which it has been drawn, from 1; before is the one
	// before this.
	Version int
	before  *Motif
}

// In returns the motif as it was drawn in a version; 0 counts as 1, since what was
// kept before there were versions names none. False means that there is none.
func (m Motif) In(version int) (Motif, bool) {
	version = max(1, version)
	for at := &m; at != nil; at = at.before {
		if at.Version == version {
			old := *at
			old.ID, old.Group, old.at, old.row = m.ID, m.Group, m.at, m.row
			return old, true
		}
	}
	return Motif{}, false
}

// MaxPoints is the largest number of points that Fit returns in all its pieces.
const MaxPoints = 200_000

// Usual returns values that suit a shape: lengths grow with the square root of
// its size, so that a large block is filled neither coarsely nor endlessly.
//
// A strip, such as a border or a sashing, holds one row.
func (p Motif) Usual(s Shape) Values {
	grow := math.Sqrt(2 * s.inradius() / 150)
	w, h := s.Box()
	strip := (p.rows || p.inStrip > 0) && p.strips == nil && math.Max(w, h) > 2.5*math.Min(w, h)
	v := Values{}
	for _, q := range p.Params {
		if strip && (q.ID == "height" || q.ID == "size") {
			grow = math.Min(w, h) / q.Usual
			if p.inStrip > 0 {
				grow *= p.inStrip
			}
		}
		x := q.Usual
		if q.Unit == "mm" {
			x *= grow
			if rule, ok := p.strips[q.ID]; ok && s.strip() {
				x = rule.size(math.Min(w, h))
			}
			x = q.Min + math.Round((x-q.Min)/q.Step)*q.Step
		}
		v[q.ID] = math.Max(q.Min, math.Min(q.Max, x))
	}
	return v
}

// Fit returns the lines of the motif in the shape less a margin of so many mm on
// all sides; a Continuous motif is one piece. Parameters that v does not name
// have their Usual value. It fails on a shape, a margin or a value that is out of
// range, and on values that leave no room in the shape or make more than MaxPoints
// points, or a line that should be smooth bend as sharply as a corner; the message
// says what to change. Equal arguments give equal lines.
func (p Motif) Fit(s Shape, margin float64, v Values) ([]Piece, error) {
	if err := s.Validate(); err != nil {
		return nil, fmt.Errorf("%s: %w", p.ID, err)
	}
	if err := s.checkInset(margin); err != nil {
		return nil, fmt.Errorf("%s: %w", p.ID, err)
	}
	if why := p.Lack(s); why != "" {
		return nil, &Refusal{Unfit, string(why), s, 0, 0, fmt.Errorf("%s: it does not lie well in a %s (%s): take another motif", p.ID, s.Kind, why)}
	}
	all, err := p.complete(s, v)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.ID, err)
	}
	lie := asIs(s)
	if p.rows && all["way"] == 0 {
		lie = ownWay(s)
	}
	pieces, err := p.fit(newField(lie.shape, margin), all)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.ID, err)
	}
	points := 0
	for i := range pieces {
		pieces[i].Path = pieces[i].Path.Map(lie.back).Compact()
		points += len(pieces[i].Path)
		if p.Smooth && pieces[i].Curvature().Corners > 0 {
			return nil, &Refusal{TooSharp, "", s, 0, 0, fmt.Errorf("%s: these values bend the line too sharply to be smooth in the %s: take a larger or a less narrow repeat", p.ID, s.describe())}
		}
	}
	if points > MaxPoints {
		return nil, &Refusal{TooLong, "", s, 0, 0, fmt.Errorf("%s: the line has %d points, too many: take larger measures", p.ID, points)}
	}
	return pieces, nil
}

// complete returns v with its gaps filled, or the first value, by name, that is
// unknown, not in range or not whole.
func (p Motif) complete(s Shape, v Values) (Values, error) {
	all := p.Usual(s)
	ids := make([]string, 0, len(v))
	for id := range v {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	for _, id := range ids {
		i := slices.IndexFunc(p.Params, func(q Param) bool { return q.ID == id })
		if i < 0 {
			return nil, fmt.Errorf("it has no parameter %q", id)
		}
		q, x := p.Params[i], v[id]
		if !(x >= q.Min && x <= q.Max) {
			return nil, fmt.Errorf("%q is %g%s: it takes %g to %g", q.ID, x, spaced(q.Unit), q.Min, q.Max)
		}
		if q.Unit == "" {
			if math.Abs(x-math.Round(x)) > 1e-6 {
				return nil, fmt.Errorf("%q is %g: it takes a whole number", q.ID, x)
			}
			x = math.Round(x)
		}
		all[id] = x
	}
	return all, nil
}

func spaced(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

// one returns a continuous line as the one piece of a motif.
func one(name string, path geom.Polyline) []Piece { return []Piece{{Name: name, Path: path}} }
