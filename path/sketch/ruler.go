package sketch

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// FootOffset is the distance in mm from the needle to the ruler's edge with a ruler
// foot: 1/4 in (common practice; feet differ, so measure yours).
const FootOffset = 6.35

// Side is a side of a line, seen in the direction of travel.
type Side int

// The sides. y grows downwards: of a line that runs to the right, the right side is
// below.
const (
	Left  Side = -1
	Right Side = 1
)

// Edge is where the ruler's edge lies for one straight part of a line.
type Edge struct {
	// First and Last are the pieces of the line that the part consists of.
	First, Last int
	// From and To are the ends of the edge in the direction of travel, in mm.
	From, To geom.Point
	// NoRoom tells that the turns at the ends leave nothing of the edge: the foot
	// does not fit between ruler and corner. From and To are then one place.
	NoRoom bool
}

// mitreLimit is the longest mitre in offsets: the usual limit of SVG (SVG 1.1,
// 11.4, stroke-miterlimit), reached at a turn of 151 degrees.
const mitreLimit = 4

// straightRuler is how far in mm a piece may bow to be sewn along a ruler.
const straightRuler = 0.05

// runsOn is the turn in radians below which two straight pieces are one part.
const runsOn = 1e-3

// RulerEdges returns where the ruler's edge lies, offset mm beside each straight
// part of the line, on the given side. Where two straight parts meet, the needle
// pivots, and both edges end where they cross: shortened on the inner side of the
// turn, lengthened on the outer side; where that is farther than mitreLimit offsets
// from the pivot they end square to it. Curved pieces have no edge. Cost O(pieces).
func RulerEdges(s geom.Spline, offset float64, side Side) ([]Edge, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if !(offset >= 0) || math.IsInf(offset, 0) {
		return nil, fmt.Errorf("an offset of %v mm", offset)
	}
	if side != Left && side != Right {
		return nil, fmt.Errorf("a line has no side %d", side)
	}
	parts := straightParts(s)
	out := make([]Edge, len(parts))
	for i, p := range parts {
		next := parts[(i+1)%len(parts)]
		prev := parts[(i+len(parts)-1)%len(parts)]
		from := -mitre(turnBetween(s, prev, p), offset, side)
		to := mitre(turnBetween(s, p, next), offset, side)
		out[i] = p.edge(s, offset, side, from, to)
	}
	return out, nil
}

// part is a straight part of a line: its pieces and unit direction.
type part struct {
	first, last int
	along       geom.Point
}

func straightParts(s geom.Spline) []part {
	var out []part
	for i := 0; i < s.Pieces(); i++ {
		a, d := s[3*i], s[3*i+3]
		if !s.IsStraight(i, straightRuler) || geom.Dist(a, d) < sameDot {
			continue
		}
		along := r2.Unit(r2.Sub(d, a))
		if n := len(out) - 1; n >= 0 && out[n].last == i-1 && angleBetween(out[n].along, along) < runsOn {
			out[n].last = i
			continue
		}
		out = append(out, part{i, i, along})
	}
	return out
}

// turnBetween returns the turn in radians, positive to the right, where part a meets
// part b in a node of the line; 0 where it does not.
func turnBetween(s geom.Spline, a, b part) float64 {
	meets := b.first == a.last+1 || s.Closed() && a.last == s.Pieces()-1 && b.first == 0
	if !meets {
		return 0
	}
	return math.Atan2(r2.Cross(a.along, b.along), r2.Dot(a.along, b.along))
}

// mitre returns by how much, in mm, the edge before a pivot is longer than the line:
// less than 0 on the inner side of the turn. The edge after it is as much longer.
func mitre(turn, offset float64, side Side) float64 {
	outer := turn*float64(side) < 0
	if outer && math.Cos(turn/2)*mitreLimit < 1 {
		return 0
	}
	d := offset * math.Tan(math.Abs(turn)/2)
	if outer {
		return d
	}
	return -d
}

// edge returns the edge of the part with its ends moved along it by from and to mm.
func (p part) edge(s geom.Spline, offset float64, side Side, from, to float64) Edge {
	a, b := s[3*p.first], s[3*p.last+3]
	beside := r2.Scale(offset*float64(side), geom.Pt(-p.along.Y, p.along.X))
	length := geom.Dist(a, b)
	noRoom := length+to <= from
	if noRoom {
		// Turns of nearly half a circle would lead far away.
		from = math.Max(0, math.Min(length, (from+length+to)/2))
		to = from - length
	}
	return Edge{
		First: p.first, Last: p.last, NoRoom: noRoom,
		From: r2.Add(r2.Add(a, beside), r2.Scale(from, p.along)),
		To:   r2.Add(r2.Add(b, beside), r2.Scale(to, p.along)),
	}
}
