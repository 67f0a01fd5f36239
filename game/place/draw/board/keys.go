package board

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/sketch"
)

// Steps of the keyboard in mm.
const keyStep = 1.0

// Key takes a key pressed on the cloth. With the ruler the arrows lead a cross from
// dot to dot, with shift by a millimetre, and Enter sets a dot. With lines chosen
// the arrows move them, or the point chosen, by a millimetre; Enter goes on to the
// next point, with shift to the one before; Delete removes.
func (b Board) Key(name string, shift bool) Board {
	switch {
	case arrows[name] != geom.Point{}:
		return b.arrow(arrows[name], shift)
	case name == "Enter" && b.Tool == Ruler:
		b.Said = words.Msg{}
		if !b.Cross && len(b.Chain) == 0 {
			return b.crossed()
		}
		return b.SetDot()
	case name == "Enter" && b.Tool == Change && shift:
		return b.NextNode(-1)
	case name == "Enter" && b.Tool == Change:
		return b.NextNode(1)
	case name == "Delete" || name == "Backspace":
		switch {
		case len(b.Chain) > 0:
			return b.Undo()
		case b.Node >= 0:
			return b.DropPoint()
		}
		return b.Delete()
	}
	return b
}

var arrows = map[string]geom.Point{
	"ArrowLeft": {X: -1}, "ArrowRight": {X: 1}, "ArrowUp": {Y: -1}, "ArrowDown": {Y: 1},
}

func (b Board) arrow(way geom.Point, shift bool) Board {
	switch b.Tool {
	case Ruler:
		if !b.Cross {
			return b.crossed()
		}
		if shift {
			b.At = r2.Add(b.At, r2.Scale(keyStep, way))
		} else {
			b.At = b.toward(way)
		}
	case Change:
		step := r2.Scale(keyStep, way)
		if b.Chosen >= 0 && b.Node >= 0 {
			path := b.Design.Lines[b.Chosen].Path
			moved, err := sketch.MoveNode(path, b.Node, r2.Add(path[3*b.Node], step))
			if err != nil {
				b.Said = words.Why(err)
				return b
			}
			return b.withPath(b.Chosen, moved, "arrows")
		}
		if b.Chosen != None {
			return b.mapped(b.paths(), sketch.Translate(step.X, step.Y), "arrows")
		}
	}
	return b
}

// crossed shows the cross, on the first dot, or where the line in hand has come to.
func (b Board) crossed() Board {
	b.Cross = true
	if n := len(b.Chain); n > 0 {
		b.At = b.Chain[n-1]
	} else if targets := b.targets(); len(targets) > 0 {
		b.At = targets[0]
	}
	return b
}

// toward returns the nearest dot in a direction: among those within 60 degrees of
// it, the one for which the way there and the way aside are least together.
func (b Board) toward(way geom.Point) geom.Point {
	best, found := math.Inf(1), b.At
	for _, p := range b.targets() {
		d := r2.Sub(p, b.At)
		ahead, aside := r2.Dot(d, way), math.Abs(r2.Cross(way, d))
		if ahead < 0.5 || aside > ahead*math.Sqrt(3) {
			continue
		}
		if cost := ahead + 2*aside; cost < best {
			best, found = cost, p
		}
	}
	return found
}
