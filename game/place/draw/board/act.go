package board

import (
	"math"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// ChooseLine chooses a drawn line by its number, All or None.
func (b Board) ChooseLine(i int) Board {
	if i >= len(b.Design.Lines) || i < All || (i == All && len(b.Design.Lines) == 0) {
		return b
	}
	b = b.SetTool(Change)
	b.Chosen, b.Node = i, None
	if i >= 0 {
		b.spot = b.Design.Lines[i].Path.Nearest(b.Design.Lines[i].Path[0])
	}
	b.Rev++
	return b
}

// NextNode goes on to the next point of the chosen line, or back, round and round.
func (b Board) NextNode(by int) Board {
	if b.Chosen < 0 {
		return b
	}
	path := b.Design.Lines[b.Chosen].Path
	n := path.Pieces() + 1
	b.Node = ((b.Node+by)%n + n) % n
	b.spot = path.Nearest(path[3*b.Node])
	b.At = path[3*b.Node]
	b.Rev++
	return b
}

// Delete removes the chosen lines.
func (b Board) Delete() Board {
	var rest []quilt.Line
	for i, l := range b.Design.Lines {
		if b.Chosen != All && b.Chosen != i {
			rest = append(rest, l)
		}
	}
	if len(rest) == len(b.Design.Lines) {
		return b
	}
	return b.withLines(rest, "")
}

// SetKind says how the chosen lines are sewn: "sewn", "ruler" or "seam".
func (b Board) SetKind(kind string) Board {
	lines := b.lines()
	for i := range lines {
		if b.Chosen == All || b.Chosen == i {
			lines[i].Kind = kind
		}
	}
	return b.withLines(lines, "")
}

// onPath gives the chosen line the path that change makes of it, or says why not.
func (b Board) onPath(change func(geom.Spline) (geom.Spline, error)) Board {
	if b.Chosen < 0 {
		b.Said = words.Of("draw.choose-line")
		return b
	}
	path, err := change(b.Design.Lines[b.Chosen].Path)
	if err != nil {
		b.Said = words.Why(err)
		return b
	}
	return b.withPath(b.Chosen, path, "")
}

// AddPoint adds a point where the chosen line was touched last.
func (b Board) AddPoint() Board {
	return b.onPath(func(s geom.Spline) (geom.Spline, error) {
		i, t := b.spot.Piece, b.spot.T
		if t < 0.02 || t > 0.98 {
			t = 0.5 // at a point already: the middle of the piece beside it
		}
		out, _, err := sketch.InsertNode(s, i, t)
		return out, err
	})
}

// DropPoint removes the point that was touched last.
func (b Board) DropPoint() Board {
	if b.Node < 0 {
		b.Said = words.Of("draw.tap-point")
		return b
	}
	next := b.onPath(func(s geom.Spline) (geom.Spline, error) { return sketch.DeleteNode(s, b.Node) })
	next.Node = None
	return next
}

// Round makes the point touched last smooth, Sharp a corner.
func (b Board) Round() Board {
	if b.Node < 0 {
		b.Said = words.Of("draw.tap-point")
		return b
	}
	return b.onPath(func(s geom.Spline) (geom.Spline, error) { return sketch.MakeSmooth(s, b.Node) })
}

// Sharp makes the point touched last a corner.
func (b Board) Sharp() Board {
	if b.Node < 0 {
		b.Said = words.Of("draw.tap-point")
		return b
	}
	return b.onPath(func(s geom.Spline) (geom.Spline, error) { return sketch.MakeCorner(s, b.Node) })
}

// Split cuts the chosen line in two where it was touched last.
func (b Board) Split() Board {
	if b.Chosen < 0 {
		return b.onPath(nil)
	}
	l := b.Design.Lines[b.Chosen]
	first, second, err := l.Path.Split(b.spot.Piece, b.spot.T)
	if err != nil {
		b.Said = words.Of("draw.tap-cut")
		return b
	}
	lines := b.lines()
	lines[b.Chosen].Path, lines[b.Chosen].Dots = first, nil
	lines = append(lines, quilt.Line{Name: b.nextName(b.Book.Say("draw.line")), Kind: l.Kind, Path: second})
	for _, i := range []int{b.Chosen, len(lines) - 1} {
		lines[i].Dots = cornersAsDots(lines[i])
	}
	return b.withLines(lines, "")
}

// joinReach in mm is how far apart the ends of two lines may be to be joined.
const joinReach = 10.0

// Join joins the chosen line to the one whose end is nearest to one of its own.
func (b Board) Join() Board {
	if b.Chosen < 0 {
		return b.onPath(nil)
	}
	mine := b.Design.Lines[b.Chosen].Path
	best, other := math.Inf(1), None
	for i, l := range b.Design.Lines {
		if i == b.Chosen {
			continue
		}
		for _, p := range []geom.Point{l.Path[0], l.Path[len(l.Path)-1]} {
			for _, q := range []geom.Point{mine[0], mine[len(mine)-1]} {
				if d := geom.Dist(p, q); d < best {
					best, other = d, i
				}
			}
		}
	}
	if other == None || best > joinReach {
		b.Said = words.Of("draw.no-end-near", words.LengthMM(joinReach))
		return b
	}
	joined, err := sketch.JoinEnds(mine, b.Design.Lines[other].Path, joinReach)
	if err != nil {
		b.Said = words.Why(err)
		return b
	}
	lines := b.lines()
	lines[b.Chosen].Path = joined
	lines[b.Chosen].Dots = cornersAsDots(lines[b.Chosen])
	lines = append(lines[:other], lines[other+1:]...)
	if other < b.Chosen {
		b.Chosen--
	}
	b.Node = None
	return b.withLines(lines, "")
}

// CloseUp joins the end of the chosen line to its start.
func (b Board) CloseUp() Board {
	return b.onPath(func(s geom.Spline) (geom.Spline, error) { return sketch.Close(s, joinReach) })
}

// dotsOf returns the dots of a line whose path has changed from that of old: those
// at its corners where they were at corners before.
func dotsOf(l, old quilt.Line) []float64 {
	if len(old.Dots) == 0 {
		return nil
	}
	return cornersAsDots(l)
}

// cornersAsDots returns the arc lengths of the nodes of a ruler line, nil of
// others and of one that has a bent piece.
func cornersAsDots(l quilt.Line) []float64 {
	if l.Kind != string(plane.Ruler) {
		return nil
	}
	for i := 0; i < l.Path.Pieces(); i++ {
		if !l.Path.IsStraight(i, 0.01) {
			return nil
		}
	}
	return geom.Polyline(l.Path.Nodes()).Cumulative()
}
