package plan

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Next is a line that can follow in the person's own order.
type Next struct {
	Edge int
	// Text names the line and where it leads.
	Text string
}

// NextLines returns the lines that go on from where her order stands, for those who
// choose by keyboard; before the first line those at the start of the route shown.
func (k Desk) NextLines() []Next {
	at := k.Route().Start
	if k.Own.Found != nil {
		at = k.Own.Found.Route.Exit
	}
	if at == route.Nowhere {
		return nil
	}
	var out []Next
	for i, e := range k.Graph.Edges {
		if e.U == at {
			out = append(out, Next{i, k.leg(i, false)})
		}
		if e.V == at && e.V != e.U {
			out = append(out, Next{i, k.leg(i, true)})
		}
	}
	return out
}

// Add takes a line into her order.
func (k Desk) Add(edge int) Desk {
	if !k.Own.Asked || edge < 0 || edge >= len(k.Graph.Edges) {
		return k
	}
	return k.withOwn(append(append([]int(nil), k.Own.Lines...), edge))
}

// Order tells the route shown step by step in words.
func (k Desk) Order() []string {
	var out []string
	for _, s := range k.Route().Steps {
		if s.Way == route.Jump {
			out = append(out, "stop, tie off and start again elsewhere")
			continue
		}
		text := k.leg(s.Edge, s.Reverse)
		switch s.Way {
		case route.Again:
			text += ", sewn once more"
		case route.Hidden:
			text += ", hidden in the ditch"
		}
		out = append(out, text)
	}
	return out
}

// leg names a line and the direction in which it leads from its beginning to its
// end.
func (k Desk) leg(edge int, reverse bool) string {
	e := k.Graph.Edges[edge]
	from, to := e.Path[0], e.Path[len(e.Path)-1]
	if reverse {
		from, to = to, from
	}
	name := e.Stroke
	if e.Kind == plane.Seam && name == "" {
		name = "seam"
	}
	return name + " " + direction(from, to)
}

var directions = [8]string{
	"to the right", "to the lower right", "down", "to the lower left",
	"to the left", "to the upper left", "up", "to the upper right",
}

func direction(from, to geom.Point) string {
	if geom.Dist(from, to) < 1e-6 {
		return "round and back"
	}
	turn := math.Atan2(to.Y-from.Y, to.X-from.X) / (2 * math.Pi) // y grows downwards
	return directions[((int(math.Round(turn*8))%8)+8)%8]
}
