package route

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// BreakTurn is the change of direction in radians from which a hand turns rather than
// goes on: 45 degrees, less what rounding to micrometres leaves. A move is what it does
// in between.
const BreakTurn = math.Pi/4 - 1e-6

// Hand tells where a hand goes on from one step to the next in one move. It turns at
// BreakTurn or more, but for a bend of a line at its own crossing; along a ruler at
// geom.CornerTurn, since the ruler is laid anew; and from lines of one kind to another,
// as from the hand's to the ruler's or into the ditch, another move begins.
type Hand struct{ n *network }

// NewHand returns the hand that sews along g. Cost O(lines log lines).
func NewHand(g plane.Graph) Hand { return Hand{&network{g: g, dirs: newCompass(g), air: -1}} }

// GoesOn tells whether step b, which follows a, is of the same move.
func (h Hand) GoesOn(a, b Step) bool {
	return a.Way != Jump && b.Way != Jump && !h.n.breaks(a.arrives(), b.leaves())
}

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

// breaks tells whether a move ends where a hand comes in along dart a's line and leaves
// along dart b.
func (n *network) breaks(a, b int32) bool {
	kind := n.g.Edges[a/2].Kind
	if kind != n.g.Edges[b/2].Kind {
		return true
	}
	turn := n.dirs.turn(a, b)
	if kind == plane.Ruler {
		return turn >= geom.CornerTurn
	}
	return turn >= BreakTurn && n.follows()[a] != b
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
			if math.Abs(geom.TurnAngle(path[i-1], path[i], path[i+1])) >= BreakTurn {
				count++
			}
		}
	}
	return count
}

// moves counts the moves that steps make, see Hand: one, and one more after each break,
// corner and stop.
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
