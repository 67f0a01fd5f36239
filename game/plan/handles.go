package plan

import (
	"sort"

	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// HandleAt returns the handle within so many mm of a place, the nearer one of two.
func (k Desk) HandleAt(p geom.Point, reach float64) Handle {
	best, d := NoHandle, reach
	for _, h := range []Handle{StartHandle, ExitHandle} {
		if q, ok := k.PlaceOf(h); ok && geom.Dist(p, q) < d {
			best, d = h, geom.Dist(p, q)
		}
	}
	return best
}

// PlaceOf returns where a handle is on the cloth; false where there is no route. Under a
// rule that leaves an end open it is where the route shown has it.
func (k Desk) PlaceOf(h Handle) (geom.Point, bool) {
	moves := k.Moves()
	if len(moves) == 0 {
		return geom.Point{}, false
	}
	if h == ExitHandle {
		path := moves[len(moves)-1].Path
		return path[len(path)-1], true
	}
	return moves[0].Path[0], true
}

// Take takes hold of a handle; to drag an end that the rule leaves open sets it.
//
// Taking NoHandle lets go; the other routes and the reasons are worked out then.
func (k Desk) Take(h Handle) Desk {
	dragged := k.held != NoHandle && h == NoHandle
	k.held = h
	if dragged {
		return k.plan()
	}
	return k
}

// Held returns the handle in hand.
func (k Desk) Held() Handle { return k.held }

// Drag moves the handle in hand to a place and plans anew.
func (k Desk) Drag(p geom.Point) Desk {
	switch k.held {
	case StartHandle:
		k.start = p
		if k.Rule == route.Free {
			k.Rule = route.StartOnly
		}
	case ExitHandle:
		k.exit = p
		if k.Rule == route.Free || k.Rule == route.StartOnly {
			if q, ok := k.PlaceOf(StartHandle); ok && k.Rule == route.Free {
				k.start = q
			}
			k.Rule = route.Fixed
		}
	default:
		return k
	}
	return k.plan()
}

// Step moves a handle to the next junction (by +1) or the one before (by -1), row
// by row from the upper left, for those who choose by keyboard.
func (k Desk) Step(h Handle, by int) Desk {
	at, ok := k.PlaceOf(h)
	if !ok || len(k.base.Nodes) == 0 {
		return k
	}
	order := append([]geom.Point(nil), k.base.Nodes...)
	sort.Slice(order, func(i, j int) bool {
		if order[i].Y != order[j].Y {
			return order[i].Y < order[j].Y
		}
		return order[i].X < order[j].X
	})
	nearest := 0
	for i, q := range order {
		if geom.Dist(q, at) < geom.Dist(order[nearest], at) {
			nearest = i
		}
	}
	n := len(order)
	return k.Take(h).Drag(order[((nearest+by)%n+n)%n]).Take(NoHandle)
}
