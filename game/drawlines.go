package game

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"unthreaded/game/board"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
)

// lineControl does what is asked for with the drawn lines.
func (d Drawing) lineControl(c Control) (Drawing, bool) {
	b := d.Board
	switch c.Name {
	case "choose":
		n, err := strconv.Atoi(c.Item)
		if err != nil || n < 0 {
			return d, true
		}
		b = b.ChooseLine(n)
	case "choose-all":
		b = b.ChooseLine(board.All)
	case "delete-line":
		b = b.Delete()
	case "kind":
		b = b.SetKind(c.Value)
	case "add-point":
		b = b.AddPoint()
	case "drop-point":
		b = b.DropPoint()
	case "next-point":
		b = b.NextNode(1)
	case "smooth-point":
		b = b.Round()
	case "corner-point":
		b = b.Sharp()
	case "split":
		b = b.Split()
	case "join":
		b = b.Join()
	case "close-up":
		b = b.CloseUp()
	case "copies":
		d.Copies = c.Value == "on"
	case "mirror-across":
		b = b.MirrorAcross(d.Copies)
	case "mirror-down":
		b = b.MirrorDown(d.Copies)
	case "turned":
		if v, err := strconv.ParseFloat(strings.TrimSpace(c.Value), 64); err == nil && math.Abs(v) <= 360 {
			d.Turned = v
		}
	case "turn":
		b = b.Turn(d.Turned, d.Copies)
	case "repeats":
		if n, err := strconv.Atoi(c.Value); err == nil {
			d.Repeats = n
		}
	case "repeat":
		b = b.Repeat(d.Repeats, d.Pitch)
	case "fit":
		b = b.FitToBlock()
	default:
		return d, false
	}
	d.Board = b
	return d, true
}

// Sewn tells whether a design's lines can be rehearsed at once: they are one line,
// beside seams.
func Sewn(pieces []motif.Piece) (sewn []motif.Piece) {
	return slices.DeleteFunc(slices.Clone(pieces), func(p motif.Piece) bool { return p.Seam })
}

// KindNames are the kinds of line in the words of the page.
var KindNames = [][2]string{
	{string(plane.Sewn), "sewn by hand movement"},
	{string(plane.Ruler), "sewn along the ruler"},
	{string(plane.Seam), "seam, may be travelled"},
}
