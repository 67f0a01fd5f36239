package game

import (
	"fmt"
	"strconv"
	"strings"

	"unthreaded/game/board"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
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
	"width": func(m *Model, mm float64) (err error) {
		b := &m.Drawing.Board
		*b, err = b.SetSize(mm, b.Design.Shape.H)
		return err
	},
	"height": func(m *Model, mm float64) (err error) {
		b := &m.Drawing.Board
		*b, err = b.SetSize(b.Design.Shape.W, mm)
		return err
	},
	"margin": func(m *Model, mm float64) (err error) {
		b := &m.Drawing.Board
		*b, err = b.SetMargin(mm)
		return err
	},
	"pitch": func(m *Model, mm float64) error {
		m.Drawing.Pitch = mm
		return nil
	},
	"foot": func(m *Model, mm float64) error {
		if !(mm >= MinFoot && mm <= MaxFoot) {
			return fmt.Errorf("the foot's edge lies %.0f to %.0f mm from the needle", MinFoot, MaxFoot)
		}
		m.Settings.FootMM = mm
		m.Drawing.Board.Rev++
		return nil
	},
	"photo-width": func(m *Model, mm float64) error {
		return m.photoSide(func(p *quilt.Photo) { p.WMM = mm }, mm)
	},
	"photo-height": func(m *Model, mm float64) error {
		return m.photoSide(func(p *quilt.Photo) { p.HMM = mm }, mm)
	},
}

func (m *Model) photoSide(set func(*quilt.Photo), mm float64) error {
	if !(mm >= quilt.MinPhotoSide && mm <= quilt.MaxPhotoSide) {
		return fmt.Errorf("a side takes %.0f to %.0f mm", quilt.MinPhotoSide, quilt.MaxPhotoSide)
	}
	m.Drawing.Board = m.Drawing.Board.SetPhoto(set, "photo size")
	return nil
}

// The range of the distance from the needle to the edge of a ruler in mm.
const MinFoot, MaxFoot = 1.0, 20.0

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
