package steps

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// MoveKind tells what a move does.
type MoveKind string

// The kinds of move: sewing lines; travel along seams, hidden in the ditch; sewing
// over a line once more; a stop, tied off and begun elsewhere.
const (
	SewMove   MoveKind = "sew"
	DitchMove MoveKind = "ditch"
	AgainMove MoveKind = "again"
	StopMove  MoveKind = "stop"
)

// Form is how a move looks.
type Form string

// The forms: a straight line, an arc that bends to one side, a wave that bends to
// both, a ring that comes back to where it began.
const (
	Straight Form = "straight"
	Arc      Form = "arc"
	Wave     Form = "wave"
	Ring     Form = "ring"
)

// Heading is the direction of a move from its beginning to its end, to the eye.
type Heading string

// The headings; Nowhither is that of a ring.
const (
	Nowhither Heading = ""
	Right     Heading = "right"
	DownRight Heading = "down-right"
	Down      Heading = "down"
	DownLeft  Heading = "down-left"
	Left      Heading = "left"
	UpLeft    Heading = "up-left"
	Up        Heading = "up"
	UpRight   Heading = "up-right"
)

// Move is what a hand does in one go: from where it begins to where it turns, goes on
// along another kind of line, or stops (see route.Hand). A corner that was drawn is a
// turn.
type Move struct {
	// Kind is AgainMove where all of it is sewn already.
	Kind MoveKind `json:"kind"`
	// First and Last are the steps in which it begins and ends; a step with a drawn
	// corner in it is shared by two moves.
	First int `json:"first"`
	Last  int `json:"last"`
	// Lines names the strokes that it sews, each once, in order.
	Lines []string `json:"lines,omitempty"`
	Ruler bool     `json:"ruler,omitempty"`
	// Again are the parts of it that are sewn already, as shares of its length; none
	// where all or nothing is.
	Again   []Part        `json:"again,omitempty"`
	Form    Form          `json:"form"`
	Heading Heading       `json:"heading,omitempty"`
	Length  float64       `json:"length_mm"` // 0 for a stop
	Path    geom.Polyline `json:"-"`         // in mm; the two ends of a stop
}

// Part is a part of a move, as shares of its length.
type Part struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

// AgainMM returns the length in mm of what is sewn already.
func (m Move) AgainMM() float64 {
	if m.Kind == AgainMove {
		return m.Length
	}
	sum := 0.0
	for _, p := range m.Again {
		sum += (p.To - p.From) * m.Length
	}
	return sum
}

// kindOf returns the kind of move that a step belongs to.
func kindOf(w route.Way) MoveKind {
	switch w {
	case route.Hidden:
		return DitchMove
	case route.Again:
		return AgainMove
	case route.Jump:
		return StopMove
	}
	return SewMove
}

// Moves returns the moves that steps through g make. Cost O(points).
func Moves(g plane.Graph, steps []route.Step) []Move {
	hand := route.NewHand(g)
	var out []Move
	for i, s := range steps {
		if s.Way == route.Jump {
			out = append(out, Move{Kind: StopMove, First: i, Last: i, Path: geom.Polyline{g.Nodes[s.From], g.Nodes[s.To]}})
			continue
		}
		goesOn := i > 0 && hand.GoesOn(steps[i-1], s)
		e := g.Edges[s.Edge]
		for k, part := range parts(e.Path, s.Reverse) {
			if k > 0 || !goesOn {
				out = append(out, Move{Kind: kindOf(s.Way), First: i})
			}
			out[len(out)-1].add(i, s.Way, e, part)
		}
	}
	for i := range out {
		out[i].finish()
	}
	return out
}

// finish makes shares of the parts sewn already, and looks at the move.
func (m *Move) finish() {
	if m.Kind != SewMove || m.Length == 0 {
		m.Again = nil
	}
	for k, p := range m.Again {
		m.Again[k] = Part{p.From / m.Length, p.To / m.Length}
	}
	m.look()
}

