package plan

import (
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// Try does what a change among the reasons proposes, where the desk can do it:
// moving an end, allowing a seam or a stop. Adding or dropping a line is for the
// drawing.
func (k Desk) Try(i int) Desk {
	if i < 0 || i >= len(k.Reasons.Changes) || !k.CanTry(i) {
		return k
	}
	switch c := k.Reasons.Changes[i]; c.Kind {
	case route.AllowSeam:
		k.Seams = true
	case route.AllowStop:
		k.Stops = true
	default:
		k = k.withEnds(c.Start, c.Exit)
	}
	k.Pick = 0
	return k.plan()
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
