package plan

import (
	"fmt"
	"math"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// Own is the person's own order.
type Own struct {
	// Asked tells that taps on the cloth add to the order.
	Asked bool
	// Lines are the lines in her order, as indices of the graph.
	Lines []int
	// Found tells how the order does; nil as long as it is empty.
	Found *route.Findings
}

// TapReach is how near in mm a tap must come to a line.
const TapReach = 5.0

// AskOwn begins a new order, or puts it away.
func (k Desk) AskOwn(on bool) Desk {
	k.Own = Own{Asked: on}
	k.Rev++
	return k
}

// Tap adds the line nearest to a place to the order.
func (k Desk) Tap(p geom.Point) Desk {
	best, d := -1, TapReach
	for i, e := range k.Graph.Edges {
		for j := 1; j < len(e.Path); j++ {
			_, q := geom.NearestOnSegment(p, e.Path[j-1], e.Path[j])
			if dist := geom.Dist(p, q); dist < d {
				best, d = i, dist
			}
		}
	}
	if best < 0 {
		return k
	}
	lines := append(append([]int(nil), k.Own.Lines...), best)
	return k.withOwn(lines)
}

func (k Desk) withOwn(lines []int) Desk {
	k.Own.Lines, k.Own.Found = lines, nil
	k.Rev++
	if len(lines) == 0 {
		return k
	}
	if f, err := route.Check(k.Graph, k.rules(), lines); err == nil {
		k.Own.Found = &f
	}
	return k
}

// OwnSummary says how her order does, in words, with lengths in inches or mm.
func (k Desk) OwnSummary(inches bool) string {
	f := k.Own.Found
	if f == nil {
		return "Tap the lines on the cloth in the order in which you would sew them."
	}
	text := fmt.Sprintf("%s so far.", count(len(k.Own.Lines), "line", "lines"))
	if n := k.untaken(); n > 0 {
		return text + fmt.Sprintf(" %s to go.", count(n, "line", "lines")) + gapText(f, inches)
	}
	text = "All lines are sewn." + gapText(f, inches)
	if n := len(f.Doubled); n > 0 {
		text += fmt.Sprintf(" %s sewn twice.", count(n, "line is", "lines are"))
	}
	if f.More > 0.5 && !math.IsInf(f.More, 1) {
		return text + fmt.Sprintf(" The best route adds %s less.", words.Length(f.More, inches))
	}
	if math.IsInf(f.More, 1) {
		return text
	}
	return text + " No route adds less."
}

// untaken counts the lines to be sewn that are not in her order yet. Those that a
// way across runs along are not hers.
func (k Desk) untaken() int {
	taken := map[int]bool{}
	for _, e := range k.Own.Lines {
		taken[e] = true
	}
	n := 0
	for i, e := range k.Graph.Edges {
		if e.Kind.Must() && !taken[i] {
			n++
		}
	}
	return n
}

// gapText tells of breaks in the order.
func gapText(f *route.Findings, inches bool) string {
	var cost float64
	for _, g := range f.Gaps {
		cost += g.Cost
	}
	switch n := len(f.Gaps); {
	case n == 0:
		return ""
	case n == 1 && f.Gaps[0].Before == 0:
		return " It begins away from the start."
	case math.IsInf(cost, 1):
		return fmt.Sprintf(" It breaks off %s, with no way across.", times(n))
	default:
		return fmt.Sprintf(" It breaks off %s; the way across costs %s.", times(n), words.Length(cost, inches))
	}
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
