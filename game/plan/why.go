package plan

import (
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Work is what a way takes at the machine: MM stitched, stops at which thread is tied off
// and begun anew, and halts at which the needle stands while the cloth is turned.
type Work struct {
	MM           float64
	Stops, Halts int
}

// WorkOf returns what a route takes.
func WorkOf(r route.Route) Work {
	return Work{r.SewnMM + r.RetraceMM + r.SeamMM, r.Jumps, max(0, r.Moves-1-r.Jumps)}
}

// Offer is a change among the reasons by its index, with what the route takes now and
// after it, both found in the same way.
type Offer struct {
	Change    int
	Now, Then Work
}

// Offered works out what each change among the reasons comes to. Cost: a route for each.
func (k Desk) Offered() Desk {
	if k.Offers != nil || len(k.Reasons.Changes) == 0 {
		return k
	}
	now, err := k.plainly(k.Graph)
	if err != nil {
		return k
	}
	offers := []Offer{}
	for i, c := range k.Reasons.Changes {
		to := k
		switch c.Kind {
		case route.AddLine:
			to.Graph.Edges = append(slices.Clone(k.Graph.Edges), straight(k.Graph, c.From, c.To))
		case route.DropLine:
			to.Graph.Edges = slices.Delete(slices.Clone(k.Graph.Edges), c.Edge, c.Edge+1)
		default:
			to = k.tried(i).placed()
		}
		if r, err := to.plainly(to.Graph); err == nil {
			offers = append(offers, Offer{i, WorkOf(now), WorkOf(r)})
		}
	}
	k.Offers = offers
	return k
}

func straight(g plane.Graph, u, v int) plane.Edge {
	path := geom.Polyline{g.Nodes[u], g.Nodes[v]}
	return plane.Edge{U: u, V: v, Kind: plane.Sewn, Path: path, Length: path.Length()}
}

// plainly returns the least route round g, its moves as they come.
func (k Desk) plainly(g plane.Graph) (route.Route, error) {
	terms := k.Terms()
	terms.FewestMoves = false
	return route.Solve(g, terms)
}

// Try does what a change among the reasons proposes, where the desk can do it:
// moving an end, allowing a seam or a stop. Adding or dropping a line is for the
// drawing.
func (k Desk) Try(i int) Desk {
	if i < 0 || i >= len(k.Reasons.Changes) || !k.CanTry(i) {
		return k
	}
	k = k.tried(i)
	k.Pick = 0
	return k.plan()
}

// tried sets what a change proposes.
func (k Desk) tried(i int) Desk {
	switch c := k.Reasons.Changes[i]; c.Kind {
	case route.AllowSeam:
		k.Seams = true
	case route.AllowStop:
		k.Stops = true
	default:
		k = k.withEnds(c.Start, c.Exit)
	}
	return k
}

// Letter names change i on the cloth and in the list.
func Letter(i int) string { return string(rune('A' + i%26)) }

// HasSeams tells whether the drawing has seams to travel along.
func (k Desk) HasSeams() bool {
	for _, e := range k.base.Edges {
		if !e.Kind.Must() {
			return true
		}
	}
	return false
}

// CanTry tells whether Try can carry out a change.
func (k Desk) CanTry(i int) bool {
	switch k.Reasons.Changes[i].Kind {
	case route.AddLine, route.DropLine:
		return false
	}
	return true
}

// withEnds sets the rule and the places of the ends from junctions.
func (k Desk) withEnds(start, exit int) Desk {
	at := func(v int) (geom.Point, bool) {
		if v < 0 || v >= len(k.Graph.Nodes) {
			return geom.Point{}, false
		}
		return k.Graph.Nodes[v], true
	}
	if p, ok := at(start); ok {
		k.start = p
	}
	if p, ok := at(exit); ok {
		k.exit = p
		if k.Rule != route.Closed {
			k.Rule = route.Fixed
		}
	}
	return k
}
