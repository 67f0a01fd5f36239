package board

import (
	"errors"
	"fmt"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// Reach is how near in screen pixels a pointer must come to a thing to take it, and
// FingerReach how near a finger: half of 44 pixels, the target size of WCAG 2.2,
// 2.5.5. Where several are in reach the nearest is taken.
const (
	Reach       = 14.0
	FingerReach = 22.0
)

// reach returns Reach in mm on the cloth.
func (b Board) reach() float64 { return Reach * b.Pixel }

// grabReach returns in mm how near the pointer in use must come to a thing to take it.
func (b Board) grabReach() float64 {
	if b.Finger {
		return FingerReach * b.Pixel
	}
	return b.reach()
}

// Down takes the beginning of a pointer's press at p, Move its way, Up its end.
func (b Board) Down(p geom.Point) Board {
	b.Cross, b.Said = false, words.Msg{}
	b.At = b.snapped(p)
	if taken, ok := b.takeCorner(p); ok {
		return taken
	}
	switch b.Tool {
	case Pencil:
		b.Stroke = geom.Polyline{p}
	case Ruler:
		if len(b.Chain) == 0 {
			b = b.begun()
			b.held = held{kind: pulling}
		}
	case Change:
		b = b.take(p)
	}
	return b
}

// Move takes the pointer's way while it is down.
func (b Board) Move(p geom.Point) Board {
	switch {
	case b.held.kind == corner:
		b = b.dragCorner(p)
	case b.Tool == Pencil && len(b.Stroke) > 0:
		b.Stroke = append(b.Stroke, p)
	case b.Tool == Ruler:
		b.At = b.snapped(p)
	case b.Tool == Change:
		b = b.drag(p)
	}
	return b
}

// Up takes the end of the press.
func (b Board) Up() Board {
	if b.held.kind == corner {
		b.held, b.lastKey = held{}, ""
		return b
	}
	switch b.Tool {
	case Pencil:
		return b.pencilled()
	case Ruler:
		first := b.held.kind == pulling
		b.held = held{}
		if first && same(b.At, b.Chain[0]) {
			return b // the first dot of a line; the next press goes on from it
		}
		return b.SetDot()
	case Change:
		b.held, b.lastKey = held{}, ""
	}
	return b
}

// Unpress gives up what the press in hand has begun; the dots of a ruler line that
// were set before stay.
func (b Board) Unpress() Board {
	chain := b.Chain
	if b.held.kind == pulling {
		chain = nil
	}
	b = b.Cancel()
	b.Chain = chain
	return b
}

// Cancel gives up what is in hand.
func (b Board) Cancel() Board {
	if b.held.changed {
		b = b.Undo()
		b.future = nil
	}
	b.Stroke, b.Chain, b.unset, b.held = nil, nil, nil, held{}
	return b
}

// Escape ends what is in hand as leaving the board does: a stroke of the pencil where it has
// come to, a ruler line at its last dot. What is dragged goes back.
func (b Board) Escape() Board {
	if b.Tool == Pencil && len(b.Stroke) > 0 && !b.Cornering() {
		return b.Up()
	}
	return b.Unpress().Finish()
}

// pencilled makes a line of the stroke in hand.
func (b Board) pencilled() Board {
	stroke := b.Stroke
	b.Stroke = nil
	hand := handLine{stroke: stroke, pixel: b.Pixel, level: usualFit}
	path, fitted, err := b.fitted(hand)
	if errors.Is(err, sketch.ErrDot) {
		b.Said = words.Of("draw.was-dot")
		return b
	}
	if err != nil {
		b.Said = words.Why(err)
		return b
	}
	hand.name = b.nextName(b.Book.Say("draw.line"))
	hand.fits[usualFit] = fit{path, fitted}
	b.hand, b.Fitted, b.HasFitted = hand, fitted, true
	return b.add(quilt.Line{Name: hand.name, Kind: string(plane.Sewn), Path: path})
}

// add puts a line on the board.
func (b Board) add(l quilt.Line) Board { return b.withLines(append(b.lines(), l), "") }

// nextName numbers the lines of a kind.
func (b Board) nextName(word string) string {
	for n := len(b.Design.Lines) + 1; ; n++ {
		name := fmt.Sprintf("%s %d", word, n)
		if !b.named(name) {
			return name
		}
	}
}

func (b Board) named(name string) bool {
	for _, l := range b.Design.Lines {
		if l.Name == name {
			return true
		}
	}
	return false
}

// SetDot sets the next dot of the ruler line where the cross or the pointer is. On
// the dot set last it finishes the line, on the first one it closes it.
func (b Board) SetDot() Board {
	n := len(b.Chain)
	switch {
	case n == 0:
		return b.begun()
	case same(b.At, b.Chain[n-1]):
		return b.Finish()
	default:
		b.Chain, b.unset, b.future = append(b.Chain[:n:n], b.At), nil, nil
		if same(b.At, b.Chain[0]) {
			return b.Finish()
		}
	}
	return b
}

// begun sets the first dot of a ruler line.
func (b Board) begun() Board {
	b.Chain, b.unset, b.future = []geom.Point{b.At}, nil, nil
	return b
}

// Finish makes a line of the dots in hand.
func (b Board) Finish() Board {
	chain := b.Chain
	b.Chain, b.unset = nil, nil
	if len(chain) < 2 {
		return b
	}
	path, err := sketch.DotToDot(chain, false)
	if err != nil {
		b.Said = words.Why(err)
		return b
	}
	l := quilt.Line{Name: b.nextName(b.Book.Say("draw.ruler-line")), Kind: string(plane.Ruler), Path: path, Dots: dotsAlong(chain)}
	return b.add(l)
}

// dotsAlong returns the arc lengths of the corners of a chain.
func dotsAlong(chain []geom.Point) []float64 {
	pl := geom.Polyline(chain)
	return pl.Cumulative()
}

// same tells whether two places are one dot.
func same(p, q geom.Point) bool { return geom.Dist(p, q) < 0.05 }

// targets are the places that ends of lines and dots of the ruler snap to: the
// dots, the corners and the middle of the block, the ends of seams and lines.
func (b Board) targets() []geom.Point {
	out := append([]geom.Point{}, b.Dots...)
	w, h := b.Design.Shape.Box()
	out = append(out, geom.Pt(w/2, h/2))
	if b.Design.Shape.Kind != "circle" {
		outline := b.Design.Shape.Outline()
		out = append(out, outline[:len(outline)-1]...)
	}
	for _, p := range b.Work {
		if len(p.Path) > 0 && (p.Seam || p.Ruler) {
			out = append(out, p.Path[0], p.Path[len(p.Path)-1])
		}
	}
	for _, l := range b.Design.Lines {
		out = append(out, l.Path[0], l.Path[len(l.Path)-1])
	}
	return append(out, b.Chain...)
}

// snapped returns the target that p is near, or p itself.
func (b Board) snapped(p geom.Point) geom.Point {
	targets := b.targets()
	if i, d := sketch.NearestDot(targets, p); i >= 0 && d <= b.grabReach() {
		return targets[i]
	}
	return p
}
