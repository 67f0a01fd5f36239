package game

import (
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/board"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/sketch"
)

// Drawing is the place where the lines of a block are drawn.
type Drawing struct {
	Board board.Board
	// boards holds the boards of the other designs of this visit, with their steps
	// for undo, by the design's ID.
	boards map[string]board.Board
	// fingers are the pointers that are down, in the order they came; pointer is the
	// one that draws, pinch what two of them hold, nil for none.
	fingers []finger
	pointer *int
	pinch   *pinch
	// Copies keeps the old lines when lines are mirrored or turned.
	Copies bool
	// MarkOn is where dots are being marked, Graduation the ruler's finest mark.
	MarkOn     string
	Graduation sketch.Graduation
	// Edge shows the ruler's edge beside ruler lines, on the left or the right.
	Edge     bool
	EdgeSide sketch.Side
	// zoom is how much larger than fitted the block is shown, about the place around.
	zoom   float64
	around geom.Point
	// pan is the place on the cloth that a drag on empty cloth holds, nil for none.
	pan *geom.Point
	// Turned, Repeats and Pitch are the angle in degrees and the row asked for, its
	// distance in mm.
	Turned  float64
	Repeats int
	Pitch   float64
	// Down lays the row downwards.
	Down bool
	// picking tells whether the pictures of the ready motifs are open.
	picking picking
	// Wrong says what is wrong with the field named by WrongField.
	Wrong, WrongField string
	// Previews are the ready motifs in the block on the board.
	Previews   []board.Preview
	previewKey previewKey
	// kept tells which state of the board was noted last, unkept is the time since which a change waits to be kept, 0 for none.
	kept   keptMark
	unkept float64
	// jot is what has been written down of the stroke in hand.
	jot jot
}

func newDrawing(u Units) Drawing {
	return Drawing{
		boards: map[string]board.Board{}, MarkOn: "sides", Graduation: graduationIn(u, sketch.EighthInch),
		EdgeSide: sketch.Right, zoom: 1, Turned: 90, Repeats: 3,
	}
}

// previewKey tells what previews were made for.
type previewKey struct {
	shape  motif.Shape
	margin float64
}

// previewed begins the previews anew if the block has another shape.
func (d Drawing) previewed() Drawing {
	key := previewKey{d.Board.Design.Shape, d.Board.Design.Margin}
	if key != d.previewKey && key.shape.W > 0 {
		d.Previews, d.previewKey = board.Unmade(), key
	}
	return d
}

// previewNext makes the next preview: one each frame, so that the page does not
// stand still for them all.
func (d Drawing) previewNext() Drawing {
	for i, pv := range d.Previews {
		if !pv.Made {
			d.Previews = slices.Clone(d.Previews)
			d.Previews[i] = pv.Make(d.previewKey.shape, d.previewKey.margin)
			break
		}
	}
	return d
}

// making tells whether previews are still to be made.
func (d Drawing) making() bool {
	return len(d.Previews) > 0 && slices.ContainsFunc(d.Previews, func(pv board.Preview) bool { return !pv.Made })
}

// boardMargin is the room in mm round the block on the screen.
const boardMargin = 12.0

// drawLaid fits the block to the screen, at most at three times its true size.
func (m Model) drawLaid() Model {
	w, h := m.Drawing.Board.Design.Shape.Box()
	if w == 0 {
		return m
	}
	lo, hi := geom.Pt(-boardMargin, -boardMargin), geom.Pt(w+boardMargin, h+boardMargin)
	size := m.Screen.TrueSize()
	zoom := math.Min(3, math.Min(m.Screen.W/((hi.X-lo.X)*size), m.Screen.H/((hi.Y-lo.Y)*size)))
	zoom = math.Max(0.02, zoom) * m.Drawing.zoom
	m.View = View{Scale: size * zoom, Zoom: zoom, TrueSize: size, SizeKnown: m.Screen.SizeKnown}
	at := r2.Scale(0.5, r2.Add(lo, hi))
	if m.Drawing.zoom > 1 {
		m.Drawing.aroundBlock()
		at = m.Drawing.around
	}
	m.View.Origin = geom.Pt(m.Screen.W/2-m.View.Scale*at.X, m.Screen.H/2-m.View.Scale*at.Y)
	m.Drawing.Board.Pixel = 1 / m.View.Scale
	m.Drawing = m.Drawing.previewed()
	return m
}

