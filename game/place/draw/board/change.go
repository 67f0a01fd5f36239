package board

import (
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/sketch"
)

// held is what a pointer drags.
type held struct {
	kind    grip
	index   int // of the point in the line, for a node or a handle
	from    geom.Point
	paths   []geom.Spline // all drawn lines as they were, for a move of the whole
	changed bool
}

// HoldsNothing tells that the pointer went down on empty cloth with lines to be
// changed: a drag then moves the view.
func (b Board) HoldsNothing() bool { return b.Tool == Change && b.held.kind == nothing }

type grip int

const (
	nothing grip = iota
	pulling      // the first leg of a ruler line
	point        // a node or a handle
	whole        // the chosen line or lines
	corner       // a corner of the photo
)

// take chooses what lies under p: a point of the chosen line, else a line.
func (b Board) take(p geom.Point) Board {
	b.lastKey = ""
	b.Rev++
	if b.Chosen >= 0 {
		path := b.Design.Lines[b.Chosen].Path
		if i, ok := sketch.Grab(path, p, b.grabReach(), b.Node); ok && !b.nearerLine(p, geom.Dist(path[i], p)) {
			b.Node = sketch.NodeOf(i)
			b.spot = path.Nearest(p)
			b.held = held{kind: point, index: i}
			return b
		}
	}
	hit, ok := sketch.Pick(b.paths(), p, b.grabReach())
	if !ok {
		b.Chosen, b.Node, b.held = None, None, held{}
		return b
	}
	if b.Chosen != All && hit.Line != b.Chosen {
		b.Chosen, b.Node = hit.Line, None
	}
	b.spot = hit.Spot
	b.held = held{kind: whole, from: p, paths: b.paths()}
	return b
}

// nearerLine tells whether another line lies nearer to p than d mm, where p is too
// far from a point of the chosen line to mean it without doubt.
func (b Board) nearerLine(p geom.Point, d float64) bool {
	if d <= b.reach() {
		return false
	}
	hit, ok := sketch.Pick(b.paths(), p, d)
	return ok && hit.Line != b.Chosen && hit.Dist < d
}

func (b Board) paths() []geom.Spline {
	out := make([]geom.Spline, len(b.Design.Lines))
	for i, l := range b.Design.Lines {
		out[i] = l.Path
	}
	return out
}

// dragStart in pixels is how far a pointer goes before a press on a line becomes a
// move of it: a tap is not quite still.
const dragStart = 6.0

// drag moves what is held to p. The whole drag is one step for undo.
func (b Board) drag(p geom.Point) Board {
	h := b.held
	switch {
	case h.kind == whole && (h.changed || geom.Dist(p, h.from) > dragStart*b.Pixel):
		m := sketch.Translate(p.X-h.from.X, p.Y-h.from.Y)
		b = b.mapped(h.paths, m, "drag")
	case h.kind == point:
		path, err := b.moved(h.index, p)
		if err != nil {
			b.Said = words.Why(err)
			return b
		}
		b = b.withPath(b.Chosen, path, "drag")
	default:
		return b
	}
	b.held.changed = true
	return b
}

// moved is the chosen line with point i moved to p; its ends snap to what is near.
func (b Board) moved(i int, p geom.Point) (geom.Spline, error) {
	path := b.Design.Lines[b.Chosen].Path
	k := sketch.NodeOf(i)
	if i == 3*k {
		if k == 0 || i == len(path)-1 {
			p = b.snappedBut(p)
		}
		return sketch.MoveNode(path, k, p)
	}
	keep, err := sketch.JointAt(path, k)
	if err != nil {
		return nil, err
	}
	return sketch.MoveHandle(path, i, p, keep)
}

// snappedBut snaps to the targets but those of the chosen line itself.
func (b Board) snappedBut(p geom.Point) geom.Point {
	other := b
	other.Design.Lines = nil
	for i, l := range b.Design.Lines {
		if i != b.Chosen {
			other.Design.Lines = append(other.Design.Lines, l)
		}
	}
	other.Work = nil
	return other.snapped(p)
}

// withPath gives line i another path. Dots stay where they were, as places, on a
// line whose corners they are, and go on a line that has been bent.
func (b Board) withPath(i int, path geom.Spline, key string) Board {
	lines := b.lines()
	lines[i].Path = path
	lines[i].Dots = dotsOf(lines[i], b.Design.Lines[i])
	return b.withLines(lines, key)
}

// mapped moves the chosen lines; paths are all lines as they were before.
func (b Board) mapped(paths []geom.Spline, m sketch.Affine, key string) Board {
	lines := b.lines()
	for i := range lines {
		if b.Chosen == All || b.Chosen == i {
			lines[i].Path = paths[i].Map(m.Apply)
			lines[i].Dots = dotsOf(lines[i], b.Design.Lines[i])
		}
	}
	return b.withLines(lines, key)
}
