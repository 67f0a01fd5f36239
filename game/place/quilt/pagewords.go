package quilt

import (
	"fmt"
	"slices"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// topSentence says what to do next.
func topSentence(r Room) string {
	t := r.Top
	c, chosen := t.Cell()
	empty := 0
	for _, x := range t.Laying.Cells {
		if (x.Kind == quilt.Block || x.Kind == quilt.Alternate) && t.Quilt.Choice(x).Design == "" {
			empty++
		}
	}
	switch {
	case t.Quilt.ID == "":
		return "Your quilt top will lie here, with your lines on every block. Begin a new quilt."
	case r.Finding != nil:
		return "Finding the order of the rows. This takes a few seconds; go on working meanwhile, or stop it."
	case r.Away.Back:
		return awaySentence(r)
	case chosen && t.Choice().Design == "":
		return fmt.Sprintf("Choose what is quilted in %s.", c.Name)
	case chosen:
		return chosenText(r) + " Choose another design for it, or go on to the next place."
	case empty > 0:
		return fmt.Sprintf("Tap a block and choose its design. %s still empty.", plural(empty, "block is", "blocks are"))
	case len(t.Measures.Wide) > 0:
		return fmt.Sprintf("%s wider than your batting allows. Look at %s.", plural(len(t.Measures.Wide), "gap is", "gaps are"), thatOrThem(len(t.Measures.Wide)))
	}
	return "Every block has its lines. Tap a place to change it, or step back to see the whole."
}

func thatOrThem(n int) string {
	if n == 1 {
		return "it"
	}
	return "them"
}

// chosenText tells what lies in the place chosen.
func chosenText(r Room) string {
	t := r.Top
	c, ok := t.Cell()
	if !ok {
		return ""
	}
	names := r.NamesOf([]string{t.Choice().Design})
	if len(names) == 0 {
		return capital(c.Name) + ": no design yet."
	}
	text := capital(c.Name) + ": " + names[0]
	if n := t.Choice().QuarterTurns; n > 0 {
		text += fmt.Sprintf(", turned by %s", []string{"a quarter", "a half", "three quarters"}[n-1])
	}
	return text + "."
}

// totals says in words what the top adds up to.
func totals(q quilt.Quilt, say top.Say) []place.Row {
	t := q.Totals()
	rows := []place.Row{{ID: "Finished top", Value: say(t.Top.W) + " x " + say(t.Top.H)}}
	if len(q.Borders) > 0 {
		rows = append(rows, place.Row{ID: "Without borders", Value: say(t.Inner.W) + " x " + say(t.Inner.H)})
	}
	slices.SortStableFunc(t.Counts, func(a, b quilt.KindCount) int { return rank(a.Kind) - rank(b.Kind) })
	for _, k := range t.Counts {
		var sizes []string
		for _, s := range k.Shapes {
			sizes = append(sizes, shapeText(s, say))
		}
		rows = append(rows, place.Row{ID: capital(k.Kind.Name()), Value: fmt.Sprintf("%d", k.Count), Note: strings.Join(sizes, "; ")})
	}
	if q.Setting == quilt.OnPoint {
		rows = append(rows,
			place.Row{ID: "Diagonal of a block", Value: say(t.DiagonalMM)},
			place.Row{ID: "For the side triangles", Value: squares(t.Side, say), Note: "each cut twice from corner to corner into four"},
			place.Row{ID: "For the corner triangles", Value: squares(t.Corner, say), Note: "each cut once from corner to corner into two"})
	}
	return rows
}

// rank puts the blocks first, then what sets them, then what frames them.
func rank(k quilt.Kind) int {
	i := slices.Index([]quilt.Kind{quilt.Block, quilt.Alternate, quilt.SettingTriangle, quilt.CornerTriangle,
		quilt.Strip, quilt.Cornerstone, quilt.HalfCornerstone}, k)
	if i < 0 {
		return 100 // borders
	}
	return i
}

// squares tells which squares are cut for triangles, seams of 1/4 in included.
func squares(t quilt.Triangles, say top.Say) string {
	if t.Count == 0 {
		return "none"
	}
	return fmt.Sprintf("cut %s of %s", plural(t.Squares, "square", "squares"), say(t.CutMM))
}

// shapeText names the finished size of a shape.
func shapeText(s motif.Shape, say top.Say) string {
	switch s.Kind {
	case motif.Square, motif.OnPoint:
		return say(s.W) + " square"
	case motif.Rectangle:
		return say(s.W) + " x " + say(s.H)
	case motif.HalfSquare:
		return "short sides " + say(s.W)
	}
	return "long side " + say(s.W)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
