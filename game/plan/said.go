package plan

import (
	"math"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Summary says in a sentence what the route shown adds; none where there is no route.
func (k Desk) Summary() words.Msg {
	r := k.Route()
	if len(r.Steps) == 0 {
		return words.Msg{}
	}
	again := 0
	for _, s := range r.Steps {
		if s.Way == route.Again {
			again++
		}
	}
	return words.Of("route.summary", again, words.LengthMM(r.RetraceMM), r.SeamMM > 0, words.LengthMM(r.SeamMM), r.Jumps)
}

// Because says in a few words why the route shown adds what it adds, and which of
// its steps that are. It is none where nothing is added.
func (k Desk) Because() words.Msg {
	r := k.Route()
	if r.Added < 0.5 {
		return words.Msg{}
	}
	why := words.Of("route.because-loose")
	switch {
	case k.Drawing.Row:
		why = words.Of("route.because-row")
	case len(k.Reasons.Odd) > 0:
		why = words.Of("route.because-odd", len(k.Reasons.Odd))
	}
	again, hidden := k.stepsOf(route.Again), k.stepsOf(route.Hidden)
	return words.Of("route.because", len(again), words.And(again), len(hidden), words.And(hidden), r.Jumps, why, r.Exact && !k.Drawing.Row)
}

// stepsOf returns the numbers of the steps of one way.
func (k Desk) stepsOf(w route.Way) []any {
	var steps []any
	for i, s := range k.Route().Steps {
		if s.Way == w {
			steps = append(steps, i+1)
		}
	}
	return steps
}

// Order tells the route shown step by step.
func (k Desk) Order() []words.Msg {
	if k.Moved() {
		return k.movesSaid()
	}
	var out []words.Msg
	for _, s := range k.Route().Steps {
		switch s.Way {
		case route.Jump:
			out = append(out, words.Of("route.step-stop"))
		case route.Again:
			out = append(out, words.Of("route.step-again", k.Leg(s.Edge, s.Reverse)))
		case route.Hidden:
			out = append(out, words.Of("route.step-hidden", k.Leg(s.Edge, s.Reverse)))
		default:
			out = append(out, k.Leg(s.Edge, s.Reverse))
		}
	}
	return out
}

// Leg names a line and the direction in which it leads from its beginning to its
// end.
func (k Desk) Leg(edge int, reverse bool) words.Msg {
	e := k.Graph.Edges[edge]
	from, to := e.Path[0], e.Path[len(e.Path)-1]
	if reverse {
		from, to = to, from
	}
	var name any = e.Stroke
	if e.Kind == plane.Seam && e.Stroke == "" {
		name = words.Of("route.seam")
	}
	return words.Of("route.leg", name, words.Of("route.to."+direction(from, to)))
}

// directions are the keys of the eight directions, from the right clockwise.
var directions = [8]string{"right", "lower-right", "down", "lower-left", "left", "upper-left", "up", "upper-right"}

func direction(from, to geom.Point) string {
	if geom.Dist(from, to) < 1e-6 {
		return "round"
	}
	turn := math.Atan2(to.Y-from.Y, to.X-from.X) / (2 * math.Pi) // y grows downwards
	return directions[((int(math.Round(turn*8))%8)+8)%8]
}

// Fact is a figure of a plan: its name, and its value as an argument of a message.
type Fact struct {
	Name  words.Msg
	Value any
}
