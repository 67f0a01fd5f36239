package game

import (
	"math"
	"strconv"
	"strings"

	"unthreaded/game/board"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// lineControl does what is asked for with the drawn lines; false means that the
// name is no such control.
func (d Drawing) lineControl(c Control) (Drawing, bool) {
	if act, known := lineActions[c.Name]; known {
		d.Board = act(d, d.Board)
		return d, true
	}
	switch c.Name {
	case "choose":
		if n, err := strconv.Atoi(c.Item); err == nil && n >= 0 {
			d.Board = d.Board.ChooseLine(n)
		}
	case "kind":
		d.Board = d.Board.SetKind(c.Value)
	case "copies":
		d.Copies = c.Value == "on"
	case "turned":
		if v, err := strconv.ParseFloat(strings.TrimSpace(c.Value), 64); err == nil && math.Abs(v) <= 360 {
			d.Turned = v
		}
	case "repeats":
		if n, err := strconv.Atoi(c.Value); err == nil {
			d.Repeats = n
		}
	case "row-way":
		d = d.rowWay(c.Value == "down")
	default:
		return d, false
	}
	return d, true
}

// row is the step from one copy in a row to the next.
func (d Drawing) row() geom.Point {
	if d.Down {
		return geom.Pt(0, d.Pitch)
	}
	return geom.Pt(d.Pitch, 0)
}

// rowWay lays the row down or sideways; a distance of the whole block goes with it.
func (d Drawing) rowWay(down bool) Drawing {
	w, h := d.Board.Design.Shape.Box()
	from, to := w, h
	if !down {
		from, to = h, w
	}
	if d.Pitch == from && down != d.Down {
		d.Pitch = to
	}
	d.Down = down
	return d
}

// lineActions are the buttons for the drawn lines.
var lineActions = map[string]func(d Drawing, b board.Board) board.Board{
	"choose-all":    func(_ Drawing, b board.Board) board.Board { return b.ChooseLine(board.All) },
	"delete-line":   func(_ Drawing, b board.Board) board.Board { return b.Delete() },
	"add-point":     func(_ Drawing, b board.Board) board.Board { return b.AddPoint() },
	"drop-point":    func(_ Drawing, b board.Board) board.Board { return b.DropPoint() },
	"next-point":    func(_ Drawing, b board.Board) board.Board { return b.NextNode(1) },
	"smooth-point":  func(_ Drawing, b board.Board) board.Board { return b.Round() },
	"corner-point":  func(_ Drawing, b board.Board) board.Board { return b.Sharp() },
	"split":         func(_ Drawing, b board.Board) board.Board { return b.Split() },
	"join":          func(_ Drawing, b board.Board) board.Board { return b.Join() },
	"close-up":      func(_ Drawing, b board.Board) board.Board { return b.CloseUp() },
	"mirror-across": func(d Drawing, b board.Board) board.Board { return b.MirrorAcross(d.Copies) },
	"mirror-down":   func(d Drawing, b board.Board) board.Board { return b.MirrorDown(d.Copies) },
	"turn":          func(d Drawing, b board.Board) board.Board { return b.Turn(d.Turned, d.Copies) },
	"repeat":        func(d Drawing, b board.Board) board.Board { return b.Repeat(d.Repeats, d.row()) },
	"smoother":      func(_ Drawing, b board.Board) board.Board { return b.Refit(1) },
	"closer":        func(_ Drawing, b board.Board) board.Board { return b.Refit(-1) },
	"fit":           func(_ Drawing, b board.Board) board.Board { return b.FitToBlock() },
}

// KindNames are the kinds of line in the words of the page.
var KindNames = [][2]string{
	{string(plane.Sewn), "sewn by hand movement"},
	{string(plane.Ruler), "sewn along the ruler"},
	{string(plane.Seam), "seam, may be travelled"},
}
