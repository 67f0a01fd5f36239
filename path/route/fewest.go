package route

import (
	"math"

	"unthreaded/path/geom"
)

// breakTurn is the change of direction in radians from which a hand turns rather than
// goes on: 45 degrees, less what rounding to micrometres leaves. A move is what it does
// in between.
const breakTurn = math.Pi/4 - 1e-6

// moveUnit is what a break counts where the fewest moves are asked for: more than all
// turning of a route together.
const moveUnit int64 = 1 << 44

// follows returns for each dart the one by which its line goes on as it was drawn, where
// the line crosses itself; -1 elsewhere. Lines that say nothing of their pieces' places
// have none.
func (n *network) follows() []int32 {
	if n.next != nil {
		return n.next
	}
	type key struct {
		node          int
		block, stroke string
		part          int
	}
	at := map[key][]int32{}
	for i, e := range n.g.Edges {
		if e.Stroke == "" || e.From == e.To {
			continue
		}
		for end, v := range [2]int{e.U, e.V} {
			k := key{v, e.Block, e.Stroke, e.Part}
			at[k] = append(at[k], int32(2*i+end))
		}
	}
	n.next = make([]int32, 2*len(n.g.Edges))
	for d := range n.next {
		n.next[d] = -1
	}
	place := func(d int32) float64 {
		if e := n.g.Edges[d/2]; d%2 == 0 {
			return e.From
		} else {
			return e.To
		}
	}
	for _, darts := range at {
		if len(darts) <= 2 {
			continue
		}
		for _, a := range darts {
			for _, b := range darts {
				if a != b && math.Abs(place(a)-place(b)) < sameMM/1000 {
					n.next[a] = b
				}
			}
		}
	}
	return n.next
}

// breaks tells whether a hand that comes in along dart a's line and leaves along dart b
// turns sharply: not where the line bends at its own crossing.
func (n *network) breaks(a, b int32) bool {
	return n.dirs.turn(a, b) >= breakTurn && n.follows()[a] != b
}

// corners counts the sharp turns within the pieces that steps walk, which no choice of
// the way avoids.
func (n *network) corners(steps []Step) int {
	count := 0
	for _, s := range steps {
		if s.Way == Jump {
			continue
		}
		path := n.g.Edges[s.Edge].Path
		for i := 1; i+1 < len(path); i++ {
			if math.Abs(geom.TurnAngle(path[i-1], path[i], path[i+1])) >= breakTurn {
				count++
			}
		}
	}
	return count
}

// moves counts the moves that steps make: one, and one more after each sharp turn and
// each stop.
func (n *network) moves(steps []Step) int {
	count := n.corners(steps)
	for i, s := range steps {
		switch {
		case s.Way == Jump:
		case i == 0 || steps[i-1].Way == Jump || n.breaks(steps[i-1].arrives(), s.leaves()):
			count++
		}
	}
	return count
}