// add makes the move go on along a part of step i, of an edge of the graph. As long as
// it grows its parts sewn already are in mm.
func (m *Move) add(i int, w route.Way, e plane.Edge, part geom.Polyline) {
	from := m.Length
	m.Last, m.Length = i, m.Length+part.Length()
	m.Path = append(m.Path, part...)
	m.Ruler = m.Ruler || e.Kind == plane.Ruler
	if n := len(m.Lines); e.Kind.Must() && (n == 0 || m.Lines[n-1] != e.Stroke) {
		m.Lines = append(m.Lines, e.Stroke)
	}
	if w == route.Sew {
		m.Kind = SewMove
	}
	if w == route.Again {
		if n := len(m.Again) - 1; n >= 0 && m.Again[n].To == from {
			m.Again[n].To = m.Length
		} else {
			m.Again = append(m.Again, Part{from, m.Length})
		}
	}
}

// parts cuts a path at its corners.
func parts(path geom.Polyline, reverse bool) []geom.Polyline {
	if reverse {
		path = path.Reversed()
	}
	var out []geom.Polyline
	first := 0
	for i := 1; i < len(path)-1; i++ {
		if math.Abs(geom.TurnAngle(path[i-1], path[i], path[i+1])) >= BreakTurn {
			out = append(out, path[first:i+1])
			first = i
		}
	}
	return append(out, path[first:])
}

// straightShare is the share of its length by which a move may leave the straight
// line between its ends and still be straight, wavy the angle in radians that it
// bends to either side to be a wave. Judgements of ours.
const (
	straightShare = 0.02
	wavy          = math.Pi / 9
)

// look measures the move and tells its form and heading.
func (m *Move) look() {
	if m.Kind == StopMove {
		m.Form, m.Heading = Straight, headingOf(m.Path[0], m.Path[1])
		return
	}
	m.Path = m.Path.Compact()
	m.Length = m.Path.Length()
	a, z := m.Path[0], m.Path[len(m.Path)-1]
	if geom.Dist(a, z) < sameLine && m.Length > 0 {
		m.Form = Ring
		return
	}
	m.Heading = headingOf(a, z)
	off, most := 0.0, [2]float64{}
	for i, p := range m.Path {
		_, q := geom.NearestOnSegment(p, a, z)
		off = math.Max(off, geom.Dist(p, q))
		if i > 0 && i < len(m.Path)-1 {
			t := geom.TurnAngle(m.Path[i-1], p, m.Path[i+1])
			if t > 0 {
				most[0] += t
			} else {
				most[1] -= t
			}
		}
	}
	switch {
	case off <= straightShare*m.Length:
		m.Form = Straight
	case math.Min(most[0], most[1]) >= wavy:
		m.Form = Wave
	default:
		m.Form = Arc
	}
}

// headingOf returns the heading from a to z.
func headingOf(a, z geom.Point) Heading {
	if geom.Dist(a, z) < sameLine {
		return Nowhither
	}
	eighth := int(math.Round(math.Atan2(z.Y-a.Y, z.X-a.X)/(math.Pi/4)+8)) % 8
	return [8]Heading{Right, DownRight, Down, DownLeft, Left, UpLeft, Up, UpRight}[eighth]
}

// Seen returns the move with its length, form and heading read off its path anew, as
// after it was laid elsewhere.
func Seen(m Move) Move {
	m.look()
	return m
}

// Stretches returns the parts of the move that are sewn in one way, as shares of its
// length; none of a stop.
func (m Move) Stretches() []route.Stretch {
	way := map[MoveKind]route.Way{DitchMove: route.Hidden, AgainMove: route.Again}[m.Kind]
	if m.Kind == StopMove {
		return nil
	}
	var out []route.Stretch
	at := 0.0
	add := func(to float64, w route.Way) {
		if to > at {
			out = append(out, route.Stretch{From: at, To: to, Way: w})
			at = to
		}
	}
	for _, p := range m.Again {
		add(p.From, way)
		add(p.To, route.Again)
	}
	add(1, way)
	return out
}