// drawKey takes a key that was pressed on the cloth; its name is c.Value, and c.Item
// is "shift" where that was held.
func (m Model) drawKey(c Control) (Model, []Effect) {
	switch c.Value {
	case "+", "-", "0":
		return m.zoomed(c.Value), nil
	}
	m.Drawing.Board = m.Drawing.Board.Key(c.Value, c.Item == "shift")
	return m.drawChanged()
}

// zoomed shows the block larger about the place touched last, smaller, or whole.
func (m Model) zoomed(how string) Model {
	d := &m.Drawing
	switch how {
	case "+":
		d.zoom = math.Min(MaxDrawZoom, d.zoom*1.5)
	case "-":
		d.zoom = math.Max(1, d.zoom/1.5)
	default:
		d.zoom = 1
	}
	w, h := d.Board.Design.Shape.Box()
	d.around = d.Board.At
	if d.around == (geom.Point{}) {
		d.around = geom.Pt(w/2, h/2)
	}
	return m.relaid()
}

// drawControl does what a control of the place asks for.
func (m Model) drawControl(c Control) (Model, []Effect) {
	d := &m.Drawing
	d.Wrong, d.WrongField = "", ""
	if next, effects, done := m.designControl(c); done {
		return next, effects
	}
	if next, done := m.lengthControl(c); done {
		return next.relaid().drawChanged()
	}
	if next, done := d.lineControl(c); done {
		m.Drawing = next
		return m.drawChanged()
	}
	if c.Name == "zoom" {
		return m.zoomed(c.Value), nil
	}
	if act, known := blockActions[c.Name]; known {
		picked := c.Name == "pattern" && d.Picking()
		if d.Board = act(d, d.Board, c); picked {
			m = m.focusOn(`[data-send="draw.pick"]`) // the picture that was pressed is folded away
		}
	} else if next, done := photoControl(d.Board, c); done {
		d.Board = next
	}
	return m.relaid().drawChanged()
}

// blockActions do what is asked for with the block, its motif and its dots.
var blockActions = map[string]func(d *Drawing, b board.Board, c Control) board.Board{
	"tool":  func(_ *Drawing, b board.Board, c Control) board.Board { return b.SetTool(board.Tool(c.Value)) },
	"shape": func(_ *Drawing, b board.Board, c Control) board.Board { return b.SetShape(motif.ShapeKind(c.Value)) },
	"seams": func(_ *Drawing, b board.Board, c Control) board.Board { return b.SetSeams(motif.SeamKind(c.Value)) },
	"pattern": func(d *Drawing, b board.Board, c Control) board.Board {
		d.picking = asNeeded
		return b.SetPattern(c.Value)
	},
	"pick": func(d *Drawing, b board.Board, _ Control) board.Board {
		open := d.Picking()
		if d.picking = opened; open {
			d.picking = folded
		}
		return b
	},
	"param": func(_ *Drawing, b board.Board, c Control) board.Board {
		v, err := strconv.ParseFloat(c.Value, 64)
		if err != nil {
			return b
		}
		return b.SetParam(c.Item, v)
	},
	"loosen": func(_ *Drawing, b board.Board, _ Control) board.Board { return b.Loosen() },
	"mark-on": func(d *Drawing, b board.Board, c Control) board.Board {
		d.MarkOn = c.Value
		return b
	},
	"mark-count": func(d *Drawing, b board.Board, c Control) board.Board {
		n, err := strconv.Atoi(c.Value)
		if err != nil {
			return b
		}
		return b.SetMark(d.MarkOn, n, b.MarkOn(d.MarkOn).Spread)
	},
	"mark-spread": func(d *Drawing, b board.Board, c Control) board.Board {
		return b.SetMark(d.MarkOn, max(2, b.MarkOn(d.MarkOn).Count), sketch.Spread(c.Value))
	},
	"graduation": func(d *Drawing, b board.Board, c Control) board.Board {
		d.Graduation = sketch.Graduation(c.Value)
		return b
	},
	"edge": func(d *Drawing, b board.Board, c Control) board.Board {
		d.Edge = c.Value == "on"
		return b
	},
	"edge-side": func(d *Drawing, b board.Board, c Control) board.Board {
		d.EdgeSide = sketch.Left
		if c.Value == "right" {
			d.EdgeSide = sketch.Right
		}
		return b
	},
}
