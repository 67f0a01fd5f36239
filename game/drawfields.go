package game

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"unthreaded/game/board"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// lengthControl takes what was typed into a field for a length; a text that is no
// length, or out of range, changes nothing and says why.
func (m Model) lengthControl(c Control) (Model, bool) {
	d := &m.Drawing
	set, ok := lengthFields[c.Name]
	if !ok {
		return m, false
	}
	mm, err := words.ParseLength(c.Value, m.Settings.Units == Inches)
	if err == nil {
		err = set(&m, mm)
	}
	if err != nil {
		d.Wrong, d.WrongField = err.Error(), c.Name
	}
	return m, true
}

// lengthFields are the fields for lengths and what they set.
var lengthFields = map[string]func(m *Model, mm float64) error{
	"width": func(m *Model, mm float64) error {
		return m.within(mm, motif.MinShape, motif.MaxShape, func(b board.Board) (board.Board, error) { return b.SetSize(mm, b.Design.Shape.H) })
	},
	"height": func(m *Model, mm float64) error {
		return m.within(mm, motif.MinShape, motif.MaxShape, func(b board.Board) (board.Board, error) { return b.SetSize(b.Design.Shape.W, mm) })
	},
	"margin": func(m *Model, mm float64) error {
		w, h := m.Drawing.Board.Design.Shape.Box()
		return m.within(mm, 0, math.Min(w, h)/2-1, func(b board.Board) (board.Board, error) { return b.SetMargin(mm) })
	},
	"pitch": func(m *Model, mm float64) error {
		m.Drawing.Pitch = mm
		return nil
	},
	"foot": func(m *Model, mm float64) error {
		return m.within(mm, MinFoot, MaxFoot, func(b board.Board) (board.Board, error) {
			m.Settings.FootMM = mm
			return b, nil
		})
	},
	"photo-width": func(m *Model, mm float64) error {
		return m.photoSide(func(p *quilt.Photo) { p.WMM = mm }, mm)
	},
	"photo-height": func(m *Model, mm float64) error {
		return m.photoSide(func(p *quilt.Photo) { p.HMM = mm }, mm)
	},
}

// within changes the board if the length is in its range, and says the range in the
// person's units if not.
func (m *Model) within(mm, lo, hi float64, change func(board.Board) (board.Board, error)) error {
	if !(mm >= lo && mm <= hi) {
		inches := m.Settings.Units == Inches
		return fmt.Errorf("this takes %s to %s", words.Length(lo, inches), words.Length(hi, inches))
	}
	b, err := change(m.Drawing.Board)
	m.Drawing.Board = b
	return err
}

func (m *Model) photoSide(set func(*quilt.Photo), mm float64) error {
	return m.within(mm, quilt.MinPhotoSide, quilt.MaxPhotoSide, func(b board.Board) (board.Board, error) {
		return b.SetPhoto(set, "photo size"), nil
	})
}

// graduationIn returns the ruler's mark of the same fineness in a unit.
func graduationIn(u Units, g sketch.Graduation) sketch.Graduation {
	fine := g == sketch.SixteenthInch || g == sketch.HalfMillimetre
	switch {
	case u == Inches && fine:
		return sketch.SixteenthInch
	case u == Inches:
		return sketch.EighthInch
	case fine:
		return sketch.HalfMillimetre
	}
	return sketch.Millimetre
}

// photoControl does what is asked for with the photo under the drawing.
func photoControl(b board.Board, c Control) (board.Board, bool) {
	on := c.Value == "on"
	switch c.Name {
	case "photo-square":
		return b.SetPhoto(func(p *quilt.Photo) { p.Squared = true }, ""), true
	case "photo-corners":
		return b.SetPhoto(func(p *quilt.Photo) { p.Squared = false }, ""), true
	case "photo-shown":
		return b.SetPhoto(func(p *quilt.Photo) { p.Shown = on }, ""), true
	case "photo-strength":
		if v, err := strconv.ParseFloat(c.Value, 64); err == nil {
			return b.SetPhoto(func(p *quilt.Photo) { p.Strength = v / 100 }, "photo strength"), true
		}
	case "photo-drop":
		return b.DropPhoto(), true
	case "photo-nudge":
		// "2 left": corner 2, counted from the upper left, one pixel to the left.
		corner, way, _ := strings.Cut(c.Value, " ")
		i, err := strconv.Atoi(corner)
		if by, ok := nudges[way]; err == nil && ok {
			return b.NudgeCorner(i-1, by), true
		}
	}
	return b, false
}

var nudges = map[string]geom.Point{"left": {X: -4}, "right": {X: 4}, "up": {Y: -4}, "down": {Y: 4}}
